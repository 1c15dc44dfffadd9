package fibres

import (
	"math"
	"testing"

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
