package climate

import (
	"math"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

type form = reckoningtest.Form

// H-02 (d): the inverses, and the pairs that leave the temperature out.
func TestAirFromAnyTwo(t *testing.T) {
	rows := []struct {
		form   form
		figure string
		want   float64
		off    float64
	}{
		{form{"known": "dew_point", "temperature": 25, "dew_point": 12}, "humidity", 44.26, 0.05},
		{form{"known": "wet_bulb", "temperature": 25, "wet_bulb": 18}, "humidity", 50.68, 0.1},
		{form{"known": "wet_bulb", "temperature": 20, "wet_bulb": 15}, "humidity", 58.92, 0.1},
		{form{"known": "humidity_dew_point", "humidity": 50, "dew_point": 9.27}, "dry_bulb", 20, 0.05},
		{form{"known": "humidity_wet_bulb", "humidity": 50, "wet_bulb": 13.78}, "dry_bulb", 20, 0.05},
		{form{"known": "dew_point_wet_bulb", "dew_point": 9.27, "wet_bulb": 13.78}, "humidity", 50, 0.3},
		{form{"temperature": 20, "humidity": 50}, "enthalpy", 38.55, 0.1},
		{form{"temperature": 20, "humidity": 50}, "specific_volume", 0.8402, 0.002},
	}
	for _, r := range rows {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, Air(), r.form), r.figure); math.Abs(v.Value-r.want) > r.off {
			t.Errorf("%v: %s is %v, want %v", r.form, r.figure, v.Value, r.want)
		}
	}
	if p := reckoningtest.Refused(t, Air(), form{"known": "dew_point_wet_bulb", "dew_point": 20, "wet_bulb": 15}, "dew_point"); !strings.Contains(p.Say, "cannot be above the wet bulb") {
		t.Errorf("%+v", p)
	}
	reckoningtest.Refused(t, Air(), form{"known": "humidity_wet_bulb", "humidity": 2, "wet_bulb": 45}, "wet_bulb")
}

// B-01 (a).
func TestMouldAfterTwoDaysWet(t *testing.T) {
	said := func(wet string) (working, cautions string) {
		r := reckoningtest.Run(t, Mould(), form{"humidity": 60, "temperature": 20, "wet": wet})
		for _, w := range r.Working {
			working += w.Put
		}
		for _, c := range r.Cautions {
			cautions += c.Say
		}
		return working, cautions
	}
	if w, c := said("20 h"); !strings.Contains(w, "= 28 h") || strings.Contains(w, "over") || strings.Contains(c, "longer than the 48") {
		t.Error(w, c)
	}
	if w, c := said("50 h"); !strings.Contains(w, "= -2 h: they are over") || !strings.Contains(c, "longer than the 48 hours") {
		t.Error(w, c)
	}
}

func TestMouldStatementsStandSideBySide(t *testing.T) {
	r := reckoningtest.Run(t, Mould(), form{"humidity": 80, "temperature": 20, "at_it": "3 weeks", "wet": "30 h"})
	if v := reckoningtest.Value(t, r, "warn"); v.Value != 5 {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "left"); v.Value != 18 {
		t.Errorf("%+v", v)
	}
	if rows := r.Tables[0].Rows; len(rows) != 5 {
		t.Errorf("%q", rows)
	}
	if v := reckoningtest.Value(t, reckoningtest.Run(t, Mould(), form{"humidity": 50, "temperature": 19}), "warn"); v.Value != 0 {
		t.Errorf("%+v", v)
	}
}

