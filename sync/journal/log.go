package journal

import (
	"bytes"
	"slices"
)

// Chain names the entries of one device in one treatment.
type Chain struct{ Job, Dev ID }

// Compare orders chains by treatment, then device.
func (c Chain) Compare(d Chain) int {
	if o := bytes.Compare(c.Job[:], d.Job[:]); o != 0 {
		return o
	}
	return bytes.Compare(c.Dev[:], d.Dev[:])
}

// Head is the end of a chain: how many entries, and the last one's name. The
// zero Head is that of an empty chain.
type Head struct {
	N    uint64
	Name Name
}

// ChainHead is a chain and its head.
type ChainHead struct {
	Chain
	Head
}

// Verdict is what becomes of an entry that reaches a set of chains.
type Verdict uint8

// The verdicts.
const (
	// Stored: it was the next of its chain.
	Stored Verdict = iota
	// Known: it was there already, the same to the byte.
	Known
	// Gap: entries before it are missing.
	Gap
	// Fork: its place holds another entry, or it does not follow from the head.
	Fork
)

func (v Verdict) String() string {
	return [...]string{"stored", "known", "gap", "fork"}[v]
}

// Extend judges an entry against the head of its chain. For an entry at or
// before the head it returns Known when nameAt gives the same name at that
// place, else Fork.
func Extend(h Head, e *Entry, nameAt func(n uint64) Name) Verdict {
	switch {
	case e.N <= h.N:
		if nameAt(e.N) == e.Name {
			return Known
		}
		return Fork
	case e.N > h.N+1:
		return Gap
	case e.Prev != h.Name:
		return Fork
	}
	return Stored
}

// Digest is the SHA-256 over chains and their heads: 72 bytes each (treatment,
// device, n as 8 bytes big-endian, name), sorted by treatment and device. Equal
// digests mean equal sets. heads is sorted in place; empty chains must not be
// in it.
func Digest(heads []ChainHead) [32]byte {
	SortHeads(heads)
	b := make([]byte, 0, 72*len(heads))
	var row [72]byte
	for i := range heads {
		copy(row[0:], heads[i].Job[:])
		copy(row[16:], heads[i].Dev[:])
		for j := range 8 {
			row[32+j] = byte(heads[i].N >> (56 - 8*j))
		}
		copy(row[40:], heads[i].Name[:])
		b = append(b, row[:]...)
	}
	return sum256(b)
}

// SortHeads sorts by treatment and device.
func SortHeads(heads []ChainHead) {
	SortBy(heads, func(a, b *ChainHead) int { return a.Chain.Compare(b.Chain) })
}

// Log is a set of chains in memory. Its zero value is empty and ready. It is
// not safe for concurrent use.
type Log struct {
	chains map[Chain][]Entry
	aside  map[Name]Entry
}

// Add puts e in its chain when it is the next one. An entry that the chain
// already holds changes nothing; a fork is kept aside; a gap is not kept, since
// whoever sends it has what comes before and sends that first.
func (l *Log) Add(e Entry) Verdict {
	chain := l.chains[e.Chain()]
	v := Extend(headOf(chain), &e, func(n uint64) Name { return chain[n-1].Name })
	switch v {
	case Stored:
		if l.chains == nil {
			l.chains = map[Chain][]Entry{}
		}
		l.chains[e.Chain()] = append(chain, e)
	case Fork:
		if l.aside == nil {
			l.aside = map[Name]Entry{}
		}
		l.aside[e.Name] = e
	}
	return v
}

func headOf(chain []Entry) Head {
	if len(chain) == 0 {
		return Head{}
	}
	last := &chain[len(chain)-1]
	return Head{last.N, last.Name}
}

// Merge adds all of m's entries to l, chain by chain in order.
func (l *Log) Merge(m *Log) {
	for _, h := range m.Heads() {
		for _, e := range m.Since(h.Chain, 1) {
			l.Add(e)
		}
	}
	for _, e := range m.Aside() {
		l.Add(e)
	}
}

// Head returns the head of one chain.
func (l *Log) Head(c Chain) Head { return headOf(l.chains[c]) }

// Heads returns the heads of all chains, sorted.
func (l *Log) Heads() []ChainHead {
	heads := make([]ChainHead, 0, len(l.chains))
	for c, chain := range l.chains {
		heads = append(heads, ChainHead{c, headOf(chain)})
	}
	SortHeads(heads)
	return heads
}

// Since returns the entries of a chain from place n on. The slice must not be
// changed.
func (l *Log) Since(c Chain, n uint64) []Entry {
	chain := l.chains[c]
	if n < 1 || n > uint64(len(chain)) {
		return nil
	}
	return chain[n-1:]
}

// Job returns a treatment's entries, chain by chain.
func (l *Log) Job(job ID) []Entry {
	var out []Entry
	for _, h := range l.Heads() {
		if h.Job == job {
			out = append(out, l.chains[h.Chain]...)
		}
	}
	return out
}

// Aside returns the entries that were kept aside, sorted by name.
func (l *Log) Aside() []Entry {
	out := make([]Entry, 0, len(l.aside))
	for _, e := range l.aside {
		out = append(out, e)
	}
	slices.SortFunc(out, func(a, b Entry) int { return bytes.Compare(a.Name[:], b.Name[:]) })
	return out
}
