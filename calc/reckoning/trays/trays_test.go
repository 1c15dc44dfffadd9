package trays

import (
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

func TestDepthRatioAndWetMass(t *testing.T) {
	r := reckoningtest.Run(t, Depth(), form{"length": 100, "width": 50, "litres": 20, "thick": 1, "cover": 3})
	for name, want := range map[string]float64{"depth": 4, "needed_depth": 4, "covering": 20} { // (d)
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-12) {
			t.Errorf("%s = %v, want %v", name, v.Value, want)
		}
	}
	r = reckoningtest.Run(t, Depth(), form{"shape": "sloped", "length": 100, "width": 50, "fall": 4, "litres": 20, "thick": 1, "cover": 3})
	for name, want := range map[string]float64{"depth": 2, "deep": 6, "reach": 100, "covering": 30} {
		if v := reckoningtest.Value(t, r, name); !reckoningtest.Near(v.Value, want, 1e-12) {
			t.Errorf("sloped: %s = %v, want %v", name, v.Value, want)
		}
	}
	reckoningtest.Refused(t, Depth(), form{"length": 100, "width": 50}, "litres")
	r = reckoningtest.Run(t, Ratio(), form{"dry_mass": 400, "litres": 20, "wanted": 60})
	if a, b := reckoningtest.Value(t, r, "ratio").Value, reckoningtest.Value(t, r, "litres").Value; !reckoningtest.Near(a, 50, 1e-12) || !reckoningtest.Near(b, 24, 1e-12) {
		t.Errorf("%v, %v", a, b)
	}
	// R-05 (d): a 400 g linen at 120 % holds 480 g.
	r = reckoningtest.Run(t, WetMass(), form{"dry_mass": 400, "by": "guess", "pick_up": 120, "support": 1})
	if a, b := reckoningtest.Value(t, r, "water").Value, reckoningtest.Value(t, r, "load").Value; !reckoningtest.Near(a, 480, 1e-12) || !reckoningtest.Near(b, 1880, 1e-12) {
		t.Errorf("%v, %v", a, b)
	}
	if len(r.Verdicts) != 1 || !strings.Contains(r.Verdicts[0].Say, "a guess of 120 %") {
		t.Errorf("a guess is not said to be one: %+v", r.Verdicts)
	}
	r = reckoningtest.Run(t, WetMass(), form{"dry_mass": 400, "by": "trial", "trial_dry": 10, "trial_wet": 22})
	if v := reckoningtest.Value(t, r, "pick_up").Value; !reckoningtest.Near(v, 120, 1e-12) {
		t.Errorf("%v", v)
	}
}

func TestATrialPieceThatIsNotWet(t *testing.T) {
	if p := reckoningtest.Refused(t, WetMass(), form{"dry_mass": 400, "by": "trial", "trial_dry": 31, "trial_wet": 12}, "trial_wet"); p.Allowed != "above 31 g" || p.Value != "12" || p.Unit != "g" {
		t.Errorf("%+v", p)
	}
}

// B-02 as a person types it, where hands at the start are the worse: the published
// example, printed 15.7 kg (a), and the third row (d).
func TestPublishedLifts(t *testing.T) {
	for _, c := range []struct {
		f    form
		want float64
	}{
		{form{"load": 12, "hands": 25, "from": 55, "to": 150, "rate": "1", "lasts": "2", "grip": "0.95", "start": "3", "end": "1"}, 15.68 * 0.775 / 0.940}, // the end, at 150 cm, is the worse
		{form{"load": 15, "hands": 50, "from": 40, "to": 100, "rate": "0.2", "lasts": "8", "grip": "0.9", "start": "3", "end": "2", "reach": "far"}, 7.05},
	} {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, Lift(), c.f), "limit"); !reckoningtest.Near(v.Value, c.want, 0.005) {
			t.Errorf("%v: %+v, want %v", c.f, v, c.want)
		}
	}
}

// The zones of the filter may not be left to say something else than the heights.
func TestContradictoryLifts(t *testing.T) {
	f := form{"load": 9, "hands": 40, "from": 80, "to": 110, "start": "2", "end": "1"}
	reckoningtest.Run(t, Lift(), f)
	if p := reckoningtest.Refused(t, Lift(), f.With(form{"from": "2 in"}), "start"); p.Allowed != "hands at 55 to 130 cm (22 to 51 in)" || !strings.Contains(p.Say, "hands are at 5.08 cm (2 in)") {
		t.Errorf("%+v", p)
	}
	reckoningtest.Refused(t, Lift(), f.With(form{"to": 170}), "end")
	for field, c := range map[string]struct {
		more    form
		allowed string
	}{
		"end":   {form{"start": "1", "end": "2"}, "head or shoulder to elbow"},
		"reach": {form{"hands": 60}, "arms stretched"},
		"rate":  {form{"rate": "9", "lasts": "8"}, "up to 8 in a minute"},
	} {
		if p := reckoningtest.Refused(t, Lift(), f.With(c.more), field); p.Allowed != c.allowed {
			t.Errorf("%+v, want %q", p, c.allowed)
		}
	}
}