// H-03 (a).
func TestSaltsAtTheDoor(t *testing.T) {
	r := reckoningtest.Run(t, Salt(), form{"salt": "NaCl"})
	if v := reckoningtest.Value(t, r, "humidity"); math.Abs(v.Value-75.7) > 1e-9 || *v.Low >= v.Value {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "other"); math.Abs(v.Value-75.36) > 0.006 {
		t.Errorf("%+v", v)
	}
	r = reckoningtest.Run(t, Salt(), form{"wanted": 50})
	if say := r.Verdicts[0].Say; !strings.HasPrefix(say, "potassium carbonate (K2CO3) 43.2 %; magnesium nitrate") {
		t.Error(say)
	}
	r = reckoningtest.Run(t, Salt(), form{"salt": "Mg(NO3)2·6H2O"})
	if c := r.Cautions[1]; c.About != "people" || !strings.Contains(c.Say, "oxidiser") {
		t.Errorf("%+v", c)
	}
	reckoningtest.Refused(t, Salt(), form{"salt": "NaCl", "temperature": 30}, "temperature")
}

// (d): 20 % off to 2 % takes ln 10 exchanges; 80 L of air take up 80 L × 20 % of 17.3 g/m³.
func TestAChamber(t *testing.T) {
	f := form{"from": 35, "to": 55, "near": 2, "exchange": 0.5, "volume": 80}
	r := reckoningtest.Run(t, Chamber(), f)
	if v := reckoningtest.Value(t, r, "hours"); !reckoningtest.Near(v.Value, math.Log(10)/0.5, 1e-9) {
		t.Errorf("%+v", v)
	}
	if v := reckoningtest.Value(t, r, "air_water"); math.Abs(v.Value-0.08*0.2*17.28) > 0.005 {
		t.Errorf("%+v", v)
	}
	r = reckoningtest.Run(t, Chamber(), f.With(form{"dry_mass": 400, "regain_from": 7.5, "regain_to": 5.5}))
	if v := reckoningtest.Value(t, r, "textile_water"); !reckoningtest.Near(v.Value, -8, 1e-9) {
		t.Errorf("%+v", v)
	}
	reckoningtest.Refused(t, Chamber(), f.With(form{"dry_mass": 400}), "regain_from")
	if v := reckoningtest.Value(t, reckoningtest.Run(t, Chamber(), form{"from": 55, "to": 55, "exchange": 1, "volume": 1}), "hours"); v.Value != 0 {
		t.Errorf("there already: %+v", v)
	}
}

// Square feet, feet and feet a minute make the same rate as their metres.
func TestDryingInFeet(t *testing.T) {
	metric := form{"water": 1000, "area": "0.09290304 m²", "air_speed": "0.508", "temperature": 20, "humidity": 50}
	want := reckoningtest.Value(t, reckoningtest.Run(t, Drying(), metric), "rate_pool").Value
	for _, f := range []form{
		{"water": 1000, "area": "1 ft²", "air_speed": "100 ft/min", "temperature": 20, "humidity": 50},
		{"water": 1000, "width": "0.5 ft", "height": "2 ft", "air_speed": "100 ft/min", "temperature": 20, "humidity": 50},
	} {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, Drying(), f), "rate_pool"); !reckoningtest.Near(v.Value, want, 1e-9) {
			t.Errorf("%v: %v, want %v", f, v.Value, want)
		}
	}
}

func cautions(t *testing.T, of *reckoning.Reckoning, f form) string {
	t.Helper()
	said := ""
	for _, c := range reckoningtest.Run(t, of, f).Cautions {
		said += c.Say + "\n"
	}
	return said
}

