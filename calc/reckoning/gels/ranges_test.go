package gels

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

// off is a measured value with how far off it may be.
type off struct{ value, by float64 }

// A range that is taken from its corners must hold every point between them.
func TestNoPointOfTheUncertainInputsLeavesTheRange(t *testing.T) {
	type form = reckoningtest.Form
	rows := []struct {
		reckoning *reckoning.Reckoning
		certain   form
		measured  map[string]off
	}{
		{Gel(), form{"strength": 2, "additive": "calcium_acetate", "additive_strength": 0.4}, map[string]off{"length": {40, 1}, "width": {30, 2}, "thickness": {6, 1.5}}},
		{Gel(), form{"shape": "area", "strength": 3, "sheets": 2}, map[string]off{"area": {1200, 200}, "thickness": {6, 1.5}}},
	}
	ranges := make([]reckoning.Result, len(rows))
	for i, r := range rows {
		f := maps.Clone(r.certain)
		for name, m := range r.measured {
			f[name], f[name+"_pm"] = m.value, m.by
		}
		ranges[i] = reckoningtest.Run(t, r.reckoning, f)
	}
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(rows)-1).Draw(t, "row")
		f := maps.Clone(rows[i].certain)
		for _, name := range slices.Sorted(maps.Keys(rows[i].measured)) {
			m := rows[i].measured[name]
			f[name] = m.value + m.by*rapid.Float64Range(-1, 1).Draw(t, name)
		}
		point, problems := reckoningtest.Ask(t, rows[i].reckoning, f)
		if len(problems) > 0 {
			t.Fatal(f, problems)
		}
		for _, v := range ranges[i].Values {
			x, ok := point.Value(v.Name)
			if !ok {
				continue
			}
			low, high := v.Value, v.Value
			if v.Low != nil {
				low, high = *v.Low, *v.High
			}
			if slack := 1e-9 * max(math.Abs(low), math.Abs(high)); x < low-slack || x > high+slack {
				t.Fatalf("%s %v: %s of %v is outside of %v to %v", rows[i].reckoning.Name, f, v.Name, x, low, high)
			}
		}
	})
}
