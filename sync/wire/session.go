package wire

import (
	"bytes"

	"sinkside/sync/journal"
)

// Generation names a state of the summaries. N grows with every change; Epoch
// is another number after each start of the studio machine. One that it never
// gave says to it that its store is not the one that the device knows: another,
// or one restored from a backup.
type Generation struct{ Epoch, N uint64 }

// Hello is the first frame of a session. A device may send Push frames right
// behind it.
type Hello struct {
	Version    uint64
	Dev        journal.ID
	CanInflate bool
	// Digest is taken over the acknowledged heads of all chains in the shelf, in
	// the treatments that the summaries call open, in Opened, and in those of
	// which the device has entries but no summary.
	Digest     [32]byte
	Generation Generation
	Opened     []journal.ID // closed treatments that a person opened, sorted
	Later      []byte       // fields of a later version
}

const helloCanInflate = 1

// Type returns TypeHello.
func (f *Hello) Type() Type { return TypeHello }

func (f *Hello) append(b []byte) []byte {
	b = appendUint(b, f.Version)
	b = append(b, f.Dev[:]...)
	b = appendFlags(b, f.CanInflate)
	b = append(b, f.Digest[:]...)
	b = appendGeneration(b, f.Generation)
	b = appendIDs(b, f.Opened)
	return append(b, f.Later...)
}

func (f *Hello) read(r *reader) {
	f.Version = r.version()
	f.Dev = r.id()
	f.CanInflate = r.flags(helloCanInflate) != 0
	f.Digest = r.name()
	f.Generation = r.generation()
	f.Opened = r.ids(0, MaxOpened)
	if f.Version > Version {
		f.Later = r.bytes(len(r.b) - r.at)
	}
}

// Welcome answers Hello. Version is the one to speak: at most the Hello's.
type Welcome struct {
	Version  uint64
	StudioMS uint64 // the studio machine's clock, Unix milliseconds
	// Same: the digests are equal; nothing is missing on either side.
	Same bool
	// All: the studio machine sends everything, since the device holds nothing;
	// no Heads are expected.
	All        bool
	Generation Generation // of the summaries now
}

const (
	welcomeSame = 1
	welcomeAll  = 2
)

// Type returns TypeWelcome.
func (f *Welcome) Type() Type { return TypeWelcome }

func (f *Welcome) append(b []byte) []byte {
	b = appendUint(b, f.Version)
	b = appendUint(b, f.StudioMS)
	b = appendFlags(b, f.Same, f.All)
	return appendGeneration(b, f.Generation)
}

func (f *Welcome) read(r *reader) {
	f.Version = r.version()
	f.StudioMS = r.uint()
	flags := r.flags(welcomeSame | welcomeAll)
	f.Same, f.All = flags&welcomeSame != 0, flags&welcomeAll != 0
	if f.Same && f.All {
		r.fail(ErrValue, "both same and all")
	}
	f.Generation = r.generation()
}

// Held is what a device holds of one treatment.
type Held struct {
	Job   journal.ID
	Heads []DevHead // sorted by device; empty chains are not in it
}

// DevHead is the head of one device's chain.
type DevHead struct {
	Dev journal.ID
	journal.Head
}

// Heads answers a Welcome that said neither same nor all: all that went into
// the digest. What does not fit into one frame goes on in the next.
type Heads struct {
	More bool
	Held []Held // sorted by treatment
}

const headsMore = 1

// Type returns TypeHeads.
func (f *Heads) Type() Type { return TypeHeads }

func (f *Heads) append(b []byte) []byte { return appendHeld(appendFlags(b, f.More), f.Held) }

func (f *Heads) read(r *reader) {
	f.More = r.flags(headsMore) != 0
	f.Held = r.held(0)
}

// Subscribe asks for treatments: for what the device does not hold of them, and
// from then on for what is new.
type Subscribe struct{ Held []Held }

// Type returns TypeSubscribe.
func (f *Subscribe) Type() Type             { return TypeSubscribe }
func (f *Subscribe) append(b []byte) []byte { return appendHeld(b, f.Held) }
func (f *Subscribe) read(r *reader)         { f.Held = r.held(1) }

// Unsubscribe ends Subscribe.
type Unsubscribe struct{ Jobs []journal.ID }

