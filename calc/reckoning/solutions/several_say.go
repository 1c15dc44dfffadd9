package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

func explainSeveral(s *reckoning.Sheet, out *reckoning.Result) {
	all, _ := ingredientsOf(s)
	bath := unit.Volume(s.Base("litres"))
	table := out.Table("For "+s.Litres(bath), "Ingredient", "Strength", "Active substance", "Weigh", "Or measure", "Wrong, if it were all active")
	for i, row := range s.Rows("ingredients") {
		one := all[i]
		weigh, measure, wrong := "", "", ""
		if one.Product > 0 {
			weigh = s.Weight(one.Product)
		}
		if one.Measure > 0 {
			measure = s.Litres(one.Measure)
		}
		if share := row.Base("active"); row.Kind("active") == unit.FractionKind && share < nearlyPure {
			wrong = s.Weight(one.Active)
		}
		table.Row(one.name, reckoning.Grams(one.strength), s.Weight(one.Active), weigh, measure, wrong)
		put := reckoning.Volume(bath) + " × " + reckoning.Grams(one.strength) + " ÷ " + strengthText(row.Kind("active"), row.Base("active")) + " = "
		if one.Product > 0 {
			put += reckoning.Weight(one.Product)
		} else {
			put += reckoning.Volume(one.Measure)
		}
		out.Work(one.name+".", "product = bath × strength ÷ active content", put, dilution.Name)
	}
	if water, ok := out.Value("water"); ok {
		out.Work("Water, about. What was weighed is counted at a gram to the millilitre.", "water = bath - products", reckoning.Volume(bath)+" less the products = "+reckoning.InUnit("L", water), density20.Name)
	} else {
		out.NotKnown("water", s.Title("water"), "Not known at this strength without the density of every product. Make the bath up to the mark.")
	}
	if _, ok := out.Value("products"); !ok {
		out.NotKnown("products", s.Title("products"), "Not known without the density of what is measured by volume.")
	}
	publishedBaths(out)
	tooLittle(s, out, all)
	out.Work("Dissolve one after the other in part of the water, each until it is clear, then make up to "+s.Litres(bath)+": the mark decides.", "", "", reckoning.CommonPractice.Name)
	solutionPeople(out)
	powderPeople(out)
	out.People("Before you put these together, find out from their safety data sheets whether they may meet: acid and bleach or sulphite give off poisonous gas.", reckoning.CommonPractice)
	out.People("Add acids and alkalis to the water, never water to them.", aboutAcid)
	out.Object("That a bath was published says nothing about this object.", reckoning.CommonPractice)
	out.Object("Ingredients act on each other: measure the pH of the finished bath, and test it on every colour and fibre before the object meets it.", reckoning.CommonPractice)
}

// tooLittle names what the balance cannot weigh well.
func tooLittle(s *reckoning.Sheet, out *reckoning.Result, all []ingredient) {
	if !s.Has("balance") {
		return
	}
	least := unit.Mass(s.Base("balance") / weighsWell)
	say := ""
	for _, one := range all {
		if one.Product > 0 && float64(one.Product) < float64(least)*(1-1e-9) {
			say += one.name + ", " + reckoning.Weight(one.Product) + "; "
		}
	}
	if say == "" {
		say = "This balance weighs all of them within 5 %."
	} else {
		say += "this balance weighs well from " + reckoning.Weight(least) + " on. “Too little for the balance” finds an intermediate stock."
	}
	out.Verdict("balance", "On this balance", say)
}

// publishedBaths sets published baths beside the one that was asked for.
func publishedBaths(out *reckoning.Result) {
	table := out.Table("Published baths, to compare with", "For", "Bath", "Where")
	table.Row("linen or silk, lightly soiled, and usual soil", "5, and 8 to 12 mL/L of a 28 % w/w sodium dodecyl sulfate paste: 1.5, and 2.3 to 3.5 g/L active", "CCI Notes 13/9")
	table.Row("iron stains, in a study on an armour", "ascorbic acid 10 g/L, disodium EDTA 10 g/L, biosurfactant 8 g/L", "Heritage Science 11:56, 2023")
	table.Row("iron stains, locally", "3 to 5 % ammonium citrate near neutral", "M. MacKenzie, TEXCONS 2005")
	table.Row("iron stains", "5 % dithionite, then 5 % EDTA or DTPA", "S. Tse, TEXCONS 2004")
	table.Row("tests of wash fastness", "soap 5 g/L, with soda 2 g/L at 60 °C; 50 parts liquor to one of cloth", "ISO tests as summarised at chemwifi.com")
}

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
		return nil, s.Cannot("made", "", "the liquids of the recipe alone are more than it makes.")
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
