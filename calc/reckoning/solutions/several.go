package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// mostIngredients is how many products one bath may hold.
const mostIngredients = 12

// Several is the reckoning of a bath with several ingredients.
func Several() *reckoning.Reckoning {
	litres := reckoning.Quantity("litres", "Bath", "L", 0.01, 5000).Note("How much finished solution you want.")
	return (&reckoning.Reckoning{
		Name: "several", Title: "A bath of several ingredients", Asks: "How much of each product goes into this bath?", Family: family,
		Inputs: []reckoning.Input{
			litres,
			reckoning.Rows("ingredients", "Ingredients", mostIngredients,
				reckoning.Text("name", "Name"),
				reckoning.Quantity("target", "Strength wanted", "g/L", 0.0001, 500).Also("mmol/L", 0.001, 5000).Also("mol/L", 0.000001, 5).Note("Of the active substance, in the finished bath."),
				reckoning.Choose("form", "The product is", formPowder, "a powder", formLiquid, "a liquid", formPaste, "a paste"),
				reckoning.Quantity("active", "Active content", "% w/w", 0.1, 100).In("% w/w").Also("% w/v", 0.01, 200).Also("g/L", 0.1, 2000).Usually("100"),
				reckoning.Quantity("density", "Density of the product", "g/mL", 0.6, 2.5).If("form", formLiquid, formPaste).Maybe().Note("To measure it by volume."),
				reckoning.Quantity("molar_mass", "Molar mass", "g/mol", 10, 500000).Maybe().Note("Where the strength is in mol/L or mmol/L."),
			),
			balanceInput(),
			reckoning.PlusMinus(&litres),
		},
		Results: []reckoning.ResultSpec{
			{Name: "products", Title: "All products together", Unit: "g"},
			{Name: "active_mass", Title: "All active substance", Unit: "g"},
			{Name: "strength", Title: "All active substance in a litre", Unit: "g/L"},
			{Name: "water", Title: "Water, about", Unit: "L"},
		},
		Sources: reckoning.From(&dilution, &density20, &paste, &readError, &ironRecipe, &fastness, &reckoning.Definitions, &aboutAcid, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"litres":"5 L","ingredients":[{"name":"ascorbic acid","target":"10 g/L","form":"powder","active":"100"},{"name":"disodium EDTA","target":"10 g/L","form":"powder","active":"99 %"},{"name":"surfactant","target":"8 g/L","form":"paste","active":"28 %","density":"1.04 g/mL"}],"balance":"0.1 g"}`,
		Prepare: prepareSeveral, Figures: severalFigures, Explain: explainSeveral,
	}).Ready()
}

// balanceInput declares the step of a balance, which marks what it weighs badly.
func balanceInput() reckoning.Input {
	return reckoning.Quantity("balance", "Smallest step of the balance", "g", 0.00001, 100).Maybe().Note("Marks what is too little to weigh within 5 %.")
}

// weighsWell is the reading error up to which an amount counts as weighed well:
// what is usually tolerated here.
const weighsWell = 0.05

func prepareSeveral(s *reckoning.Sheet) {
	for i, row := range s.Rows("ingredients") {
		n := unit.Text(float64(i+1), 3)
		switch {
		case row.Kind("target") == unit.MolarityKind && !row.Has("molar_mass"):
			s.Fault("ingredients", "row "+n+", "+row.Words("name")+": a strength in mol/L needs the molar mass.")
		case row.Choice("form") == formPowder && row.Kind("active") != unit.FractionKind:
			s.Fault("ingredients", "row "+n+", "+row.Words("name")+": a powder is weighed, so its active content is by mass (% w/w).")
		}
	}
}

// ingredient is one row worked out.
type ingredient struct {
	name     string
	strength unit.Concentration
	solution.Batch
	made bool // the product is strong enough
}

// ingredientOf works a row out for a bath.
func ingredientOf(row *reckoning.Sheet, bath unit.Volume) (ingredient, error) {
	strength := unit.Concentration(row.Base("target"))
	if row.Kind("target") == unit.MolarityKind {
		strength = unit.Molarity(row.Base("target")).Concentration(unit.MolarMass(row.Base("molar_mass")))
	}
	p := solution.Product{}
	if row.Kind("active") == unit.FractionKind {
		p.ByMass = unit.Fraction(row.Base("active"))
	} else {
		p.ByVolume = unit.Concentration(row.Base("active"))
	}
	if row.Has("density") {
		p.Density = unit.Density(row.Base("density"))
	}
	b, err := solution.Make(bath, strength, p, water20())
	if b.Product == 0 && b.Measure > 0 && p.Density > 0 {
		b.Product = b.Measure.At(p.Density)
	}
	return ingredient{row.Words("name"), strength, b, err == nil}, err
}

// ingredientsOf works all rows out; a problem where a product is too weak.
func ingredientsOf(s *reckoning.Sheet) ([]ingredient, *reckoning.Problem) {
	var out []ingredient
	bath := unit.Volume(s.Base("litres"))
	for i, row := range s.Rows("ingredients") {
		one, err := ingredientOf(row, bath)
		if err != nil {
			return nil, s.Cannot("ingredients", "", "row "+unit.Text(float64(i+1), 3)+", "+one.name+": this product cannot make "+reckoning.Grams(one.strength)+", it is too weak or its content is larger than it weighs.")
		}
		out = append(out, one)
	}
	return out, nil
}

func severalFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	all, p := ingredientsOf(s)
	if p != nil {
		return nil, p
	}
	bath := unit.Volume(s.Base("litres"))
	var products, active unit.Mass
	var strength unit.Concentration
	room := bath
	weighed := true
	for _, one := range all {
		products += one.Product
		active += one.Active
		strength += one.strength
		weighed = weighed && one.Product > 0
		room -= roomOf(one)
	}
	if strength > 1000*unit.GramPerLitre || room <= 0 {
		return nil, s.Cannot("ingredients", "", "together these products fill more than the bath. Is a strength in another unit?")
	}
	var out reckoning.Figures
	if weighed {
		out.Add("products", products.Grams())
	}
	out.Add("active_mass", active.Grams())
	out.Add("strength", strength.GramsPerLitre())
	if waterKnown(all, strength) {
		out.Add("water", room.Litres())
	}
	return out, nil
}

// roomOf returns the room that an ingredient takes up: what was measured, or, of
// what is weighed, a gram to the millilitre.
func roomOf(one ingredient) unit.Volume {
	if one.Measure > 0 {
		return one.Measure
	}
	return unit.Volume(one.Product.Grams()) * unit.Millilitre
}

// waterKnown reports whether the water can be told well enough: all products
// measured, or all of it thin.
func waterKnown(all []ingredient, strength unit.Concentration) bool {
	for _, one := range all {
		if one.Measure == 0 && strength > solution.Dilute {
			return false
		}
	}
	return true
}
