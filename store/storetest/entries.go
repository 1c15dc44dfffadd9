package storetest

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	"sinkside/sync/journal"
)

func storedOnceThenKnown(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	es := a.Run(t, 5, 40)
	appends(t, s, es, journal.Stored)
	appends(t, s, es, journal.Known)
	more := a.Run(t, 2, 40)
	appends(t, s, []journal.Entry{es[4], more[0], more[0], more[1], es[0]},
		journal.Known, journal.Stored, journal.Known, journal.Stored, journal.Known)
	holds(t, s, a.Chain, slices.Concat(es, more))
	appends(t, s, nil)
}

func gapIsRefused(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	es := a.Run(t, 6, 40)
	appends(t, s, es[1:3], journal.Gap)
	holds(t, s, a.Chain, nil)
	appends(t, s, es[:2], journal.Stored)
	appends(t, s, es[3:], journal.Gap)
	holds(t, s, a.Chain, es[:2])
	appends(t, s, es, journal.Known, journal.Known, journal.Stored, journal.Stored, journal.Stored, journal.Stored)
}

func forkIsRefused(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	es := a.Run(t, 3, 40)
	twin := a.Twin()
	es = append(es, a.Run(t, 2, 40)...)
	appends(t, s, es, journal.Stored)
	branch := twin.Run(t, 4, 50)
	appends(t, s, branch, journal.Fork)
	// One that would be the next, but follows from the branch.
	appends(t, s, branch[2:3], journal.Fork)
	holds(t, s, a.Chain, es)
	for i, e := range es {
		if name, err := s.NameAt(a.Chain, uint64(i+1)); err != nil || name != e.Name {
			t.Errorf("NameAt(%d) = %v, %v, want %v", i+1, name, err, e.Name)
		}
	}
	for _, n := range []uint64{0, 6, 1 << 62} {
		if name, err := s.NameAt(a.Chain, n); err != nil || !name.IsZero() {
			t.Errorf("NameAt(%d) = %v, %v, want none", n, name, err)
		}
	}
}

func refusalGoesOn(t *testing.T, m Maker) {
	s, a, b := m.New(t), NewAuthor(ID(1), ID(2)), NewAuthor(ID(1), ID(3))
	es, others := a.Run(t, 4, 40), b.Run(t, 2, 40)
	appends(t, s, es[:1], journal.Stored)
	appends(t, s, []journal.Entry{es[2], others[0], es[1], es[0], others[1], es[3]},
		journal.Gap, journal.Stored, journal.Gap, journal.Known, journal.Stored, journal.Gap)
	holds(t, s, a.Chain, es[:1])
	holds(t, s, b.Chain, others)
}

func branchIsKeptAside(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	appends(t, s, a.Run(t, 2, 40), journal.Stored)
	twin := a.Twin()
	es, branch := a.Run(t, 2, 40), twin.Run(t, 2, 50)
	appends(t, s, es, journal.Stored)
	for range 2 {
		must(t, s.KeepAside(branch))
	}
	want := []string{string(branch[0].Line), string(branch[1].Line)}
	if got := asides(t, s); !slices.Equal(got, want) {
		t.Errorf("aside = %q, want %q", got, want)
	}
	if got := lines(t, s, a.Chain, 3); len(got) != 2 || !bytes.Equal(got[0], es[0].Line) {
		t.Errorf("the chain changed: %q", got)
	}
}

func bytesStay(t *testing.T, m Maker) {
	s := m.New(t)
	a := NewAuthor(ID(1), ID(2))
	var es []journal.Entry
	for _, odd := range []func(line string) string{
		func(line string) string { return strings.Replace(line, `{"v":1,`, `{ "v" : 1 ,`, 1) },
		func(line string) string {
			return strings.Replace(line, `"kind":"note"`, `"kind":"later","not-known":[1,2.50,{"é":"\u00e9"}]`, 1)
		},
		func(line string) string { return strings.Replace(line, `"The`, `"𝄞 œ ·`, 1) },
		func(line string) string {
			return strings.Replace(line, `{"text"`, `{"fill":"`+strings.Repeat("x", journal.MaxLine-len(line)-10)+`","text"`, 1)
		},
	} {
		plain := a.Twin().Next(t, 40)
		e, err := journal.Parse([]byte(odd(string(plain.Line))))
		must(t, err)
		a.Head = journal.Head{N: e.N, Name: e.Name}
		es = append(es, e)
	}
	if n := len(es[3].Line); n != journal.MaxLine {
		t.Fatalf("the longest line has %d bytes, want %d", n, journal.MaxLine)
	}
	appends(t, s, es, journal.Stored)
	must(t, s.KeepAside(es))
	holds(t, s, a.Chain, es)
	for i, line := range asides(t, s) {
		if line != string(es[i].Line) {
			t.Errorf("aside line %d = %.60s, want %.60s", i, line, es[i].Line)
		}
	}
}

func callersBytes(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	es := a.Run(t, 2, 40)
	want := []string{string(es[0].Line), string(es[1].Line)}
	appends(t, s, es, journal.Stored)
	value := []byte("kept")
	must(t, s.Put("b", "k", value))
	copy(es[0].Line, "overwritten")
	copy(value, "lost")
	for range 2 {
		var got []string
		must(t, s.Range(a.Chain, 1, func(line []byte) error {
			got = append(got, string(line))
			copy(line, "overwritten")
			return nil
		}))
		if !slices.Equal(got, want) {
			t.Fatalf("lines = %q, want %q", got, want)
		}
		v, _, err := s.Get("b", "k")
		must(t, err)
		if string(v) != "kept" {
			t.Fatalf("record = %q, want kept", v)
		}
		copy(v, "lost")
	}
}

