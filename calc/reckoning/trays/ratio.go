package trays

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Ratio reckons the liquor ratio.
func Ratio() *reckoning.Reckoning {
	dry := reckoning.Quantity("dry_mass", "Dry mass of the textile", "g", 0.1, 200000)
	litres := reckoning.Quantity("litres", "Liquor", "L", 0.01, 5000).Maybe()
	return (&reckoning.Reckoning{
		Name: "liquor_ratio", Title: "Liquor ratio", Asks: "How much liquor is there for this textile?", Family: family,
		Inputs: []reckoning.Input{
			dry, litres, reckoning.Number("wanted", "Ratio wanted, 1 to", 1, 10000).Maybe().Note("50 means fifty litres to the kilogram."), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&litres),
		},
		Results: []reckoning.ResultSpec{{Name: "ratio", Title: "Liquor ratio, 1 to"}, {Name: "litres", Title: "Liquor for the ratio wanted", Unit: "L"}},
		Sources: reckoning.From(&fastness, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"dry_mass":"400 g","litres":"24","wanted":"50"}`,
		Prepare: func(s *reckoning.Sheet) {
			if !s.Has("litres") && !s.Has("wanted") {
				s.Missing("litres", "give the liquor, or the ratio wanted.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			kg := s.Base("dry_mass") / 1000
			var out reckoning.Figures
			if s.Has("litres") {
				out.Add("ratio", s.Base("litres")/kg)
			}
			if s.Has("wanted") {
				out.Add("litres", s.Base("wanted")*kg)
			}
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			mass := reckoning.Weight(unit.Mass(s.Base("dry_mass")))
			if x, ok := out.Value("ratio"); ok {
				out.Work("Litres for each kilogram, a litre of liquor weighing about a kilogram.", "ratio = litres ÷ dry mass", reckoning.Volume(unit.Volume(s.Base("litres")))+" ÷ "+mass+" = 1 : "+unit.Text(x, 3), reckoning.Arithmetic.Name)
			}
			if x, ok := out.Value("litres"); ok {
				out.Work("Liquor for the ratio wanted.", "litres = ratio × dry mass", unit.Text(s.Base("wanted"), 4)+" × "+mass+" = "+reckoning.Volume(unit.Volume(x)), reckoning.Arithmetic.Name)
			}
			out.Object("1 to 50 is that of a laboratory test for wash fastness, not a rule for washing: an object needs at least what covers it and lets it be moved.", fastness)
		},
	}).Ready()
}
