package waters

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
		{Mix(), form{"find": "litres", "litres": 60}, map[string]off{"target": {30, 3}, "cold": {9, 4}, "hot": {58, 6}}},
		{Mix(), form{"find": "result"}, map[string]off{"cold": {9, 4}, "hot": {58, 6}, "cold_litres": {20, 5}, "hot_litres": {12, 6}}},
		{Mix(), form{"find": "hot"}, map[string]off{"target": {35, 2}, "cold": {15, 4}, "cold_litres": {10, 3}, "hot_litres": {12, 3}}},
		{Density(), form{}, map[string]off{"temperature": {20, 5}, "volume": {10, 1}}},
		{Density(), form{}, map[string]off{"temperature": {5, 4}, "volume": {10, 1}}}, // across the densest
		{Coefficient(), form{}, map[string]off{"k1": {1413, 10}, "t1": {25, 0.5}, "k2": {1278, 10}, "t2": {20, 0.5}}},
		{Conductivity(), form{"coefficient": 2}, map[string]off{"value": {500, 10}, "temp": {24, 4}}},
		{Hardness(), form{"from": "ions"}, map[string]off{"calcium": {130, 20}, "magnesium": {5, 4}}},
		{Chelator(), form{"agent": "edta"}, map[string]off{"hardness": {200, 30}, "volume": {20, 2}, "purity": {98, 1}}},
		{Grade(), form{}, map[string]off{"conductivity": {0.8, 0.3}}},
		{Plan(), form{"rinses": 4, "rinse_litres": 8}, map[string]off{"stock": {40, 30}, "rate": {4, 1}}},
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
