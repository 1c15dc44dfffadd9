package rinsing

import (
	"math"
	"strconv"

	"sinkside/calc/reckoning"
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

const family = "Rinsing"

// Split compares ways of dividing a fixed amount of water.
func Split() *reckoning.Reckoning {
	kept := reckoning.Quantity("kept", "Liquid kept after draining", "L", 0.01, 500)
	least := reckoning.Quantity("least", "Least water that covers the object", "L", 0.05, 5000)
	return (&reckoning.Reckoning{
		Name: "split", Title: "Dividing the water that is there", Asks: "Into how many rinses do I divide this water?", Family: family,
		Inputs: []reckoning.Input{
			kept, reckoning.Quantity("water", "Water for all rinses", "L", 0.1, 50000), least,
			reckoning.Series("uneven", "A division of your own", "L", 0.01, 50000).Maybe().Note("The rinses in their order: 7; 3. They come to the water above."),
			reckoning.PlusMinus(&kept), reckoning.PlusMinus(&least),
		},
		Results: []reckoning.ResultSpec{
			{Name: "best_n", Title: "Best number of rinses"}, {Name: "portion", Title: "Water for each", Unit: "L"}, {Name: "best_left", Title: "They leave", Unit: "%"},
			{Name: "own_left", Title: "Your division leaves", Unit: "%"}, {Name: "even_left", Title: "As many equal ones leave", Unit: "%"}, {Name: "limit", Title: "Limit of any division", Unit: "%"},
		},
		Sources: reckoning.From(&batch, &splitting, &adsorption, &reckoning.CommonPractice),
		Example: `{"kept":"1","water":"30","least":"6","uneven":"15; 10; 5"}`,
		Prepare: func(s *reckoning.Sheet) {
			sum := 0.0
			for _, x := range s.Series("uneven") {
				sum += x
			}
			if own := s.Series("uneven"); len(own) > 0 && math.Abs(sum-s.Base("water")) > 0.01*s.Base("water") {
				all := s.InAnswersUnit("uneven", s.Base("water"))
				s.Beyond("uneven", "adding up to "+all, "it comes to "+s.InAnswersUnit("uneven", sum)+", and the water is "+all+".")
			}
		},
		Figures: splitFigures, Explain: explainSplit,
	}).Ready()
}

// tooLittle is what is wrong where the water does not cover the object once; nil where
// it does.
func tooLittle(s *reckoning.Sheet) *reckoning.Problem {
	if s.Base("least") <= s.Base("water") {
		return nil
	}
	return s.Limits("water", s.Base("least"), math.Inf(1), "does not cover the object once, for which "+s.InAnswersUnit("water", s.Base("least"))+" is needed")
}

func own(s *reckoning.Sheet) []unit.Volume {
	var out []unit.Volume
	for _, x := range s.Series("uneven") {
		out = append(out, unit.Volume(x))
	}
	return out
}

func splitFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if p := tooLittle(s); p != nil {
		return nil, p
	}
	kept, water := unit.Volume(s.Base("kept")), unit.Volume(s.Base("water"))
	n := rinse.Portions(water, unit.Volume(s.Base("least")))
	var out reckoning.Figures
	out.Add("best_n", float64(n))
	out.Add("portion", water.Litres()/float64(n))
	out.Add("best_left", float64(rinse.Split(kept, water, n)))
	if o := own(s); len(o) > 0 {
		out.Add("own_left", float64(rinse.Left(kept, o...)))
		out.Add("even_left", float64(rinse.Split(kept, water, len(o))))
	}
	out.Add("limit", float64(rinse.Limit(kept, water)))
	return out, nil
}

func explainSplit(s *reckoning.Sheet, out *reckoning.Result) {
	kept, water := unit.Volume(s.Base("kept")), unit.Volume(s.Base("water"))
	n := rinse.Portions(water, unit.Volume(s.Base("least")))
	table := out.Table("Equal rinses with the same water", "Rinses", "Water for each", "Left")
	for i := 1; i <= min(n, 8); i++ {
		table.Row(strconv.Itoa(i), s.Litres(water/unit.Volume(i)), reckoning.Share(rinse.Split(kept, water, i)))
	}
	if n > 8 {
		table.Row(strconv.Itoa(n), s.Litres(water/unit.Volume(n)), reckoning.Share(rinse.Split(kept, water, n)))
	}
	out.Work("As many equal rinses as cover the object: dividing further never leaves more.", "f = (kept ÷ (kept + water ÷ n))ⁿ", "n = "+strconv.Itoa(n)+": "+reckoning.Share(rinse.Split(kept, water, n)), splitting.Name)
	if o := own(s); len(o) > 0 {
		out.Work("Your own division, against as many equal ones.", "f = kept ÷ (kept + v₁) × kept ÷ (kept + v₂) …", reckoning.Share(rinse.Left(kept, o...))+" against "+reckoning.Share(rinse.Split(kept, water, len(o))), batch.Name)
	}
	out.Work("What no division comes below.", "e^(-water ÷ kept)", reckoning.Share(rinse.Limit(kept, water)), splitting.Name)
	out.People("Water is heavy: "+s.Weight(water.At(unit.GramPerMillilitre))+" in all. Bring it by hose, or in cans that one person can carry.", reckoning.CommonPractice)
	out.Object("Real fibres hold surfactant back: the water must also stay long enough and be moved. This is the best that mixing can do.", adsorption)
	out.Object("Every rinse is a lift and a draining more for the object, and counts for the immersion clock.", reckoning.CommonPractice)
}
