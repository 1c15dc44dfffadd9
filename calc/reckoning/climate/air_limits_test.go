package climate

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

func TestContradictingReadingsNameWhatTheOtherAllows(t *testing.T) {
	for _, r := range []struct {
		name  string
		form  form
		field string
		want  reckoning.Problem // Say: a part of it
	}{
		{"dew point above the air", form{"known": "dew_point", "temperature": 20, "dew_point": 21}, "dew_point",
			reckoning.Problem{Value: "21", Unit: "°C", Allowed: "-37.9 to 20 °C", Say: "Dew point: 21 °C cannot be above the temperature of the air, 20 °C. Beside what else is given it can be -37.9 to 20 °C."}},
		{"wet bulb above the air", form{"known": "wet_bulb", "temperature": 20, "wet_bulb": 22}, "wet_bulb", reckoning.Problem{Value: "22", Unit: "°C", Allowed: "6.02 to 20 °C", Say: "22 °C cannot be above the temperature of the air, 20 °C"}},
		{"in the unit of the reading", form{"known": "wet_bulb", "temperature": 20, "wet_bulb": "75 °F"}, "wet_bulb", reckoning.Problem{Value: "75 °F", Unit: "°F", Allowed: "42.9 to 68 °F", Say: "75 °F cannot be above the temperature of the air, 20 °C"}},
		{"drier than any", form{"known": "wet_bulb", "temperature": 40, "wet_bulb": 5}, "wet_bulb", reckoning.Problem{Value: "5", Unit: "°C", Allowed: "15.1 to 40 °C", Say: "would be air drier than 1 %"}},
		{"dew point above the wet bulb", form{"known": "dew_point_wet_bulb", "dew_point": 20, "wet_bulb": 15}, "dew_point", reckoning.Problem{Value: "20", Unit: "°C", Allowed: "-26 to 15 °C", Say: "cannot be above the wet bulb, 15 °C"}},
		{"no air so cold", form{"known": "dew_point_wet_bulb", "dew_point": -40, "wet_bulb": -30}, "wet_bulb", reckoning.Problem{Value: "-30", Unit: "°C", Allowed: "-5.95 to 60 °C", Say: "colder than 0 °C"}},
		{"too warm to be reckoned", form{"known": "humidity_dew_point", "humidity": 2, "dew_point": 20}, "dew_point", reckoning.Problem{Value: "20", Unit: "°C", Allowed: "-44.2 to -5.74 °C", Say: "warmer than 60 °C"}},
		{"at the edge of the ±", form{"known": "dew_point", "temperature": 20, "temperature_pm": 1, "dew_point": 19.5}, "dew_point", reckoning.Problem{Value: "19.5", Unit: "°C", Allowed: "-38.6 to 19 °C", Say: "At the edge of the ±: Dew point: 19.5 °C cannot be above the temperature of the air, 19 °C"}},
	} {
		p := reckoningtest.Refused(t, Air(), r.form, r.field)
		if p.Value != r.want.Value || p.Unit != r.want.Unit || p.Allowed != r.want.Allowed || !strings.Contains(p.Say, r.want.Say) {
			t.Errorf("%s: %+v, want %+v", r.name, p, r.want)
		}
	}
}

var ends = regexp.MustCompile(`^(\S+) to (\S+) °C$`)

// What a refusal names as allowed is allowed, at both ends.
func TestWhatTheOtherReadingAllowsIsAllowed(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		celsius := func(name string, least int) float64 { return float64(rapid.IntRange(least, 600).Draw(t, name)) / 10 }
		f := form{"known": rapid.SampledFrom([]string{"dew_point", "wet_bulb", "humidity_dew_point", "humidity_wet_bulb", "dew_point_wet_bulb"}).Draw(t, "known"),
			"temperature": celsius("temperature", 0), "dew_point": celsius("dew point", -600), "wet_bulb": celsius("wet bulb", -600),
			"humidity": rapid.IntRange(1, 100).Draw(t, "humidity"), "pressure": rapid.IntRange(600, 1100).Draw(t, "pressure")}
		_, problems := reckoningtest.Ask(t, Air(), f)
		if len(problems) == 0 {
			return
		}
		p := problems[0]
		m := ends.FindStringSubmatch(p.Allowed)
		if m == nil || len(problems) > 1 {
			t.Fatalf("%v: %+v", f, problems)
		}
		tried++
		for i, end := range m[1:] {
			x, err := strconv.ParseFloat(end, 64)
			if err != nil {
				t.Fatal(err)
			}
			_, again := reckoningtest.Ask(t, Air(), f.With(form{p.Field: x}))
			// A wet bulb that some air has may still not go with this dew point.
			if len(again) > 0 && !(f["known"] == "dew_point_wet_bulb" && p.Field == "wet_bulb") {
				t.Fatalf("%v: %+v, and at %v: %+v", f, p, x, again)
			}
			// Nor is more allowed than it names, but for the rounding.
			if _, again = reckoningtest.Ask(t, Air(), f.With(form{p.Field: x + []float64{-0.15, 0.15}[i]})); len(again) == 0 {
				t.Fatalf("%v: %+v, and beyond %v it is answered", f, p, x)
			}
		}
	})
	if tried == 0 {
		t.Error("no readings contradicted each other")
	}
}