// Type returns TypeUnsubscribe.
func (f *Unsubscribe) Type() Type             { return TypeUnsubscribe }
func (f *Unsubscribe) append(b []byte) []byte { return appendIDs(b, f.Jobs) }
func (f *Unsubscribe) read(r *reader)         { f.Jobs = r.ids(1, maxItems) }

// CaughtUp says that what was missing of these treatments has been sent, and
// that what is new follows as it comes. None are named at the end of what a
// Hello began: then it holds for all that the device follows.
type CaughtUp struct{ Jobs []journal.ID }

// Type returns TypeCaughtUp.
func (f *CaughtUp) Type() Type             { return TypeCaughtUp }
func (f *CaughtUp) append(b []byte) []byte { return appendIDs(b, f.Jobs) }
func (f *CaughtUp) read(r *reader)         { f.Jobs = r.ids(0, maxItems) }

// Notice tells the device something that a person should know. A device passes
// over a code that it does not know.
type Notice struct{ Code string }

// The codes of notices.
const (
	// NoticeDiskFull: entries can be neither kept nor acknowledged for now.
	NoticeDiskFull = "disk-full"
	// NoticeStoreFails: the same for another reason, which the studio machine's
	// log gives.
	NoticeStoreFails = "store-fails"
	// NoticeRoom: the store takes entries again; push what was not acknowledged.
	NoticeRoom = "room"
)

const maxCode = 32

// Type returns TypeNotice.
func (f *Notice) Type() Type { return TypeNotice }

func (f *Notice) append(b []byte) []byte {
	return append(appendUint(b, uint64(len(f.Code))), f.Code...)
}

func (f *Notice) read(r *reader) { f.Code = string(r.text(1, maxCode)) }

func (r *reader) version() uint64 {
	v := r.uint()
	if v == 0 {
		r.fail(ErrValue, "version 0")
	}
	return v
}

func (r *reader) generation() Generation {
	var g Generation
	for _, c := range r.bytes(8) {
		g.Epoch = g.Epoch<<8 | uint64(c)
	}
	g.N = r.uint()
	return g
}

func appendGeneration(b []byte, g Generation) []byte {
	for shift := 56; shift >= 0; shift -= 8 {
		b = append(b, byte(g.Epoch>>shift))
	}
	return appendUint(b, g.N)
}

// appendFlags writes flags, the first one in bit 0.
func appendFlags(b []byte, flags ...bool) []byte {
	var v uint64
	for i, set := range flags {
		if set {
			v |= 1 << i
		}
	}
	return appendUint(b, v)
}

func (r *reader) ids(atLeast, atMost int) []journal.ID {
	n := r.count(atLeast, atMost, len(journal.ID{}))
	if n == 0 {
		return nil
	}
	out := make([]journal.ID, n)
	for i := range out {
		out[i] = r.id()
		if i > 0 && bytes.Compare(out[i-1][:], out[i][:]) >= 0 {
			r.fail(ErrOrder, "ids not sorted")
		}
	}
	return out
}

func appendIDs(b []byte, ids []journal.ID) []byte {
	b = appendUint(b, uint64(len(ids)))
	for i := range ids {
		b = append(b, ids[i][:]...)
	}
	return b
}

func (r *reader) held(atLeast int) []Held {
	n := r.count(atLeast, maxItems, 17)
	var out []Held
	for range n {
		h := Held{Job: r.id()}
		for range r.count(0, maxItems, 49) {
			d := DevHead{Dev: r.id(), Head: r.head()}
			if k := len(h.Heads); k > 0 && bytes.Compare(h.Heads[k-1].Dev[:], d.Dev[:]) >= 0 {
				r.fail(ErrOrder, "devices not sorted")
			}
			h.Heads = append(h.Heads, d)
		}
		if k := len(out); k > 0 && bytes.Compare(out[k-1].Job[:], h.Job[:]) >= 0 {
			r.fail(ErrOrder, "treatments not sorted")
		}
		if r.err != nil {
			return nil
		}
		out = append(out, h)
	}
	return out
}

func appendHeld(b []byte, held []Held) []byte {
	b = appendUint(b, uint64(len(held)))
	for i := range held {
		b = append(b, held[i].Job[:]...)
		b = appendUint(b, uint64(len(held[i].Heads)))
		for _, d := range held[i].Heads {
			b = appendHead(append(b, d.Dev[:]...), d.Head)
		}
	}
	return b
}
