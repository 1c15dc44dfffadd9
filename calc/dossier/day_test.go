package dossier

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
)

// writer writes on one device and returns the names of its entries.
func (s *studio) writer(d *device) func(kind, body string) string {
	return func(kind, body string) string { return s.write(d, kind, body, 0, journal.Name{}).Name.String() }
}

// Every kind of entry of a wash day, read like a conversation.
func TestTheWholeDayReadsWell(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	rinse, abort := "", ""
	for _, c := range []struct{ kind, body, want string }{
		{"set", `{"field":"check.weighed","value":"yes"}`, "Weighed: yes"},
		{"set", `{"field":"stop_plan","value":"drain the tray\nblot"}`, "Stop plan: drain the tray; blot"},
		{"set", `{"field":"dry_later_min","value":60}`, "Drying checked later every: 60 min"},
		{"plan", `{"baths":[{"what":"ph_adjust","liquid":"tap","litres":9,"target_s":480,"temp_c":21},{"what":"drying"}]}`, "Plan: 1. pH-adjusting bath, tap, 9 L, at 21 °C, for 8 min; 2. Drying."},
		{"plan", `{"baths":[]}`, "No plan any more."},
		{"dwell", `{"colour":"red silk","liquid":"Bath A","s":1200,"temp_c":22,"ph_from":6.0,"ph_to":7.5,"faces":"both","name":"Osk Tarrin"}`,
			"Tested: 20 min pressed and wet, red silk, in Bath A, at 22 °C, pH 6.0 to 7.5, both faces. Osk Tarrin vouches for it."},
		{"dwell", `{"s":600,"ph_to":7,"name":"OT"}`, "Tested: 10 min pressed and wet, every colour, up to pH 7. OT vouches for it."},
		{"begin", `{"what":"flowing","liquid":"deionised water","litres":9,"target_s":300,"where":"tray 2","uncleared":true,"unticked":["weighed","fans_ready"]}`,
			"Flowing rinse 1 begun, tray 2: deionised water, 9 L, for 5 min. Begun uncleared. Not ticked: Weighed; Fans ready."},
		{"reading", `{"q":"conductivity","value":84,"unit":"uS/cm","of":"RINSE","liquor_c":21.4,"compensated":true,"source":true,"at_end":true,"instrument":"Meter 1","how":"memory"}`,
			"Conductivity 84 µS/cm, liquor at 21.4 °C, brought to 25 °C by the meter, source water, at the end of the bath, with Meter 1, from memory"},
		{"reading", `{"q":"colour","value":3,"unit":"0-5"}`, "Bath colour 3 of 5"},
		{"reading", `{"q":"suds","value":0,"unit":""}`, "No suds"},
		{"reading", `{"q":"humidity","value":52,"unit":"%","how":"estimate"}`, "Humidity 52 %, estimated"},
		{"act", `{"what":"sponge","s":90,"text":"left sleeve"}`, "Sponged for 1 min 30 s: left sleeve"},
		{"photo", `{"blob":"` + someRef + `","of":"RINSE","text":"bleeding at the hem"}`, "Photograph, Flowing rinse 1: bleeding at the hem"},
		{"reckoned", `{"name":"rinse","title":"What rinses leave","inputs":{"kept":"1,5","fresh":{"value":"10","unit":"L"}},"values":[{"name":"left","title":"Left after these rinses","shown":"0.1 %","value":0.1,"unit":"%"},{"name":"grade","title":"pH kept","shown":"4-5"}],"program":"0.3.0 abc","text":"for the plan"}`, "Reckoned, What rinses leave (for the plan): left after these rinses 0.1 %; pH kept 4-5"},
		{"heard", `{"cue":"target:RINSE"}`, "Heard: target reached, Flowing rinse 1."},
		{"abort", `{"of":["RINSE"],"generic":true,"steps":["drain the tray.","blot"]}`, "Broken off: Flowing rinse 1. No stop plan had been agreed; the general list was shown. To do: drain the tray; blot."},
		{"reason", `{"of":"RINSE","text":"the hem bled."}`, "Reason for Flowing rinse 1: the hem bled."},
		{"reason", `{"of":"ABORT","text":"it ran"}`, "Reason for breaking off Flowing rinse 1: it ran."},
		{"close", `{"why":"washed and dry"}`, "Treatment closed: washed and dry."},
		{"reopen", `{}`, "Treatment opened again."},
		{"decide", `{"what":"stop_rinsing","why":"no suds","proposed":"Rinsing may stop."}`, "Decided to stop rinsing: no suds. Proposed was: Rinsing may stop."},
		{"begin", `{"what":"drying","face":"up","held":"none","airflow":"gentle","air_m_s":0.3,"sides":1}`, "Drying 1 begun: face up, not held down, gentle air, 0.3 m/s, one face open to the air."},
		{"takeover", `{"from":"OT"}`, "RV takes over at the sink from OT."},
		{"overnight", `{"who":"OT","until":"2026-03-05T08:00:00+01:00","text":"window open"}`, "Left overnight. OT answers for it until 2026-03-05 08:00: window open."},
		{"dry", `{"how":"touch","text":"hems too"}`, "Dry, by touch: hems too."},
		{"dry", `{"how":"weight","text":"as before washing."}`, "Dry, by weight: as before washing."},
		{"decide", `{"what":"go_on","why":"is that red?","proposed":"You decide."}`, "Decided to go on: is that red? Proposed was: You decide."},
		{"item", `{"what":"batch","name":"Bath A"}`, "Batch: Bath A"},
	} {
		n := write(c.kind, strings.ReplaceAll(strings.ReplaceAll(c.body, "RINSE", rinse), "ABORT", abort))
		if c.kind == "begin" && rinse == "" {
			rinse = n
		}
		if c.kind == "abort" {
			abort = n
		}
		s.pass(60_000)
		x := foldOf(s.all())
		if l := x.Log(x.Len()-1, 1)[0]; l.Say != c.want || l.Doubt != "" {
			t.Errorf("%s says\n%s (%s), want\n%s", c.kind, l.Say, l.Doubt, c.want)
		}
	}
	st := foldOf(s.all()).State()
	if step := st.Steps[0]; step.Reason != "the hem bled." || !step.Aborted || len(st.Aborts) != 1 || len(st.Plans) != 2 || st.Dry == nil || st.Loose[0].Q != "colour" {
		t.Errorf("state %s", st.AppendJSON(nil))
	}
}

