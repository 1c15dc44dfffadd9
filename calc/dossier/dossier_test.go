package dossier

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// A wash in order, folded and read like a conversation.
func TestAWashDayReadsWell(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	note := func(kind, body string) journal.Entry { return s.write(d, kind, body, 0, journal.Name{}) }
	note("open", `{"name":"Child's quilted bonnet","number":"MH-14"}`)
	note("set", `{"field":"dry_mass_g","value":41.50,"over":[]}`)
	s.pass(60_000)
	b := note("begin", `{"what":"rinse","liquid":"deionised water","litres":12,"target_s":480}`)
	s.pass(120_000)
	r := note("reading", `{"q":"ph","value":6.40,"unit":"pH","of":"`+b.Name.String()+`"}`)
	note("amend", `{"of":"`+r.Name.String()+`","over":["`+r.Name.String()+`"],"why":"misread","body":{"q":"ph","value":6.10,"unit":"pH","of":"`+b.Name.String()+`"}}`)
	s.pass(360_000)
	e := note("end", `{"of":"`+b.Name.String()+`"}`)
	n := note("note", `{"text":"water clear"}`)
	note("strike", `{"of":"`+n.Name.String()+`","why":"wrong tray"}`)
	note("reading", `{"q":"temperature","value":21.5,"unit":"degC"}`)
	note("clock", `{"offset_ms":-192000}`)

	x := foldOf(s.all())
	want := []string{
		"Treatment opened: Child's quilted bonnet, number MH-14.",
		"Dry mass: 41.50 g",
		"Rinse 1 begun: deionised water, 12 L, for 8 min.",
		"pH 6.40",
		"Correction of: pH 6.40",
		"Rinse 1 ended after 8 min.",
		"water clear",
		"Struck: water clear",
		"Temperature 21.5 °C",
		"This device's clock was 3 min 12 s ahead of the studio machine's.",
	}
	log := x.Log(0, 99)
	for i, l := range log {
		if l.Say != want[i] {
			t.Errorf("line %d says %q, want %q", i, l.Say, want[i])
		}
	}
	if a := log[3].Amended; len(a) != 1 || a[0].Say != "pH 6.10" || a[0].Why != "misread" || !a[0].Stands {
		t.Errorf("corrections of the reading: %+v", a)
	}
	if log[6].Struck == nil || log[6].Struck.Why != "wrong tray" {
		t.Errorf("the struck note: %+v", log[6].Struck)
	}
	st := x.State()
	if st.Last["ph"].Value != "6.10" || st.Fields["dry_mass_g"][0].Value != "41.50" || st.Notes != 0 || st.Readings != 2 {
		t.Errorf("state: %s", st.AppendJSON(nil))
	}
	if s := st.Steps[0]; s.EndEntry != e.Name.String() || *s.LimitMS != 480_000 || len(s.Readings) != 1 || s.Readings[0].Value != "6.10" {
		t.Errorf("step: %+v", s)
	}
	if !st.Steps[0].Begun.Corrected {
		t.Error("the clock entry came later in the chain, and the times before it were not corrected")
	}
	sum := Summarise(st)
	if sum.Name != "Child's quilted bonnet" || sum.Number != "MH-14" || !sum.Open || sum.LastDay%dayMS != 0 || sum.LastDay > st.LastMS {
		t.Errorf("summary: %+v", sum)
	}
}

func TestLaw7ABathEndedTwiceCountsTheLongerTime(t *testing.T) {
	s := newStudio(1, 2, 0)
	a, b := s.devs[0], s.devs[1]
	begin := s.write(a, "begin", `{"what":"wash","liquid":"bath A","litres":9,"target_s":300}`, 0, journal.Name{})
	s.sync(a, b)
	s.pass(300_000)
	first := s.write(a, "end", `{"of":"`+begin.Name.String()+`"}`, 0, journal.Name{})
	s.pass(45_000)
	second := s.write(b, "end", `{"of":"`+begin.Name.String()+`"}`, 0, journal.Name{})
	st := foldOf(s.all()).State()
	step := st.Steps[0]
	if step.EndEntry != first.Name.String() || *step.ClockMS != 300_000 || *step.LimitMS != 345_000 || st.ImmersedMS != 345_000 {
		t.Errorf("step %+v, immersed %d", step, st.ImmersedMS)
	}
	if len(st.Doubts) != 1 || st.Doubts[0].Entry != second.Name.String() {
		t.Errorf("doubts: %+v", st.Doubts)
	}
}

