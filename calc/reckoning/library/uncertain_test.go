package library

import (
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

var leading = regexp.MustCompile(`^[-−]?[0-9]+([.,][0-9]+)?`)

// moved returns an answer of an example moved by a number in its own unit, and the
// number that it was; false where it is no single number.
func moved(v any, by float64) (any, float64, bool) {
	switch v := v.(type) {
	case float64:
		return v + by, v, true
	case string:
		num := leading.FindString(v)
		x, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(num), 64)
		if err != nil || strings.Contains(v, ";") {
			return nil, 0, false
		}
		return unit.Text(x+by, 12) + v[len(num):], x, true
	case map[string]any:
		m, x, ok := moved(v["value"], by)
		return map[string]any{"value": m, "unit": v["unit"]}, x, ok
	}
	return nil, 0, false
}

// Every example is asked with a ± wherever one may be given, each in turn and all
// together, and then at points within: none of them may leave the ranges, and what
// has no range may not move.
func TestNoPointLeavesTheRangeOfAnyExample(t *testing.T) {
	for _, r := range All() {
		var may []string
		for _, in := range r.Inputs {
			if in.Of == "" {
				continue
			}
			if _, _, ok := moved(examples[r.Name][in.Of], 0); ok {
				may = append(may, in.Of)
			}
		}
		if len(may) == 0 {
			continue
		}
		t.Run(r.Name, func(t *testing.T) {
			held := 0
			rapid.Check(t, func(t *rapid.T) {
				if pointWithin(t, r, may) {
					held++
				}
			})
			if held == 0 {
				t.Error("no point was held against a range")
			}
		})
	}
}

// pointWithin draws one ± and one point in it, and reports whether both were
// answered.
func pointWithin(t *rapid.T, r *reckoning.Reckoning, may []string) bool {
	wide, point := maps.Clone(examples[r.Name]), maps.Clone(examples[r.Name])
	for _, name := range may {
		// The ± of the example itself makes way.
		delete(wide, name+"_pm")
		delete(point, name+"_pm")
		share := rapid.SampledFrom([]float64{0, 0, 0.01, 0.1}).Draw(t, name+" ±")
		_, x, _ := moved(wide[name], 0)
		off := math.Abs(x) * share
		if off == 0 {
			continue
		}
		wide[name+"_pm"] = unit.Text(off, 12)
		point[name], _, _ = moved(point[name], off*rapid.Float64Range(-0.999, 0.999).Draw(t, name))
	}
	text := wide.json(t)
	ranges, problems := All().Run(r.Name, text)
	if len(problems) > 0 {
		return false // the ± reaches where nothing is reckoned
	}
	at, problems := All().Run(r.Name, point.json(t))
	if len(problems) > 0 {
		return false
	}
	rangeless := func(title string) bool {
		return slices.ContainsFunc(ranges.Working, func(w reckoning.Working) bool { return strings.HasPrefix(w.Say, title+": no range is given") })
	}
	for _, v := range ranges.Values {
		x, ok := at.Value(v.Name)
		low, high := v.Value, v.Value
		if v.Low != nil {
			low, high = *v.Low, *v.High
		}
		const slack = 1e-9
		if ok && !rangeless(v.Title) && (x < low-slack*(math.Abs(low)+1e-9) || x > high+slack*(math.Abs(high)+1e-9)) {
			t.Fatalf("%s: %s is %v for %s, outside of %v to %v of %s", r.Name, v.Name, x, point.json(t), low, high, text)
		}
	}
	return true
}

