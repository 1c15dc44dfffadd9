package outlines

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// MassPerArea reckons the mass of a square metre.
func MassPerArea() *reckoning.Reckoning {
	mass := reckoning.Quantity("mass", "Mass", "g", 0.001, 200000)
	whole := reckoning.Quantity("area", "Area", "cm²", 0.01, 5000000).Maybe().Note("Or leave it empty and give width and height.")
	length := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "cm", 0.1, 3000).Maybe()
	}
	width, height := length("width", "Width"), length("height", "Height")
	return (&reckoning.Reckoning{
		Name: "mass_per_area", Title: "Mass per area", Asks: "How heavy is this cloth by its area?", Family: family,
		Inputs:  []reckoning.Input{mass, whole, width, height, reckoning.PlusMinus(&mass), reckoning.PlusMinus(&whole), reckoning.PlusMinus(&width), reckoning.PlusMinus(&height)},
		Results: []reckoning.ResultSpec{{Name: "per_area", Title: "Mass per area", Unit: "g/m²", Digits: 4}, {Name: "area", Title: "Area", Unit: "m²", Digits: 4}},
		Sources: reckoning.From(&perArea, &reckoning.CommonPractice, &reckoning.Definitions, &reckoning.Arithmetic),
		Example: `{"mass":"620 g","width":"120","height":"215 cm","mass_pm":"1","width_pm":"0.5","height_pm":"0.5"}`,
		Prepare: func(s *reckoning.Sheet) {
			switch {
			case !s.Has("area") && !(s.Has("width") && s.Has("height")):
				s.Missing("area", "it is needed, or width and height in its place.")
			case s.Has("area") && (s.Has("width") || s.Has("height")):
				s.Fault("area", "width or height is given as well. Leave one of the two empty.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			out.Add("per_area", size.PerArea(unit.Mass(s.Base("mass")), areaOf(s)))
			out.Add("area", areaOf(s))
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			m2 := areaOf(s)
			if !s.Has("area") {
				r := measured.Ruler(s, "width")
				out.Work("Area.", "width × height", r.Of(s.Base("width"))+" × "+r.Of(s.Base("height"))+" = "+area(s, "width", "m²", m2), reckoning.Arithmetic.Name)
			}
			out.Work("Mass by area.", "g/m² = mass ÷ area", reckoning.Weight(unit.Mass(s.Base("mass")))+" ÷ "+reckoning.InUnit("m²", m2)+" = "+reckoning.InUnit("g/m²", size.PerArea(unit.Mass(s.Base("mass")), m2)), perArea.Name)
			out.Object("Weighed as it lies in the room it holds the room's moisture: say at which humidity, or condition it first.", perArea)
			out.Object("With linings, trimmings or mounts in it this is the mass of the whole, not of the cloth.", reckoning.CommonPractice)
		},
	}).Ready()
}

// areaOf is in m².
func areaOf(s *reckoning.Sheet) float64 {
	if s.Has("area") {
		return s.Base("area")
	}
	return s.Base("width") * s.Base("height") / 1e6
}
