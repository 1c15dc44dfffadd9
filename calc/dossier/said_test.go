package dossier

import (
	"testing"

	"sinkside/sync/journal"
)

func TestAReadingIsAmendedWithAllThatBelongsToIt(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	b := write("begin", `{"what":"rinse","liquid":"tap","litres":9,"target_s":300}`)
	s.pass(600_000)
	r := s.write(s.devs[0], "reading", `{"q":"conductivity","value":84.0,"unit":"uS/cm","of":"`+b+`","liquor_c":20}`, 180_000, journal.Name{}).Name.String()
	st := foldOf(s.all()).State()
	if got := st.Steps[0].Readings[0]; !got.Late || got.How != "" || got.LiquorC != "20" || got.At.MS != s.now-180_000 {
		t.Errorf("entered three minutes late: %+v", got)
	}
	write("amend", `{"of":"`+r+`","over":["`+r+`"],"why":"misread","body":{"q":"conductivity","value":81.50,"unit":"uS/cm","liquor_c":21.40,"compensated":true,"source":true,"at_end":true,"instrument":"Meter 1","how":"estimate"}}`)
	st = foldOf(s.all()).State()
	if len(st.Steps[0].Readings) != 0 || len(st.Loose) != 1 || st.Readings != 1 {
		t.Fatalf("readings %s", st.AppendJSON(nil))
	}
	got := st.Loose[0]
	if got.Entry != r || got.Value != "81.50" || got.LiquorC != "21.40" || !got.Compensated || !got.Source || !got.AtEnd || got.Instrument != "Meter 1" || got.How != "estimate" || got.Of != "" {
		t.Errorf("amended: %+v", got)
	}
	write("strike", `{"of":"`+r+`","why":"wrong tray"}`)
	if st = foldOf(s.all()).State(); len(st.Loose) != 0 || st.Readings != 0 {
		t.Errorf("struck: %+v", st.Loose)
	}
	now := write("reading", `{"q":"ph","value":7,"unit":"pH"}`)
	if got := foldOf(s.all()).State().Loose[0]; got.Entry != now || got.Late || got.How != "clock" {
		t.Errorf("read now: %+v", got)
	}
}

// Two minutes are not late yet; a second more is.
func TestWhenAReadingIsLate(t *testing.T) {
	for ago, late := range map[string]bool{"120": false, "121": true} {
		s := newStudio(1, 1, 0)
		s.writer(s.devs[0])("reading", `{"q":"ph","value":7,"unit":"pH","ago_s":`+ago+`}`)
		if got := foldOf(s.all()).State().Loose[0].Late; got != late {
			t.Errorf("entered after %s s: late %v", ago, got)
		}
	}
}

func TestABackDatedDwellStandsAndIsCorrected(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	n := s.write(s.devs[0], "dwell", `{"colour":"red","s":1200,"temp_c":22.0,"name":"OT"}`, dayMS, journal.Name{}).Name.String()
	second := write("dwell", `{"s":600,"name":"IB"}`)
	ds := foldOf(s.all()).State().Dwells
	if len(ds) != 2 || ds[0].Entry != n || ds[0].AtMS != s.now-dayMS || ds[0].TempC != "22.0" || ds[1].Entry != second || ds[1].Colour != "" {
		t.Errorf("dwells %+v", ds)
	}
	write("amend", `{"of":"`+n+`","over":["`+n+`"],"why":"misread","body":{"colour":"red","s":900,"name":"OT"}}`)
	write("strike", `{"of":"`+second+`","why":"of another object"}`)
	if ds = foldOf(s.all()).State().Dwells; len(ds) != 1 || ds[0].S != 900 || ds[0].TempC != "" {
		t.Errorf("dwells %+v, want the first as corrected", ds)
	}
}

