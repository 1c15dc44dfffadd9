package rinsing

import (
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

// R-02 (d): 30 L with 1 L kept, and 10 L as 7 + 3 against 5 + 5.
func TestDividingWater(t *testing.T) {
	r := reckoningtest.Run(t, Split(), form{"kept": 1, "water": 30, "least": 6})
	for name, want := range map[string]float64{"best_n": 5, "best_left": 0.0059499, "portion": 6} {
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-4) {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	r = reckoningtest.Run(t, Split(), form{"kept": 1, "water": 10, "least": 2, "uneven": "7; 3"})
	if a, b := reckoningtest.Value(t, r, "own_left").Value, reckoningtest.Value(t, r, "even_left").Value; !reckoningtest.Near(a, 3.125, 1e-9) || !reckoningtest.Near(b, 2.7777777778, 1e-9) {
		t.Errorf("%v and %v", a, b)
	}
	reckoningtest.Refused(t, Split(), form{"kept": 1, "water": 10, "least": 2, "uneven": "7; 4"}, "uneven")
	reckoningtest.Refused(t, Split(), form{"kept": 1, "water": 10, "least": 12}, "water")
}

// (d): 12 L over 1 L kept leaves a twelfth; two fills of 11 L leave 0.7 %, running over
// takes 12 × ln 100 L; two trays in a row 10.5 L, by the published formula.
func TestStillAndRunning(t *testing.T) {
	r := reckoningtest.Run(t, Flow(), form{"kept": 1, "tank": 12, "target": 1, "flow": 2})
	for name, want := range map[string]float64{"still_n": 2, "still_water": 22, "over_water": 55.262, "over_minutes": 27.631, "counter_water": 10.5} {
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-4) {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	if say := r.Verdicts[0].Say; !strings.HasPrefix(say, "Still rinses take less") {
		t.Error(say)
	}
	reckoningtest.Refused(t, Flow(), form{"kept": 12, "tank": 12, "target": 1}, "kept")
}

// A last reading below the source is told as that, with what the source can be beside
// it, in the unit that it was given in: 80 µS/cm by a meter good to 2 % is at most
// 81.6 (d).
func TestALastReadingBelowTheSource(t *testing.T) {
	r := reckoningtest.Run(t, End(), form{"readings": "100; 90; 80", "source": "0,12 mS/cm"})
	if v := reckoningtest.Value(t, r, "under"); !reckoningtest.Near(v.Value, 40, 1e-12) {
		t.Errorf("%+v", v)
	}
	if _, ok := r.Value("excess"); ok {
		t.Error("a reading below the source is told as above it")
	}
	if say := r.Unknown[0].Say; !strings.Contains(say, "given as 0.12 mS/cm, can be up to 0.0816 mS/cm") {
		t.Error(say)
	}
	if say := reckoningtest.Verdict(t, r, "speaks"); !strings.HasPrefix(say, "The last reading is 40 µS/cm below the source") {
		t.Error(say)
	}
}

func TestWhatIsProposedStandsAmongTheAnswers(t *testing.T) {
	r := reckoningtest.Run(t, End(), form{"readings": "802; 202; 52", "source": 2})
	if say := reckoningtest.Verdict(t, r, "speaks"); say != "Go on rinsing: 2 rinses more like the last, by the readings." {
		t.Error(say)
	}
}

// Of two waters whose ranges overlap neither is called the less.
func TestLessWaterWithinTheError(t *testing.T) {
	f := form{"kept": 4, "tank": 12, "target": 1}
	if say := reckoningtest.Verdict(t, reckoningtest.Run(t, Flow(), f), "less"); !strings.HasPrefix(say, "Still rinses take less") { // 5 × 8 L against 55 L (d)
		t.Error(say)
	}
	if say := reckoningtest.Verdict(t, reckoningtest.Run(t, Flow(), f.With(form{"kept_pm": 2})), "less"); !strings.HasPrefix(say, "Within the ± neither") {
		t.Error(say)
	}
}

// What a field may be beside another stands in the refusal, in the field's own unit.
func TestWhatTheOthersAllow(t *testing.T) {
	for _, r := range []struct {
		of             *reckoning.Reckoning
		form           form
		field, allowed string
		say            string
	}{
		{Flow(), form{"kept": "1 L", "tank": "900 mL", "target": 1}, "kept", "below 0.9 L", "1 L is not below the water in the tray, 0.9 L"},
		{Flow(), form{"kept": "1 L", "kept_pm": 0.5, "tank": "1,2 L", "target": 1}, "kept", "below 1.2 L", "At the edge of the ±: Liquid kept after draining: 1.5 L"},
		{Split(), form{"kept": 1, "water": "10 L", "least": "12 L"}, "water", "12 to 50\u00a0000 L", "10 L does not cover the object once, for which 12 L is needed"},
		{Split(), form{"kept": 1, "water": "10 L", "least": "9 L", "least_pm": 2}, "water", "11 to 50\u00a0000 L", "At the edge of the ±: Water for all rinses: 10 L does not cover the object once, for which 11 L"},
		{Split(), form{"kept": 1, "water": "10 L", "least": "2 L", "uneven": "7; 4"}, "uneven", "adding up to 10 L", "it comes to 11 L"},
		{Rinse(), form{"kept": 1, "water": "1 US gal", "least": "5 L"}, "water", "1.33 to 13\u00a0200 US gal", "1 US gal does not cover the object once, for which 1.3209 US gal is needed"},
		{End(), form{"readings": "802; 202; 52", "source": 2, "litres": "9; 9; 9; 9"}, "litres", "3 figures", "4 figures for 3 readings"},
	} {
		if p := reckoningtest.Refused(t, r.of, r.form, r.field); p.Allowed != r.allowed || !strings.Contains(p.Say, r.say) {
			t.Errorf("%s %v: %+v", r.of.Name, r.form, p)
		}
	}
}
