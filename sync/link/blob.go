package link

import (
	"slices"

	"sinkside/sync/wire"
)

// readAhead is how many chunks the host may be asked for before it has given
// one: enough to keep the line busy, little enough that a note written
// meanwhile is not long behind.
const readAhead = 4

// blobs is what goes up and down besides entries.
type blobs struct {
	up      map[[32]byte]*upload
	order   [][32]byte // of up, as offered by the host
	down    map[[32]byte]*download
	reading int // chunks the host was asked for
}

type upload struct {
	size    uint64
	offered bool // in this session
	next    uint64
	sending bool
}

type download struct {
	size, next uint64
	asked      bool // in this session
}

func (b *blobs) restart() {
	b.reading = 0
	b.offerAgain()
	for _, d := range b.down {
		d.asked = false
	}
}

// offerAgain has every upload offered anew: the answer says from where it goes
// on.
func (b *blobs) offerAgain() {
	for _, u := range b.up {
		u.offered, u.sending = false, false
	}
}

func chunks(size uint64) uint64 { return (size + wire.ChunkSize - 1) / wire.ChunkSize }

// Offer says that the host has a blob that entries mention. It goes up behind
// them, and again in each session until Effects.Blobs.Done names it.
func (l *Link) Offer(sum [32]byte, size uint64) {
	if _, ok := l.blobs.up[sum]; ok || size < 1 || size > wire.MaxBlob {
		return
	}
	if l.blobs.up == nil {
		l.blobs.up = map[[32]byte]*upload{}
	}
	l.blobs.up[sum] = &upload{size: size}
	l.blobs.order = append(l.blobs.order, sum)
	l.pumpBlobs()
}

// WantBlob asks the studio machine for a blob from a chunk on: the first that
// the host does not hold.
func (l *Link) WantBlob(sum [32]byte, from uint64) {
	if l.blobs.down == nil {
		l.blobs.down = map[[32]byte]*download{}
	}
	if l.blobs.down[sum] == nil {
		l.blobs.down[sum] = &download{next: from}
	}
	l.pumpBlobs()
}

// Chunk answers Effects.Blobs.Read. No data says that the host has lost the
// blob; it is offered no more.
func (l *Link) Chunk(sum [32]byte, index uint64, data []byte) {
	u := l.blobs.up[sum]
	if l.phase == Off || l.blobs.reading == 0 {
		return // asked in a session that is over
	}
	l.blobs.reading--
	switch {
	case u == nil:
	case len(data) == 0:
		l.forgetUpload(sum)
	case u.sending:
		l.send(&wire.BlobChunk{Sum: sum, Index: index, Data: data})
	}
	l.pumpBlobs()
}

// pumpBlobs offers, asks, and has the host read what is wanted: behind the
// entries, which mention the blobs.
func (l *Link) pumpBlobs() {
	if l.phase < Catching || l.frozen {
		return
	}
	for sum, d := range l.blobs.down {
		if !d.asked {
			d.asked = true
			l.send(&wire.BlobWant{Sum: sum, From: d.next})
		}
	}
	if l.full || !l.allPushed() {
		return
	}
	for _, sum := range l.blobs.order {
		u := l.blobs.up[sum]
		if !u.offered {
			u.offered = true
			l.send(&wire.BlobOffer{Sum: sum, Size: u.size})
		}
		for u.sending && u.next < chunks(u.size) && l.blobs.reading < readAhead {
			l.eff.Blobs.Read = append(l.eff.Blobs.Read, ChunkRef{sum, u.next})
			u.next++
			l.blobs.reading++
		}
	}
}

func (l *Link) allPushed() bool {
	for _, o := range l.own {
		if o.sent+1 < o.next() && !o.stalled {
			return false
		}
	}
	return true
}

func (l *Link) blobFrame(f wire.Frame) error {
	switch f := f.(type) {
	case *wire.BlobWant:
		if u := l.blobs.up[f.Sum]; u != nil {
			u.next, u.sending = f.From, true
		}
	case *wire.BlobHave:
		if l.blobs.up[f.Sum] != nil {
			l.forgetUpload(f.Sum)
			l.eff.Blobs.Done = append(l.eff.Blobs.Done, f.Sum)
		}
	case *wire.BlobLack:
		if l.blobs.down[f.Sum] != nil {
			delete(l.blobs.down, f.Sum)
			l.eff.Blobs.Lacks = append(l.eff.Blobs.Lacks, f.Sum)
		}
	case *wire.BlobOffer:
		if d := l.blobs.down[f.Sum]; d != nil {
			d.size = f.Size
		}
	case *wire.BlobChunk:
		return l.chunk(f)
	}
	l.pumpBlobs()
	return nil
}

func (l *Link) forgetUpload(sum [32]byte) {
	delete(l.blobs.up, sum)
	l.blobs.order = slices.DeleteFunc(l.blobs.order, func(s [32]byte) bool { return s == sum })
}

func (l *Link) chunk(f *wire.BlobChunk) error {
	d := l.blobs.down[f.Sum]
	if d == nil || d.size == 0 || f.Index != d.next {
		return ErrOutOfTurn
	}
	l.eff.Blobs.Got = append(l.eff.Blobs.Got, Chunk{ChunkRef{f.Sum, f.Index}, d.size, f.Data})
	if d.next++; d.next >= chunks(d.size) {
		delete(l.blobs.down, f.Sum)
	}
	return nil
}