// Whoever weighs in pounds and measures in inches reads the way to the figures so too,
// beside the metric in which both published ways are.
func TestLiftsInPoundsAndInches(t *testing.T) {
	f := form{"load": "20 lb", "hands": "16 in", "from": "32 in", "to": "44 in", "start": "2", "end": "1"}
	r := reckoningtest.Run(t, Lift(), f)
	put := ""
	for _, w := range r.Working {
		put += w.Put + "\n"
	}
	// 16 in = 40.64 cm, 44 in = 111.8 cm, 12 in = 30.48 cm, 20 lb = 9.07 kg, 23 kg = 50.7 lb: by hand.
	for _, want := range []string{"H 40.64 cm (16 in), V 111.8 cm (44 in), D 30.48 cm (12 in)", "23 kg (50.7 lb) × ", "9.07 kg (20 lb) ÷ ", "women 13 kg (28.7 lb)"} {
		if !strings.Contains(put, want) {
			t.Errorf("the working does not hold %q:\n%s", want, put)
		}
	}
	r = reckoningtest.Run(t, Lift(), form{"load": 9, "hands": 40, "from": 80, "to": 110, "start": "2", "end": "1"})
	for _, w := range r.Working {
		if strings.Contains(w.Put, "lb") || strings.Contains(w.Put, " in)") {
			t.Errorf("in metric: %s", w.Put)
		}
	}
}

// A load that may be heavier than a figure is judged as heavier.
func TestALoadIsJudgedAtItsHeaviest(t *testing.T) {
	f := form{"load": 9, "hands": 40, "from": 80, "to": 110, "rate": "1", "start": "2", "end": "1"} // women 9.1 kg
	if say := reckoningtest.Run(t, Lift(), f).Verdicts[0].Say; !strings.HasPrefix(say, "Within both") {
		t.Error(say)
	}
	if say := reckoningtest.Run(t, Lift(), f.With(form{"load_pm": 0.5})).Verdicts[0].Say; !strings.HasPrefix(say, "Beyond the filter's figure for women") {
		t.Error(say)
	}
}

// B-02, second row (d), and B-03.
func TestLifting(t *testing.T) {
	f := form{"load": 9, "hands": 40, "from": 80, "to": 110, "turn": 30, "rate": "1", "grip": "1", "start": "2", "end": "1", "reach": "close"}
	r := reckoningtest.Run(t, Lift(), f)
	// The end, at 110 cm, is the worse: 1 - 0.003 × 35 in place of 0.985.
	if v := reckoningtest.Value(t, r, "limit"); !reckoningtest.Near(v.Value, 11.67*0.895/0.985, 0.002) {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "men"); !reckoningtest.Near(v.Value, 14, 1e-12) { // 20 kg less 30 %
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "women"); !reckoningtest.Near(v.Value, 9.1, 1e-12) {
		t.Errorf("%+v", v)
	}
	for _, what := range []string{"filled_tray", "loose", "team"} {
		r := reckoningtest.Run(t, Lift(), form{"what": what})
		if len(r.Values) != 0 || len(r.Verdicts) != 1 || r.Verdicts[0].Title != "No figure is given" {
			t.Errorf("%s: %+v, %+v", what, r.Values, r.Verdicts)
		}
		if what == "filled_tray" && !strings.Contains(r.Verdicts[0].Say, "not lifted, carried or tipped") {
			t.Error(r.Verdicts[0].Say)
		}
	}
	for load, want := range map[float64]string{20: "Beyond what is published for one", 9.5: "Beyond the filter's figure for women", 5: "Within both figures"} {
		say := reckoningtest.Run(t, Lift(), f.With(form{"load": load})).Verdicts[0].Say
		if !strings.HasPrefix(say, want) {
			t.Errorf("%v kg: %s", load, say)
		}
	}
}

// Beside water leads are kept away, and no figure for a steady load is one for a tray.
func TestCautionsAboutPeopleComeWithDepthsAndLifts(t *testing.T) {
	said := func(r reckoning.Result, want string) {
		for _, c := range r.Cautions {
			if c.About == reckoning.People && strings.Contains(c.Say, want) {
				return
			}
		}
		t.Errorf("%q is not said: %+v", want, r.Cautions)
	}
	said(reckoningtest.Run(t, Depth(), form{"length": 100, "width": 50, "litres": 20}), "leads and chargers")
	said(reckoningtest.Run(t, Lift(), form{"load": 9, "hands": 40, "from": 80, "to": 110, "start": "2", "end": "1"}), "a tray with water in it is not lifted")
}
