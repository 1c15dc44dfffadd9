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
}

// F-03 (b).
func TestEquilibriumAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Equilibrium(), form{"fibre": "linen yarn", "humidity": 50, "other": 70, "mass": 1081})
	if v := reckoningtest.Value(t, r, "regain"); !reckoningtest.Near(v.Value, 8.1, 1e-12) || math.Abs(*v.Low-6.6) > 1e-9 || math.Abs(*v.High-9.6) > 1e-9 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "change"); !reckoningtest.Near(v.Value, 17, 1e-9) { // 1000 g dry, 1.7 %
		t.Errorf("%+v", v)
	}
	reckoningtest.Refused(t, Equilibrium(), form{"humidity": 95}, "humidity")
}
