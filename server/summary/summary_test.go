package summary

import (
	"context"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"sinkside/calc/dossier"
	"sinkside/store"
	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/wire"
)

// desk is a store with a keeper, and a phone that writes into it.
type desk struct {
	t     *testing.T
	st    *memory.Store
	k     *Keeper
	dev   journal.ID
	heads map[journal.ID]journal.Head
	at    time.Time
}

func newDesk(t *testing.T) *desk {
	d := &desk{t: t, st: memory.New(), dev: journal.ID{0: 1}, heads: map[journal.ID]journal.Head{},
		at: time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)}
	d.open()
	return d
}

// open opens the keeper as a start of the server does.
func (d *desk) open() {
	d.t.Helper()
	k, err := Open(d.st, zerolog.Nop())
	if err != nil {
		d.t.Fatal(err)
	}
	d.k = k
}

// store stores an entry without telling the keeper, as when the server dies just then.
func (d *desk) store(job journal.ID, kind, body string) journal.Entry {
	d.t.Helper()
	draft := journal.Draft{Job: job, At: d.at.Format(time.RFC3339), By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)}
	e, err := journal.Write(draft, d.dev, d.heads[job], journal.At(d.at.UnixMilli()))
	if err != nil {
		d.t.Fatal(err)
	}
	if v, err := d.st.Append([]journal.Entry{e}); err != nil || v[0] != journal.Stored {
		d.t.Fatalf("append: %v %v", v, err)
	}
	d.heads[job] = journal.Head{N: e.N, Name: e.Name}
	d.at = d.at.Add(time.Minute)
	return e
}

func (d *desk) write(job journal.ID, kind, body string) {
	d.t.Helper()
	e := d.store(job, kind, body)
	d.k.Took([]journal.Entry{e})
}

func (d *desk) renew() {
	d.t.Helper()
	if err := d.k.Renew(); err != nil {
		d.t.Fatal(err)
	}
}

// since lists what changed after g, "name", "name (closed)" or "removed".
func (d *desk) since(g wire.Generation) []string {
	d.t.Helper()
	var out []string
	for _, item := range d.k.Since(g).Items {
		var s dossier.Summary
		switch {
		case item.Removed:
			out = append(out, "removed")
			continue
		case json.Unmarshal(item.Text, &s) != nil:
			d.t.Fatalf("summary %q is no JSON", item.Text)
		}
		if !item.Open {
			s.Name += " (closed)"
		}
		out = append(out, s.Name)
	}
	return out
}

func (d *desk) wantSince(g wire.Generation, want ...string) {
	d.t.Helper()
	if got := d.since(g); !slices.Equal(got, want) {
		d.t.Errorf("since %d = %q, want %q", g.N, got, want)
	}
}

var flagJob, bonnetJob = journal.ID{15: 1}, journal.ID{15: 2}

func TestADeviceGetsWhatChanged(t *testing.T) {
	d := newDesk(t)
	start := d.k.Generation()
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.renew()
	first := d.k.Generation()
	d.wantSince(start, "Signal flag")
	d.write(bonnetJob, "open", `{"name":"Quilted bonnet"}`)
	d.renew()
	d.wantSince(first, "Quilted bonnet")
	d.write(flagJob, "close", `{}`)
	d.renew()
	d.wantSince(first, "Quilted bonnet", "Signal flag (closed)")
	d.wantSince(d.k.Generation())
	if d.k.IsOpen(flagJob) || !slices.Equal(d.k.OpenJobs(), []journal.ID{bonnetJob}) {
		t.Errorf("open = %v, want the bonnet alone", d.k.OpenJobs())
	}
}

func TestReadingsDoNotChangeTheLine(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.renew()
	before := d.k.Generation()
	for range 20 {
		d.write(flagJob, "reading", `{"q":"ph","value":6.5,"unit":"pH"}`)
	}
	d.renew()
	if got := d.k.Generation(); got != before {
		t.Errorf("generation after readings = %d, want %d still", got.N, before.N)
	}
	d.at = d.at.AddDate(0, 0, 1)
	d.write(flagJob, "reading", `{"q":"ph","value":6.5,"unit":"pH"}`)
	d.renew()
	if got := d.k.Generation(); got == before {
		t.Error("generation after a reading on another day is the same, want the new day told")
	}
}

