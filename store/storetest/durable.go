package storetest

import (
	"errors"
	"slices"
	"testing"

	"sinkside/store"
	"sinkside/sync/journal"
)

func outlivesRestart(t *testing.T, m Maker) {
	if m.Reopen == nil {
		return
	}
	outlives(t, m, m.Reopen)
}

func outlivesCrash(t *testing.T, m Maker) {
	if m.Crash == nil {
		return
	}
	outlives(t, m, m.Crash)
}

// outlives fills a store, ends it, and wants it all back; three times over, since
// an end right after an end is the harder one.
func outlives(t *testing.T, m Maker, again func(*testing.T, Store) Store) {
	s := m.New(t)
	a, b := NewAuthor(ID(1), ID(2)), NewAuthor(journal.Shelf, ID(3))
	var as, bs []journal.Entry
	var kept []string
	data, sum := Photo(1, 200_000)
	for round := range 3 {
		more, others := a.Run(t, 20, 50), b.Run(t, 3, 60)
		appends(t, s, slices.Concat(more, others), journal.Stored)
		must(t, s.KeepAside(more[:1]))
		must(t, s.Put("b", ID(uint64(round)).String(), []byte("here")))
		must(t, s.Remove(ID(77)))
		if round == 1 {
			begins(t, s, sum, len(data), 0, false)
			takes(t, s, sum, data, 0, 1, false)
			takes(t, s, sum, data, 1, 2, true)
		}
		as, bs, kept = append(as, more...), append(bs, others...), append(kept, string(more[0].Line))

		s = again(t, s)
		holds(t, s, a.Chain, as)
		holds(t, s, b.Chain, bs)
		if got := asides(t, s); !slices.Equal(got, kept) {
			t.Fatalf("aside = %q, want %q", got, kept)
		}
		if got := bucket(t, s, "b"); len(got) != round+1 {
			t.Fatalf("bucket = %q, want %d records", got, round+1)
		}
		if round >= 1 {
			has(t, s, sum, data)
		}
		appends(t, s, as, journal.Known)
	}
}

func closedSaysSo(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	es := a.Run(t, 1, 40)
	appends(t, s, es, journal.Stored)
	must(t, s.Close())
	must(t, s.Close())
	_, appendErr := s.Append(es)
	_, headErr := s.Head(a.Chain)
	_, headsErr := s.Heads(ID(1))
	_, jobsErr := s.Jobs()
	_, nameErr := s.NameAt(a.Chain, 1)
	_, _, getErr := s.Get("b", "k")
	_, _, beginErr := s.BlobBegin([32]byte{1}, 10)
	_, _, chunkErr := s.BlobChunk([32]byte{1}, 0, make([]byte, 10))
	_, _, hasErr := s.BlobHas([32]byte{1})
	_, readErr := s.BlobRead([32]byte{1}, 0)
	for name, err := range map[string]error{
		"Append": appendErr, "Head": headErr, "Heads": headsErr, "Jobs": jobsErr, "NameAt": nameErr,
		"Get": getErr, "BlobBegin": beginErr, "BlobChunk": chunkErr, "BlobHas": hasErr, "BlobRead": readErr,
		"KeepAside":  s.KeepAside(es),
		"Aside":      s.Aside(func([]byte) error { return nil }),
		"AllHeads":   s.AllHeads(func(journal.ChainHead) error { return nil }),
		"Range":      s.Range(a.Chain, 1, func([]byte) error { return nil }),
		"Remove":     s.Remove(ID(1)),
		"Put":        s.Put("b", "k", nil),
		"Each":       s.Each("b", func(string, []byte) error { return nil }),
		"Blobs":      s.Blobs(func([32]byte, int64, bool) error { return nil }),
		"BlobRemove": s.BlobRemove([32]byte{1}),
	} {
		if !errors.Is(err, store.ErrClosed) {
			t.Errorf("%s on a closed store = %v, want ErrClosed", name, err)
		}
	}
}