// Who weighs in ounces reads in ounces what goes in an hour, and nobody reads a 1 for
// a yes. E-01 (d): 1 m² at 20 °C and 50 % with the surface as warm loses 166.4 g/h by
// the pool equation, 0.7 × that 116.5 g, 4.11 oz.
func TestDryingInThePersonsUnitsAndInWords(t *testing.T) {
	f := form{"water": "1 lb", "area": "1 m²", "temperature": 20, "humidity": 50, "surface": 20}
	r := reckoningtest.Run(t, Drying(), f)
	if v := reckoningtest.Value(t, r, "rate_low"); v.Shown != "116 g, 4.11 oz" {
		t.Errorf("%+v", v)
	}
	for _, v := range r.Values {
		if strings.Contains(v.Title, "yes") {
			t.Errorf("%+v", v)
		}
	}
	if say := reckoningtest.Verdict(t, r, ByEquations); !strings.HasPrefix(say, "The equations, which are for pools") {
		t.Error(say)
	}
	f = form{"dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50, "weighed_at": "0; 30; 60", "weighed": "640; 600; 560"}
	if say := reckoningtest.Verdict(t, reckoningtest.Run(t, Drying(), f), ByWeighings); !strings.HasPrefix(say, "The weighings") {
		t.Error(say)
	}
	if say := reckoningtest.Verdict(t, reckoningtest.Run(t, Drying(), f.With(form{"weighed": "640; 640; 640"})), ByEquations); !strings.Contains(say, "since the loss is not above what the scale may be off") {
		t.Error(say)
	}
}

func TestWhatDryingAllowsBesideOtherFields(t *testing.T) {
	f := form{"area": "1 m²", "temperature": 20, "humidity": 50}
	for _, r := range []struct {
		more                form
		field, allowed, say string
	}{
		{form{"dry_mass": "400", "wet_mass": "14 oz"}, "wet_mass", "above 14.11 oz", "14 oz is not above the dry mass of 14.11 oz"},
		{form{"water": 100, "surface": "40 °F"}, "surface", "48.7 to 140 °F", "40 °F is not above the dew point of 9.272 °C (48.7 °F)"},
		{form{"dry_mass": "400", "dry_mass_pm": 5, "wet_mass": 403}, "wet_mass", "above 405 g", "At the edge of the ±: Wet mass: 403 g is not above"},
		{form{"water": 100, "surface": 10, "humidity_pm": 5}, "surface", "10.7 to 60 °C", "At the edge of the ±: Temperature of the wet surface: 10 °C"},
		{form{"dry_mass": 400, "weighed": "640; 600", "weighed_at": "30; 20"}, "weighed_at", "above 30 min", "entry 2 is not later than the one before it: 20 min after 30 min"},
		{form{"dry_mass": 400, "weighed": "640; 600", "weighed_at": "30"}, "weighed", "1 figure", "2 weighings for 1 time"},
	} {
		if p := reckoningtest.Refused(t, Drying(), f.With(r.more), r.field); p.Allowed != r.allowed || !strings.Contains(p.Say, r.say) {
			t.Errorf("%v: %+v", r.more, p)
		}
	}
}

// A wet bulb is read in moving air; and within its ± air may be damp that is not so
// by the middle.
func TestCautionsOfReadings(t *testing.T) {
	if said := cautions(t, Air(), form{"known": "wet_bulb", "temperature": 25, "wet_bulb": 18}); !strings.Contains(said, "in still air it reads too warm") {
		t.Error(said)
	}
	if said := cautions(t, Air(), form{"temperature": 25, "humidity": 74, "humidity_pm": 3}); !strings.Contains(said, "Within its ± the air may be damp: up to 77 % RH") {
		t.Error(said)
	}
	if said := cautions(t, Air(), form{"temperature": 25, "humidity": 70, "humidity_pm": 3}); strings.Contains(said, "damp:") {
		t.Error(said)
	}
}

// H-03 (a): ±0.5 by Greenspan, ±2 % of itself by the fitted form; two figures are
// published for sodium chloride at 20 °C, 75.7 (a) and 75.5 (b).
func TestSaltsWithTheirErrors(t *testing.T) {
	r := reckoningtest.Run(t, Salt(), form{"salt": "none", "wanted": 55})
	if v := reckoningtest.Value(t, r, "below"); !reckoningtest.Near(*v.Low, v.Value*0.98, 1e-9) || !reckoningtest.Near(*v.High, v.Value*1.02, 1e-9) {
		t.Errorf("magnesium nitrate: %+v", v)
	}
	if v := reckoningtest.Value(t, r, "above"); !reckoningtest.Near(*v.Low, 58.6, 1e-9) || !reckoningtest.Near(*v.High, 59.6, 1e-9) {
		t.Errorf("sodium bromide: %+v", v)
	}
	for wanted, name := range map[int]string{10: "below", 99: "above"} {
		if r := reckoningtest.Run(t, Salt(), form{"salt": "none", "wanted": wanted}); len(r.Unknown) != 1 || r.Unknown[0].Name != name {
			t.Errorf("%d %%: %+v", wanted, r.Unknown)
		}
	}
	said := ""
	for _, w := range reckoningtest.Run(t, Salt(), form{"salt": "NaCl"}).Working {
		said += w.Say
	}
	if !strings.Contains(said, "75.7 %") || !strings.Contains(said, "75.5 %, from memory") {
		t.Error(said)
	}
	for _, c := range reckoningtest.Run(t, Salt(), form{"salt": "K2SO4"}).Cautions {
		if strings.Contains(c.Say, "keep its temperature") && c.About != reckoning.Object {
			t.Errorf("%+v", c)
		}
	}
}

// (d): 20 °C, 35 to 55 %: 2.16679 × (1286.3 - 818.6) ÷ 293.15 is 3.457 g/m³.
func TestTheChambersWorking(t *testing.T) {
	put := func(f form) string {
		said := ""
		for _, w := range reckoningtest.Run(t, Chamber(), f).Working {
			said += w.Say + w.Put + "\n"
		}
		return said
	}
	if said := put(form{"from": 35, "to": 55, "exchange": 0.5, "volume": 80}); !strings.Contains(said, "80 L × (9.508 g/m³ - 6.05 g/m³) ÷ 1000 L/m³ = 0.2766 g") {
		t.Error(said)
	}
	if said := put(form{"from": 54, "to": 55, "exchange": 0.5, "volume": 80}); !strings.Contains(said, "near enough already") || strings.Contains(said, "ln(") {
		t.Error(said)
	}
}

// B-01 (a): at most 24 °C. 75.2 °F is 24 °C, whatever the last bit says.
func TestMouldAtTheEdge(t *testing.T) {
	for f, want := range map[string]float64{"75,2 °F": 0, "75,4 °F": 1} {
		if v := reckoningtest.Value(t, reckoningtest.Run(t, Mould(), form{"humidity": 50, "temperature": f}), "warn"); v.Value != want {
			t.Errorf("%s: %+v", f, v)
		}
	}
	r := reckoningtest.Run(t, Mould(), form{"humidity": 73, "humidity_pm": 4, "temperature": 20})
	if say := reckoningtest.Verdict(t, r, "open"); !strings.HasPrefix(say, "Between 2 and 5 of the five") {
		t.Error(say)
	}
}

// Of two accounts of the water held the one is reckoned with, and it is said where the
// other does not agree with it.
func TestTwoAccountsOfTheWater(t *testing.T) {
	f := form{"water": 480, "dry_mass": 400, "area": "1 m²", "temperature": 20, "humidity": 50}
	if said := cautions(t, Drying(), f.With(form{"wet_mass": 900})); !strings.Contains(said, "Wet mass would have it hold 500 g, and 480 g is reckoned with") {
		t.Error(said)
	}
	if said := cautions(t, Drying(), f.With(form{"wet_mass": 880, "pick_up": 120})); strings.Contains(said, "would have it hold") {
		t.Error(said)
	}
}

// Who reads °F is told in °F what gets wet.
func TestASurfaceInFahrenheit(t *testing.T) {
	if said := cautions(t, Air(), form{"temperature": "68 °F", "humidity": 65, "surface": "53 °F"}); !strings.Contains(said, "The surface at 11.67 °C (53 °F) is at or below the dew point of 13.23 °C (55.8 °F)") {
		t.Error(said)
	}
	if said := cautions(t, Air(), form{"temperature": 20, "humidity": 65}); strings.Contains(said, "°F") {
		t.Error(said)
	}
}
