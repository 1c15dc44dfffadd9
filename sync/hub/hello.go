package hub

import (
	"bytes"
	"slices"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// hello answers a Hello. When the digests are equal, all is said; else what the
// device lacks is worked out from its heads, or, if it holds nothing, at once.
func (s *session) hello(f *wire.Hello) error {
	if f.Dev != s.dev {
		return wire.WrongDevice
	}
	s.greeted = true
	s.inflate.Store(f.CanInflate)
	s.opened = f.Opened
	h := s.hub

	h.mu.Lock()
	for _, id := range f.Opened {
		s.explicit[id] = true
	}
	jobs := h.jobsOf(s)
	w := &wire.Welcome{
		Version:  min(f.Version, wire.Version),
		StudioMS: uint64(max(h.cfg.Now().UnixMilli(), 0)),
		Same:     f.Digest == h.digest(jobs),
		All:      f.Digest == journal.Digest(nil),
	}
	w.All = w.All && !w.Same
	w.Generation = h.sums.generation
	if w.Same {
		for _, id := range jobs {
			s.live[id] = true
		}
	}
	s.ready = true
	// Under the lock, so that nothing live goes before it.
	s.sendFrame(w)
	s.welcomeSummaries(f.Generation)
	h.greetRingers(s, w.Version)
	h.mu.Unlock()

	h.trouble.greet(s)
	if w.All {
		s.catchUpAll(nil)
	}
	return nil
}

// jobsOf returns what a session follows: the shelf, the open treatments and
// those that a person opened. Hub.mu is held.
func (h *Hub) jobsOf(s *session) []journal.ID {
	jobs := []journal.ID{journal.Shelf}
	for id, j := range h.jobs {
		if id != journal.Shelf && (j.open || s.explicit[id]) {
			jobs = append(jobs, id)
		}
	}
	return jobs
}

// digest is taken over what was published of treatments. Hub.mu is held.
func (h *Hub) digest(jobs []journal.ID) [32]byte {
	var heads []journal.ChainHead
	for _, id := range jobs {
		if j := h.jobs[id]; j != nil {
			for dev, head := range j.heads {
				heads = append(heads, journal.ChainHead{Chain: journal.Chain{Job: id, Dev: dev}, Head: head})
			}
		}
	}
	return journal.Digest(heads)
}

// maxHeld is how many treatments a device may speak of in one session.
const maxHeld = 1 << 16

// takeHeads works out what either side lacks.
func (s *session) takeHeads(f *wire.Heads) error {
	if s.heads = append(s.heads, f.Held...); len(s.heads) > maxHeld {
		return wire.OutOfTurn
	}
	if f.More {
		return nil
	}
	held := s.heads
	s.heads = nil
	known, err := s.compare(held)
	if err != nil {
		return s.storeFault("compare heads", err)
	}
	s.catchUpAll(known)
	return nil
}

// subscribe follows treatments that a person opened, or that were opened again.
func (s *session) subscribe(f *wire.Subscribe) error {
	s.hub.mu.Lock()
	if len(s.explicit)+len(f.Held) > maxHeld {
		s.hub.mu.Unlock()
		return wire.OutOfTurn
	}
	for _, held := range f.Held {
		s.explicit[held.Job] = true
		// What is new waits until the rest is there, or it would come first.
		delete(s.live, held.Job)
	}
	s.hub.mu.Unlock()
	known, err := s.compare(f.Held)
	if err != nil {
		return s.storeFault("compare heads", err)
	}
	s.catchUp(known)
	return nil
}

func (s *session) unsubscribe(f *wire.Unsubscribe) {
	s.hub.mu.Lock()
	defer s.hub.mu.Unlock()
	for _, id := range f.Jobs {
		delete(s.explicit, id)
		if !s.hub.followed(id) {
			delete(s.live, id)
		}
	}
}

// compare asks for what the hub lacks, and returns from where on each chain is
// to be sent.
func (s *session) compare(held []wire.Held) ([]progress, error) {
	var want []journal.ChainHead
	known := make([]progress, 0, len(held))
	for _, h := range held {
		p := progress{job: h.Job, sent: map[journal.ID]uint64{}}
		for _, d := range h.Heads {
			c := journal.Chain{Job: h.Job, Dev: d.Dev}
			p.sent[d.Dev] = max(d.N, s.acked[c])
			ours, lacks, err := s.hub.lacks(c, d.Head)
			if err != nil {
				return nil, err
			}
			if asked, ok := s.wanted[c]; lacks && (!ok || asked != ours) {
				s.wanted[c] = ours
				want = append(want, journal.ChainHead{Chain: c, Head: ours})
			}
		}
		known = append(known, p)
	}
	if len(want) > 0 {
		s.sendFrame(&wire.Want{Heads: want})
	}
	return known, nil
}

// lacks tells whether a device's head lies beyond what the store has of the
// chain, or in another branch.
func (h *Hub) lacks(c journal.Chain, theirs journal.Head) (ours journal.Head, lacks bool, err error) {
	// From the store, not from what was published: a commit may be in between.
	if ours, err = h.cfg.Store.Head(c); err != nil {
		return ours, false, err
	}
	if theirs.N >= ours.N {
		return ours, theirs != ours, nil
	}
	name, err := h.cfg.Store.NameAt(c, theirs.N)
	return ours, name != theirs.Name, err
}

// storeFault reports a fault of reading; the session ends, since what it was
// asked for cannot be given.
func (s *session) storeFault(what string, err error) error {
	s.hub.report(s.dev, what, err)
	return wire.StoreFails
}

func sortedIDs(m map[journal.ID]bool) []journal.ID {
	ids := make([]journal.ID, 0, len(m))
	for id := range m {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(a, b journal.ID) int { return bytes.Compare(a[:], b[:]) })
	return ids
}
