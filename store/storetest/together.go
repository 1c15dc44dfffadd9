package storetest

import (
	"errors"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
)

// concurrentCalls has pairs of callers push the same chains in bits of different
// size, as two sessions of one device do after a broken connection.
func concurrentCalls(t *testing.T, m Maker) {
	s := m.New(t)
	const chains, each = 8, 60
	var wg sync.WaitGroup
	var mu sync.Mutex
	stored := map[journal.Name]int{}
	work := make([][]journal.Entry, chains)
	for i := range work {
		work[i] = NewAuthor(ID(uint64(i%3)), ID(uint64(10+i))).Run(t, each, 60)
	}
	push := func(es []journal.Entry, bit int) error {
		for at := 0; at < len(es); at += bit {
			part := es[at:min(at+bit, len(es))]
			verdicts, err := s.Append(part)
			if err != nil {
				return err
			}
			mu.Lock()
			for i, v := range verdicts {
				switch v {
				case journal.Stored:
					stored[part[i].Name]++
				case journal.Known:
				default:
					err = errors.New("verdict " + v.String())
				}
			}
			mu.Unlock()
			if err != nil {
				return err
			}
		}
		return nil
	}
	for i := range work {
		for _, bit := range []int{1, 7} {
			wg.Go(func() {
				if err := push(work[i], bit); err != nil {
					t.Errorf("chain %d in bits of %d: %v", i, bit, err)
				}
			})
		}
	}
	wg.Wait()
	for _, es := range work {
		holds(t, s, es[0].Chain(), es)
		for _, e := range es {
			if stored[e.Name] != 1 {
				t.Fatalf("entry %d was stored %d times, want once", e.N, stored[e.Name])
			}
		}
	}
}

// anyMixture holds the store to the model in package journal, for any sequence
// of calls with duplicates, gaps, twins and several chains.
func anyMixture(t *testing.T, m Maker) {
	s := m.New(t)
	round := uint64(0)
	rapid.Check(t, func(rt *rapid.T) {
		round++ // chains of their own, so that one store serves all rounds
		var pool []journal.Entry
		for i := range 3 {
			a := NewAuthor(ID(1000*round+uint64(i%2)), ID(uint64(i)))
			head := a.Run(t, rapid.IntRange(1, 6).Draw(rt, "before the twin"), 20)
			twin := a.Twin()
			pool = append(pool, slices.Concat(head, a.Run(t, 3, 20), twin.Run(t, 3, 30))...)
		}
		var model journal.Log
		for range rapid.IntRange(1, 6).Draw(rt, "calls") {
			var es []journal.Entry
			for range rapid.IntRange(0, 12).Draw(rt, "length") {
				at := rapid.IntRange(0, len(pool)-1).Draw(rt, "from")
				n := rapid.IntRange(1, 5).Draw(rt, "run")
				es = append(es, pool[at:min(at+n, len(pool))]...)
			}
			want := expect(&model, es)
			if got, err := s.Append(es); err != nil || !slices.Equal(got, want) {
				rt.Fatalf("Append = %v, %v, want %v", got, err, want)
			}
		}
		for _, h := range model.Heads() {
			holds(t, s, h.Chain, model.Since(h.Chain, 1))
		}
	})
}

// expect says what Append must answer, by the model.
func expect(model *journal.Log, es []journal.Entry) []journal.Verdict {
	refused := map[journal.Chain]journal.Verdict{}
	want := make([]journal.Verdict, len(es))
	for i, e := range es {
		c := e.Chain()
		known := slices.ContainsFunc(model.Since(c, e.N), func(k journal.Entry) bool { return k.Name == e.Name })
		before, stopped := refused[c]
		switch {
		case known:
			want[i] = journal.Known
		case stopped:
			want[i] = before
		default:
			if want[i] = model.Add(e); want[i] != journal.Stored {
				refused[c] = want[i]
			}
		}
	}
	return want
}

// removalIsAsked races a device that writes in a sample against its removal: an
// entry that was stored before the question keeps the treatment.
func removalIsAsked(t *testing.T, m Maker) {
	s := m.New(t)
	sample, phone := NewAuthor(ID(5), ID(2)), NewAuthor(ID(5), ID(3))
	appends(t, s, sample.Run(t, 3, 40), journal.Stored)
	alone := func(heads []journal.ChainHead) bool {
		return len(heads) == 1 && heads[0] == journal.ChainHead{Chain: sample.Chain, Head: sample.Head}
	}
	es := phone.Run(t, 40, 40)
	var wg sync.WaitGroup
	wg.Go(func() {
		for i := range es {
			if _, err := s.Append(es[i : i+1]); err != nil {
				t.Error(err)
			}
		}
	})
	removed, err := s.RemoveIf(ID(5), alone)
	must(t, err)
	wg.Wait()
	holds(t, s, phone.Chain, es)
	want := uint64(3)
	if removed {
		want = 0
	}
	if h, err := s.Head(sample.Chain); err != nil || h.N != want {
		t.Errorf("removed %t, and the sample's head is %v, %v", removed, h, err)
	}
	if removed, err := s.RemoveIf(ID(5), alone); removed || err != nil {
		t.Errorf("RemoveIf with a phone's entries there = %t, %v, want it kept", removed, err)
	}
}
