package outlines

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// longer is by how much a tube is longer than what is rolled, at the least that is
// published: 4 in.
const longer = 4 * unit.Inch

// Roll reckons how thick a textile rolls.
func Roll() *reckoning.Reckoning {
	tube := reckoning.Quantity("tube", "Tube, outside diameter", "mm", 10, 1000).In("mm", "cm", "in")
	length := reckoning.Quantity("length", "Length that is rolled up", "cm", 5, 5000)
	thick := reckoning.Quantity("thick", "Thickness of textile and interleaf", "mm", 0.05, 50).In("mm", "in").Note("One layer of the textile with what is rolled in with it, as they lie.")
	width := reckoning.Quantity("width", "Width along the tube", "cm", 2, 2000).Maybe()
	return (&reckoning.Reckoning{
		Name: "roll", Title: "A roll for storage", Asks: "How thick does it get when it is rolled, and how long a tube does it take?", Family: family,
		Inputs: []reckoning.Input{
			tube, length, thick, width,
			reckoning.Quantity("beyond", "Tube longer than it, at each end", "cm", 0, 200).Usually("5.1").Note("4 in in all, 5.1 cm at each end, is published as the least."),
			reckoning.PlusMinus(&tube), reckoning.PlusMinus(&length), reckoning.PlusMinus(&thick), reckoning.PlusMinus(&width),
		},
		Results: []reckoning.ResultSpec{
			{Name: "outer", Title: "Roll, outside diameter", Unit: "mm", Digits: 4}, {Name: "turns", Title: "Turns on the tube"}, {Name: "tube_length", Title: "Tube, length", Unit: "cm", Digits: 5},
		},
		Sources: reckoning.From(&planar, &tubes, &reckoning.CommonPractice, &reckoning.Definitions, &reckoning.Arithmetic), Usual: tubes.Name,
		Example: `{"tube":"100","length":"4 m","thick":"3","thick_pm":"0.5","width":"180","beyond":"6"}`,
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
	tube, length, thick := s.Base("tube"), s.Base("length"), s.Base("thick")
	outer, turns := size.Roll(unit.Length(tube), unit.Length(length), unit.Length(thick))
	r := size.RulerIn(s.Inches("tube") || s.Inches("length"))
	out.Work("What is rolled fills the ring around the tube.", "D = √(d² + 4 × length × thickness ÷ π)", "√(("+r.Of(tube)+")² + 4 × "+r.Of(length)+" × "+r.Of(thick)+" ÷ π) = "+r.Both(float64(outer)), planar.Name)
	out.Work("Turns on the tube.", "(D - d) ÷ (2 × thickness)", "("+r.Of(float64(outer))+" - "+r.Of(tube)+") ÷ (2 × "+r.Of(thick)+") = "+unit.Text(turns, 3), planar.Name)
	if beyond := s.Base("beyond"); s.Has("width") {
		out.Work("The tube reaches beyond the textile at both ends.", "width + 2 × beyond", r.Of(s.Base("width"))+" + 2 × "+r.Of(beyond)+" = "+r.Both(s.Base("width")+2*beyond), tubes.Name)
		if 2*beyond < float64(longer)-0.01 {
			out.Object("Tubes are published as at least 4 in (10.2 cm) longer than the piece; this one is longer by "+r.Both(2*beyond)+".", tubes)
		}
	} else {
		out.NotKnown("tube_length", s.Title("tube_length"), "Not known without the width along the tube.")
	}
	out.People("A long roll is carried by two, level, and not over a stair alone; local rules for lifting come first.", reckoning.CommonPractice)
	out.Object("Tubes of 5 to 15 cm are most used: the thicker and stiffer the piece, the wider the tube.", tubes)
	out.Object("Rolled with its pile or face as the piece asks for, without tension, with an interleaf; brittle, painted or padded pieces may not be rolled at all.", reckoning.CommonPractice)
}