// What was done, decided, photographed and taken over stands by time; what it is
// about resolves through a name on a refused branch.
func TestLaw2WhatWasDoneIsAboutTheReissuedEntry(t *testing.T) {
	s := newStudio(1, 1, 0)
	refused := journal.Name{9}
	b := s.write(s.devs[0], "begin", `{"what":"rinse","liquid":"tap","litres":9,"target_s":300}`, 0, refused).Name.String()
	old := refused.String()
	write := s.writer(s.devs[0])
	s.pass(600_000)
	write("act", `{"what":"rock","of":"`+old+`","s":30}`)
	s.write(s.devs[0], "act", `{"what":"sponge","of":"`+old+`"}`, 120_000, journal.Name{})
	write("decide", `{"what":"go_on","why":"suds","proposed":"x","of":"`+old+`"}`)
	write("photo", `{"blob":"`+someRef+`","type":"image/jpeg","bytes":3,"of":"`+old+`","text":"hem"}`)
	write("reading", `{"q":"ph","value":7,"unit":"pH","of":"`+old+`"}`)
	write("takeover", `{"from":"OT"}`)
	write("overnight", `{"who":"IB","until":"2026-03-05T08:00:00Z","text":"x"}`)
	a := write("abort", `{"of":["`+old+`"],"steps":["drain"]}`)
	write("reason", `{"of":"`+old+`","text":"test was lost"}`)
	st := foldOf(s.all()).State()
	if len(st.Acts) != 2 || st.Acts[0].What != "sponge" || st.Acts[1].Of != b || st.Acts[1].S != 30 || st.Acts[1].Say != "Rocked the tray for 30 s" {
		t.Errorf("acts %+v", st.Acts)
	}
	if d := st.Decisions; len(d) != 1 || d[0].Of != b || d[0].Why != "suds" || d[0].Proposed != "x" {
		t.Errorf("decisions %+v", d)
	}
	if p := st.Photos; len(p) != 1 || p[0].Of != b || p[0].Blob != someRef || p[0].Bytes != 3 || p[0].Type != "image/jpeg" || p[0].Text != "hem" {
		t.Errorf("photographs %+v", p)
	}
	if r := st.Steps[0].Readings; len(r) != 1 || r[0].Of != b {
		t.Errorf("readings %+v", r)
	}
	if st.Takeovers[0].From != "OT" || st.Takeovers[0].By != "RV" || st.Overnights[0].Who != "IB" || st.Overnights[0].Until != "2026-03-05T08:00:00Z" {
		t.Errorf("people %+v %+v", st.Takeovers, st.Overnights)
	}
	if st.Aborts[0].Of[0] != b || st.Aborts[0].Steps[0] != "drain" || st.Steps[0].EndEntry != a || st.Steps[0].Reason != "test was lost" || len(st.Doubts) != 0 {
		t.Errorf("abort %+v of %+v, doubts %+v", st.Aborts, st.Steps, st.Doubts)
	}
}

// Reasons about each other in a ring can only be forged; saying them must end.
func TestAForgedRingOfReasonsEnds(t *testing.T) {
	s := newStudio(1, 1, 0)
	claimed := journal.Name{42}
	x := s.write(s.devs[0], "reason", `{"of":"`+claimed.String()+`","text":"x"}`, 0, journal.Name{})
	s.write(s.devs[0], "reason", `{"of":"`+x.Name.String()+`","text":"y"}`, 0, claimed)
	if l := foldOf(s.all()).Log(0, 2); l[0].Say != "Reason: x. It is about: a reason." {
		t.Errorf("says %q", l[0].Say)
	}
}

func TestTheShelf(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	write("item", `{"what":"initials","name":"RV"}`)
	write("item", `{"what":"liquid","name":"Deionised water"}`)
	write("item", `{"what":"initials","name":"OT"}`)
	write("item", `{"what":"initials","name":"RV"}`)
	made := write("item", `{"what":"batch","name":"Bath A","product":"alcohol ethoxylate","charge":"nonionic","lot":"7","active_pct":27.50,"target":4,"unit":"× CMC","litres":9.0,"product_g":12.5,"water":"Deionised","ph":6.8,"made":"2026-03-03T08:00:00Z","expires":"2026-06-01T00:00:00Z"}`)
	write("item", `{"what":"batch","name":"Bath B"}`)
	write("item", `{"what":"water","name":"Deionised","source":"deionised","conductivity":1.40,"liquor_c":20,"compensated":true,"ph":5.9,"hardness":0,"hardness_unit":"°dH","stock_l":80,"make_l_h":12}`)
	wrong := write("item", `{"what":"water","name":"Deionised","conductivity":14}`)
	write("item", `{"what":"instrument","name":"Meter 1","measures":["conductivity","temperature"],"compensates":true,"calibrated":"2026-03-01T08:00:00Z","note":"blue lead"}`)
	write("item", `{"what":"recipe","name":"of a later version"}`)
	write("item", `{"what":"batch"}`)
	if w := foldOf(s.all()).Shelf().Waters; len(w) != 1 || w[0].Entry != wrong || w[0].Conductivity != "14" || w[0].Source != "" {
		t.Errorf("waters %+v, want the later alone", w)
	}
	write("strike", `{"of":"`+wrong+`","why":"misread"}`)
	write("amend", `{"of":"`+made+`","over":["`+made+`"],"why":"weighed again","body":{"what":"batch","name":"Bath A","product_g":12.70,"gone":true}}`)
	x := foldOf(s.all()).Shelf()
	if len(x.Initials) != 2 || x.Initials[0] != "RV" || len(x.Liquids) != 1 || len(x.Batches) != 2 || len(x.Waters) != 1 || len(x.Instruments) != 1 {
		t.Fatalf("shelf %s", x.AppendJSON(nil))
	}
	if b := x.Batches[0]; b.Entry != made || b.ProductG != "12.70" || !b.Gone || b.Lot != "" || b.MadeMS != s.now || b.ExpiresMS != nil {
		t.Errorf("batch %+v, want it as corrected", b)
	}
	if w := x.Waters[0]; w.Conductivity != "1.40" || !w.Compensated || w.MakeLH != "12" || w.AtMS != s.now {
		t.Errorf("water %+v, want the earlier again", w)
	}
	if i := x.Instruments[0]; len(i.Measures) != 2 || !i.Compensates || i.CalibratedMS == nil || i.Note != "blue lead" {
		t.Errorf("instrument %+v", i)
	}
	for _, shelf := range []*Shelf{x, foldOf(s.all()[:9]).Shelf(), New(job).Shelf()} {
		if got, want := string(shelf.AppendJSON(nil)), stdlib(t, shelf); got != want {
			t.Errorf("shelf\n%s\nwant\n%s", got, want)
		}
	}
	if b := foldOf(s.all()[:9]).Shelf().Batches[0]; b.ActivePct != "27.50" || b.MadeMS != morning-dayMS || b.ExpiresMS == nil || b.Unit != "× CMC" {
		t.Errorf("batch %+v, want it as made", b)
	}
}

