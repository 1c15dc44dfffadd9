package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Recipe is the reckoning that scales a recipe up or down.
func Recipe() *reckoning.Reckoning {
	made := reckoning.Quantity("made", "The recipe makes", "L", 0.001, 5000)
	wanted := reckoning.Quantity("litres", "I want", "L", 0.001, 5000)
	return (&reckoning.Reckoning{
		Name: "recipe", Title: "Scale a recipe", Asks: "How much of each ingredient do I take when I want more or less than the recipe makes?", Family: family,
		Inputs: []reckoning.Input{
			made, wanted,
			reckoning.Rows("ingredients", "The recipe", mostIngredients,
				reckoning.Text("name", "Name"),
				reckoning.Quantity("amount", "Amount in the recipe", "g", 0.00001, 1e6).Also("mL", 0.001, 1e6).Also("L", 0.000001, 1000).Also("US fl oz", 0.0001, 30000).Also("imp fl oz", 0.0001, 30000),
			),
			balanceInput(),
			reckoning.PlusMinus(&made), reckoning.PlusMinus(&wanted),
		},
		Results: []reckoning.ResultSpec{
			{Name: "times", Title: "Times the recipe", Unit: ""},
			{Name: "weighed", Title: "All that is weighed", Unit: "g"},
			{Name: "poured", Title: "All that is measured", Unit: "L"},
		},
		Sources: reckoning.From(&readError, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"made":"1 L","litres":"12 L","ingredients":[{"name":"trisodium citrate dihydrate","amount":"5 g"},{"name":"surfactant stock","amount":"20 mL"}],"balance":"0.1 g"}`,
		Figures: recipeFigures, Explain: explainRecipe,
	}).Ready()
}

func timesOf(s *reckoning.Sheet) float64 { return s.Base("litres") / s.Base("made") }

func recipeFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	var weighed, poured float64
	for _, row := range s.Rows("ingredients") {
		if row.Kind("amount") == unit.MassKind {
			weighed += row.Base("amount")
		} else {
			poured += row.Base("amount")
		}
	}
	out.Add("times", timesOf(s))
	if weighed > 0 {
		out.Add("weighed", weighed*timesOf(s))
	}
	if poured > 0 {
		out.Add("poured", poured*timesOf(s))
	}
	if poured > s.Base("made")*(1+1e-9) {
		return nil, s.Cannot("made", "at least "+s.Litres(unit.Volume(poured)), "the liquids of the recipe alone are more than it makes.")
	}
	return out, nil
}

func explainRecipe(s *reckoning.Sheet, out *reckoning.Result) {
	times := timesOf(s)
	made, wanted := unit.Volume(s.Base("made")), unit.Volume(s.Base("litres"))
	out.Work("How many times the recipe.", "times = wanted ÷ made", reckoning.Volume(wanted)+" ÷ "+reckoning.Volume(made)+" = "+unit.Text(times, 5), reckoning.Arithmetic.Name)
	table := out.Table("For "+s.Litres(wanted), "Ingredient", "In the recipe", "Take", "Reading error")
	for _, row := range s.Rows("ingredients") {
		k, x := row.Kind("amount"), row.Base("amount")
		e := ""
		if k == unit.MassKind && s.Has("balance") {
			share := unit.Fraction(s.Base("balance") / (x * times))
			e = reckoning.Share(share)
			if share > weighsWell*(1+1e-9) {
				e += ", too little to weigh well"
			}
		}
		table.Row(row.Words("name"), reckoning.Handy(k, x), s.InWords(k, x*times), e)
		out.Work(row.Words("name")+".", "take = recipe × times", reckoning.Handy(k, x)+" × "+unit.Text(times, 5)+" = "+reckoning.Handy(k, x*times), reckoning.Arithmetic.Name)
	}
	solutionPeople(out)
	powderPeople(out)
	out.Object("Only amounts scale. Depth of the bath, liquor ratio, heating and mixing time do not: look at them anew.", reckoning.CommonPractice)
}
