package trays

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
		{Depth(), form{"cover": 3}, map[string]off{"length": {100, 5}, "width": {50, 4}, "litres": {20, 3}, "thick": {1, 0.5}}},
		{Depth(), form{"shape": "round", "cover": 3}, map[string]off{"diameter": {60, 5}, "litres": {20, 3}, "thick": {1, 0.5}}},
		{Depth(), form{"shape": "sloped"}, map[string]off{"length": {100, 5}, "width": {50, 4}, "litres": {12, 4}, "fall": {5, 1}, "thick": {1, 0.5}}}, // from dry to covered at the shallow end
		{Ratio(), form{"wanted": 50}, map[string]off{"dry_mass": {400, 30}, "litres": {24, 2}}},
		{WetMass(), form{"by": "trial"}, map[string]off{"dry_mass": {400, 20}, "trial_dry": {12, 0.5}, "trial_wet": {31, 2}, "support": {1.2, 0.1}}},
		{WetMass(), form{"by": "guess"}, map[string]off{"dry_mass": {400, 20}, "pick_up": {120, 40}}},
		{Lift(), form{"hands": 40, "from": 80, "to": 110, "start": "2", "end": "1"}, map[string]off{"load": {9, 1}}},
		{Tray(), form{"length": 90, "width": 60, "depth": 10}, map[string]off{"tray_mass": {6, 0.5}}},
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
