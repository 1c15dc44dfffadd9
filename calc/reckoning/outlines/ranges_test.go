package outlines

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
		{MassPerArea(), form{"mass": 620.0, "width": 120.0, "height": 215.0}, map[string]float64{"mass": 5, "width": 2, "height": 3}},
		{MassPerArea(), form{"mass": 620.0, "area": 25800.0}, map[string]float64{"mass": 5, "area": 300}},
		{Roll(), form{"tube": 75.0, "length": 250.0, "thick": 1.2, "width": 90.0}, map[string]float64{"tube": 3, "length": 10, "thick": 0.4, "width": 1}},
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
