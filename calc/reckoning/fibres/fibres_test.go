package fibres

import (
	"math"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

// F-01 at the door: marks as in calc/moisture.
func TestRegainAtTheDoor(t *testing.T) {
	rows := []struct {
		form   form
		figure string
		want   float64
	}{
		{form{"known": "both", "conditioned": 10, "dry": 7}, "regain", 42.857142857142854}, {form{"known": "both", "conditioned": 10, "dry": 7}, "content", 30},
		{form{"known": "conditioned", "conditioned": 250, "regain": 12}, "dry_mass", 223.21428571428572},
		{form{"known": "dry", "dry": 180, "convention": "astm", "fibre": "wool"}, "commercial", 204.48},
		{form{"known": "dry", "dry": 180, "convention": "eu", "fibre": "wool"}, "commercial", 180 * 1.1825},
		{form{"known": "dry", "dry": 180, "convention": "house"}, "commercial", 180 * 1.17},
		{form{"known": "dry", "dry": 180, "convention": "own", "own": 16}, "commercial", 180 * 1.16},
		{form{"known": "dry_regain", "dry": 223.21428571428572, "regain": 12}, "conditioned_mass", 250}, {form{"known": "conditioned_content", "conditioned": 10, "content": 30}, "dry_mass", 7},
		{form{"known": "conditioned_content", "conditioned": 10, "content": 30}, "regain", 42.857142857142854},
		{form{"known": "content", "content": 30}, "regain", 42.857142857142854},
	}
	for _, r := range rows {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, Regain(), r.form), r.figure); !reckoningtest.Near(v.Value, r.want, 1e-12) {
			t.Errorf("%v: %s is %v, want %v", r.form, r.figure, v.Value, r.want)
		}
	}
	reckoningtest.Refused(t, Regain(), form{"known": "both", "conditioned": 7, "dry": 10}, "dry")
	// F-02: 16 to 17 % for a conditioning house (a), 17 carded to 18.25 combed in the EU (b).
	for convention, want := range map[string][2]float64{"house": {16, 17}, "eu": {17, 18.25}} {
		r := reckoningtest.Run(t, Regain(), form{"known": "dry", "dry": 100, "convention": convention, "fibre": "wool"})
		if convention == "house" {
			r = reckoningtest.Run(t, Regain(), form{"known": "dry", "dry": 100, "convention": convention})
		}
		a, m := reckoningtest.Value(t, r, "agreed"), reckoningtest.Value(t, r, "commercial")
		if !reckoningtest.Near(*a.Low, want[0], 1e-12) || !reckoningtest.Near(*a.High, want[1], 1e-12) || !reckoningtest.Near(*m.Low, 100+want[0], 1e-12) || !reckoningtest.Near(*m.High, 100+want[1], 1e-12) {
			t.Errorf("%s: %+v, %+v", convention, a, m)
		}
	}
}

// F-03 (b).
func TestEquilibriumAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Equilibrium(), form{"fibre": "linen yarn", "humidity": 50, "other": 70, "mass": 1081})
	if v := reckoningtest.Value(t, r, "regain"); !reckoningtest.Near(v.Value, 8.1, 1e-12) || math.Abs(*v.Low-6.6) > 1e-9 || math.Abs(*v.High-9.6) > 1e-9 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "change"); !reckoningtest.Near(v.Value, 17, 1e-9) { // 1000 g dry, 1.7 %
		t.Errorf("%+v", v)
	} else if *v.Low != 0 || !reckoningtest.Near(*v.High, 47, 1e-9) { // 1.5 either way at both, and never given off
		t.Errorf("%v to %v", *v.Low, *v.High)
	}
	r = reckoningtest.Run(t, Equilibrium(), form{"fibre": "linen yarn", "humidity": 70, "other": 50, "mass": 1098})
	if v := reckoningtest.Value(t, r, "change"); !reckoningtest.Near(v.Value, -17, 1e-9) || *v.High != 0 || !reckoningtest.Near(*v.Low, -47, 1e-9) {
		t.Errorf("%+v", v)
	}
	reckoningtest.Refused(t, Equilibrium(), form{"humidity": 95}, "humidity")
}

