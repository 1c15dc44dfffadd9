package dossier

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// The laws of the log, one test each, as numbered in package journal.

var allKinds = []string{"open", "set", "begin", "end", "reading", "note", "amend", "strike", "clock", "close", "reopen", "imported", "item",
	"plan", "dwell", "act", "abort", "reason", "decide", "dry", "takeover", "overnight", "heard", "photo", "reckoned"}

func shuffled(t *rapid.T, es []journal.Entry, label string) []journal.Entry {
	out := slices.Clone(es)
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, label), 2))
	r.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

func TestLaw1Union(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		whole := s.all()
		want := bytesOf(foldOf(whole))
		merge := func(order ...*device) *journal.Log {
			var l journal.Log
			for _, d := range order {
				l.Merge(&d.log)
			}
			return &l
		}
		n := len(s.devs)
		i := rapid.IntRange(0, n-1).Draw(t, "i")
		a, b := s.devs[:i], s.devs[i:]
		one, two := merge(append(slices.Clone(b), a...)...), merge(s.devs...)
		if got := bytesOf(foldOf(one.Job(job))); got != want {
			t.Fatal("merging in another order folds to other bytes")
		}
		one.Merge(merge(a...))
		one.Merge(two)
		if journal.Digest(one.Heads()) != journal.Digest(two.Heads()) {
			t.Fatal("merging again changed the set")
		}
		twice := append(shuffled(t, whole, "order"), shuffled(t, whole, "again")...)
		if got := bytesOf(foldOf(twice)); got != want {
			t.Fatal("duplicates and another order fold to other bytes")
		}
	})
}

// A fork is refused before it gets here. Should one reach the set all the same,
// from a store that was put together by hand, it folds in one way only.
func TestLaw1UnionHoldsWithAForkInTheSet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		orig := s.devs[0]
		twin := &device{id: orig.id, skew: orig.skew, clock: orig.clock}
		twin.log.Merge(&orig.log)
		es := s.all()
		for range rapid.IntRange(1, 4).Draw(t, "each goes on") {
			now := twin.clock.Tick(s.now)
			es = append(es, s.writeAt(orig, now, "note", `{"text":"on the first phone"}`), s.writeAt(twin, now, "note", `{"text":"on its copy"}`))
		}
		if bytesOf(foldOf(shuffled(t, es, "one order"))) != bytesOf(foldOf(shuffled(t, es, "another"))) {
			t.Fatal("two entries in one place fold by order of arrival")
		}
	})
}

func TestLaw3Replacement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudio(rapid.Uint64().Draw(t, "seed"), 3, rapid.SampledFrom([]int64{0, yearsMS}).Draw(t, "skew"))
		first := s.write(s.devs[0], "set", `{"field":"fibre","value":"wool"}`, 0, journal.Name{})
		s.sync(s.devs[0], s.devs[1])
		s.sync(s.devs[1], s.devs[2])
		over := `,"over":["` + first.Name.String() + `"]}`
		k := rapid.IntRange(2, 3).Draw(t, "how many at once")
		var names []string
		for i := range k {
			s.pass(500)
			e := s.write(s.devs[i], "set", `{"field":"fibre","value":"wool, `+strconv.Itoa(i)+`"`+over, 0, journal.Name{})
			names = append(names, `"`+e.Name.String()+`"`)
		}
		es := shuffled(t, s.all(), "order")
		if got := foldOf(es).State().Fields["fibre"]; len(got) != k {
			t.Fatalf("%d values to choose from, want %d: %v", len(got), k, got)
		}
		for i := range s.devs {
			s.sync(s.devs[0], s.devs[i])
		}
		s.write(s.devs[0], "set", `{"field":"fibre","value":"wool bunting","over":[`+strings.Join(names, ",")+`]}`, 0, journal.Name{})
		got := foldOf(shuffled(t, s.all(), "order after")).State().Fields["fibre"]
		if len(got) != 1 || got[0].Value != "wool bunting" {
			t.Fatalf("after choosing: %v", got)
		}
	})
}

