package link

import (
	"bytes"
	"slices"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// ownChain is this device's chain in one treatment, as the studio machine has
// it and as it is still to get it.
type ownChain struct {
	acked  journal.Head    // last acknowledged
	unsent []journal.Entry // what follows, in order
	forkAt uint64          // first refused place; 0: none
	lost   bool            // forked because what lies before is lost: it is not even refused

	// One session.
	sent     uint64 // last place pushed
	since    uint64 // answers to earlier pushes say nothing of where it stands now
	stalled  bool   // an answer kept nothing; something else must come first
	fetching bool   // the host is asked for entries that the studio machine lost
}

func (l *Link) ownChain(job journal.ID) *ownChain {
	o := l.own[job]
	if o == nil {
		o = &ownChain{}
		l.own[job] = o
	}
	return o
}

// restart begins a session. A fork that the host was not told of is found
// again, or is none any more: the studio machine may have been restored.
func (o *ownChain) restart(frozen bool) {
	if !frozen {
		o.forkAt, o.lost = 0, false
	}
	o.sent, o.since = o.acked.N, 0
	o.stalled, o.fetching = false, false
}

// next is the place after the last entry that was written.
func (o *ownChain) next() uint64 { return o.acked.N + uint64(len(o.unsent)) + 1 }

// at returns the unsent entry at a place.
func (o *ownChain) at(n uint64) (*journal.Entry, bool) {
	if n <= o.acked.N || n >= o.next() {
		return nil, false
	}
	return &o.unsent[n-o.acked.N-1], true
}

// adopt takes in that the studio machine gave back an own entry, now the last
// one held: it has it, and what is unsent may follow it.
func (o *ownChain) adopt(k *chain) {
	if len(o.unsent) == 0 && k.held.N > o.acked.N {
		o.acked = k.held
		o.sent = max(o.sent, o.acked.N)
	}
	if k.held.N >= o.acked.N && len(o.unsent) > 0 && o.unsent[0].N == k.held.N+1 {
		last := &o.unsent[len(o.unsent)-1]
		k.held = journal.Head{N: last.N, Name: last.Name}
	}
}

// push is a Push frame that waits for its Ack.
type push struct {
	bytes int
	upTo  map[journal.ID]uint64 // own chains: last place in it
}

// Wrote says that entries of this device became durable, in the order of their
// chains.
func (l *Link) Wrote(es ...journal.Entry) error {
	for _, e := range es {
		o, k := l.ownChain(e.Job), l.chain(e.Chain())
		if e.Dev != l.cfg.Dev || e.N != o.next() {
			return ErrWrote
		}
		o.unsent = append(o.unsent, e)
		if k.held.N+1 == e.N {
			k.held = journal.Head{N: e.N, Name: e.Name}
		}
	}
	l.pump()
	return nil
}

// pump pushes what was not pushed yet, as far as the window lets it.
func (l *Link) pump() {
	var fs []*wire.Push
	for l.phase != Off && !l.frozen && !l.full && l.inBytes < window {
		f := l.pushOwn()
		if f == nil {
			f = l.pushReturn()
		}
		if f == nil {
			break
		}
		fs = append(fs, f)
	}
	for i, f := range fs {
		f.More = i < len(fs)-1
		l.send(f)
	}
	l.endAudit()
	l.settle()
}

// pushOwn returns one batch of unsent entries, or nil.
func (l *Link) pushOwn() *wire.Push {
	var b wire.Batch
	p := &push{upTo: map[journal.ID]uint64{}}
	for _, job := range l.ownJobs() {
		o := l.own[job]
		if o.stalled || o.fetching {
			continue
		}
		for e, ok := o.at(o.sent + 1); ok && b.Add(e.Chain(), *e); e, ok = o.at(o.sent + 1) {
			o.sent = e.N
			p.upTo[job] = e.N
		}
	}
	if len(b.Runs) == 0 {
		return nil
	}
	return l.number(p, &b)
}

// number gives a batch its number, by which its answer is known.
func (l *Link) number(p *push, b *wire.Batch) *wire.Push {
	l.batch++
	p.bytes = b.Size()
	l.inflight[l.batch] = p
	l.inBytes += p.bytes
	return &wire.Push{Batch: l.batch, Runs: b.Runs}
}

// ownJobs returns the treatments with unsent entries, sorted: pushes are the
// same for the same state.
func (l *Link) ownJobs() []journal.ID {
	jobs := make([]journal.ID, 0, len(l.own))
	for job, o := range l.own {
		if len(o.unsent) > 0 {
			jobs = append(jobs, job)
		}
	}
	journal.SortBy(jobs, func(a, b *journal.ID) int { return bytes.Compare(a[:], b[:]) })
	return jobs
}

// ack takes the answer to a push.
func (l *Link) ack(f *wire.Ack) error {
	p := l.inflight[f.Batch]
	if p == nil {
		return ErrOutOfTurn
	}
	delete(l.inflight, f.Batch)
	l.inBytes -= p.bytes
	for _, r := range f.Receipts {
		l.receipt(r)
	}
	answered := map[journal.ID]bool{}
	for _, r := range f.Refusals {
		l.refused(r)
		if r.Chain.Dev == l.cfg.Dev {
			answered[r.Chain.Job] = true
		}
	}
	for job, n := range p.upTo {
		o := l.ownChain(job)
		if !answered[job] && !o.lost && n > o.acked.N && f.Batch >= o.since {
			o.stalled, o.sent = true, o.acked.N
		}
	}
	l.pump()
	l.pumpBlobs()
	return nil
}

// acknowledge takes a receipt of an own chain. It says false when the receipt
// is for another branch than the one written here.
func (l *Link) acknowledge(h journal.ChainHead) bool {
	o := l.ownChain(h.Job)
	if e, ok := o.at(h.N); ok && e.Name != h.Name {
		l.forked(h.Job, h.N)
		return false
	}
	if h.N <= o.acked.N {
		return h.N == o.acked.N && h.Name == o.acked.Name
	}
	if h.N >= o.next() && l.chain(h.Chain).held != h.Head {
		return false // further than what is here: a branch that is not taken
	}
	o.unsent = slices.Clone(o.unsent[min(h.N-o.acked.N, uint64(len(o.unsent))):])
	o.acked = h.Head
	o.sent = max(o.sent, h.N)
	o.stalled = false
	return true
}

func (l *Link) refused(r wire.Refusal) {
	switch {
	case r.Code == wire.CodeReceipt:
		// Another studio machine signed it: the chain cannot be given back here.
		l.chain(r.Chain).receipt = nil
	case r.Code != wire.CodeFork:
		// The studio machine closes the session, or cannot hold so much.
	case r.Chain.Dev == l.cfg.Dev:
		l.forked(r.Chain.Job, r.N)
	default:
		l.dropForeign(r.Chain)
	}
}

// forked notes that an own chain parts from the studio machine's at place n.
func (l *Link) forked(job journal.ID, n uint64) {
	if o := l.ownChain(job); o.forkAt == 0 || n < o.forkAt {
		o.forkAt = n
	}
}

// settle gives the fork to the host once everything else was answered.
func (l *Link) settle() {
	if l.frozen || l.phase < Catching || len(l.inflight) > 0 || len(l.returns) > 0 {
		return
	}
	var fork Fork
	for job, o := range l.own {
		if o.fetching {
			return
		}
		if o.forkAt > 0 {
			if o.sent < o.next()-1 {
				return // the rest of the refused branch is still to go into the archive
			}
			fork.Chains = append(fork.Chains, ForkedChain{journal.Chain{Job: job, Dev: l.cfg.Dev}, o.forkAt})
		} else if len(o.unsent) > 0 {
			return
		}
	}
	if len(fork.Chains) == 0 {
		return
	}
	journal.SortBy(fork.Chains, func(a, b *ForkedChain) int { return a.Chain.Compare(b.Chain) })
	l.frozen = true
	l.eff.Fork = &fork
}
