package summary

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"sinkside/calc/dossier"
	"sinkside/store/memory"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/wire"
)

// counting is a store that counts how often a treatment is read.
type counting struct {
	*memory.Store
	reads int
}

func (c *counting) Heads(job journal.ID) ([]journal.ChainHead, error) {
	c.reads++
	return c.Store.Heads(job)
}

// desk is a store with a maker, and a phone that writes into it.
type desk struct {
	t     *testing.T
	st    *counting
	m     *Maker
	dev   journal.ID
	heads map[journal.ID]journal.Head
	at    time.Time
}

func newDesk(t *testing.T) *desk {
	d := &desk{t: t, st: &counting{Store: memory.New()}, dev: journal.ID{0: 1}, heads: map[journal.ID]journal.Head{},
		at: time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)}
	d.open()
	return d
}

// open opens the maker as a start of the server does.
func (d *desk) open() {
	d.t.Helper()
	m, err := NewMaker(d.st)
	if err != nil {
		d.t.Fatal(err)
	}
	d.m = m
}

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

// write stores an entry and returns the line after it.
func (d *desk) write(job journal.ID, kind, body string) (hub.Summary, dossier.Summary) {
	d.t.Helper()
	s, err := d.m.Summarise(job, []journal.Entry{d.store(job, kind, body)})
	if err != nil {
		d.t.Fatal(err)
	}
	var sum dossier.Summary
	if err := json.Unmarshal(s.Text, &sum); err != nil {
		d.t.Fatalf("line %s: %v", s.Text, err)
	}
	return s, sum
}

var flagJob, bonnetJob = journal.ID{15: 1}, journal.ID{15: 2}

func TestTheLineFollowsTheLog(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag","sample":true}`)
	s, sum := d.write(flagJob, "set", `{"field":"number","value":"MH 121"}`)
	if !s.Open || sum.Name != "Signal flag" || sum.Number != "MH 121" || !sum.Sample {
		t.Errorf("line = %s, want the open sample flag MH 121", s.Text)
	}
	if s, _ = d.write(flagJob, "close", `{}`); s.Open {
		t.Error("closed, and the line still says open")
	}
	if s, _ = d.write(flagJob, "reopen", `{}`); !s.Open {
		t.Error("opened again, and the line still says closed")
	}
}

func TestReadingsFoldNothingUntilTheDayIsNew(t *testing.T) {
	d := newDesk(t)
	first, _ := d.write(flagJob, "open", `{"name":"Signal flag"}`)
	reads := d.st.reads
	for range 20 {
		if s, _ := d.write(flagJob, "reading", `{"q":"ph","value":6.5,"unit":"pH"}`); string(s.Text) != string(first.Text) {
			t.Fatalf("line = %s, want %s still", s.Text, first.Text)
		}
	}
	if d.st.reads != reads {
		t.Errorf("the treatment was read %d times for readings, want never", d.st.reads-reads)
	}
	d.at = d.at.AddDate(0, 0, 1)
	if s, _ := d.write(flagJob, "reading", `{"q":"ph","value":6.5,"unit":"pH"}`); string(s.Text) == string(first.Text) {
		t.Error("a reading on another day left the line as it was, want its last day told")
	}
}

func TestAfterARestartItFoldsWhatTheStoreHolds(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.store(flagJob, "close", `{}`) // the server dies before it asks
	d.open()
	s, err := d.m.Summarise(flagJob, nil)
	if err != nil || s.Open {
		t.Errorf("line = %s (%v), want it closed", s.Text, err)
	}
}

func TestALongNameIsCutToFitAFrame(t *testing.T) {
	d := newDesk(t)
	s, sum := d.write(flagJob, "open", `{"name":"`+strings.Repeat("\\u0001long ", 1200)+`"}`)
	if len(s.Text) > wire.MaxSummary || !strings.HasSuffix(sum.Name, "…") {
		t.Errorf("line of %d bytes, want at most %d, cut", len(s.Text), wire.MaxSummary)
	}
}

func TestBetweenNamesTheDaysTreatments(t *testing.T) {
	d := newDesk(t)
	day := d.at.Unix() / 86_400
	d.write(flagJob, "open", `{"name":"Signal flag"}`)
	d.at = d.at.AddDate(0, 0, 10)
	d.write(bonnetJob, "open", `{"name":"Quilted bonnet"}`)
	// The bonnet's phone is found to be 30 days behind.
	d.write(bonnetJob, "clock", `{"offset_ms":2592000000}`)
	unknown := journal.ID{15: 3}
	d.at = d.at.AddDate(1, 0, 0)
	d.store(unknown, "open", `{"name":"Sampler band"}`)
	check := func(when string) {
		for _, c := range []struct {
			from, to int64
			want     []journal.ID
		}{
			{day, day, []journal.ID{flagJob, unknown}},
			{day + 10, day + 11, []journal.ID{bonnetJob, unknown}},
			{day + 40, day + 40, []journal.ID{bonnetJob, unknown}},
			{day - 5, day + 50, []journal.ID{flagJob, bonnetJob, unknown}},
			{day + 3, day + 5, []journal.ID{unknown}},
		} {
			if got, err := d.m.Between(c.from, c.to); err != nil || !slices.Equal(got, c.want) {
				t.Errorf("%s: Between(%+d, %+d) = %v (%v), want %v", when, c.from-day, c.to-day, got, err, c.want)
			}
		}
	}
	check("at once")
	d.open()
	check("after a restart")
}

func TestForgetLeavesNothing(t *testing.T) {
	d := newDesk(t)
	d.write(flagJob, "open", `{"name":"Signal flag","sample":true}`)
	d.write(bonnetJob, "open", `{"name":"Quilted bonnet"}`)
	if err := d.st.Remove(flagJob); err != nil {
		t.Fatal(err)
	}
	d.open()
	if gone, err := d.m.Gone(); err != nil || !slices.Equal(gone, []journal.ID{flagJob}) {
		t.Errorf("Gone = %v (%v), want the flag", gone, err)
	}
	if err := d.m.Forget(flagJob); err != nil {
		t.Fatal(err)
	}
	n := 0
	if err := d.st.Each(bucket, func(string, []byte) error { n++; return nil }); err != nil || n != 1 {
		t.Errorf("%d records left (%v), want the bonnet's", n, err)
	}
}