func TestLaw4TheUnknown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		d := s.devs[0]
		es := s.all()
		before := foldOf(es).State()
		of := es[rapid.IntRange(0, len(es)-1).Draw(t, "about")].Name.String()
		body := rapid.SampledFrom([]string{
			`{"of":{"deep":[1,2,{"x":null}]},"field":"name","value":"other"}`,
			`{"of":"` + of + `","over":["` + of + `"],"why":"x","body":{"text":"y"},"what":"wash","offset_ms":90000,"q":"ph","value":7,"field":"name","text":"z"}`,
			`{"of":["` + of + `"],"cue":"target:` + of + `","blob":"` + of + `","baths":[{"what":"wash"}],"over":["` + of + `"],"s":60,"name":"OT","who":"OT","what":"stop_rinsing","how":"touch"}`,
		}).Draw(t, "body")
		kind, bv, v := rapid.SampledFrom(allKinds).Draw(t, "kind"), 9, "1"
		switch rapid.IntRange(0, 2).Draw(t, "what is new") {
		case 0:
			kind, bv = "infrared", 1
		case 1:
			bv, v = 1, "2"
		}
		e, err := journal.Write(journal.Draft{Job: job, At: stamp(s.now + d.skew), By: "OT", Kind: kind, BV: bv, Body: jsontext.Value(body)},
			d.id, d.log.Head(journal.Chain{Job: job, Dev: d.id}), d.clock.Tick(s.now+d.skew))
		if err != nil {
			t.Fatal(err)
		}
		if e, err = journal.Parse([]byte(strings.Replace(string(e.Line), `{"v":1`, `{"v":`+v, 1))); err != nil {
			t.Fatal(err)
		}
		d.log.Add(e)
		x := foldOf(s.all())
		after := x.State()
		if after.Unknown != before.Unknown+1 || after.Entries != before.Entries+1 {
			t.Fatalf("unknown %d, entries %d", after.Unknown, after.Entries)
		}
		i := slices.IndexFunc(x.Log(0, x.Len()), func(l LogLine) bool { return l.Entry == e.Name.String() })
		if i < 0 || string(x.Log(i, 1)[0].Body) != string(e.Body) {
			t.Fatal("the log does not show the unknown entry as it is")
		}
		same := *after
		same.Unknown, same.Entries, same.LastMS = before.Unknown, before.Entries, before.LastMS
		if string(same.AppendJSON(nil)) != string(before.AppendJSON(nil)) {
			t.Fatal("an unknown entry changed what is known")
		}
	})
}

