package rinsing

import (
	"strings"
	"testing"

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