// Whether a surface gets wet is not said where the errors of the readings leave it open.
func TestASurfaceNearTheDewPoint(t *testing.T) {
	for _, r := range []struct {
		form form
		say  string
	}{
		{form{"temperature": 20, "humidity": 65, "surface": 14}, "stays dry, by 0.77 °C. Air"},
		{form{"temperature": 20, "temperature_pm": 1, "humidity": 65, "surface": 14}, "leaves open whether water condenses"},
		{form{"temperature": 20, "humidity": 65, "surface": 14, "surface_pm": 1}, "leaves open whether water condenses"},
		{form{"temperature": 20, "humidity": 65, "surface": 14, "surface_pm": "0,5"}, "stays dry, by 0.27 °C at least"},
		{form{"temperature": 20, "humidity": 65, "surface": 12, "surface_pm": 1}, "water condenses on it"},
		{form{"temperature": 20, "humidity": 65, "humidity_pm": 3, "surface": 12.9}, "leaves open whether water condenses"},
	} {
		said := ""
		for _, c := range reckoningtest.Run(t, Air(), r.form).Cautions {
			said += c.Say + " "
		}
		if !strings.Contains(said, r.say) {
			t.Errorf("%v says %q, want %q", r.form, said, r.say)
		}
	}
}

// Whatever two readings are off, no state between leaves the ranges.
func TestNoAirBetweenLeavesTheRange(t *testing.T) {
	known := map[string][2]string{"humidity": {"temperature", "humidity"}, "dew_point": {"temperature", "dew_point"}, "wet_bulb": {"temperature", "wet_bulb"},
		"humidity_dew_point": {"humidity", "dew_point"}, "humidity_wet_bulb": {"humidity", "wet_bulb"}, "dew_point_wet_bulb": {"dew_point", "wet_bulb"}}
	held := 0
	rapid.Check(t, func(t *rapid.T) {
		way := rapid.SampledFrom([]string{"humidity", "dew_point", "wet_bulb", "humidity_dew_point", "humidity_wet_bulb", "dew_point_wet_bulb"}).Draw(t, "known")
		temperature, humidity := rapid.Float64Range(3, 55).Draw(t, "temperature"), rapid.Float64Range(5, 95).Draw(t, "humidity")
		state := airFiguresOf(t, form{"temperature": temperature, "humidity": humidity})
		wide, point := form{"known": way}, form{"known": way}
		for _, name := range known[way] {
			x := temperature
			if name != "temperature" {
				x = state[name].Value
			}
			off := rapid.Float64Range(0.001, 3).Draw(t, name+" ±")
			wide[name], wide[name+"_pm"] = x, off
			point[name] = x + off*rapid.Float64Range(-0.999, 0.999).Draw(t, name+" within")
		}
		ranges, at := airFiguresOf(t, wide), airFiguresOf(t, point)
		if ranges == nil || at == nil {
			return
		}
		held++
		for name, v := range ranges {
			if x := at[name].Value; v.Low == nil || x < *v.Low-1e-9 || x > *v.High+1e-9 {
				t.Fatalf("%s is %v for %v, outside of %+v for %v", name, x, point, v, wide)
			}
		}
	})
	if held == 0 {
		t.Error("no state was held against a range")
	}
}

// airFiguresOf are the figures of an air by name; nil where it is refused.
func airFiguresOf(t reckoningtest.Fataler, f form) map[string]reckoning.Value {
	r, problems := reckoningtest.Ask(t, Air(), f)
	if len(problems) > 0 {
		return nil
	}
	out := map[string]reckoning.Value{}
	for _, v := range r.Values {
		out[v.Name] = v
	}
	return out
}
