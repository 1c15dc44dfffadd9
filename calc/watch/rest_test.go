package watch

import (
	"strings"
	"testing"

	"sinkside/calc/dossier"
	"sinkside/calc/reckoning/rinsing"
)

// Rules at their edges, each of which a slip in the code would otherwise pass.

func TestAStoppedRinseIsNoLongerLookedUp(t *testing.T) {
	d := newDay()
	d.Plans = []dossier.Plan{{Baths: []dossier.PlannedBath{{What: "rinse", Liquid: "A"}, {What: "rinse", Liquid: "B"}, {What: "suction", Liquid: "C"}, {What: "rinse", Liquid: "D"}, {What: "wash", Liquid: "E"}}}}
	d.begin("rinse", 0, 5, 5).Planned = 1
	if got := Of(&d.State).Dwell.Liquid; got != "B" {
		t.Errorf("liquid %q, want that of the next rinse", got)
	}
	d.Decisions = []dossier.Decision{{What: "stop_rinsing", At: at(6)}}
	if got := Of(&d.State).Dwell.Liquid; got != "E" {
		t.Errorf("liquid %q after rinsing was stopped, want that of the wash", got)
	}
}

func TestABathBegunSinceTakesTheStopBack(t *testing.T) {
	d := newDay()
	d.Plans = []dossier.Plan{{Baths: []dossier.PlannedBath{{What: "rinse"}, {What: "rinse"}, {What: "rinse"}}}}
	d.begin("rinse", 0, 5, 5).Planned = 1
	d.Decisions = []dossier.Decision{{What: "stop_rinsing", At: at(6)}}
	has(t, "next", Of(&d.State).Next.Say, "Rinsing was stopped.")
	d.begin("rinse", 7, 5, 12).Planned = 2
	if n := Of(&d.State).Next; n.Place != 3 {
		t.Errorf("next %+v, want the third rinse", n)
	}
}

// A check and a reading come again: one that was heard without saying which says
// nothing of the next.
func TestWhatComesAgainIsHeardByItsTime(t *testing.T) {
	d := newDay()
	wash := d.begin("wash", 0, 30, 0).Entry
	dry := d.begin("drying", 0, 0, 0).Entry
	d.Heard = []dossier.Heard{{Cue: "reading:" + wash, By: "OT", AtMS: at(10).MS}, {Cue: "check:" + dry, By: "OT", AtMS: at(15).MS}}
	lacks(t, "cues", cues(Of(&d.State)), "OT")
}

func TestChecksThinOutAtTheHour(t *testing.T) {
	d := newDay()
	s := d.begin("drying", 0, 0, 0)
	for _, c := range []struct{ made, next float64 }{{119, 134}, {120, 180}, {121, 181}} {
		d.Acts = []dossier.Act{{What: "check", Of: s.Entry, At: at(c.made)}}
		if got := Of(&d.State).Drying.NextMS; got != at(c.next).MS {
			t.Errorf("checked at minute %v: next at %d, want %v", c.made, (got-nine)/minuteMS, c.next)
		}
	}
}

func TestDuesThatLieNearAreSaidAtOnce(t *testing.T) {
	d := newDay()
	s := d.begin("wash", 0, 30, 0)
	d.read(s, 1, "temperature", "22")
	d.read(s, 3, "ph", "7")
	d.conductivity(s, 3.1, "400", "22", false)
	has(t, "cues", cues(Of(&d.State)), "11 reading: Wash 1: temperature and pH are due")
}

func TestAColourThatFellAgainIsNoWarning(t *testing.T) {
	d := newDay()
	s := d.begin("wash", 0, 30, 0)
	d.read(s, 1, "colour", "1")
	d.read(s, 3, "colour", "3")
	has(t, "warnings", said(Of(&d.State)), "risen from 1 to 3")
	d.read(s, 5, "colour", "1")
	lacks(t, "warnings", said(Of(&d.State)), "risen")
}

