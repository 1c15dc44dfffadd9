package dossier

import (
	"cmp"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

func TestLaw5Arrival(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		es := s.all()
		want := bytesOf(foldOf(es))
		d := New(job)
		for i, e := range shuffled(t, es, "order") {
			d.Add(e)
			if i == rapid.IntRange(0, len(es)).Draw(t, "looked at in between") {
				d.State() // a fold in mid-arrival must not stick
			}
		}
		if bytesOf(d) != want {
			t.Fatal("another order of arrival folds to other bytes")
		}
		// The reference decides, not the clock: a strike from a device whose clock
		// is years behind still strikes.
		slow := &device{id: journal.NewID(1_766_000_000_000, [10]byte{5}), skew: -yearsMS}
		target := es[rapid.IntRange(0, len(es)-1).Draw(t, "target")]
		strike := s.write(slow, "strike", `{"of":"`+target.Name.String()+`","why":"wrong object"}`, 0, journal.Name{})
		x := foldOf(append(es, strike))
		for _, l := range x.Log(0, x.Len()) {
			if l.Entry == target.Name.String() && l.Struck == nil {
				t.Fatal("a strike with an older clock than its target does not strike")
			}
		}
	})
}

// Whatever the clocks say, a chain keeps its order; between chains the clock
// decides, and where it says the same, the device.
func TestLaw5AChainKeepsItsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(1, 3, 0)
		times := rapid.OneOf(rapid.Uint64Range(0, 3), rapid.Uint64())
		for range rapid.IntRange(1, 20).Draw(t, "entries") {
			d := s.devs[rapid.IntRange(0, 2).Draw(t, "device")]
			s.writeAt(d, journal.Time(times.Draw(t, "clock")), "note", `{"text":"x"}`)
		}
		x := foldOf(s.all())
		type place struct {
			high journal.Time
			dev  string
			n    uint64
		}
		high := map[string]journal.Time{}
		byName := map[string]journal.Time{}
		for _, e := range s.all() { // chain by chain, in order
			high[e.Dev.String()] = max(high[e.Dev.String()], e.T)
			byName[e.Name.String()] = high[e.Dev.String()]
		}
		var before place
		for i, l := range x.Log(0, x.Len()) {
			p := place{byName[l.Entry], l.Dev, l.N}
			if i > 0 && cmp.Or(cmp.Compare(before.high, p.high), cmp.Compare(before.dev, p.dev), cmp.Compare(before.n, p.n)) >= 0 {
				t.Fatalf("%+v stands before %+v", before, p)
			}
			before = p
		}
	})
}

// What is about another entry takes effect although its own clock is forty years
// behind that entry's.
func TestLaw5TheReferenceDecides(t *testing.T) {
	s := newStudio(1, 1, 0)
	slow := &device{id: journal.NewID(1_766_000_000_000, [10]byte{5}), skew: -yearsMS}
	write := func(d *device, kind, body string) string {
		return s.write(d, kind, body, 0, journal.Name{}).Name.String()
	}
	begin := write(s.devs[0], "begin", `{"what":"wash","liquid":"bath A","litres":9,"target_s":300}`)
	reading := write(s.devs[0], "reading", `{"q":"ph","value":6.4,"unit":"pH"}`)
	note := write(s.devs[0], "note", `{"text":"x"}`)
	set := write(s.devs[0], "set", `{"field":"fibre","value":"wool"}`)
	write(slow, "clock", `{"offset_ms":`+strconv.Itoa(yearsMS)+`}`)
	end := write(slow, "end", `{"of":"`+begin+`"}`)
	write(slow, "amend", `{"of":"`+reading+`","over":["`+reading+`"],"why":"misread","body":{"q":"ph","value":6.1,"unit":"pH","of":"`+begin+`"}}`)
	write(slow, "strike", `{"of":"`+note+`","why":"wrong object"}`)
	write(slow, "set", `{"field":"fibre","value":"linen","over":["`+set+`"]}`)
	st := foldOf(append(s.all(), slow.log.Job(job)...)).State()
	if len(st.Steps) != 1 || st.Steps[0].EndEntry != end || len(st.Steps[0].Readings) != 1 || st.Last["ph"].Value != "6.1" {
		t.Errorf("steps %+v, last %+v", st.Steps, st.Last)
	}
	if st.Notes != 0 || len(st.Fields["fibre"]) != 1 || st.Fields["fibre"][0].Value != "linen" {
		t.Errorf("notes %d, fibre %+v", st.Notes, st.Fields["fibre"])
	}
}

// A re-issue can lose its place to another when an entry arrives late that puts
// it behind; what was worked out before must not stick.
func TestLaw5AnEarlierFoldLeavesNothing(t *testing.T) {
	s := newStudio(1, 2, 0)
	a, b := s.devs[0], s.devs[1]
	was := journal.Name{1}
	late := s.writeAt(a, journal.At(morning+dayMS), "note", `{"text":"from a clock a day ahead"}`)
	draft := func(text string) journal.Draft {
		return journal.Draft{Job: job, At: stamp(morning), By: "RV", Kind: "note", BV: 1, Body: jsontext.Value(`{"text":"` + text + `"}`), Was: was}
	}
	first := a.take(draft("by one heir"), journal.At(morning))
	second := b.take(draft("by another"), journal.At(morning+1))
	d := foldOf([]journal.Entry{first, second})
	d.State()
	d.Add(late)
	if got, want := bytesOf(d), bytesOf(foldOf([]journal.Entry{late, first, second})); got != want {
		t.Errorf("folded bit by bit\n%s\nat once\n%s", got, want)
	}
}

// Entries that were made late stand where what they tell happened.
func TestLaw5BackDatedEntriesStandWhereTheyHappened(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	write := func(kind, body string, agoMS int64) journal.Entry {
		return s.write(d, kind, body, agoMS, journal.Name{})
	}
	s.pass(3_600_000)
	second := write("begin", `{"what":"wash","liquid":"bath B","litres":9,"target_s":300}`, 0)
	latest := write("reading", `{"q":"ph","value":6.4,"unit":"pH"}`, 0)
	first := write("begin", `{"what":"wash","liquid":"bath A","litres":9,"target_s":300}`, 1_800_000)
	write("reading", `{"q":"ph","value":6.1,"unit":"pH"}`, 1_700_000)
	st := foldOf(s.all()).State()
	if len(st.Steps) != 2 || st.Steps[0].Entry != first.Name.String() || st.Steps[1].Ordinal != 2 {
		t.Errorf("steps %+v, want the one that was entered later first", st.Steps)
	}
	if st.Last["ph"].Entry != latest.Name.String() {
		t.Errorf("latest pH %+v, want the one that was taken last", st.Last["ph"])
	}
	// An amendment of the time moves a bath as well.
	at := stamp(s.now - 2_400_000)
	write("amend", `{"of":"`+second.Name.String()+`","over":["`+second.Name.String()+`"],"why":"began earlier","at":"`+at+`","body":`+string(second.Body)+`}`, 0)
	st = foldOf(s.all()).State()
	if st.Steps[0].Entry != second.Name.String() || st.Steps[0].Begun.MS != s.now-2_400_000 || st.Steps[0].Begun.At != at {
		t.Errorf("steps %+v, want the amended one first", st.Steps)
	}
}
