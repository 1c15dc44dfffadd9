package store

import (
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// device writes one chain. (Package storetest, whose authors do the same, stands
// on this package.)
type device struct {
	chain journal.Chain
	head  journal.Head
}

func newDevice(job, dev uint64) *device {
	id := func(n uint64) journal.ID { return journal.NewID(1_772_000_000_000+n, [10]byte{1}) }
	return &device{chain: journal.Chain{Job: id(job), Dev: id(dev)}}
}

func (d *device) run(t testing.TB, count int) []journal.Entry {
	t.Helper()
	es := make([]journal.Entry, count)
	for i := range es {
		draft := journal.Draft{
			Job: d.chain.Job, At: "2026-03-04T10:02:11+01:00", By: "OT", Kind: "note", BV: 1,
			Body: jsontext.Value(`{"text":"fringe combed out, colour steady"}`),
		}
		e, err := journal.Write(draft, d.chain.Dev, d.head, journal.At(1_772_614_931_000+int64(d.head.N)))
		if err != nil {
			t.Fatal(err)
		}
		d.head, es[i] = journal.Head{N: e.N, Name: e.Name}, e
	}
	return es
}

func tiny() Options { return Options{FreeFloor: 1 << 20, Reserve: 64 << 10} }

func openIn(t testing.TB, dir string, o Options) *Store {
	t.Helper()
	s, err := Open(dir, o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// wants appends and wants one verdict for all.
func wants(t testing.TB, s *Store, es []journal.Entry, want journal.Verdict) {
	t.Helper()
	got, err := s.Append(es)
	if err != nil {
		t.Fatal(err)
	}
	for i := range got {
		if got[i] != want {
			t.Fatalf("entry %d: %v, want %v", es[i].N, got[i], want)
		}
	}
}

// length reads a chain and returns how many lines it has.
func length(t testing.TB, s *Store, c journal.Chain) (n uint64) {
	t.Helper()
	if err := s.Range(c, 1, func([]byte) error { n++; return nil }); err != nil {
		t.Fatal(err)
	}
	return n
}
