package climate

import (
	"math"
	"strings"
	"testing"

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
