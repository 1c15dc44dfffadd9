package sample

import (
	"slices"
	"testing"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

func counting() func() [10]byte {
	var n byte
	return func() [10]byte { n++; return [10]byte{9: n} }
}

var noon = time.Date(2026, 3, 12, 12, 0, 0, 0, time.FixedZone("", 3600))

func mustEntries(t *testing.T, now time.Time) []journal.Entry {
	t.Helper()
	es, err := Entries(now, counting())
	if err != nil {
		t.Fatalf("Entries: %v", err)
	}
	return es
}

func TestEntriesAreOrdinaryChainsBySampleDevices(t *testing.T) {
	var log journal.Log
	es := mustEntries(t, noon)
	if len(es) < 60 || len(es) > 150 {
		t.Errorf("sample has %d entries, want 60 to 150", len(es))
	}
	for _, e := range es {
		if v := log.Add(e); v != journal.Stored {
			t.Errorf("%s %s: %v, want stored", e.Kind, e.At, v)
		}
		if !IsDevice(e.Dev) {
			t.Errorf("%s %s: written by %s, which is no sample device", e.Kind, e.At, e.Dev)
		}
		if e.Job == journal.Shelf {
			t.Errorf("%s %s: on the shelf, where it could not be removed", e.Kind, e.At)
		}
	}
}

func TestEveryTreatmentIsMarkedAsSample(t *testing.T) {
	marked := map[journal.ID]bool{}
	jobs := map[journal.ID]bool{}
	for _, e := range mustEntries(t, noon) {
		jobs[e.Job] = true
		if v, ok := jsontext.Get(e.Body, "sample"); e.Kind == "open" && ok && string(v) == "true" {
			marked[e.Job] = true
		}
	}
	if len(jobs) != 3 || len(marked) != len(jobs) {
		t.Errorf("%d of %d treatments are marked, want 3 of 3", len(marked), len(jobs))
	}
}

func TestNothingIsInTheFutureAtAnyHour(t *testing.T) {
	for h := range 24 {
		now := time.Date(2026, 3, 12, h, 1, 0, 0, time.FixedZone("", 3600))
		for _, e := range mustEntries(t, now) {
			at, err := time.Parse(time.RFC3339, e.At)
			if err != nil {
				t.Fatalf("at = %q: %v", e.At, err)
			}
			if at.After(now) || e.T.WallMS() > now.UnixMilli() {
				t.Errorf("%02d:01: %s at %s is in the future", h, e.Kind, e.At)
			}
		}
	}
}

func TestAddedAgainItIsNoFork(t *testing.T) {
	var phone journal.Log
	next := counting()
	for _, now := range []time.Time{noon, noon.Add(time.Hour)} {
		es, err := Entries(now, next)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range es {
			if v := phone.Add(e); v != journal.Stored {
				t.Fatalf("%s %s: %v, want stored", e.Kind, e.At, v)
			}
		}
	}
}

// shelfOf is a store of heads alone.
type shelfOf map[journal.ID][]journal.ChainHead

func (s shelfOf) Jobs() ([]journal.ID, error) {
	var jobs []journal.ID
	for job := range s {
		jobs = append(jobs, job)
	}
	return jobs, nil
}
func (s shelfOf) Heads(job journal.ID) ([]journal.ChainHead, error) { return s[job], nil }
func (s shelfOf) Remove(job journal.ID) error                       { delete(s, job); return nil }

func TestRemoveKeepsWhatAnybodyElseWroteIn(t *testing.T) {
	id := func(b byte) journal.ID { return journal.ID{15: b} }
	chain := func(job, dev journal.ID) journal.ChainHead {
		return journal.ChainHead{Chain: journal.Chain{Job: job, Dev: dev}, Head: journal.Head{N: 1}}
	}
	alone, joined, real := id(1), id(2), id(3)
	st := shelfOf{
		alone:         {chain(alone, runa.dev), chain(alone, osk.dev)},
		joined:        {chain(joined, runa.dev), chain(joined, id(9))},
		real:          {chain(real, id(9))},
		journal.Shelf: {chain(journal.Shelf, id(9))},
	}
	r, err := Remove(st)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(r.Removed, []journal.ID{alone}) || !slices.Equal(r.Kept, []journal.ID{joined}) {
		t.Errorf("Remove = %+v, want the one written in alone removed, the joined one kept", r)
	}
	if len(st) != 3 || st[real] == nil || st[journal.Shelf] == nil {
		t.Errorf("left %d treatments, want the 3 real ones", len(st))
	}
	if again, err := Remove(st); err != nil || len(again.Removed) != 0 {
		t.Errorf("Remove again = %+v, %v, want nothing more", again, err)
	}
}
