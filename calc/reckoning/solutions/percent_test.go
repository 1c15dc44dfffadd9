package solutions

import (
	"strings"
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

// A bare per cent means the one at which the form stands. Which one that was is said,
// since a label may mean another; a per cent that names its kind needs no words.
func TestABarePerCentIsToldForWhatItWasTaken(t *testing.T) {
	in := reckoningtest.In
	rows := []struct {
		name string
		form form
		want string // empty where nothing is to be said
	}{
		{"dilution", form{"amount": 1, "stock": "10 %", "wanted": "1 %"}, "Strength of the stronger: “10 %” was taken as % w/v, grams in 100 mL"},
		{"dilution", form{"amount": 1, "stock": "10 %", "wanted": "1 %"}, "Strength wanted: “1 %” was taken as % w/v"},
		{"dilution", form{"amount": 1, "stock": in("96 %", "% v/v"), "wanted": in(70, "% v/v")}, "“96 %” was taken as % v/v, millilitres of the liquid in 100 mL"},
		{"dilution", form{"amount": 1, "stock": in("10", "%"), "wanted": "1 % w/v"}, "“10” was taken as % w/v"},
		{"dilution", form{"by": "mass", "amount": "1 kg", "stock": in("10 percent", "% w/w"), "wanted": in(1, "% w/w")}, "“10 percent” was taken as % w/w, grams in 100 g"},
		{"dilution", form{"amount": 1, "stock": "10 % w/v", "wanted": "1 % w/v"}, ""},
		{"dilution", form{"amount": 1, "stock": in(2, "mol/L"), "wanted": "1 mol/L"}, ""},
		{"strengths", form{"strength": "10 %", "density": 1.035}, "“10 %” was taken as % w/v"},
		{"strengths", form{"strength": in(100, "g/L"), "density": 1.035}, ""},
		{"solution", form{"litres": 1, "target": 2, "active": "28 %"}, "Active content of the product: “28 %” was taken as % w/w"},
		{"solution", form{"litres": 1, "target": 2, "form": "powder", "active": "98 %"}, ""},
		{"bath_strength", form{"litres": 1, "amount": "8 g", "active": in(28, "%")}, "was taken as % w/w"},
		{"several", form{"litres": 1, "ingredients": []form{{"name": "soap", "form": "paste", "target": 2, "active": "28 %"}}}, "soap. Active content: “28 %” was taken as % w/w"},
	}
	for _, r := range rows {
		said := ""
		for _, w := range run(t, r.name, r.form).Working {
			said += w.Say + "\n"
		}
		if r.want == "" && strings.Contains(said, "was taken as") || !strings.Contains(said, r.want) {
			t.Errorf("%s %v says %q, want %q", r.name, r.form, said, r.want)
		}
	}
}

// A bare per cent that does not go with the other is told for what it was read.
func TestARefusalSaysWhichPerCentWasRead(t *testing.T) {
	f := form{"amount": 1, "stock": "96 %", "wanted": reckoningtest.In(70, "% v/v")}
	if p := reckoningtest.Refused(t, Dilution(), f, "wanted"); !strings.Contains(p.Say, "the stronger was read in % w/v, the weaker in % v/v") {
		t.Errorf("%+v", p)
	}
}
