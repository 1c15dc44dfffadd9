package fibres

import (
	"sinkside/calc/moisture"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Equilibrium reads off what fibres hold at a humidity.
func Equilibrium() *reckoning.Reckoning {
	var names []string
	for _, x := range moisture.Sorptions {
		names = append(names, x.Fibre, x.Fibre)
	}
	percent := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "%", 10, 90).In("%")
	}
	humidity, other := percent("humidity", "Relative humidity"), percent("other", "Another humidity").Maybe()
	mass := reckoning.Quantity("mass", "Mass at the first humidity", "g", 0.01, 200000).Maybe()
	return (&reckoning.Reckoning{
		Name: "equilibrium", Title: "What a fibre holds at a humidity", Asks: "How much water does it hold in this air, and what does another humidity change?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("fibre", "Fibre", names...), humidity, other, mass,
			reckoning.PlusMinus(&humidity), reckoning.PlusMinus(&other), reckoning.PlusMinus(&mass),
		},
		Results: []reckoning.ResultSpec{
			{Name: "regain", Title: "Regain", Unit: "%"}, {Name: "content", Title: "Moisture content", Unit: "%"}, {Name: "other_regain", Title: "Regain at the other", Unit: "%"},
			{Name: "change", Title: "Water taken up (minus: given off)", Unit: "g", Signed: true},
		},
		Sources: reckoning.From(&sorption, &hysteresis, &atmospheres, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"fibre":"linen yarn","humidity":"50","other":"70","mass":"400 g"}`,
		Figures: equilibriumFigures, Explain: explainEquilibrium,
	}).Ready()
}

// held is the regain at a humidity of the form, per cent, and its range.
func held(s *reckoning.Sheet, name string) (x, low, high float64) {
	for _, f := range moisture.Sorptions {
		if f.Fibre == s.Choice("fibre") {
			x, _ = f.Regain(s.Base(name) * 100)
		}
	}
	return x, max(x-moisture.Tolerance, 0), x + moisture.Tolerance
}

func equilibriumFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	x, low, high := held(s, "humidity")
	out.Between("regain", x/100, low/100, high/100)
	out.Between("content", moisture.Content(x)/100, moisture.Content(low)/100, moisture.Content(high)/100)
	if !s.Has("other") {
		return out, nil
	}
	y, yLow, yHigh := held(s, "other")
	out.Between("other_regain", y/100, yLow/100, yHigh/100)
	if s.Has("mass") {
		less, more := takenRange(s, x, y)
		out.Between("change", taken(s, x, y), less, more)
	}
	return out, nil
}

// takenRange is how little and how much water may be taken up, g, where each
// point may be off by the table's tolerance its own way, as where the textile
// comes down to one humidity and up to the other. More humidity never makes a
// fibre give water off, so that the range ends at nought.
func takenRange(s *reckoning.Sheet, x, y float64) (less, more float64) {
	low, high := y-x-2*moisture.Tolerance, y-x+2*moisture.Tolerance
	switch a, b := s.Base("humidity"), s.Base("other"); {
	case b > a:
		low = max(low, 0)
	case b < a:
		high = min(high, 0)
	default:
		return 0, 0
	}
	dry := moisture.Dry(unit.Mass(s.Base("mass")), x).Grams() / 100
	return dry * low, dry * high
}

func written(a moisture.Atmosphere) string {
	return unit.Text(a.Celsius, 3) + " ± " + unit.Text(a.CelsiusOff, 2) + " °C, " + unit.Text(a.Humidity, 3) + " ± " + unit.Text(a.HumidityOff, 2) + " %"
}

// taken is the water that is taken up from one regain to another, g.
func taken(s *reckoning.Sheet, from, to float64) float64 {
	dry := moisture.Dry(unit.Mass(s.Base("mass")), from)
	return dry.Grams() * (to - from) / 100
}

func explainEquilibrium(s *reckoning.Sheet, out *reckoning.Result) {
	x, low, high := held(s, "humidity")
	percent := func(x float64) string { return reckoning.InUnit("%", x/100) }
	out.Work("Straight between the published points, at 24 °C, which are from memory; 1.5 either way, which hysteresis alone is worth.", "", percent(x)+" ("+percent(low)+" to "+percent(high)+")", sorption.Name)
	if s.Has("other") {
		y, _, _ := held(s, "other")
		out.Work("At the other humidity.", "", percent(y), sorption.Name)
		if s.Has("mass") {
			out.Work("Water between the two.", "mass ÷ (1 + regain) × (regain then - regain now)", reckoning.InUnit("g", s.Base("mass"))+": "+reckoning.InUnit("g", taken(s, x, y))+"; in brackets what 1.5 either way at both make of it", reckoning.Arithmetic.Name)
		} else {
			out.NotKnown("change", s.Title("change"), "Not known without the mass.")
		}
	}
	out.Work("Standard atmospheres in which textiles are tested.", written(moisture.Standard)+"; by agreement "+written(moisture.ByAccord), "", atmospheres.Name)
	out.Object("A textile that dries down holds more than one that takes up, at the same humidity; old, soiled, sized or degraded fibres hold something else again.", hysteresis)
	out.Object("These are raw fibres and yarns as the trade has them, not this object.", reckoning.CommonPractice)
}
