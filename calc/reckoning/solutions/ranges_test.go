package solutions

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
)

// A range that is taken from its corners must hold every point between them.
func TestNoPointOfTheUncertainInputsLeavesTheRange(t *testing.T) {
	in := func(x float64, u string) func(off float64) any {
		return func(off float64) any { return map[string]any{"value": x + off, "unit": u} }
	}
	rows := []struct {
		name    string
		certain form
		spread  map[string]func(float64) any
		widths  map[string]float64
	}{
		{"dilution", form{"know": "total", "molar_mass": 36.46, "step": "1 mL"},
			map[string]func(float64) any{"amount": in(2, "L"), "stock": in(38, "% w/w"), "wanted": in(1, "mol/L"), "density": in(1.18, "g/mL")},
			map[string]float64{"amount": 0.5, "stock": 4, "density": 0.1}},
		{"dilution", form{"know": "stock", "by": "mass"},
			map[string]func(float64) any{"amount": in(200, "g"), "stock": in(36, "% w/w"), "wanted": in(10, "% w/w"), "density": in(1.18, "g/mL")},
			map[string]float64{"amount": 20, "stock": 10, "density": 0.1}},
		{"bath_strength", form{"molar_mass": 288.378},
			map[string]func(float64) any{"litres": in(40, "L"), "amount": in(320, "mL"), "active": in(28, "% w/w"), "density": in(1.04, "g/mL"), "cmc": in(2.34, "g/L")},
			map[string]float64{"litres": 2, "amount": 30, "active": 3, "density": 0.05, "cmc": 0.3}},
		{"strengths", form{"molar_mass": 36.46, "pure_density": 1.3},
			map[string]func(float64) any{"strength": in(30, "% w/v"), "density": in(1.1, "g/mL")}, map[string]float64{"strength": 10, "density": 0.1}},
		{"buffer_ph", form{"pair": "phosphate2"},
			map[string]func(float64) any{"base": in(200, "mmol"), "acid": in(150, "mmol"), "strong_base": in(8, "mmol"), "strong_acid": in(2, "mmol")},
			map[string]float64{"base": 150, "acid": 120, "strong_base": 3, "strong_acid": 1}},
		{"buffer_mix", form{"citric_acid": 33, "hydrogen_phosphate": 60}, map[string]func(float64) any{"litres": in(1, "L")}, map[string]float64{"litres": 0.4}},
		{"cmc_salt", form{"salt": "trisodium_citrate"},
			map[string]func(float64) any{"salt_strength": in(60, "mmol/L"), "strength": in(3, "g/L")}, map[string]float64{"salt_strength": 60, "strength": 0.5}},
		{"several", form{"ingredients": []form{{"name": "a", "form": "liquid", "target": "2 % v/v", "active": "96 % v/v", "pure_density": 0.789}, {"name": "b", "target": 3}}},
			map[string]func(float64) any{"litres": in(20, "L")}, map[string]float64{"litres": 5}},
		{"hydrate", form{"asked_waters": 10, "have_waters": 0, "substance": "sodium_carbonate"},
			map[string]func(float64) any{"mass": in(10, "g")}, map[string]float64{"mass": 2}},
		{"small_amount", form{"balance": 0.01},
			map[string]func(float64) any{"litres": in(2, "L"), "target": in(0.02, "g/L")}, map[string]float64{"litres": 1, "target": 0.01}},
		{"buffer_recipe", form{"ph": 4.3}, map[string]func(float64) any{"litres": in(2, "L")}, map[string]float64{"litres": 1}},
		{"recipe", form{"ingredients": []form{{"name": "a", "amount": 7}}},
			map[string]func(float64) any{"made": in(2, "L"), "litres": in(10, "L")}, map[string]float64{"made": 1, "litres": 4}},
	}
	ranges := make([]reckoning.Result, len(rows))
	for i, r := range rows {
		f := maps.Clone(r.certain)
		for k, at := range r.spread {
			f[k] = at(0)
			if r.widths[k] > 0 {
				f[k+"_pm"] = r.widths[k]
			}
		}
		ranges[i] = run(t, r.name, f)
	}
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(rows)-1).Draw(t, "row")
		r := rows[i]
		f := maps.Clone(r.certain)
		for _, k := range slices.Sorted(maps.Keys(r.spread)) {
			f[k] = r.spread[k](r.widths[k] * rapid.Float64Range(-1, 1).Draw(t, k))
		}
		point := run(t, r.name, f)
		for _, v := range ranges[i].Values {
			x, ok := point.Value(v.Name)
			if !ok {
				continue
			}
			low, high := v.Value, v.Value
			if v.Low != nil {
				low, high = *v.Low, *v.High
			}
			if slack := 1e-11 * max(math.Abs(low), math.Abs(high)); x < low-slack || x > high+slack {
				t.Fatalf("%s %v: %s of %v is outside of %v to %v", r.name, f, v.Name, x, low, high)
			}
		}
	})
}
