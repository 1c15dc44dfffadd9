package watch

import (
	"strings"
	"testing"

	"sinkside/calc/dossier"
)

func TestCuesOfATarget(t *testing.T) {
	for _, c := range []struct {
		name         string
		minutes      float64
		want, speaks string
	}{
		{"eight minutes ring five before", 8, "3 ahead: Rinse 3: 5 min left\n8 target: Rinse 3: the time is up!", "Rinse three, five minutes left"},
		{"seven one before", 7, "6 ahead: Rinse 3: 1 min left\n7 target: Rinse 3: the time is up!", "Rinse three, one minute left"},
		{"three one before", 3, "2 ahead: Rinse 3: 1 min left\n3 target: Rinse 3: the time is up!", "Rinse three, one minute left"},
		{"two only at the end", 2, "2 target: Rinse 3: the time is up!", "Rinse three, the time is up"},
		{"none without a target", 0, "", ""},
		{"none with one below nothing", -5, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDay()
			s := d.begin("rinse", 0, c.minutes, 0)
			s.Ordinal = 3
			w := Of(&d.State)
			var kept []string
			for line := range strings.SplitSeq(cues(w), "\n") {
				if strings.Contains(line, "ahead") || strings.Contains(line, "target") {
					kept = append(kept, line)
				}
			}
			if got := strings.Join(kept, "\n"); got != c.want {
				t.Errorf("cues\n%s\nwant\n%s", got, c.want)
			}
			if c.speaks != "" && w.Cues[0].Speak != c.speaks {
				t.Errorf("speaks %q, want %q", w.Cues[0].Speak, c.speaks)
			}
		})
	}
}

func TestCuesVanishWithTheirStep(t *testing.T) {
	d := newDay()
	d.begin("rinse", 0, 8, 7)
	has(t, "cues", cues(Of(&d.State)), "mould")
	lacks(t, "cues", cues(Of(&d.State)), "Rinse")
	d.WetSinceMS = nil
	if got := cues(Of(&d.State)); got != "" {
		t.Errorf("cues of a dry object: %s", got)
	}
}

func TestNothingRingsForWhatIsClosed(t *testing.T) {
	d := newDay()
	d.begin("rinse", 0, 8, 0)
	d.Open = false
	if w := Of(&d.State); len(w.Cues) > 0 || len(w.Warnings) == 0 {
		t.Errorf("%d cues and %d warnings; want none and some", len(w.Cues), len(w.Warnings))
	}
}

func TestOneAcknowledgesForAll(t *testing.T) {
	d := newDay()
	s := d.begin("rinse", 0, 8, 0)
	d.Heard = []dossier.Heard{{Cue: "target:" + s.Entry, By: "OT", AtMS: at(8.2).MS}}
	has(t, "cues", cues(Of(&d.State)), "3 ahead: Rinse 1: 5 min left\n", "8 target: Rinse 1: the time is up! (OT)")
	// Put off by a correction, it rings again; put off before it rang at all, it
	// does not matter which of its names was acknowledged.
	s.Versions, s.TargetS = 2, 12*60
	has(t, "cues", cues(Of(&d.State)), "12 target: Rinse 1: the time is up!")
	lacks(t, "cues", cues(Of(&d.State)), "OT")
	s.TargetS = 6 * 60
	has(t, "cues", cues(Of(&d.State)), "6 target: Rinse 1: the time is up! (OT)")
}

// 23.1 - 20.1 is a little above 3 in binary.
func TestThreeDegreesAreNoDrift(t *testing.T) {
	d := newDay()
	s := d.begin("wash", 0, 8, 0)
	s.TempC = "20.1"
	d.read(s, 3, "temperature", "23.1")
	lacks(t, "warnings", said(Of(&d.State)), "the plan")
	d.read(s, 4, "temperature", "23.2")
	has(t, "warnings", said(Of(&d.State)), "3.1 °C above the plan")
}

