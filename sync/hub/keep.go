package hub

import (
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// maxReturning is how many bytes of another device's chain a session may hold
// until the receipt comes that covers them, and maxReturningAll how many of all
// chains together: a device gives back one after the other.
const (
	maxReturning    = 8 << 20
	maxReturningAll = 2 * maxReturning
)

// returning is another device's chain on its way back.
type returning struct {
	entries []journal.Entry
	bytes   int
}

// outcome is what became of the pushes that were kept together.
type outcome struct {
	receipts map[journal.Chain]wire.Receipt
	refusals map[journal.Chain]wire.Refusal
	want     []journal.ChainHead
	failed   error // of the store; failing says at what
	failing  string
	end      error // ends the session
}

func (o *outcome) fail(what string, err error) { o.failing, o.failed = what, err }

// keep stores what pushes brought and answers each of them.
func (s *session) keep(pushes []*wire.Push) {
	o := &outcome{receipts: map[journal.Chain]wire.Receipt{}, refusals: map[journal.Chain]wire.Refusal{}}
	own, others := s.sort(pushes, o)
	s.store(s.dev, own, o)
	for _, es := range others {
		s.store(es[0].Dev, es, o)
	}
	if len(o.want) > 0 {
		s.sendFrame(&wire.Want{Heads: o.want})
	}
	s.answer(pushes, o)
	if o.failed != nil {
		// After the answer: the notice that there is room again comes behind both,
		// and then the device pushes again.
		s.hub.storeFailed(s, o.failing, o.failed)
	}
	if o.end != nil {
		s.end(o.end)
	}
}

// sort parts own entries from those of others, which need a receipt.
func (s *session) sort(pushes []*wire.Push, o *outcome) (own []journal.Entry, others [][]journal.Entry) {
	for _, p := range pushes {
		for i := range p.Runs {
			u := &p.Runs[i]
			if u.Chain.Dev == s.dev {
				own = append(own, u.Entries...)
			} else if es := s.giveBack(u, o); es != nil {
				others = append(others, es)
			}
		}
	}
	return own, others
}

// giveBack collects a chain of another device until a receipt covers it.
func (s *session) giveBack(u *wire.Run, o *outcome) []journal.Entry {
	c := u.Chain
	refuse := func(code wire.Code) []journal.Entry {
		o.refusals[c] = wire.Refusal{Code: code, Chain: c, Head: journal.Head{N: u.Entries[0].N}}
		delete(s.back, c)
		return nil
	}
	b := s.back[c]
	if b == nil {
		b = &returning{}
		s.back[c] = b
	}
	if k := len(b.entries); k > 0 && !follows(&b.entries[k-1], &u.Entries[0]) {
		b.entries, b.bytes = nil, 0
	}
	b.entries = append(b.entries, u.Entries...)
	for i := range u.Entries {
		b.bytes += len(u.Entries[i].Line)
	}
	_, asked := s.wanted[c]
	switch {
	case !u.Signed && !asked:
		o.end = wire.ForeignChain
		return refuse(wire.CodeForeign)
	case !u.Signed && (b.bytes > maxReturning || s.returningBytes() > maxReturningAll):
		return refuse(wire.CodeTooMuch)
	case !u.Signed:
		return nil
	case !s.hub.signed(wire.Receipt{ChainHead: u.Head(), Sig: u.Sig}):
		if !asked {
			o.end = wire.BadReceipt
		}
		return refuse(wire.CodeReceipt)
	}
	delete(s.back, c)
	return b.entries
}

func (s *session) returningBytes() (sum int) {
	for _, b := range s.back {
		sum += b.bytes
	}
	return sum
}

func follows(before, e *journal.Entry) bool { return e.N == before.N+1 && e.Prev == before.Name }

// store appends entries of one device, publishes what was new and works out
// what to answer.
func (s *session) store(dev journal.ID, es []journal.Entry, o *outcome) {
	if len(es) == 0 || o.failed != nil {
		return
	}
	h := s.hub
	unlock := h.devices.lock(dev)
	defer unlock()
	verdicts, err := h.cfg.Store.Append(es)
	if err != nil {
		o.fail("append", err)
		return
	}
	fresh := make([]journal.Entry, 0, len(es))
	heads := map[journal.Chain]journal.Head{}
	stopped := map[journal.Chain]bool{}
	var aside []journal.Entry
	for i := range es {
		e, c := &es[i], es[i].Chain()
		switch verdicts[i] {
		case journal.Stored, journal.Known:
			if verdicts[i] == journal.Stored {
				fresh = append(fresh, *e)
			}
			if heads[c].N < e.N {
				heads[c] = journal.Head{N: e.N, Name: e.Name}
			}
			continue
		}
		if !stopped[c] {
			stopped[c] = true
			if err := s.refuse(e, o); err != nil {
				o.fail("read head", err)
				return
			}
		}
		if n, forked := s.forked[c]; forked && e.N >= n {
			aside = append(aside, *e)
		}
	}
	if len(fresh) > 0 {
		h.commit(commit{entries: fresh, from: s})
		h.trouble.over(h)
	}
	for c, head := range heads {
		o.receipts[c] = h.sign(journal.ChainHead{Chain: c, Head: head})
		s.acked[c] = max(s.acked[c], head.N)
		delete(s.wanted, c)
	}
	s.keepAside(aside, o)
}

// refuse says what is wrong with the first entry of a chain that did not fit: a
// fork, where its place is taken, or else a gap, and the device is asked for
// what is between.
func (s *session) refuse(e *journal.Entry, o *outcome) error {
	c := e.Chain()
	head, err := s.hub.cfg.Store.Head(c)
	if err != nil {
		return err
	}
	if e.N > head.N && s.forked[c] == 0 {
		// Each time: the device waits with a chain that was not kept until it is
		// told more.
		s.wanted[c] = head
		o.want = append(o.want, journal.ChainHead{Chain: c, Head: head})
		return nil
	}
	name, err := s.hub.cfg.Store.NameAt(c, e.N)
	if err != nil {
		return err
	}
	if n := s.forked[c]; n == 0 || e.N < n {
		s.forked[c] = e.N
	}
	o.refusals[c] = wire.Refusal{Code: wire.CodeFork, Chain: c, Head: journal.Head{N: e.N, Name: name}}
	return nil
}

// keepAside keeps a refused branch. What could not be kept is not refused
// either, so that the device gives it again.
func (s *session) keepAside(es []journal.Entry, o *outcome) {
	if len(es) == 0 {
		return
	}
	if err := s.hub.cfg.Store.KeepAside(es); err != nil {
		for i := range es {
			delete(o.refusals, es[i].Chain())
		}
		o.fail("keep aside", err)
		return
	}
	s.hub.report(s.dev, "fork: a refused branch was kept aside", nil)
}

// answer sends one Ack for each push: of what was kept and refused, its part.
func (s *session) answer(pushes []*wire.Push, o *outcome) {
	for _, p := range pushes {
		ack := &wire.Ack{Batch: p.Batch}
		seen := map[journal.Chain]bool{}
		for i := range p.Runs {
			c := p.Runs[i].Chain
			if seen[c] {
				continue
			}
			seen[c] = true
			if r, ok := o.receipts[c]; ok {
				ack.Receipts = append(ack.Receipts, r)
			}
			if r, ok := o.refusals[c]; ok {
				ack.Refusals = append(ack.Refusals, r)
			}
		}
		s.sendFrame(ack)
	}
}