var safe = regexp.MustCompile(`(?i)(^|[^\w-])safe(ly|r|ty)?($|[^\w-])`)

func TestNothingIsCalledSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// A word: the letters stand in the names of entries now and then.
		if got := bytesOf(foldOf(drawStudio(t).all())); safe.MatchString(got) {
			t.Fatalf("%s", got)
		}
	})
}

func TestWhatWetsAndWhatImmerses(t *testing.T) {
	for what, want := range map[string][2]bool{
		"presoak": {true, true}, "wash": {true, true}, "rinse": {true, true}, "flowing": {true, true}, "chelating": {true, true}, "ph_adjust": {true, true}, "immerse": {true, true},
		"local": {true, false}, "suction": {true, false}, "gel": {true, false}, "humidify": {true, false}, "drying": {false, false}, "steam bath": {true, true},
	} {
		s := newStudio(1, 1, 0)
		write := s.writer(s.devs[0])
		b := write("begin", `{"what":"`+what+`","liquid":"tap","litres":9,"target_s":300}`)
		st := foldOf(s.all()).State()
		if st.Steps[0].Wets != want[0] || st.Steps[0].Immerses != want[1] || (st.WetSinceMS != nil) != want[0] || (st.FirstWetMS != nil) != want[0] || (st.RunningSinceMS != nil) != want[1] {
			t.Errorf("%s runs: %s", what, st.AppendJSON(nil))
		}
		s.pass(60_000)
		write("end", `{"of":"`+b+`"}`)
		if st = foldOf(s.all()).State(); (st.ImmersedMS == 60_000) != want[1] {
			t.Errorf("%s: immersed %d ms", what, st.ImmersedMS)
		}
	}
}

