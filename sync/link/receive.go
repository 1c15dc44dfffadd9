package link

import (
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Receive takes a plain frame from the studio machine. After an error the
// connection is to be closed.
func (l *Link) Receive(frame []byte, nowMS int64) error {
	f, err := wire.Parse(frame)
	if err != nil {
		return err
	}
	if l.phase == Off {
		return ErrOutOfTurn
	}
	if w, ok := f.(*wire.Welcome); ok != (l.phase == Greeting) {
		return ErrOutOfTurn
	} else if ok {
		return l.welcome(w, nowMS)
	}
	switch f := f.(type) {
	case *wire.Entries:
		return l.entries(f)
	case *wire.Ack:
		return l.ack(f)
	case *wire.Want:
		l.want(f)
	case *wire.CaughtUp:
		l.caughtUp(f)
	case *wire.Summaries:
		l.takeSummaries(f)
	case *wire.Notice:
		l.notice(f)
	case *wire.BlobOffer, *wire.BlobWant, *wire.BlobChunk, *wire.BlobHave, *wire.BlobLack:
		return l.blobFrame(f)
	case *wire.Ringers:
		l.eff.Ringers = &f.Count
	case *wire.Skipped:
	default:
		return ErrOutOfTurn
	}
	return nil
}

// maxWithin is how exact an offset must be to be given: design asks for changes
// of two seconds to be noticed.
const maxWithin = 1000

func (l *Link) welcome(w *wire.Welcome, nowMS int64) error {
	if w.Version < 1 || w.Version > wire.Version {
		return ErrVersion
	}
	l.rings = w.Version >= wire.VersionRings
	if within := (nowMS - l.helloMS) / 2; within >= 0 && within <= maxWithin {
		l.eff.Offset = &Offset{MS: int64(w.StudioMS) - (l.helloMS + within), Within: within}
	}
	l.phase = Catching
	if w.Same {
		l.phase = Live
		l.eff.AllCaughtUp = true
	}
	if !w.All {
		held := l.followed()
		for _, h := range held {
			l.following[h.Job] = len(h.Heads) > 0
		}
		if !w.Same {
			l.sendHeads(held)
		}
	}
	if l.armed {
		l.tellArmed()
	}
	l.pumpBlobs()
	return nil
}

// sendHeads sends all that is held, in as many frames as it takes.
func (l *Link) sendHeads(held []wire.Held) {
	parts := parts(held)
	for i, p := range parts {
		l.send(&wire.Heads{More: i < len(parts)-1, Held: p})
	}
}

// parts divides what is held so that each part fits into a frame. A treatment
// with no head stays: a Subscribe asks for all of it. There is one part at least.
func parts(held []wire.Held) [][]wire.Held {
	const perHead, perJob = 58, 20
	var out [][]wire.Held
	start, size := 0, 0
	for i, h := range held {
		cost := perJob + perHead*len(h.Heads)
		if size > 0 && size+cost > wire.MaxBatch {
			out = append(out, held[start:i])
			start, size = i, 0
		}
		size += cost
	}
	return append(out, held[start:])
}

// entries takes runs of others' entries, and of own ones that are not here.
func (l *Link) entries(f *wire.Entries) error {
	for i := range f.Runs {
		u := &f.Runs[i]
		l.following[u.Chain.Job] = true
		for j := range u.Entries {
			if err := l.take(&u.Entries[j]); err != nil {
				return err
			}
		}
		if u.Signed {
			l.receipt(wire.Receipt{ChainHead: u.Head(), Sig: u.Sig})
		}
	}
	l.pump() // a copy of this device may have sent what ours waits with
	return nil
}

// take judges one entry against what is held and stores it when it is new.
func (l *Link) take(e *journal.Entry) error {
	c := e.Chain()
	k := l.chain(c)
	if e.Dev == l.cfg.Dev {
		if mine, ok := l.ownChain(e.Job).at(e.N); ok && mine.Name != e.Name {
			l.forked(e.Job, e.N)
		}
		if l.ownChain(e.Job).forkAt > 0 {
			return nil // the successor fetches the other branch
		}
	}
	switch {
	case k.parted:
		return nil
	case e.N > k.held.N+1:
		return ErrGap
	case e.N == k.held.N && e.Name != k.held.Name, e.N == k.held.N+1 && e.Prev != k.held.Name:
		return ErrDiffers
	case e.N <= k.held.N:
		return nil
	}
	k.held = journal.Head{N: e.N, Name: e.Name}
	l.eff.Store = append(l.eff.Store, *e)
	if e.Dev == l.cfg.Dev {
		l.ownChain(e.Job).adopt(k)
	}
	return nil
}

// receipt keeps the furthest receipt of a chain; one of our own chain is an
// acknowledgement.
func (l *Link) receipt(r wire.Receipt) {
	if r.Dev == l.cfg.Dev && !l.acknowledge(r.ChainHead) {
		return
	}
	k := l.chain(r.Chain)
	if k.receipt != nil && (k.receipt.N > r.N || k.parted && k.receipt.Head != r.Head) {
		return
	}
	k.receipt, k.parted = &r, false
	l.eff.Receipts = append(l.eff.Receipts, r)
}

func (l *Link) caughtUp(f *wire.CaughtUp) {
	if len(f.Jobs) == 0 {
		l.phase = Live
		l.eff.AllCaughtUp = true
	}
	l.eff.CaughtUp = append(l.eff.CaughtUp, f.Jobs...)
	l.audited(f.Jobs)
}

func (l *Link) takeSummaries(f *wire.Summaries) {
	if f.Reset {
		l.eff.ForgetSummaries, l.eff.Summaries = true, nil
		clear(l.known)
		l.beginAudit()
	}
	var reopened map[journal.ID]bool
	for _, s := range f.Items {
		// Before all is caught up, the studio machine sends it by itself.
		if s.Open && !l.known[s.Job] && l.phase == Live && !l.following[s.Job] {
			if reopened == nil {
				reopened = map[journal.ID]bool{}
			}
			reopened[s.Job] = true
		}
		l.known[s.Job] = s.Open
		if s.Removed {
			l.forget(s.Job)
		}
	}
	l.eff.Summaries = append(l.eff.Summaries, f.Items...)
	l.reached(f.Generation)
	if len(reopened) > 0 {
		l.subscribe(reopened)
	}
}

// forget lets go of a sample that was removed; own chains stay.
func (l *Link) forget(job journal.ID) {
	for c := range l.chains {
		if c.Job == job && c.Dev != l.cfg.Dev {
			delete(l.chains, c)
		}
	}
	delete(l.following, job)
}

func (l *Link) notice(f *wire.Notice) {
	switch f.Code {
	case wire.NoticeDiskFull, wire.NoticeStoreFails:
		l.full = true
	case wire.NoticeRoom:
		l.full = false
		for _, o := range l.own {
			o.stalled = false
		}
		l.blobs.offerAgain()
		l.pump()
		l.pumpBlobs()
	}
	l.eff.Notices = append(l.eff.Notices, f.Code)
}