// What a conservator reads off an instrument, or guesses, may be off, and what
// follows from it then has a range.
func TestReadingsMayBeOff(t *testing.T) {
	for _, r := range []struct {
		name    string
		form    form
		figures []string
	}{
		{"rinse", form{"dry_mass": 400, "dry_mass_pm": 10, "pick_up": 120, "fresh": 9, "n": 3}, []string{"left", "kept_volume"}},
		{"rinse", form{"kept": 1, "fresh": 9, "n": 3, "start": 2.34, "start_pm": 0.2}, []string{"left_strength", "residue"}},
		{"flow_rinse", form{"kept": 1, "kept_pm": 0.3, "tank": 12, "target": 1, "flow": 2}, []string{"still_water", "counter_water"}},
		{"flow_rinse", form{"kept": 1, "tank": 12, "tank_pm": 1, "target": 1, "flow": 2, "flow_pm": 0.2}, []string{"over_water", "over_minutes"}},
		{"regain", form{"known": "both", "conditioned": 10, "conditioned_pm": 0.01, "dry": 9, "dry_pm": 0.01}, []string{"regain", "content", "dry_mass", "water", "commercial"}},
		{"regain", form{"known": "conditioned", "conditioned": 250, "regain": 12, "regain_pm": 1}, []string{"regain", "dry_mass"}},
		{"regain", form{"known": "content", "content": 10, "content_pm": "0,5"}, []string{"regain", "content"}},
		{"equilibrium", form{"humidity": 50, "humidity_pm": 3, "other": 70, "other_pm": 3, "mass": 400, "mass_pm": 2}, []string{"regain", "other_regain", "change"}},
		{"air", form{"known": "dew_point", "temperature": 20, "dew_point": 9, "dew_point_pm": 1}, []string{"humidity", "vapour_pressure"}},
		{"air", form{"known": "humidity_wet_bulb", "humidity": 50, "wet_bulb": 14, "wet_bulb_pm": 0.5}, []string{"dry_bulb", "dew_point"}},
		{"drying", room(form{"temperature_pm": 1}), []string{"rate_low", "rate_high", "minutes_low", "minutes_high"}},
		{"drying", room(form{"humidity_pm": 3}), []string{"rate_low", "minutes_high"}},
		{"drying", room(form{"air_speed": 0.2, "air_speed_pm": 0.1}), []string{"rate_high", "minutes_low"}},
		{"drying", room(form{"water_pm": 20}), []string{"water_left", "minutes_low"}},
		{"mould", form{"humidity": 64, "humidity_pm": 3, "temperature": 20}, []string{"warn"}},
		{"chamber", form{"from": 35, "to": 55, "exchange": 0.5, "exchange_pm": 0.2, "volume": 80}, []string{"hours"}},
		{"chamber", form{"from": 35, "to": 55, "exchange": 0.5, "volume": 80, "dry_mass": 400, "regain_from": 5.5, "regain_from_pm": 0.5, "regain_to": 7.5}, []string{"textile_water"}},
		{"light_dose", form{"lux": 50, "day": 8, "day_pm": 1, "days": 312, "years": 10}, []string{"in_a_day", "in_a_year", "dose"}},
		{"fade", form{"wool": "3", "lux": 50, "day": 8, "day_pm": 1, "days": 312, "days_pm": 10}, []string{"years"}},
		{"light_cap", form{"lux": 50, "lux_pm": 5, "own": 15000, "hours": 300, "hours_pm": 20}, []string{"own_hours", "dose", "least", "most"}},
		{"rota", form{"wool": "2", "lux": 50, "day": 8, "day_pm": 1, "life": 100}, []string{"months", "month_dose"}},
		{"ultraviolet", form{"lux": 50, "lux_pm": 5, "share": 75, "share_pm": 5}, []string{"irradiance"}},
		{"colour_difference", form{"before_l": 52, "before_a": 38, "before_b": 18, "after_l": 53, "after_a": 36, "after_b": 17, "error": 0.4}, []string{"de76", "dl", "dc"}},
	} {
		certain := form{}
		for k, v := range r.form {
			if !strings.HasSuffix(k, "_pm") && k != "error" {
				certain[k] = v
			}
		}
		without := reckon(t, r.name, certain)
		for _, figure := range r.figures {
			v, before := valueOf(t, reckon(t, r.name, r.form), figure), valueOf(t, without, figure)
			if v.Low == nil || !(*v.Low < v.Value || v.Value < *v.High) || before.Low != nil && *before.Low <= *v.Low && *before.High >= *v.High {
				t.Errorf("%s %v: %s is %+v, and %+v without the ±", r.name, r.form, figure, v, before)
			}
		}
	}
}
