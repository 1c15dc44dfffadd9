package solutions

import (
	"slices"

	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

func explainSeveral(s *reckoning.Sheet, out *reckoning.Result) {
	all, _ := ingredientsOf(s)
	bath := unit.Volume(s.Base("litres"))
	table := out.Table("For "+s.Litres(bath), "Ingredient", "Strength", "Active substance", "Weigh", "Or measure", "Wrong, if it were all active")
	for i, row := range s.Rows("ingredients") {
		one := all[i]
		weigh, measure := "", ""
		if one.Product > 0 {
			weigh = s.Weight(one.Product)
		}
		if one.Measure > 0 {
			measure = s.Litres(one.Measure)
		}
		strength := reckoning.Grams(one.strength)
		if row.Has("cmc") {
			strength += ", " + unit.Text(float64(solution.InCMC(one.strength, inGrams(row, "cmc"))), 3) + " × CMC"
		}
		table.Row(one.name, strength, s.Weight(one.Active), weigh, measure, takenForPure(s, row, one))
		workIngredient(s, out, row, one)
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
	for i, row := range s.Rows("ingredients") {
		liquidsAndSurfactants(out, row, all[i])
	}
	saidOnce(out)
	out.Object("That a bath was published says nothing about this object.", reckoning.CommonPractice)
	out.Object("Ingredients act on each other: measure the pH of the finished bath, and test it on every colour and fibre before the object meets it.", reckoning.CommonPractice)
}

// saidOnce leaves of cautions that several rows bring the first alone.
func saidOnce(out *reckoning.Result) {
	seen := out.Cautions[:0]
	for _, c := range out.Cautions {
		if !slices.Contains(seen, c) {
			seen = append(seen, c)
		}
	}
	out.Cautions = seen
}

// takenForPure says how much would be taken by those who take the product for pure;
// empty where it nearly is.
func takenForPure(s, row *reckoning.Sheet, one ingredient) string {
	share, stock, _ := productOf(row).Contents()
	pure := pureOf(row)
	switch {
	case share > 0 && share < nearlyPure:
		return s.Weight(one.Active)
	case share == 0 && stock < nearlyPure*unit.Fraction(1).At(pure):
		return s.Litres(one.Active.Over(pure))
	}
	return ""
}

// workIngredient accounts for one product.
func workIngredient(s *reckoning.Sheet, out *reckoning.Result, row *reckoning.Sheet, one ingredient) {
	of := one.name + ". "
	bath := unit.Volume(s.Base("litres"))
	workContent(row, out, of)
	workStrength(row, out, of, one.strength, bathDensityOf(s))
	content := strengthText(row.Kind("active"), row.Base("active"))
	if c := inGrams(row, "active"); c > 0 {
		content = reckoning.Grams(c)
	}
	put := reckoning.Volume(bath) + " × " + reckoning.Grams(one.strength) + " ÷ " + content + " = "
	dense := reckoning.InUnit("g/mL", row.Base("density"))
	switch {
	case row.Kind("active") == unit.FractionKind && one.Measure > 0:
		put += reckoning.Weight(one.Product) + "; ÷ " + dense + " = " + reckoning.Volume(one.Measure)
	case row.Kind("active") == unit.FractionKind:
		put += reckoning.Weight(one.Product)
	case one.Product > 0:
		put += reckoning.Volume(one.Measure) + "; × " + dense + " = " + reckoning.Weight(one.Product)
	default:
		put += reckoning.Volume(one.Measure)
	}
	out.Work(of+"Product that holds it.", "product = bath × strength ÷ active content, and by its density from mass to volume", put, dilution.Name)
}

// liquidsAndSurfactants are the cautions of one row that go by what it is.
func liquidsAndSurfactants(out *reckoning.Result, row *reckoning.Sheet, one ingredient) {
	if row.Kind("target") == unit.VolumeShareKind || row.Kind("active") == unit.VolumeShareKind {
		out.People(one.name+": if the liquid burns, as alcohols do: no flame or spark, and air the room.", reckoning.CommonPractice)
		shareCautions(row, out)
	}
	if row.Has("cmc") {
		micelleCautions(row, out, one.strength)
	}
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
