package library

import (
	"strings"
	"testing"
)

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
		{"split", form{"kept": 1, "kept_pm": 0.3, "water": 30, "least": 6, "least_pm": 1}, []string{"best_n", "best_left"}},
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