func TestStrikingAStrikeGivesTheEntryBack(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	n := s.write(d, "note", `{"text":"dye on the blotter"}`, 0, journal.Name{})
	k := s.write(d, "strike", `{"of":"`+n.Name.String()+`","why":"wrong tray"}`, 0, journal.Name{})
	if got := foldOf(s.all()).State().Notes; got != 0 {
		t.Fatalf("a struck note counts: %d", got)
	}
	s.write(d, "strike", `{"of":"`+k.Name.String()+`","why":"right tray after all"}`, 0, journal.Name{})
	if got := foldOf(s.all()).State().Notes; got != 1 {
		t.Errorf("notes = %d, want 1", got)
	}
	// A second copy of the strike that was taken back strikes nothing.
	s.write(d, "strike", string(k.Body), 0, k.Name)
	if got := foldOf(s.all()).State().Notes; got != 1 {
		t.Errorf("with a copy of the first strike: notes = %d, want 1", got)
	}
}

func TestTheFirstOfTwoStrikesIsShown(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	n := s.write(d, "note", `{"text":"x"}`, 0, journal.Name{})
	s.write(d, "strike", `{"of":"`+n.Name.String()+`","why":"wrong tray"}`, 0, journal.Name{})
	s.write(d, "strike", `{"of":"`+n.Name.String()+`","why":"wrong object"}`, 0, journal.Name{})
	if l := foldOf(s.all()).Log(0, 1)[0]; l.Struck == nil || l.Struck.Why != "wrong tray" {
		t.Errorf("struck %+v, want the first reason", l.Struck)
	}
}

func TestATreatmentClosesAndOpensAgain(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	for _, c := range []struct {
		kind, body string
		open       bool
	}{{"open", `{"name":"Harbour-office signal flag","sample":true}`, true}, {"close", `{}`, false}, {"reopen", `{}`, true}, {"close", `{"why":"returned"}`, false}} {
		s.write(d, c.kind, c.body, 0, journal.Name{})
		if st := foldOf(s.all()).State(); st.Open != c.open || !st.Sample {
			t.Errorf("after %s: open %v, sample %v", c.kind, st.Open, st.Sample)
		}
	}
}

func TestAnAmendmentOfAnAmendmentIsAboutTheFirstEntry(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	body := func(litres string) string {
		return `{"what":"wash","liquid":"bath A","litres":` + litres + `,"target_s":300,"uncleared":true}`
	}
	b := s.write(d, "begin", body("9"), 0, journal.Name{})
	over := b
	for _, litres := range []string{"10", "11"} {
		over = s.write(d, "amend", `{"of":"`+over.Name.String()+`","over":["`+over.Name.String()+`"],"why":"measured again","body":`+body(litres)+`}`, 0, journal.Name{})
	}
	st := foldOf(s.all()).State().Steps[0]
	if st.Litres != "11" || st.Versions != 3 || st.Choose || !st.Uncleared {
		t.Errorf("step %+v, want the last of three versions, begun uncleared", st)
	}
}

func TestLaw3TwoCorrectionsAtOnceAreBothShown(t *testing.T) {
	s := newStudio(1, 2, 0)
	a, b := s.devs[0], s.devs[1]
	begin := s.write(a, "begin", `{"what":"wash","liquid":"bath A","litres":9,"target_s":300}`, 0, journal.Name{})
	s.sync(a, b)
	amend := func(d *device, litres string, over ...journal.Entry) journal.Entry {
		var names []string
		for _, o := range over {
			names = append(names, `"`+o.Name.String()+`"`)
		}
		return s.write(d, "amend", `{"of":"`+begin.Name.String()+`","over":[`+strings.Join(names, ",")+`],"why":"measured again","body":{"what":"wash","liquid":"bath A","litres":`+litres+`,"target_s":300}}`, 0, journal.Name{})
	}
	x, y := amend(a, "10", begin), amend(b, "11", begin)
	if st := foldOf(s.all()).State().Steps[0]; !st.Choose || st.Versions != 3 || st.Litres != "11" {
		t.Errorf("two corrections at once: %+v, want the later one shown and a choice", st)
	}
	struck := s.write(&device{id: journal.NewID(1_766_000_000_000, [10]byte{5})}, "strike", `{"of":"`+y.Name.String()+`","why":"wrong bath"}`, 0, journal.Name{})
	if st := foldOf(append(s.all(), struck)).State().Steps[0]; st.Choose || st.Versions != 3 || st.Litres != "10" {
		t.Errorf("one of them struck: %+v, want the other", st)
	}
	s.sync(a, b)
	amend(a, "10.5", x, y)
	if st := foldOf(s.all()).State().Steps[0]; st.Choose || st.Litres != "10.5" || st.Versions != 4 {
		t.Errorf("after choosing: %+v", st)
	}
}