func TestAStopInBetweenHeals(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.renew()
	before := d.k.Generation()
	d.store(flagJob, "close", `{}`)
	d.store(bonnetJob, "open", `{"name":"Quilted bonnet"}`)
	d.open()
	d.renew()
	d.wantSince(before, "Signal flag (closed)", "Quilted bonnet")
	if got := d.k.Generation(); got.Epoch != before.Epoch {
		t.Error("epoch changed with a restart, want the store's own")
	}
}

func TestFlushLeavesNothingStale(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.renew()
	d.write(flagJob, "note", `{"text":"hoist damp"}`)
	if err := d.k.Flush(); err != nil {
		t.Fatal(err)
	}
	d.open()
	if stale := d.k.takeDirty(); len(stale) != 0 {
		t.Errorf("stale after a clean stop: %v, want none", stale)
	}
}

func TestAnotherStoresNumbersMeanNothing(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.renew()
	for _, g := range []wire.Generation{{}, {Epoch: d.k.Generation().Epoch + 1, N: 1}, {Epoch: d.k.Generation().Epoch, N: 99}} {
		if s := d.k.Since(g); !s.Reset || len(s.Items) != 1 {
			t.Errorf("since %+v = reset %v with %d lines, want a reset with all", g, s.Reset, len(s.Items))
		}
	}
}

func TestRemovedIsToldAndComesBackWhenWrittenIn(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag","sample":true}`)
	d.renew()
	before := d.k.Generation()
	if err := d.st.Remove(flagJob); err != nil {
		t.Fatal(err)
	}
	d.k.Removed([]journal.ID{flagJob})
	d.renew()
	d.wantSince(before, "removed")
	d.open()
	d.renew()
	d.wantSince(before, "removed")
	if d.k.Since(wire.Generation{}).Items != nil {
		t.Error("a fresh device is told of a removed treatment, want silence")
	}
	delete(d.heads, flagJob)
	d.write(flagJob, "note", `{"text":"written on a phone that had not heard"}`)
	d.renew()
	d.wantSince(before, "")
}

func TestAFullDiskIsTriedAgain(t *testing.T) {
	d := newDesk(t)
	told := 0
	d.k.OnChange(func() { told++ })
	start := d.k.Generation()
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.st.Fail(store.ErrFull)
	if err := d.k.Renew(); !errors.Is(err, store.ErrFull) {
		t.Fatalf("Renew = %v, want the store's error", err)
	}
	if d.k.Generation() != start || told != 0 {
		t.Error("a generation was announced that is not on the disk")
	}
	d.st.Fail(nil)
	d.renew()
	d.wantSince(start, "Signal flag")
	if told != 1 || d.k.Generation() == start {
		t.Errorf("told %d times of generation %d, want once of the next", told, d.k.Generation().N)
	}
	d.open()
	d.wantSince(start, "Signal flag")
}

func TestRunFoldsWhatComes(t *testing.T) {
	d := newDesk(t)
	changed := make(chan struct{}, 8)
	d.k.OnChange(func() { changed <- struct{}{} })
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { d.k.Run(ctx); close(done) }()
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	select {
	case <-changed:
	case <-time.After(10 * time.Second):
		t.Fatal("no new generation within 10 s")
	}
	d.wantSince(wire.Generation{}, "Signal flag")
	stop()
	<-done
}

func TestALongNameIsCutToFitAFrame(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"`+strings.Repeat("\\u0001long ", 1200)+`"}`)
	d.renew()
	items := d.k.Since(wire.Generation{}).Items
	if len(items) != 1 || len(items[0].Text) > wire.MaxSummary || !strings.HasSuffix(d.since(wire.Generation{})[0], "…") {
		t.Errorf("text of %d bytes, want at most %d, cut", len(items[0].Text), wire.MaxSummary)
	}
}

func TestBetweenNamesTheDaysTreatments(t *testing.T) {
	d := newDesk(t)
	day := d.at.Unix() / 86_400
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.at = d.at.AddDate(0, 0, 10)
	d.write(bonnetJob, "open", `{"name":"Quilted bonnet"}`)
	d.renew()
	for _, c := range []struct {
		from, to int64
		want     []journal.ID
	}{
		{day, day, []journal.ID{flagJob}},
		{day + 10, day + 11, []journal.ID{bonnetJob}},
		{day - 5, day + 50, []journal.ID{flagJob, bonnetJob}},
		{day + 3, day + 5, nil},
	} {
		if got := d.k.Between(c.from, c.to); !slices.Equal(got, c.want) {
			t.Errorf("Between(%+d, %+d) = %v, want %v", c.from-day, c.to-day, got, c.want)
		}
	}
}
