package sample

import (
	"slices"
	"testing"
	"time"

	"sinkside/calc/dossier"
	"sinkside/store"
	"sinkside/store/memory"
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
	if len(es) < 200 || len(es) > 400 {
		t.Errorf("sample has %d entries, want 200 to 400", len(es))
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
	if len(jobs) != 6 || len(marked) != len(jobs) {
		t.Errorf("%d of %d treatments are marked, want 6 of 6", len(marked), len(jobs))
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

func TestRemoveKeepsWhatAnybodyElseWroteIn(t *testing.T) {
	for name, st := range map[string]interface {
		Store
		Append(es []journal.Entry) ([]journal.Verdict, error)
	}{"in memory": memory.New(), "on disk": onDisk(t)} {
		t.Run(name, func(t *testing.T) {
			id := func(b byte) journal.ID { return journal.ID{15: b} }
			alone, joined, real := id(1), id(2), id(3)
			for _, c := range []journal.Chain{{Job: alone, Dev: runa.dev}, {Job: alone, Dev: osk.dev}, {Job: joined, Dev: runa.dev},
				{Job: joined, Dev: id(9)}, {Job: real, Dev: id(9)}, {Job: journal.Shelf, Dev: id(9)}} {
				e, err := journal.Write(journal.Draft{Job: c.Job, At: "2026-03-12T12:00:00Z", By: "IB", Kind: "note", BV: 1,
					Body: jsontext.Value(`{"text":"x"}`)}, c.Dev, journal.Head{}, journal.At(noon.UnixMilli()))
				if err != nil {
					t.Fatal(err)
				}
				if _, err := st.Append([]journal.Entry{e}); err != nil {
					t.Fatal(err)
				}
			}
			r, err := Remove(st)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(r.Removed, []journal.ID{alone}) || !slices.Equal(r.Kept, []journal.ID{joined}) {
				t.Errorf("Remove = %+v, want the one written in alone removed, the joined one kept", r)
			}
			if jobs, err := st.Jobs(); err != nil || !slices.Equal(jobs, []journal.ID{journal.Shelf, joined, real}) {
				t.Errorf("left %v (%v), want the shelf, the joined and the real one", jobs, err)
			}
			if again, err := Remove(st); err != nil || len(again.Removed) != 0 {
				t.Errorf("Remove again = %+v, %v, want nothing more", again, err)
			}
		})
	}
}

func onDisk(t *testing.T) *store.Store {
	t.Helper()
	st, err := store.Open(t.TempDir(), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := st.Close(); err != nil {
			t.Error(err)
		}
	})
	return st
}

func TestNothingInItIsDoubtful(t *testing.T) {
	dossiers := map[journal.ID]*dossier.Dossier{}
	for _, e := range mustEntries(t, noon) {
		if dossiers[e.Job] == nil {
			dossiers[e.Job] = dossier.New(e.Job)
		}
		dossiers[e.Job].Add(e)
	}
	for _, d := range dossiers {
		s := d.State()
		if len(s.Doubts) > 0 || s.Unknown > 0 || s.RunningSinceMS != nil {
			t.Errorf("%s: doubts %v, %d unknown, running since %v; want none and nothing left running",
				dossier.Summarise(s).Name, s.Doubts, s.Unknown, s.RunningSinceMS)
		}
	}
}

// What a person could not write stands in no sample either.
func TestItCouldHaveBeenWritten(t *testing.T) {
	ds := map[journal.ID]*dossier.Dossier{}
	for _, e := range mustEntries(t, noon) {
		d := ds[e.Job]
		if d == nil {
			d = dossier.New(e.Job)
			ds[e.Job] = d
		}
		body := e.Body
		if e.Kind == "amend" {
			body = jsontext.Value(`{"kind":"begin",` + string(body[1:])) // the check is told what is amended
		}
		_, errs := dossier.Check(dossier.Proposal{Kind: e.Kind, Body: body, At: e.At, By: e.By}, dossier.Now{MS: e.T.WallMS()}, d.State())
		if len(errs) > 0 {
			t.Errorf("%s %s %s: %v", e.At, e.Kind, e.Body, errs)
		}
		if want := dossier.BodyVersion(e.Kind, e.Body); e.BV != want {
			t.Errorf("%s %s: body version %d, want %d", e.At, e.Kind, e.BV, want)
		}
		d.Add(e)
	}
}
