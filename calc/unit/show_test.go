package unit

import (
	"strings"
	"testing"
)

func TestTextRoundsForPeople(t *testing.T) {
	rows := []struct {
		x       float64
		figures int
		want    string
	}{
		{334.2857, 3, "334"},
		{321.43, 3, "321"},
		{0.00227, 3, "0.00227"},
		{10, 3, "10"},
		{99.96, 3, "100"},
		{1250, 4, "1250"},
		{12500, 3, "12\u00a0500"},
		{1234567, 3, "1\u00a0230\u00a0000"},
		{-12345.6, 6, "-12\u00a0345.6"},
		{0, 3, "0"},
		{5, 0, "5"},
	}
	for _, r := range rows {
		if got := Text(r.x, r.figures); got != r.want {
			t.Errorf("Text(%v, %d) = %q, want %q", r.x, r.figures, got, r.want)
		}
	}
}

func TestHandyFollowsTheSystem(t *testing.T) {
	rows := []struct {
		name   string
		kind   Kind
		base   float64
		system System
		want   string
	}{
		{"metric", VolumeKind, 45.4, Metric, "45.4 L"},
		{"small", VolumeKind, 0.3214, Metric, "321 mL"},
		{"US", VolumeKind, 45.4, US, "45.4 L, 12 US gal"},
		{"US, small", VolumeKind, 0.3214, US, "321 mL, 10.9 US fl oz"},
		{"imperial", VolumeKind, 45.4, Imperial, "45.4 L, 9.99 imp gal"},
		{"inches do not say which gallon", VolumeKind, 45.4, InchPound, "45.4 L, 12 US gal, 9.99 imp gal"},
		{"a mass", MassKind, 334.3, US, "334 g, 11.8 oz"},
		{"a heavy mass", MassKind, 54000, InchPound, "54 kg, 119 lb"},
		{"a trace", MassKind, 0.002, Metric, "2 mg"},
		{"a strength", ConcentrationKind, 2.34, US, "2.34 g/L"},
		{"a weak strength", ConcentrationKind, 0.0234, Metric, "23.4 mg/L"},
		{"a temperature", TemperatureKind, 20, InchPound, "68 °F"},
		{"a length", LengthKind, 381, InchPound, "15 in"},
		{"an illuminance", IlluminanceKind, 107.64, InchPound, "10 fc"},
		{"a molarity", MolarityKind, 0.0081, Metric, "8.1 mmol/L"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			var got []string
			for _, u := range Handy(r.kind, r.base, r.system) {
				got = append(got, u.Write(r.base, 3))
			}
			if s := strings.Join(got, ", "); s != r.want {
				t.Errorf("Handy(%s, %v) = %q, want %q", r.kind, r.base, s, r.want)
			}
		})
	}
	if got := Handy(TemperatureKind, 20, Metric); got != nil {
		t.Errorf("Handy(temperature) = %v, want none", got)
	}
}