// Code of before the day's kinds must not take a drying for a bath.
func TestLaw4AnOlderReaderNeverImmersesADrying(t *testing.T) {
	s := newStudio(1, 1, 0)
	write := s.writer(s.devs[0])
	b := write("begin", `{"what":"drying","face":"up"}`)
	write("end", `{"of":"`+b+`"}`)
	write("begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`)
	beginBV = 1
	defer func() { beginBV = 2 }()
	st := foldOf(s.all()).State()
	if st.Unknown != 1 || len(st.Steps) != 1 || st.Steps[0].What != "wash" || len(st.Doubts) != 0 || st.ImmersedMS != 0 {
		t.Errorf("state %s", st.AppendJSON(nil))
	}
}

func TestBodyVersion(t *testing.T) {
	for body, want := range map[string]int{`{"what":"wash"}`: 1, `{"what":"presoak"}`: 1, `{"what":"rinse"}`: 1, `{"what":"drying"}`: 2, `{"what":"gel"}`: 2, `{"what":"flowing"}`: 2, `{}`: 2} {
		if got := BodyVersion("begin", []byte(body)); got != want || BodyVersion("act", []byte(body)) != 1 {
			t.Errorf("begin %s has version %d, want %d", body, got, want)
		}
	}
}

func TestLaw5AnAbortArrivesBeforeItsBegin(t *testing.T) {
	s := newStudio(1, 1, 0)
	slow := &device{id: journal.NewID(1_766_000_000_000, [10]byte{5}), skew: -yearsMS}
	bath := s.write(s.devs[0], "begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300,"uncleared":true}`, 0, journal.Name{})
	other := s.write(s.devs[0], "begin", `{"what":"rinse","liquid":"tap","litres":9,"target_s":300}`, 0, journal.Name{})
	s.pass(60_000)
	s.write(slow, "clock", `{"offset_ms":`+itoa(yearsMS)+`}`, 0, journal.Name{})
	abort := s.write(slow, "abort", `{"of":["`+bath.Name.String()+`","`+bath.Name.String()+`","`+other.Name.String()+`"]}`, 0, journal.Name{})
	s.write(slow, "reason", `{"of":"`+abort.Name.String()+`","text":"the red ran"}`, 0, journal.Name{})
	s.write(slow, "reason", `{"of":"`+abort.Name.String()+`","text":"and the blue"}`, 0, journal.Name{})
	d := foldOf(slow.log.Job(job))
	if st := d.State(); len(st.Aborts) != 1 || len(st.Steps) != 0 || len(st.Doubts) != 1 || st.Doubts[0].Entry != abort.Name.String() {
		t.Fatalf("the abort alone: %s", st.AppendJSON(nil))
	}
	for _, e := range s.all() {
		d.Add(e)
	}
	st := d.State()
	if len(st.Steps) != 2 || len(st.Doubts) != 0 || st.Aborts[0].Reason != "the red ran; and the blue" || st.RunningSinceMS != nil || st.ImmersedMS != 60_000 {
		t.Errorf("with its begins: %s", st.AppendJSON(nil))
	}
	for _, step := range st.Steps {
		if !step.Aborted || step.EndEntry != abort.Name.String() || *step.LimitMS != 60_000 {
			t.Errorf("step %+v, want it ended by the abort", step)
		}
	}
	if want := bytesOf(foldOf(append(s.all(), slow.log.Job(job)...))); bytesOf(d) != want {
		t.Error("another order of arrival folds to other bytes")
	}
}

func TestLaw3TwoPlansAtOnceAreBothShown(t *testing.T) {
	s := newStudio(1, 2, 0)
	plan := func(d *device, litres, over string) string {
		return s.write(d, "plan", `{"baths":[{"what":"wash","liquid":"tap","litres":`+litres+`,"target_s":300}],"over":[`+over+`]}`, 0, journal.Name{}).Name.String()
	}
	first := plan(s.devs[0], "9", "")
	s.sync(s.devs[0], s.devs[1])
	a, b := plan(s.devs[0], "10.0", `"`+first+`"`), plan(s.devs[1], "11", `"`+first+`"`)
	if ps := foldOf(s.all()).State().Plans; len(ps) != 2 || ps[0].Entry != a || ps[0].Baths[0].Litres != "10.0" || ps[1].Entry != b {
		t.Errorf("plans %+v, want both", ps)
	}
	s.sync(s.devs[0], s.devs[1])
	c := plan(s.devs[0], "12", `"`+a+`","`+b+`"`)
	if ps := foldOf(s.all()).State().Plans; len(ps) != 1 || ps[0].Entry != c {
		t.Errorf("plans %+v, want the last", ps)
	}
	s.writer(s.devs[0])("strike", `{"of":"`+c+`","why":"wrong object"}`)
	if ps := foldOf(s.all()).State().Plans; len(ps) != 2 {
		t.Errorf("plans %+v, want both again", ps)
	}
}

func TestLaw3TwoTicksAndTwoListsOfColours(t *testing.T) {
	s := newStudio(1, 2, 0)
	for i, v := range []string{"yes", "no"} {
		s.writer(s.devs[i])("set", `{"field":"check.weighed","value":"`+v+`"}`)
		s.writer(s.devs[i])("set", `{"field":"colours","value":"`+[]string{"red, blue", "red; pink ribbon, taken off"}[i]+`"}`)
	}
	st := foldOf(s.all()).State()
	if len(st.Checklist) != 14 || st.Checklist[3].Item != "weighed" || len(st.Checklist[3].Is) != 2 || st.Checklist[0].Is == nil {
		t.Errorf("checklist %+v", st.Checklist)
	}
	if got := strings.Join(st.Colours, "|"); got != "red|blue|pink ribbon, taken off" {
		t.Errorf("colours %s", got)
	}
}

func TestHeardTwiceCountsOnce(t *testing.T) {
	s := newStudio(1, 2, 0)
	refused := journal.Name{9}
	bath := s.write(s.devs[0], "begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`, 0, refused).Name.String()
	s.write(s.devs[1], "heard", `{"cue":"target:`+refused.String()+`:x"}`, 0, journal.Name{})
	first := s.now
	s.pass(1000)
	again := s.writer(s.devs[0])("heard", `{"cue":"target:`+bath+`:x"}`)
	s.writer(s.devs[0])("heard", `{"cue":"mark:`+bath+`"}`)
	st := foldOf(s.all()).State()
	if h := st.Heard; len(h) != 2 || h[0].Cue != "target:"+bath+":x" || h[0].AtMS != first || h[1].Cue != "mark:"+bath {
		t.Errorf("heard %+v (and %s)", h, again)
	}
}