func TestLaw6Validity(t *testing.T) {
	odd := rapid.SampledFrom([]string{`{}`, `{"of":7}`, `{"of":"x"}`, `{"over":[1]}`, `{"q":"ph","value":15}`, `{"q":"ph","value":"acid"}`, `{"what":3,"litres":"many"}`,
		`{"litres":-1e300,"target_s":1.5,"what":"rinse"}`, `{"mono":[],"what":"wash"}`, `{"body":[],"of":""}`, `{"offset_ms":9223372036854775807}`, `{"field":"name","value":null}`, `{"offset_ms":"late"}`,
		`{"baths":[{"what":7}],"over":["x"]}`, `{"baths":[null]}`, `{"s":-5,"name":"OT"}`, `{"of":["x",7],"steps":[1],"generic":"no"}`, `{"cue":"::"}`, `{"blob":"x","bytes":-1}`, `{"what":"drying","sides":1e9}`, `{"what":"drying"}`,
		`{"field":"check.weighed","value":"perhaps"}`, `{"field":"colours","value":",,;\n"}`, `{"who":"OT","until":"never"}`})
	kinds := rapid.SampledFrom(allKinds)
	dates := rapid.SampledFrom([]string{"", "yesterday", "0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "2026-02-30T10:00:00Z", stamp(morning)})
	rapid.Check(t, func(t *rapid.T) {
		s := drawStudio(t)
		d := s.devs[0]
		for range rapid.IntRange(1, 8).Draw(t, "odd ones") {
			e, err := journal.Write(journal.Draft{Job: job, At: dates.Draw(t, "at"), By: rapid.String().Draw(t, "by"), Kind: kinds.Draw(t, "kind"), BV: 1, Body: jsontext.Value(odd.Draw(t, "body"))},
				d.id, d.log.Head(journal.Chain{Job: job, Dev: d.id}), journal.Time(rapid.Uint64().Draw(t, "t")))
			if err != nil {
				t.Fatal(err)
			}
			if v := d.log.Add(e); v != journal.Stored {
				t.Fatalf("a well-framed entry is %v", v)
			}
			s.act(d)
		}
		es := s.all()
		x := foldOf(es)
		if err := jsontext.Valid([]byte("[" + strings.Replace(bytesOf(x), "}[", "},[", 1) + "]")); err != nil {
			t.Fatalf("folded to broken JSON: %v", err)
		}
		if got := len(x.Log(0, x.Len())); got != len(es) {
			t.Fatalf("the log shows %d of %d entries", got, len(es))
		}
		if bytesOf(foldOf(shuffled(t, es, "order"))) != bytesOf(x) {
			t.Fatal("odd entries fold by order of arrival")
		}
	})
}

// What a person should look at is marked, entry by entry, and nothing else is.
func TestLaw6WhatIsDoubtfulIsMarked(t *testing.T) {
	nowhere := journal.Name{7}.String()
	cases := []struct{ name, kind, body, at, want string }{
		{"no time", "note", `{"text":"x"}`, "yesterday", "its time cannot be read"},
		{"from the future", "note", `{"text":"x"}`, stamp(morning + dayMS), "dated after it was recorded"},
		{"no text", "note", `{"text":7}`, "", "text cannot be read"},
		{"no value", "reading", `{"q":"ph","unit":"pH"}`, "", "the value is missing"},
		{"pH 15", "reading", `{"q":"ph","value":15,"unit":"pH"}`, "", "pH 15 is outside 0 to 14"},
		{"a quantity of later", "reading", `{"q":"turbidity","value":15,"unit":""}`, "", "does not know"},
		{"in a bath that is not here", "reading", `{"q":"ph","value":7,"unit":"pH","of":"` + nowhere + `"}`, "", "the bath that it was taken in has not arrived"},
		{"an end of nothing", "end", `{"of":"` + nowhere + `"}`, "", "the begin that it ends has not arrived"},
		{"an end of a note", "end", `{"of":"NOTE"}`, "", "what it ends is no bath"},
		{"an end before its begin", "end", `{"of":"BATH"}`, stamp(morning - 600_000), "it ends before it began"},
		{"an end of a struck bath", "end", `{"of":"STRUCK"}`, "", "the bath that it ends was struck"},
		{"a strike of nothing", "strike", `{"of":"` + nowhere + `","why":"x"}`, "", "the entry that it strikes has not arrived"},
		{"an amendment of nothing", "amend", `{"of":"` + nowhere + `","why":"x","body":{}}`, "", "the entry that it corrects has not arrived"},
		{"a clock that cannot be", "clock", `{"offset_ms":9223372036854775807}`, "", "no clock is wrong by more than a hundred years"},
		{"an abort of nothing", "abort", `{"of":["` + nowhere + `"]}`, "", "the begin that it ends has not arrived"},
		{"an abort of a note", "abort", `{"of":["NOTE"]}`, "", "what it ends is no bath"},
		{"a reason for nothing", "reason", `{"of":"` + nowhere + `","text":"x"}`, "", "the entry that it is about has not arrived"},
		{"an act on nothing", "act", `{"what":"turn","of":"` + nowhere + `"}`, "", "the entry that it is about has not arrived"},
		{"a plan that is none", "plan", `{"baths":"wash"}`, "", "baths cannot be read"},
		{"a plan of what", "plan", `{"baths":[{"liquid":"tap"}]}`, "", "baths cannot be read"},
		{"a dwell of nothing", "dwell", `{"s":0,"name":"OT"}`, "", "the time that was tested is missing"},
		{"a dwell on nobody's word", "dwell", `{"s":60}`, "", "the name of who vouches for it is missing"},
		{"half a colour", "reading", `{"q":"colour","value":2.5,"unit":"0-5"}`, "", "Bath colour 2.5 is not whole"},
		{"dry in the bath", "dry", `{"how":"touch"}`, stamp(morning + 1), "declared dry while Wash 1 wetted it"},
		{"no photograph", "photo", `{"blob":"x"}`, "", "blob cannot be read"},
		{"nothing heard", "heard", `{}`, "", "the cue is missing"},
		{"nobody stays", "overnight", `{}`, "", "the name of who answers for it is missing"},
		{"nothing done", "act", `{}`, "", "the act is missing"},
		{"an abort", "abort", `{"of":["BATH"]}`, "", ""},
		{"nothing odd", "note", `{"text":"water clear"}`, "", ""},
	}
	for _, c := range cases {
		s := newStudio(1, 1, 0)
		d := s.devs[0]
		note := s.write(d, "note", `{"text":"x"}`, 0, journal.Name{})
		bath := s.write(d, "begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`, 0, journal.Name{})
		struck := s.write(d, "begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`, 0, journal.Name{})
		s.write(d, "strike", `{"of":"`+struck.Name.String()+`","why":"wrong tray"}`, 0, journal.Name{})
		body := strings.NewReplacer("NOTE", note.Name.String(), "BATH", bath.Name.String(), "STRUCK", struck.Name.String()).Replace(c.body)
		at := c.at
		if at == "" {
			at = stamp(s.now)
		}
		e := d.take(journal.Draft{Job: job, At: at, By: "RV", Kind: c.kind, BV: 1, Body: jsontext.Value(body)}, d.clock.Tick(s.now))
		doubts := foldOf(s.all()).State().Doubts
		switch {
		case c.want == "":
			if len(doubts) != 0 {
				t.Errorf("%s: doubts %+v, want none", c.name, doubts)
			}
		case len(doubts) != 1 || doubts[0].Entry != e.Name.String() || !strings.Contains(doubts[0].Why, c.want):
			t.Errorf("%s: doubts %+v, want %q of that entry alone", c.name, doubts, c.want)
		}
	}
}

func TestEntriesOfAnotherTreatmentAreNotTaken(t *testing.T) {
	other := New(journal.NewID(1_770_000_000_001, [10]byte{8}))
	s := newStudio(5, 2, 0)
	s.live(10)
	for _, e := range s.all() {
		if other.Add(e) {
			t.Fatal("an entry of another treatment was taken")
		}
	}
	if n := other.State().Entries; n != 0 {
		t.Errorf("%d entries", n)
	}
}