// What is from memory says so where it is shown: in the step that takes it, in the
// table and in the source.
func TestWhatIsFromMemorySaysSo(t *testing.T) {
	for _, r := range []struct {
		form   form
		mark   string
		memory bool // the step says it
	}{
		{form{"known": "dry", "dry": 100, "convention": "astm", "fibre": "wool"}, reckoning.Read, false},
		{form{"known": "dry", "dry": 100, "convention": "astm", "fibre": "viscose"}, reckoning.Memory, true},
		{form{"known": "dry", "dry": 100, "convention": "eu", "fibre": "flax"}, reckoning.Memory, true},
	} {
		out := reckoningtest.Run(t, Regain(), r.form)
		found := false
		for _, w := range out.Working {
			if !strings.HasPrefix(w.Say, "Commercial mass ") {
				continue
			}
			found = true
			for _, s := range out.Sources {
				if s.Name == w.Source && (s.Mark != r.mark || strings.Contains(w.Say, "from memory") != r.memory) {
					t.Errorf("%v: %q rests on %+v", r.form, w.Say, s)
				}
			}
		}
		if !found {
			t.Errorf("%v: no step gives the commercial mass", r.form)
		}
		for _, row := range out.Tables[0].Rows {
			fromMemory := row[0] != "cotton" && row[0] != "flax" && row[0] != "hemp" && row[0] != "jute" && row[0] != "silk" && row[0] != "wool"
			if !strings.Contains(row[2], "from memory") || strings.Contains(row[1], "from memory") != fromMemory || row[3] != "-" && strings.Contains(row[3], "from memory") != fromMemory {
				t.Errorf("%q", row)
			}
		}
	}
	for _, w := range reckoningtest.Run(t, Equilibrium(), form{"humidity": 50}).Working {
		if w.Source == sorption.Name && !strings.Contains(w.Say, "from memory") {
			t.Errorf("%q", w.Say)
		}
	}
	if sorption.Mark != reckoning.Memory || eu.Mark != reckoning.Memory {
		t.Error("sorption points and the EU's regains are from memory")
	}
}

// F-02: where a convention tells states of one fibre apart, the range holds both.
func TestRegainsByState(t *testing.T) {
	for _, r := range []struct {
		convention, fibre string
		low, high         float64
	}{{"eu", "nylon", 5.75, 6.25}, {"astm", "ramie", 7.6, 7.8}, {"eu", "wool", 17, 18.25}} {
		v := reckoningtest.Value(t, reckoningtest.Run(t, Regain(), form{"known": "dry", "dry": 100, "convention": r.convention, "fibre": r.fibre}), "agreed")
		if v.Low == nil || !reckoningtest.Near(*v.Low, r.low, 1e-12) || !reckoningtest.Near(*v.High, r.high, 1e-12) {
			t.Errorf("%s %s: %+v", r.convention, r.fibre, v)
		}
	}
}

func TestAHeavierDryMassNamesWhatIsAllowed(t *testing.T) {
	p := reckoningtest.Refused(t, Regain(), form{"known": "both", "conditioned": "7 g", "dry": "0,5 oz"}, "dry")
	if p.Allowed != "0.0000353 to 0.246 oz" || p.Unit != "oz" || !strings.Contains(p.Say, "0.5 oz is above the mass as it is, 0.24692 oz") {
		t.Errorf("%+v", p)
	}
	p = reckoningtest.Refused(t, Regain(), form{"known": "both", "conditioned": 10, "dry": 9.9, "dry_pm": 0.2}, "dry")
	if !strings.HasPrefix(p.Say, "At the edge of the ±: ") || !strings.Contains(p.Say, "10.1 g is above the mass as it is, 10 g") {
		t.Errorf("%+v", p)
	}
}