func headsAreSorted(t *testing.T, m Maker) {
	s := m.New(t)
	var want []journal.ChainHead
	for _, job := range []journal.ID{ID(7), journal.Shelf, ID(3), ID(5)} {
		for _, dev := range []uint64{9, 2, 4} {
			a := NewAuthor(job, ID(dev))
			appends(t, s, a.Run(t, int(dev), 30), journal.Stored)
			want = append(want, journal.ChainHead{Chain: a.Chain, Head: a.Head})
		}
	}
	journal.SortHeads(want)
	var got []journal.ChainHead
	must(t, s.AllHeads(func(h journal.ChainHead) error {
		got = append(got, h)
		return nil
	}))
	if !slices.Equal(got, want) {
		t.Errorf("AllHeads = %v, want %v", got, want)
	}
	jobs, err := s.Jobs()
	must(t, err)
	if !slices.Equal(jobs, []journal.ID{journal.Shelf, ID(3), ID(5), ID(7)}) {
		t.Errorf("Jobs = %v", jobs)
	}
	if heads, err := s.Heads(ID(5)); err != nil || !slices.Equal(heads, want[6:9]) {
		t.Errorf("Heads(5) = %v, %v, want %v", heads, err, want[6:9])
	}
	if heads, err := s.Heads(ID(6)); err != nil || len(heads) != 0 {
		t.Errorf("Heads of an unknown treatment = %v, %v", heads, err)
	}
}

func rangeFromAnywhere(t *testing.T, m Maker) {
	s, a, b := m.New(t), NewAuthor(ID(1), ID(2)), NewAuthor(ID(1), ID(3))
	es := a.Run(t, 700, 900) // over several pages
	appends(t, s, slices.Concat(es, b.Run(t, 3, 40)), journal.Stored)
	for _, from := range []uint64{0, 1, 2, 350, 699, 700, 701, 5000} {
		got := lines(t, s, a.Chain, from)
		want := es[min(max(from, 1)-1, 700):]
		if len(got) != len(want) {
			t.Fatalf("Range from %d gave %d lines, want %d", from, len(got), len(want))
		}
		for i := range want {
			if !bytes.Equal(got[i], want[i].Line) {
				t.Fatalf("Range from %d: line %d differs", from, i)
			}
		}
	}
	if got := lines(t, s, NewAuthor(ID(1), ID(4)).Chain, 1); got != nil {
		t.Errorf("an unknown chain has lines: %q", got)
	}
}

func callbackEndsReading(t *testing.T, m Maker) {
	s, a := m.New(t), NewAuthor(ID(1), ID(2))
	es := a.Run(t, 4, 40)
	appends(t, s, es, journal.Stored)
	must(t, s.KeepAside(es))
	must(t, s.Change(change("b", "1"), change("b", "2")))
	enough := errors.New("enough")
	count := 0
	stop := func() error {
		count++
		return enough
	}
	for name, err := range map[string]error{
		"Range":    s.Range(a.Chain, 2, func([]byte) error { return stop() }),
		"Aside":    s.Aside(func([]byte) error { return stop() }),
		"AllHeads": s.AllHeads(func(journal.ChainHead) error { return stop() }),
		"Each":     s.Each("b", func(string, []byte) error { return stop() }),
	} {
		if !errors.Is(err, enough) {
			t.Errorf("%s = %v, want the callback's error", name, err)
		}
	}
	if count != 4 {
		t.Errorf("callbacks ran %d times, want once each", count)
	}
	// A callback may write.
	must(t, s.Range(a.Chain, 4, func([]byte) error { return s.Put("b", "3", nil) }))
}

func largeCall(t *testing.T, m Maker) {
	s := m.New(t)
	var all []journal.Entry
	authors := make([]*Author, 4)
	for i := range authors {
		authors[i] = NewAuthor(ID(1), ID(uint64(2+i)))
		all = append(all, authors[i].Run(t, 1500, 600)...)
	}
	appends(t, s, all, journal.Stored)
	for i, a := range authors {
		holds(t, s, a.Chain, all[i*1500:(i+1)*1500])
	}
	must(t, s.KeepAside(all))
	if n := len(asides(t, s)); n != len(all) {
		t.Errorf("%d lines aside, want %d", n, len(all))
	}
}

func sampleIsRemoved(t *testing.T, m Maker) {
	s := m.New(t)
	sample, real := NewAuthor(ID(5), ID(2)), NewAuthor(ID(6), ID(2))
	other := NewAuthor(ID(5), ID(3))
	es, kept := sample.Run(t, 4500, 30), real.Run(t, 3, 40)
	appends(t, s, slices.Concat(es, kept, other.Run(t, 2, 40)), journal.Stored)
	must(t, s.KeepAside([]journal.Entry{es[0], kept[0]}))
	// One who reads it meanwhile just comes to an end.
	must(t, s.Range(sample.Chain, 1, func([]byte) error { return s.Remove(ID(5)) }))
	must(t, s.Remove(ID(5)))
	holds(t, s, sample.Chain, nil)
	holds(t, s, other.Chain, nil)
	holds(t, s, real.Chain, kept)
	if got := asides(t, s); !slices.Equal(got, []string{string(kept[0].Line)}) {
		t.Errorf("aside = %q", got)
	}
	if jobs, err := s.Jobs(); err != nil || !slices.Equal(jobs, []journal.ID{ID(6)}) {
		t.Errorf("Jobs = %v, %v, want the real treatment alone", jobs, err)
	}
	appends(t, s, es[:2], journal.Stored)
	holds(t, s, sample.Chain, es[:2])
}