// A begin that was put right twice rings at its last time, whatever was
// acknowledged at the time before; and not again where nothing changed.
func TestACorrectedBeginRingsAgain(t *testing.T) {
	d := newDay()
	s := d.begin("rinse", 0, 8, 0)
	id := func() string {
		for _, c := range Of(&d.State).Cues {
			if c.Kind == Target {
				return c.ID
			}
		}
		return ""
	}
	move := func(minute float64) {
		s.Versions++
		s.Begun = at(minute)
		s.Begun.At = stamp(s.Begun.MS)
	}
	move(2)
	d.Heard = append(d.Heard, dossier.Heard{Cue: id(), By: "OT", AtMS: at(10.1).MS})
	has(t, "cues", cues(Of(&d.State)), "10 target: Rinse 1: the time is up! (OT)")
	move(6)
	has(t, "cues", cues(Of(&d.State)), "14 target: Rinse 1: the time is up!")
	lacks(t, "cues", cues(Of(&d.State)), "(OT)")
	before := id()
	s.Versions++
	s.Begun.MS += 90_000 // the device learns that its clock was slow
	if id() != before {
		t.Error("the cue's name changes with what is known of a clock")
	}
}

func TestMouldAndWhoWasToBeBack(t *testing.T) {
	d := newDay()
	d.begin("wash", 0, 10, 10)
	dry := d.begin("drying", 20, 0, 0)
	w := Of(&d.State)
	has(t, "cues", cues(w), "1440 mould: Wet for 24 hours: look for mould!", "2880 mould: Wet for 48 hours")
	has(t, "warnings", said(w), "1440 caution: Wet for 24 hours.", "2880 limit: Wet for 48 hours.")
	d.Overnights = []dossier.Overnight{{Entry: "n", Who: "IB", At: at(500), UntilMS: ms(1435)}}
	w = Of(&d.State)
	has(t, "cues", cues(w), "1435 return: IB was to be back by now!", "1435 check: Drying 1: time to look at it!")
	d.Acts = append(d.Acts, dossier.Act{What: "check", Of: dry.Entry, At: at(1436)})
	lacks(t, "cues", cues(Of(&d.State)), "return")
	has(t, "cues", cues(Of(&d.State)), "1496 check")
	d.Overnights[0].UntilMS, d.Acts = nil, nil
	has(t, "cues", cues(Of(&d.State)), "35 check: Drying 1: time to look at it\n")
}

func TestReadingsDue(t *testing.T) {
	d := newDay()
	s := d.begin("wash", 0, 30, 0)
	has(t, "cues", cues(Of(&d.State)), "10 reading: Wash 1: temperature, pH and conductivity are due\n")
	d.read(s, 4, "temperature", "22")
	d.read(s, 9, "ph", "7")
	w := Of(&d.State)
	has(t, "cues", cues(w), "10 reading: Wash 1: conductivity is due")
	has(t, "warnings", said(w), "10 caution: Wash 1: conductivity is due.")
	if got := [...]int64{w.Due[0].AtMS, w.Due[1].AtMS, w.Due[2].AtMS}; got != [...]int64{at(14).MS, at(19).MS, at(10).MS} {
		t.Errorf("due at %v", got)
	}
	d.conductivity(s, 25, "400", "22", false)
	if got := Of(&d.State).Due[2].AtMS; got != at(30).MS {
		t.Errorf("due at minute %d, want the target, 30", (got-nine)/minuteMS)
	}
	d.conductivity(s, 29, "410", "22", true)
	if got := Of(&d.State).Due[2].AtMS; got != at(39).MS {
		t.Errorf("due at minute %d, want 39: it was read near the end", (got-nine)/minuteMS)
	}
	d.set("reading_every_min", "5")
	has(t, "cues", cues(Of(&d.State)), "9 reading: Wash 1: temperature is due")
	d.read(s, 29.5, "temperature", "much")
	has(t, "cues", cues(Of(&d.State)), "9 reading: Wash 1: temperature is due")
	d.set("reading_every_min", "often")
	has(t, "cues", cues(Of(&d.State)), "14 reading: Wash 1: temperature is due")
}

func TestChecksOfADrying(t *testing.T) {
	d := newDay()
	dry := d.begin("drying", 0, 0, 0)
	next := func() float64 { return float64(Of(&d.State).Drying.NextMS-nine) / minuteMS }
	if got := next(); got != 15 {
		t.Errorf("first check at %v, want 15", got)
	}
	act := func(what string, minute float64, of string) {
		d.Acts = append(d.Acts, dossier.Act{What: what, Of: of, At: at(minute)})
	}
	act("check", 14, dry.Entry)
	act("turn", 20, dry.Entry)
	act("check", 21, "another")
	if got := next(); got != 29 {
		t.Errorf("after a check at 14: %v, want 29", got)
	}
	act("blotter", 119, dry.Entry)
	if got := next(); got != 134 {
		t.Errorf("within the first two hours: %v, want 134", got)
	}
	act("check", 121, "")
	if w := Of(&d.State); w.Drying.NextMS != at(181).MS || w.Drying.Checks != 3 {
		t.Errorf("later: %v with %d checks, want 181 with 3", next(), w.Drying.Checks)
	}
	d.set("dry_later_min", "90")
	w := Of(&d.State)
	has(t, "cues", cues(w), "211 check: Drying 1: time to look at it!")
	// Acknowledged and not made, it comes again.
	d.Heard = []dossier.Heard{{Cue: w.Cues[0].ID, By: "RV", AtMS: at(213).MS}}
	has(t, "cues", cues(Of(&d.State)), "211 check: Drying 1: time to look at it! (RV)\n303 check: Drying 1: time to look at it!")
}

