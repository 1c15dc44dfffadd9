package store

import (
	"maps"

	"sinkside/sync/journal"
)

// Append puts entries into their chains and returns a verdict for each, in
// order. What is Stored or Known is on the disk when it returns. A Gap or a Fork
// is not stored, and neither is what follows of that chain in the same call: it
// gets the same verdict.
//
// A Known entry whose bytes in the store are damaged is written again from the
// caller's: a device that still has it mends the store.
func (s *Store) Append(es []journal.Entry) ([]journal.Verdict, error) {
	all := make([]journal.Verdict, 0, len(es))
	refused := Refused{}
	err := s.inPieces(es, costOfEntry, func(piece []journal.Entry, size cost) error {
		var verdicts []journal.Verdict
		var now Refused
		err := s.do(&call{cost: size, apply: func(b *batch) (err error) {
			now = maps.Clone(refused) // apply may be called again
			verdicts, err = b.append(piece, now)
			return err
		}})
		if err != nil {
			return err
		}
		all, refused = append(all, verdicts...), now
		return nil
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// append judges the entries and puts those that fit into the batch.
func (b *batch) append(es []journal.Entry, refused Refused) ([]journal.Verdict, error) {
	moved := map[journal.Chain]journal.Head{}
	head := func(c journal.Chain) journal.Head {
		if h, ok := moved[c]; ok {
			return h
		}
		return b.head(c)
	}
	var mend map[journal.Name]bool
	nameAtPlace := func(c journal.Chain, n uint64) (journal.Name, error) {
		name, right, err := nameAt(b.tx, c, n, head(c))
		if !right && err == nil {
			if mend == nil {
				mend = map[journal.Name]bool{}
			}
			mend[name] = true
		}
		return name, err
	}
	put := func(e *journal.Entry) error {
		moved[e.Chain()] = journal.Head{N: e.N, Name: e.Name}
		return b.set(entryKey(e.Chain(), e.N), entryValue(e))
	}
	verdicts, err := refused.Judge(es, head, nameAtPlace, put)
	if err != nil {
		return nil, err
	}
	for i := range es {
		if verdicts[i] == journal.Known && mend[es[i].Name] {
			if err := b.set(entryKey(es[i].Chain(), es[i].N), entryValue(&es[i])); err != nil {
				return nil, err
			}
		}
	}
	return verdicts, b.move(moved)
}

// move sets heads, counting the chains that begin.
func (b *batch) move(heads map[journal.Chain]journal.Head) error {
	for c, h := range heads {
		if b.head(c).N == 0 {
			b.fresh++
		}
		b.heads[c] = h
		if err := b.set(chainKey(kHead, c), headValue(h)); err != nil {
			return err
		}
	}
	return nil
}

// KeepAside keeps entries of a refused branch. Keeping one twice is keeping it
// once.
func (s *Store) KeepAside(es []journal.Entry) error {
	return s.inPieces(es, costAside, func(piece []journal.Entry, size cost) error {
		return s.do(&call{cost: size, apply: func(b *batch) error {
			for i := range piece {
				if err := b.set(asideKey(&piece[i]), piece[i].Line); err != nil {
					return err
				}
			}
			return nil
		}})
	})
}

// costOfEntry is the cost of es[i], and of its chain's head where another chain
// begins.
func costOfEntry(es []journal.Entry, i int) cost {
	c := put(41, 32+len(es[i].Line))
	if i == 0 || es[i].Chain() != es[i-1].Chain() {
		c = c.plus(put(33, 40))
	}
	return c
}

func costAside(es []journal.Entry, i int) cost { return put(73, len(es[i].Line)) }

// inPieces calls f for es in runs that each fit into one transaction.
func (s *Store) inPieces(
	es []journal.Entry,
	costOf func(es []journal.Entry, i int) cost,
	f func(piece []journal.Entry, size cost) error,
) error {
	for len(es) > 0 {
		n, size := 0, cost{}
		for n < len(es) {
			more := size.plus(costOf(es, n))
			if n > 0 && !s.fits(more) {
				break
			}
			n, size = n+1, more
		}
		if err := f(es[:n], size); err != nil {
			return err
		}
		es = es[n:]
	}
	return nil
}