func TestLooseReadingsStandByTime(t *testing.T) {
	s := newStudio(1, 1, 0)
	s.pass(600_000)
	now := s.writer(s.devs[0])("reading", `{"q":"humidity","value":52,"unit":"%"}`)
	before := s.write(s.devs[0], "reading", `{"q":"air_temperature","value":21,"unit":"degC"}`, 300_000, journal.Name{}).Name.String()
	if l := foldOf(s.all()).State().Loose; len(l) != 2 || l[0].Entry != before || l[1].Entry != now {
		t.Errorf("loose %+v", l)
	}
}

// What lacks something without which it says nothing is doubtful, and not used; a
// plan with one bath that cannot be read is not used in part.
func TestLaw6WhatLacksItsPointIsNotUsed(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	good := write("plan", `{"baths":[{"what":"wash","liquid":"tap","litres":9,"target_s":300}]}`)
	for kind, body := range map[string]string{
		"plan": `{"baths":[{"what":"wash"},{"what":7}]}`, "dwell": `{"s":-5,"name":"OT"}`, "act": `{"text":"x"}`, "decide": `{"why":"x"}`,
		"overnight": `{"text":"x"}`, "heard": `{"cue":""}`, "photo": `{"type":"image/jpeg"}`, "reckoned": `{"name":"tray","inputs":{},"values":[]}`,
	} {
		write(kind, body)
	}
	st := foldOf(s.all()).State()
	if len(st.Plans) != 1 || st.Plans[0].Entry != good || len(st.Dwells)+len(st.Acts)+len(st.Decisions)+len(st.Overnights)+len(st.Heard)+len(st.Photos)+len(st.Reckoned) != 0 || len(st.Doubts) != 8 {
		t.Errorf("state %s", st.AppendJSON(nil))
	}
}

func TestLaw3AForgedRingOfPlansDropsNothing(t *testing.T) {
	s := newStudio(1, 1, 0)
	claimed := journal.Name{42}
	x := s.write(s.devs[0], "plan", `{"baths":[],"over":["`+claimed.String()+`"]}`, 0, journal.Name{})
	s.write(s.devs[0], "plan", `{"baths":[],"over":["`+x.Name.String()+`"]}`, 0, claimed)
	if ps := foldOf(s.all()).State().Plans; len(ps) != 2 {
		t.Errorf("plans %+v, want both", ps)
	}
}

// The source water's reading is none of the bath's.
func TestTheSourceIsNotTheLastReading(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	write("reading", `{"q":"conductivity","value":612,"unit":"uS/cm"}`)
	s.pass(60_000)
	write("reading", `{"q":"conductivity","value":4.1,"unit":"uS/cm","source":true}`)
	st := foldOf(s.all()).State()
	if st.Last["conductivity"].Value != "612" || st.Readings != 2 || len(st.Loose) != 2 {
		t.Errorf("last %+v of %d readings, want 612 of 2", st.Last["conductivity"], st.Readings)
	}
}
