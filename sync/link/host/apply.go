package host

import (
	"slices"
	"sync"

	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/wire"
	"sinkside/sync/wire/deflate"
)

// apply carries out the link's effects until there are none. d.mu is held.
func (d *Device) apply() {
	for {
		e := d.link.Take()
		again := len(e.Fetch) > 0 || len(e.Blobs.Read) > 0
		d.keep(&e)
		if d.conn != nil {
			d.conn.send(e.Frames)
		}
		for _, r := range e.Fetch {
			d.link.Fetched(r.Chain, d.fetch(r))
		}
		d.blobs(&e.Blobs)
		if e.Fork != nil {
			d.succeed(e.Fork)
			return
		}
		if !again {
			return
		}
	}
}

func (d *Device) keep(e *link.Effects) {
	m := d.mem
	for _, c := range e.Drop {
		m.Aside = append(m.Aside, m.Chains[c]...)
		delete(m.Chains, c)
		delete(m.Receipts, c)
	}
	now := d.opts.Now().UnixMilli()
	for _, entry := range e.Store {
		c := entry.Chain()
		if h := m.head(c); entry.N != h.N+1 || entry.Prev != h.Name {
			panic("link gave an entry to store that does not follow: " + string(entry.Line))
		}
		m.Chains[c] = append(m.Chains[c], entry)
		m.Clock.Receive(entry.T, now)
	}
	if len(e.Store) > 0 && d.opts.Stored != nil {
		d.opts.Stored(e.Store)
	}
	for _, r := range e.Receipts {
		m.Receipts[r.Chain] = r
	}
	if e.ForgetSummaries {
		clear(m.Summaries)
	}
	for _, s := range e.Summaries {
		m.Summaries[s.Job] = s
		if s.Removed {
			d.removed(s.Job)
		}
	}
	if e.Generation != nil {
		m.Generation = *e.Generation
	}
	for _, id := range e.CaughtUp {
		d.seen[id] = true
	}
	d.all = d.all || e.AllCaughtUp
	d.notes = append(d.notes, e.Notices...)
	if e.Ringers != nil {
		d.rings = *e.Ringers
	}
}

// removed forgets a sample: all chains of it but our own.
func (d *Device) removed(job journal.ID) {
	for c := range d.mem.Chains {
		if c.Job == job && c.Dev != d.mem.Dev {
			delete(d.mem.Chains, c)
			delete(d.mem.Receipts, c)
		}
	}
}

func (d *Device) fetch(r link.Range) []journal.Entry {
	es := d.mem.Chains[r.Chain]
	if r.From > uint64(len(es)) {
		return nil
	}
	return slices.Clone(es[r.From-1 : min(r.To, uint64(len(es)))])
}

func (d *Device) blobs(b *link.BlobEffects) {
	for _, r := range b.Read {
		data := d.mem.Blobs[r.Sum]
		from := min(r.Index*wire.ChunkSize, uint64(len(data)))
		d.link.Chunk(r.Sum, r.Index, data[from:min(from+wire.ChunkSize, uint64(len(data)))])
	}
	d.done = append(d.done, b.Done...)
	for _, c := range b.Got {
		d.down[c.Sum] = append(d.down[c.Sum], c.Data...)
		if uint64(len(d.down[c.Sum])) == c.Size {
			d.mem.Blobs[c.Sum] = d.down[c.Sum]
			delete(d.down, c.Sum)
		}
	}
}

// succeed goes on under another id: entries that were not synced are written
// again under it, those that were refused are kept aside.
func (d *Device) succeed(f *link.Fork) {
	if d.opts.Successor == nil {
		return
	}
	m := d.mem
	old := m.Dev
	from := map[journal.Chain]uint64{}
	for _, c := range f.Chains {
		from[c.Chain] = c.From
	}
	var lost []journal.Entry
	for c, es := range m.Chains {
		if c.Dev != old {
			continue
		}
		first := m.Receipts[c].N + 1
		if n, refused := from[c]; refused {
			first = n
		}
		cut := min(first-1, uint64(len(es)))
		lost = append(lost, es[cut:]...)
		m.Aside = append(m.Aside, es[cut:]...)
		m.Chains[c] = es[:cut:cut]
		if m.Receipts[c].N > cut {
			delete(m.Receipts, c)
		}
	}
	slices.SortStableFunc(lost, func(a, b journal.Entry) int { return a.Chain().Compare(b.Chain()) })
	m.Dev = d.opts.Successor(old)
	again, err := link.Reissue(lost, m.Dev, map[journal.ID]journal.Head{})
	if err != nil {
		panic(err)
	}
	for _, e := range again {
		m.Chains[e.Chain()] = append(m.Chains[e.Chain()], e)
	}
	d.restart()
	d.err = ErrSuccessor
	if d.conn != nil {
		d.conn.close()
	}
}

func inflate(dst, src []byte, limit int) ([]byte, error) { return deflate.Inflate(dst, src, limit) }

// sending writes frames in order, off the device's lock.
type sending struct {
	conn  Conn
	plain bool

	mu     sync.Mutex
	cond   *sync.Cond
	frames []link.Frame
	closed bool
}

func newSending(conn Conn, plain bool) *sending {
	s := &sending{conn: conn, plain: plain}
	s.cond = sync.NewCond(&s.mu)
	return s
}

func (s *sending) send(fs []link.Frame) {
	s.mu.Lock()
	s.frames = append(s.frames, fs...)
	s.mu.Unlock()
	s.cond.Signal()
}

func (s *sending) close() {
	s.mu.Lock()
	s.closed = true
	s.mu.Unlock()
	s.cond.Signal()
}

func (s *sending) run() {
	defer func() { _ = s.conn.Close(wire.CodeGoingAway, "done") }()
	for {
		s.mu.Lock()
		for len(s.frames) == 0 && !s.closed {
			s.cond.Wait()
		}
		frames := s.frames
		s.frames = nil
		closed := s.closed
		s.mu.Unlock()
		if closed {
			return
		}
		for _, f := range frames {
			msg := f.Bytes
			if f.Deflate && !s.plain {
				msg = wire.Pack(msg, deflate.Append)
			}
			if s.conn.Write(msg) != nil {
				return
			}
		}
	}
}
