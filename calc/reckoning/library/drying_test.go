package library

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/climate"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Marks: (a) read, (d) computed from the formula.
func TestPublishedAirAndDrying(t *testing.T) {
	for _, r := range []struct {
		source    string
		name      string
		form      form
		figure    string
		want      float64
		tolerance float64 // relative
	}{
		{"H-02 (d): 20 °C, 50 %", "air", form{"temperature": 20, "humidity": 50}, "vapour_pressure", 1169.4, 0.002},
		{"H-02 (d), in °F", "air", form{"temperature": "68 °F", "humidity": 50}, "dew_point", 9.27, 0.005},
		{"H-02 (d)", "air", form{"temperature": 20, "humidity": 50}, "wet_bulb", 13.78, 0.0035},
		{"H-02 (d)", "air", form{"temperature": 20, "humidity": 50}, "humidity_ratio", 7.262, 0.003},
		{"H-02 (d)", "air", form{"temperature": 20, "humidity": 50}, "absolute_humidity", 8.64, 0.003},
		{"H-02 (d), inverse", "air", form{"temperature": 25, "known": "dew_point", "dew_point": 12}, "humidity", 44.26, 0.0003},
		{"H-02 (d), inverse", "air", form{"temperature": 25, "known": "wet_bulb", "wet_bulb": 18}, "humidity", 50.68, 0.0003},
		{"H-02 ASHRAE example 1 (a), 7 °C printed, 7.43 (d)", "air", form{"temperature": 40, "known": "wet_bulb", "wet_bulb": 20}, "dew_point", 7.43, 0.007},
		{"E-01 (d): the surface as warm as the air", "drying", form{"water": 480, "area": "1 m²", "temperature": 20, "humidity": 50, "surface": 20, "air_speed": 0.5}, "rate_pool", 220.1, 0.005},
		{"E-01 (d): 2 m² as one on both sides", "drying", form{"water": 480, "width": "100 cm", "height": "1 m", "sides": "2", "temperature": 25, "humidity": 40, "surface": 25, "air_speed": 0.2}, "rate_pool", 584.7, 0.005},
		{"E-02 (d)", "drying", form{"water": 480, "area": "10000 cm²", "temperature": 20, "humidity": 50, "surface": 20}, "rate_ratio", 200.0, 0.005},
		{"R-05 (d): 400 g at 120 % hold 480 g", "drying", form{"dry_mass": 400, "pick_up": 120, "area": "1 m²", "temperature": 20, "humidity": 50}, "water_left", 480, 1e-12},
		{"E-03 (d): 480 g at 0.7 × 166.4 g/h", "drying", form{"wet_mass": 880, "dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50, "surface": 20}, "minutes_high", 480 / (0.7 * 166.4) * 60, 0.005},
		{"E-03 (d): and at 1.3 × 200.0", "drying", form{"wet_mass": 880, "dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50, "surface": 20}, "minutes_low", 480 / (1.3 * 200.0) * 60, 0.005},
		{"wet-bulb surface, H-02 (d)", "drying", form{"water": 480, "area": "1 m²", "temperature": 20, "humidity": 50}, "wet_surface", 13.78, 0.0035},
		{"weighings (d): 40 g in half an hour, 10 % less", "drying", form{"dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50, "weighed_at": "0; 30; 60", "weighed": "640; 600; 560", "scale": 0.1}, "rate_low", 72, 1e-9},
		{"weighings (d): 160 g left", "drying", form{"dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50, "weighed_at": "0; 30; 60", "weighed": "640; 600; 560", "scale": 0.1}, "minutes_low", 160 / 88.0 * 60, 1e-9},
	} {
		if got := valueOf(t, reckon(t, r.name, r.form), r.figure); !near(got.Value, r.want, r.tolerance) {
			t.Errorf("%s: %s = %v %s, want %v", r.source, r.figure, got.Value, got.Unit, r.want)
		}
	}
}

// room is a drying on which the rows below differ.
func room(more form) form {
	f := form{"water": 480, "area": "1 m²", "temperature": 20, "humidity": 50}
	for k, v := range more {
		f[k] = v
	}
	return f
}

func TestWhatTheAirAndTheDryingSay(t *testing.T) {
	weighing := func(at, m string) form {
		return form{"dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50, "weighed_at": at, "weighed": m}
	}
	for _, r := range []struct {
		name, reckoning string
		form            form
		say             string
	}{
		{"a cold window", "air", form{"temperature": 20, "humidity": 65, "surface": 12}, "at or below the dew point of 13.23 °C: water condenses"},
		{"a dry wall", "air", form{"temperature": 20, "humidity": 65, "surface": 18.2}, "stays dry, by 5 °C"},
		{"no surface", "air", form{"temperature": 20, "humidity": 65}, "at or below the dew point of 13.23 °C gets wet"},
		{"damp", "air", form{"temperature": 20, "humidity": 76}, "The air is damp: 76 % RH"},
		{"frost", "air", form{"temperature": 5, "humidity": 30}, "frost forms"},
		{"people", "drying", room(nil), "Water and electricity"},
		{"falling rate", "drying", room(nil), "Not dry by this alone"},
		{"mould", "drying", room(nil), "Dry within 24 to 48 hours of wetting"},
		{"slow", "drying", room(form{"humidity": 90}), "above 24 hours"},
		{"damp drying", "drying", room(form{"humidity": 90}), "The air is damp: 90 % RH"},
		{"tide lines", "drying", room(nil), "Tide lines form"},
		{"rising", "drying", weighing("0; 30; 60", "640; 600; 610"), "The weighings do not correct the rate: the mass rises"},
		{"below dry", "drying", weighing("0; 30", "640; 390"), "a weighing is below the dry mass"},
		{"one", "drying", weighing("30", "640"), "one weighing alone shows no rate"},
		{"dripping", "drying", weighing("0; 10", "1640; 1000"), "faster than it could in this air"},
		{"slowing", "drying", weighing("0; 60; 120; 180", "640; 580; 520; 510"), "shows it slowing"},
		{"too slow", "drying", weighing("0; 60; 120", "640; 630; 620"), "loses less than this air could take"},
		{"fast", "drying", weighing("0; 60; 120", "880; 730; 580"), "loses more than this air should take"},
	} {
		result := reckon(t, r.reckoning, r.form)
		if !slices.ContainsFunc(result.Cautions, func(c reckoning.Caution) bool { return strings.Contains(c.Say, r.say) }) {
			t.Errorf("%s: no caution says %q: %+v", r.name, r.say, result.Cautions)
		}
	}
	for name, f := range map[string]form{"saturated": room(form{"humidity": 100}), "below dry": weighing("0; 30", "640; 390")} {
		r := reckon(t, "drying", f)
		if _, ok := r.Value("minutes_low"); ok || len(r.Unknown) < 2 {
			t.Errorf("%s: a time is given: %+v", name, r.Values)
		}
	}
	// Refused weighings leave the rate to the equations and say that.
	plain, refused := reckon(t, "drying", room(nil)), reckon(t, "drying", weighing("0; 30; 60", "640; 600; 610"))
	if a, b := valueOf(t, plain, "rate_low"), valueOf(t, refused, "rate_low"); a.Value != b.Value || refused.Verdicts[0].Name != climate.ByEquations || !strings.Contains(refused.Verdicts[0].Say, "the mass rises") {
		t.Errorf("refused weighings move the rate from %v to %v", a, b)
	}
}

func TestWhatDryingRefuses(t *testing.T) {
	for _, r := range []struct {
		name, reckoning string
		form            form
		field, say      string
	}{
		{"no water", "drying", form{"area": "1 m²", "temperature": 20, "humidity": 50}, "water", "or the dry mass with"},
		{"no area", "drying", form{"water": 480, "width": 100, "temperature": 20, "humidity": 50}, "area", "width and height in its place"},
		{"area twice", "drying", room(form{"width": 100}), "area", "Leave one of the two empty"},
		{"wet below dry", "drying", room(form{"wet_mass": 390, "dry_mass": 400}), "wet_mass", "not above the dry mass of 400 g"},
		{"a time left out", "drying", room(form{"dry_mass": 400, "weighed": "640; 600", "weighed_at": "0"}), "weighed", "2 weighings for 1 time"},
		{"back in time", "drying", room(form{"dry_mass": 400, "weighed": "640; 600", "weighed_at": "30; 30"}), "weighed_at", "entry 2 is not later"},
		{"weighed without dry", "drying", room(form{"weighed": "640; 600", "weighed_at": "0; 30"}), "dry_mass", "since weighings are given"},
		{"a surface that condenses", "drying", room(form{"surface": 9}), "surface", "not above the dew point of 9.27"},
		{"a weighing without its time", "drying", room(form{"dry_mass": 400, "weighed": "640"}), "weighed", "1 weighing for 0 times"},
		{"too damp to be", "drying", room(form{"humidity": 101}), "humidity", "not within 1 to 100 %"},
		{"dew point above the air", "air", form{"temperature": 20, "known": "dew_point", "dew_point": 21}, "dew_point", "cannot be above"},
		{"wet bulb of no air", "air", form{"temperature": 40, "known": "wet_bulb", "wet_bulb": 5}, "wet_bulb", "drier than 1 %"},
	} {
		_, problems := All().Run(r.reckoning, r.form.json(t))
		if len(problems) != 1 || problems[0].Field != r.field || !strings.Contains(problems[0].Say, r.say) {
			t.Errorf("%s: %+v", r.name, problems)
		}
	}
}

func TestDryingAtTheDoorFollowsThePhysics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		speed, rh := float64(rapid.IntRange(0, 400).Draw(t, "cm/s"))/100, rapid.Float64Range(1, 90).Draw(t, "humidity")
		f := form{"water": rapid.Float64Range(1, 5000).Draw(t, "water"), "area": rapid.Float64Range(10, 40000).Draw(t, "area"),
			"temperature": float64(rapid.IntRange(0, 500).Draw(t, "tenths of a °C")) / 10, "humidity": rh, "air_speed": speed}
		rate := func(name string, v any) (low, high float64) {
			g := form{}
			for k, x := range f {
				g[k] = x
			}
			g[name] = v
			r, problems := All().Run("drying", g.json(t))
			if len(problems) > 0 {
				t.Fatalf("%v: %+v", g, problems)
			}
			low, _ = r.Value("rate_low")
			high, _ = r.Value("rate_high")
			return low, high
		}
		low, high := rate("sides", "1")
		dampLow, dampHigh := rate("humidity", rh+1)
		windLow, windHigh := rate("air_speed", speed+0.1)
		twoLow, twoHigh := rate("sides", "2")
		if !(low > 0 && low < high && dampLow < low && dampHigh < high && windLow > low && windHigh > high && near(twoLow, 2*low, 1e-12) && near(twoHigh, 2*high, 1e-12)) {
			t.Fatalf("%v: %v to %v; damper %v to %v, windier %v to %v, two sides %v to %v", f, low, high, dampLow, dampHigh, windLow, windHigh, twoLow, twoHigh)
		}
	})
}