func TestWarnings(t *testing.T) {
	for _, c := range []struct {
		name, want string
		make       func(d *day)
	}{
		{"warmer than planned", "3 caution: Wash 1 has 25.5 °C, 3.5 °C above the plan.", func(d *day) {
			s := d.begin("wash", 0, 0, 0)
			s.TempC = "22"
			d.read(s, 3, "temperature", "25.5")
		}},
		{"colder than planned", "3 caution: Wash 1 has 18.5 °C, 3.5 °C below the plan.", func(d *day) {
			s := d.begin("wash", 0, 0, 0)
			s.TempC = "22"
			d.read(s, 3, "temperature", "18.5")
		}},
		{"colour rises", "4 caution: Wash 1: the colour of the bath has risen from 1 to 3 of 5. Look for what bleeds.", func(d *day) {
			s := d.begin("wash", 0, 0, 0)
			d.read(s, 2, "colour", "1")
			d.read(s, 4, "colour", "3")
			d.read(s, 5, "colour", "3")
		}},
		{"colour rises from rinse to rinse", "12 caution: Rinse 2: the colour of the bath has risen from 1 to 2 of 5", func(d *day) {
			s := d.begin("rinse", 0, 0, 10)
			d.read(s, 9, "colour", "1")
			s = d.begin("rinse", 11, 0, 0)
			d.read(s, 12, "colour", "2")
		}},
		{"outside the tested pH", "5 limit: Red: tested up to pH 7, the bath has 8.", func(d *day) {
			s := d.begin("wash", 0, 0, 0)
			d.Colours = []string{"red"}
			d.dwell("red", "", 60, "").PHTo = "7"
			d.read(s, 5, "ph", "8")
		}},
		{"past the target", "10 limit: Pre-soak 1 is past its 10 min.", func(d *day) { d.begin("presoak", 0, 10, 0) }},
		{"uncleared", "0 caution: Wash 1 was begun uncleared. The reason is still to be given.", func(d *day) { d.begin("wash", 0, 0, 5).Uncleared = true }},
		{"broken off", "7 caution: It was broken off. The reason is still to be written down.", func(d *day) { d.Aborts = []dossier.Abort{{Entry: "a", At: at(7)}} }},
		{"unticked", "0 caution: Wash 1 was begun with this unticked: stop plan agreed.", func(d *day) {
			d.Checklist = []dossier.Tick{{Item: "stop_plan_agreed", Title: "stop plan agreed"}, {Item: "weighed", Title: "weighed", Is: []dossier.FieldValue{{Value: "yes"}}}}
			d.begin("wash", 0, 0, 5).Unticked = []string{"stop_plan_agreed", "weighed"}
		}},
		{"two plans", "3 caution: Two plans stand side by side.", func(d *day) {
			d.Plans = []dossier.Plan{{Entry: "a", AtMS: at(2).MS}, {Entry: "b", AtMS: at(3).MS}}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDay()
			c.make(d)
			has(t, "warnings", said(Of(&d.State)), c.want)
		})
	}
}

func TestNoWarningWhereNoneIsDue(t *testing.T) {
	d := newDay()
	s := d.begin("wash", 0, 0, 0)
	s.TempC, s.Uncleared, s.Reason = "22", true, "no colour but undyed"
	d.read(s, 1, "temperature", "27")
	d.read(s, 2, "temperature", "25")
	d.read(s, 2, "colour", "3")
	d.read(s, 3, "colour", "2")
	d.Aborts = []dossier.Abort{{Entry: "a", Reason: "blue in the water"}}
	lacks(t, "warnings", said(Of(&d.State)), "plan", "risen", "reason")
}
