package outlines

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// MassPerArea reckons the mass of a square metre.
func MassPerArea() *reckoning.Reckoning {
	mass := reckoning.Quantity("mass", "Mass", "g", 0.001, 200000)
	area := reckoning.Quantity("area", "Area", "cm²", 0.01, 5000000).Maybe().Note("Or leave it empty and give width and height.")
	length := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "cm", 0.1, 3000).Maybe()
	}
	return (&reckoning.Reckoning{
		Name: "mass_per_area", Title: "Mass per area", Asks: "How heavy is this cloth by its area?", Family: family,
		Inputs:  []reckoning.Input{mass, area, length("width", "Width"), length("height", "Height"), reckoning.PlusMinus(&mass), reckoning.PlusMinus(&area)},
		Results: []reckoning.ResultSpec{{Name: "per_area", Title: "Mass per area", Unit: "g/m²"}, {Name: "area", Title: "Area", Unit: "m²"}},
		Sources: reckoning.From(&perArea, &reckoning.CommonPractice, &reckoning.Definitions, &reckoning.Arithmetic),
		Example: `{"mass":"620 g","width":"120","height":"215 cm","mass_pm":"1"}`,
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
			area := areaOf(s)
			out.Work("Mass by area.", "g/m² = mass ÷ area", reckoning.Weight(unit.Mass(s.Base("mass")))+" ÷ "+reckoning.InUnit("m²", area)+" = "+reckoning.InUnit("g/m²", size.PerArea(unit.Mass(s.Base("mass")), area)), perArea.Name)
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

// Roll reckons how thick a textile rolls.
func Roll() *reckoning.Reckoning {
	thick := reckoning.Quantity("thick", "Thickness of textile and interleaf", "mm", 0.05, 50).In("mm", "in").Note("One layer of the textile with what is rolled in with it, as they lie.")
	return (&reckoning.Reckoning{
		Name: "roll", Title: "A roll for storage", Asks: "How thick does it get when it is rolled, and how long a tube does it take?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Quantity("tube", "Tube, outside", "mm", 10, 1000).In("mm", "cm", "in"), reckoning.Quantity("length", "Length that is rolled up", "cm", 5, 5000), thick,
			reckoning.Quantity("width", "Width along the tube", "cm", 2, 2000).Maybe(),
			reckoning.Quantity("beyond", "Tube longer than it, at each end", "cm", 0, 200).Usually("5").Note("4 in in all and more is published, 5 cm at each end."),
			reckoning.PlusMinus(&thick),
		},
		Results: []reckoning.ResultSpec{
			{Name: "outer", Title: "The roll is thick", Unit: "mm"}, {Name: "turns", Title: "Times round"}, {Name: "tube_length", Title: "The tube is long", Unit: "cm"},
		},
		Sources: reckoning.From(&planar, &tubes, &reckoning.CommonPractice, &reckoning.Definitions, &reckoning.Arithmetic),
		Example: `{"tube":"100","length":"4 m","thick":"3","thick_pm":"0.5","width":"180","beyond":"5"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			outer, turns := size.Roll(unit.Length(s.Base("tube")), unit.Length(s.Base("length")), unit.Length(s.Base("thick")))
			var out reckoning.Figures
			out.Add("outer", float64(outer))
			out.Add("turns", turns)
			if s.Has("width") {
				out.Add("tube_length", s.Base("width")+2*s.Base("beyond"))
			}
			return out, nil
		},
		Explain: explainRoll,
	}).Ready()
}

func explainRoll(s *reckoning.Sheet, out *reckoning.Result) {
	tube, length, thick := unit.Length(s.Base("tube")), unit.Length(s.Base("length")), unit.Length(s.Base("thick"))
	outer, turns := size.Roll(tube, length, thick)
	out.Work("What is rolled fills the ring around the tube.", "D = √(d² + 4 × length × thickness ÷ π)", "√(("+mm(float64(tube))+")² + 4 × "+mm(float64(length))+" × "+mm(float64(thick))+" ÷ π) = "+mm(float64(outer)), planar.Name)
	out.Work("Times round.", "(D - d) ÷ (2 × thickness)", unit.Text(turns, 3), planar.Name)
	if s.Has("width") {
		out.Work("The tube reaches beyond the textile at both ends.", "width + 2 × beyond", reckoning.InUnit("cm", s.Base("width")+2*s.Base("beyond")), tubes.Name)
	} else {
		out.NotKnown("tube_length", s.Title("tube_length"), "Not known without the width along the tube.")
	}
	out.People("A long roll is carried by two, level, and not over a stair alone; local rules for lifting come first.", reckoning.CommonPractice)
	out.Object("Tubes of 5 to 15 cm are most used: the thicker and stiffer the piece, the wider the tube.", tubes)
	out.Object("Rolled with its pile or face as the piece asks for, without tension, with an interleaf; brittle, painted or padded pieces may not be rolled at all.", reckoning.CommonPractice)
}