func TestTheLastSourceCounts(t *testing.T) {
	d := upTo(2)
	s := &d.Steps[1]
	d.conductivity(s, 12, "6", "25", false)
	s.Readings[len(s.Readings)-1].Source = true
	if got := Of(&d.State).Rinse.Source.K25; got != 6 {
		t.Errorf("source %v, want the later, 6", got)
	}
	s.Readings[len(s.Readings)-1].At = at(-20)
	if got := Of(&d.State).Rinse.Source.K25; got != 4 {
		t.Errorf("source %v, want the later, 4", got)
	}
}

func TestADryingPartsTheRinses(t *testing.T) {
	d := upTo(2)
	d.begin("drying", 30, 0, 35)
	s := d.begin("rinse", 40, 5, 45)
	d.conductivity(s, 44, "30", "25", true)
	r := Of(&d.State).Rinse
	if !strings.HasPrefix(string(r.Working.Inputs), `{"readings":"30",`) {
		t.Errorf("asked with %s", r.Working.Inputs)
	}
}

func TestAWeighingPutRightAtOnceReplaces(t *testing.T) {
	d := kerchief()
	s := &d.Steps[len(d.Steps)-1]
	d.read(s, 90, "mass", "900").Unit = "g"
	d.read(s, 90.01, "mass", "90").Unit = "g"
	has(t, "asked", string(Of(&d.State).Drying.Working.Inputs), `"weighed":"90"`)
}

func TestWhichPlanAStepBelongsTo(t *testing.T) {
	for _, c := range []struct {
		name        string
		dry, made   float64
		place, wets int64
	}{
		{"made before it was dry", 100, 50, 2, 0},
		{"made as it was declared dry", 100, 100, 1, 0},
		{"made while that bath ran, and wet again since", 0, 3, 2, 200},
		{"made after that bath, and wet again since", 0, 50, 1, 200},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDay()
			d.Plans = []dossier.Plan{{AtMS: at(c.made).MS, Baths: []dossier.PlannedBath{{What: "wash"}, {What: "rinse"}, {What: "rinse"}}}}
			d.begin("wash", 0, 5, 5).Planned = 1
			d.WetSinceMS = nil
			if c.dry > 0 {
				d.Dry = &dossier.Dry{At: at(c.dry)}
			} else {
				d.begin("local", float64(c.wets), 0, 0)
			}
			if got := Of(&d.State).Next.Place; got != c.place {
				t.Errorf("next is place %d, want %d", got, c.place)
			}
		})
	}
}

// What shows in the rinse that runs counts, before its conductivity is read.
func TestSudsOfALaterRinseCount(t *testing.T) {
	d := upTo(5)
	if got := Of(&d.State).Rinse.Propose; got != rinsing.Stop {
		t.Fatalf("proposes %s", got)
	}
	s := d.begin("rinse", 60, 5, 0)
	d.read(s, 61, "suds", "1")
	r := Of(&d.State).Rinse
	if r.Propose != rinsing.GoOn {
		t.Errorf("proposes %s: %s", r.Propose, r.Say)
	}
	has(t, "reasons", strings.Join(r.Reasons, " "), "Suds still show.")
}

func TestAWashAfterTheRinsesTakesTheProposalBack(t *testing.T) {
	d := upTo(5)
	d.begin("wash", 60, 8, 0)
	r := Of(&d.State).Rinse
	if r.Propose != rinsing.Look {
		t.Errorf("proposes %s", r.Propose)
	}
	has(t, "what it says", r.Say, "Wash 2 was begun after the last rinse that was measured")
}

// Of a log without end the latest conductivities stand on the curve.
func TestTheCurveHasAnEnd(t *testing.T) {
	d := newDay()
	for i := range 100 {
		from := float64(20 * i)
		s := d.begin("rinse", from, 5, from+5)
		d.conductivity(s, from+2, "50", "25", false)
		d.conductivity(s, from+4, "40", "25", true)
	}
	r := Of(&d.State).Rinse
	if n := len(r.Points); n != mostPoints || r.Points[0].Label != "Rinse 26" || r.Points[n-1].Label != "Rinse 100" || !r.Points[n-1].AtEnd {
		t.Errorf("%d points from %s to %s", n, r.Points[0].Label, r.Points[n-1].Label)
	}
}