// A ring of strikes can only be forged, by claiming the name that another
// entry will refer to. It must end, and the same way in any order.
func TestAForgedRingOfStrikesEnds(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	claimed := journal.Name{42}
	x := s.write(d, "strike", `{"of":"`+claimed.String()+`","why":"x"}`, 0, journal.Name{})
	y := s.write(d, "strike", `{"of":"`+x.Name.String()+`","why":"y"}`, 0, claimed)
	if bytesOf(foldOf([]journal.Entry{x, y})) != bytesOf(foldOf([]journal.Entry{y, x})) {
		t.Error("a ring folds by order of arrival")
	}
}

// Values that replace each other in a ring, which can only be forged as well, are
// all shown; corrections in a ring are none of them used, and one says so.
func TestLaw3AForgedRingDropsNothing(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	claimed, ringed := journal.Name{42}, journal.Name{43}
	x := s.write(d, "set", `{"field":"fibre","value":"wool","over":["`+claimed.String()+`"]}`, 0, journal.Name{})
	s.write(d, "set", `{"field":"fibre","value":"linen","over":["`+x.Name.String()+`"]}`, 0, claimed)
	n := s.write(d, "note", `{"text":"clear"}`, 0, journal.Name{})
	a := s.write(d, "amend", `{"of":"`+n.Name.String()+`","over":["`+ringed.String()+`"],"why":"x","body":{"text":"cloudy"}}`, 0, journal.Name{})
	s.write(d, "amend", `{"of":"`+n.Name.String()+`","over":["`+a.Name.String()+`"],"why":"y","body":{"text":"milky"}}`, 0, ringed)
	st := foldOf(s.all()).State()
	if got := st.Fields["fibre"]; len(got) != 2 {
		t.Errorf("fibre %+v, want both", got)
	}
	if len(st.Doubts) != 1 || st.Doubts[0].Entry != a.Name.String() {
		t.Errorf("doubts %+v, want one about the ring", st.Doubts)
	}
}

// stdlib is what encoding/json makes of v, without its HTML escapes.
func stdlib(t interface{ Fatal(...any) }, v any) string {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		t.Fatal(err)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func TestWritesWhatTheTagsSay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := foldOf(drawStudio(t).all())
		if got, want := string(x.State().AppendJSON(nil)), stdlib(t, x.State()); got != want {
			t.Fatalf("state\n%s\nwant\n%s", got, want)
		}
		sum := Summarise(x.State())
		if got, want := string(sum.AppendJSON(nil)), stdlib(t, sum); got != want {
			t.Fatalf("summary\n%s\nwant\n%s", got, want)
		}
		lines := x.Log(0, x.Len())
		var got, want any
		if err := json.Unmarshal(AppendLog(nil, lines), &got); err != nil {
			t.Fatal(err)
		}
		// A Value is bytes to encoding/json, which writes them as base64: compare
		// the members around it, and it by itself.
		if err := json.Unmarshal([]byte(stdlib(t, lines)), &want); err != nil {
			t.Fatal(err)
		}
		gs, ws := got.([]any), want.([]any)
		for i := range gs {
			g, w := gs[i].(map[string]any), ws[i].(map[string]any)
			body, _ := json.Marshal(g["body"])
			var as any
			_ = json.Unmarshal(lines[i].Body, &as)
			again, _ := json.Marshal(as)
			if string(body) != string(again) {
				t.Fatalf("body %s, want %s", body, again)
			}
			for _, m := range []map[string]any{g, w} {
				delete(m, "body")
				for _, a := range m["amended"].([]any) {
					delete(a.(map[string]any), "body")
				}
			}
			if stdlib(t, g) != stdlib(t, w) {
				t.Fatalf("line\n%s\nwant\n%s", stdlib(t, g), stdlib(t, w))
			}
		}
	})
}

func FuzzFold(f *testing.F) {
	s := newStudio(3, 2, yearsMS)
	s.live(12)
	for _, e := range s.all() {
		f.Add(e.Kind, e.At, []byte(e.Body))
	}
	f.Fuzz(func(t *testing.T, kind, at string, body []byte) {
		v, err := jsontext.Trim(body)
		if err != nil || v.Kind() != jsontext.Object {
			return
		}
		e, err := journal.Write(journal.Draft{Job: job, At: at, By: "RV", Kind: kind, BV: 1, Body: v}, s.devs[0].id, journal.Head{}, 5)
		if err != nil {
			return
		}
		x := foldOf(append(s.all(), e))
		if err := jsontext.Valid(x.State().AppendJSON(nil)); err != nil {
			t.Fatal(err)
		}
		if err := jsontext.Valid(AppendLog(nil, x.Log(0, x.Len()))); err != nil {
			t.Fatal(err)
		}
		if out, errs := Check(Proposal{Kind: kind, Body: v, At: at, By: "RV"}, Now{MS: morning}, x.State()); errs == nil && jsontext.Valid(out) != nil {
			t.Fatalf("Check made broken JSON: %s", out)
		}
	})
}
