package link

import (
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// giveBack is a chain of another device on its way back to a studio machine
// that lost it.
type giveBack struct {
	chain   journal.Chain
	entries []journal.Entry
	receipt *wire.Receipt
}

// want finds what the studio machine lacks of chains. It names its own heads:
// one beyond what is held here, or that is not in the chain held here, says
// that the two part somewhere before; then all goes over, and the answer tells
// where.
func (l *Link) want(f *wire.Want) {
	for _, h := range f.Heads {
		if h.Dev == l.cfg.Dev {
			l.wantOwn(h)
		} else {
			l.wantForeign(h)
		}
	}
	l.pump()
}

// wantOwn goes back to where the studio machine is. What it lost is no longer
// in memory, so the host is asked for it.
func (l *Link) wantOwn(h journal.ChainHead) {
	o := l.ownChain(h.Job)
	if e, ok := o.at(h.N); ok && e.Name == h.Name {
		o.rewind(h.N, l.batch+1) // the receipt is on its way
		return
	}
	if h.Head == o.acked || o.acked.N == 0 {
		o.rewind(o.acked.N, l.batch+1)
		return
	}
	o.fetching = true
	l.fetch(h, o.acked.N)
}

// rewind pushes again what follows place n. What is answered to pushes before
// since says nothing of where the chain stands now.
func (o *ownChain) rewind(n, since uint64) {
	o.sent, o.since, o.stalled = n, since, false
}

// wantForeign gives another device's chain back, as far as its receipt reaches:
// without one the studio machine could not take it.
func (l *Link) wantForeign(h journal.ChainHead) {
	k := l.chain(h.Chain)
	switch {
	case h.N > k.held.N:
		l.part(h.Chain)
	case k.returnable():
		l.fetch(h, k.receipt.N)
	case h.N > 0:
		l.fetch(h, h.N)
	}
}

// returnable says that there is a receipt for entries that are held.
func (k *chain) returnable() bool { return k.receipt != nil && k.held.N >= k.receipt.N }

// part notes that another device's chain is not the one that the studio machine
// holds, and sends it there to be kept aside, where that is possible.
func (l *Link) part(c journal.Chain) {
	k := l.chain(c)
	if !k.returnable() {
		l.dropForeign(c)
		return
	}
	k.parted = true
	l.fetch(journal.ChainHead{Chain: c}, k.receipt.N)
}

// fetch asks the host for a chain from the studio machine's head to place to.
func (l *Link) fetch(h journal.ChainHead, to uint64) {
	if _, asked := l.wants[h.Chain]; asked {
		return
	}
	if h.N > to {
		h.Head = journal.Head{} // beyond what is here: compare from the start
	}
	l.wants[h.Chain] = h.Head
	l.eff.Fetch = append(l.eff.Fetch, Range{h.Chain, max(h.N, 1), to})
}

// Fetched answers Effects.Fetch: the entries of the asked range, as many from
// its start as the host still holds.
func (l *Link) Fetched(c journal.Chain, es []journal.Entry) {
	theirs, asked := l.wants[c]
	if !asked {
		return // asked in a session that is over
	}
	delete(l.wants, c)
	parts := theirs.N > 0 && len(es) > 0 && es[0].Name != theirs.Name
	if theirs.N > 0 && len(es) > 0 {
		es = es[1:]
	}
	switch {
	case parts && c.Dev == l.cfg.Dev:
		l.fetch(journal.ChainHead{Chain: c}, l.ownChain(c.Job).acked.N)
	case parts:
		l.part(c)
	case c.Dev == l.cfg.Dev:
		l.fetchedOwn(c, theirs, es)
	default:
		l.fetchedForeign(c, es)
	}
	l.pump()
}

func (l *Link) fetchedOwn(c journal.Chain, theirs journal.Head, es []journal.Entry) {
	o := l.ownChain(c.Job)
	o.fetching = false
	if n := len(es); n == 0 || es[n-1].N != o.acked.N {
		// Neither side holds what lies between: only another id can go on.
		l.forked(c.Job, o.acked.N+1)
		o.lost = true
		o.rewind(o.acked.N, l.batch+1)
		return
	}
	o.unsent = append(es[:len(es):len(es)], o.unsent...)
	o.acked = theirs
	o.rewind(o.acked.N, l.batch+1)
}

func (l *Link) fetchedForeign(c journal.Chain, es []journal.Entry) {
	r := l.chain(c).receipt
	if n := len(es); n > 0 && r != nil && es[n-1].N == r.N && es[n-1].Name == r.Name {
		l.returns = append(l.returns, giveBack{c, es, r})
	}
}

// pushReturn returns one batch of a chain that the studio machine lost, or nil.
// The chain's last batch carries the receipt that lets it be taken.
func (l *Link) pushReturn() *wire.Push {
	if len(l.returns) == 0 {
		return nil
	}
	g := &l.returns[0]
	var b wire.Batch
	n := 0
	for n < len(g.entries) && b.Add(g.chain, g.entries[n]) {
		n++
	}
	if g.entries = g.entries[n:]; len(g.entries) == 0 {
		b.Runs[0].Signed, b.Runs[0].Sig = true, g.receipt.Sig
		l.returns = l.returns[1:]
	}
	return l.number(&push{}, &b)
}

// dropForeign forgets a branch of another device's chain that the studio
// machine refused, or could not take, and asks for the branch that it holds.
func (l *Link) dropForeign(c journal.Chain) {
	l.chains[c] = &chain{}
	kept := l.eff.Store[:0]
	for _, e := range l.eff.Store {
		if e.Chain() != c {
			kept = append(kept, e)
		}
	}
	l.eff.Store = kept
	l.eff.Drop = append(l.eff.Drop, c)
	l.subscribe(map[journal.ID]bool{c.Job: true})
}
