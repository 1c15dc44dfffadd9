package mounts

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

// A range is taken from the ends of what is uncertain; it must hold all between.
func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	for _, c := range []struct {
		reckoning *reckoning.Reckoning
		form      form
		off       map[string]float64
	}{
		{Mount(), form{"width": 300.0, "height": 400.0, "board": 6.0, "loft": 4.0, "layers": 2}, map[string]float64{"width": 3, "height": 5, "board": 1, "loft": 2}},
		{Frame(), form{"width": 380.0, "height": 480.0, "mount": 6.0, "loft": 4.0, "textile": 1.0, "glazing": "glass", "glass": 3.0, "rest": 2.6, "factor": 4, "fixings": 3}, map[string]float64{"width": 3, "height": 4, "mount": 0.5, "loft": 2, "textile": 0.5, "glass": 0.3, "rest": 0.2}},
		{HangingStrip(), form{"edge": 960.0, "tape": 50.0}, map[string]float64{"edge": 4, "tape": 1}},
		{Slope(), form{"mass": 620.0, "angle": 40.0, "edge": 1200.0}, map[string]float64{"mass": 20, "angle": 8, "edge": 40}},
		{Stitches(), form{"where": "edge", "along": 300.0, "spacing": 4, "shortest": 3, "longest": 9}, map[string]float64{"along": 30}},
		{Stitches(), form{"where": "area", "along": 60.0, "across": 40.0, "spacing": 4}, map[string]float64{"along": 10, "across": 8}},
	} {
		wide := c.form.With(form{})
		for name, off := range c.off {
			wide[name+"_pm"] = off
		}
		within := reckoningtest.Run(t, c.reckoning, wide)
		names := slices.Sorted(maps.Keys(c.off)) // in one order, or a failure cannot be drawn again
		rapid.Check(t, func(t *rapid.T) {
			f := c.form.With(form{})
			for _, name := range names {
				f[name] = f[name].(float64) + rapid.Float64Range(-c.off[name], c.off[name]).Draw(t, name)
			}
			r, problems := reckoningtest.Ask(t, c.reckoning, f)
			if len(problems) > 0 {
				t.Fatalf("%v: %+v", f, problems)
			}
			for _, v := range within.Values {
				low, high := v.Value, v.Value
				if v.Low != nil {
					low, high = *v.Low, *v.High
				}
				if x, _ := r.Value(v.Name); x < low-1e-9*math.Abs(low) || x > high+1e-9*math.Abs(high) {
					t.Fatalf("%s %s of %v is %v, outside of %v to %v", c.reckoning.Name, v.Name, f, x, low, high)
				}
			}
		})
	}
}
