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
				reckoning.Quantity("target", "Strength wanted", "g/L", 0.0001, 500).Also("× CMC", 0.01, 100).Also("mmol/L", 0.001, 5000).Also("mol/L", 0.000001, 5).Also("% w/w", 0.0001, 50).Also("% v/v", 0.001, 99).
					Note("Of the active substance, in the finished bath; say which per cent it is."),
				reckoning.Choose("form", "The product is", formPowder, "a powder", formLiquid, "a liquid", formPaste, "a paste"),
				reckoning.Quantity("active", "Active content", "% w/w", 0.1, 100).In("% w/w").Also("% w/v", 0.01, 200).Also("g/L", 0.1, 2000).Also("mol/L", 0.0001, 40).Also("% v/v", 0.1, 100).Usually("100"),
				reckoning.Quantity("density", "Density of the product", "g/mL", 0.6, 2.5).If("form", formLiquid, formPaste).Maybe().Note("To measure it by volume."),
				reckoning.Quantity("cmc", "CMC", "g/L", 0.0001, 50).Also("mmol/L", 0.0001, 500).Maybe().Note("Of a surfactant, where the strength is a multiple of it. Sodium dodecyl sulfate: 2.34 g/L."),
				reckoning.Quantity("molar_mass", "Molar mass", "g/mol", 10, 500000).Maybe().Note("Where something is given in mol/L or mmol/L."),
				reckoning.Quantity("pure_density", "Density of the pure liquid", "g/mL", 0.6, 2.5).If("form", formLiquid).Maybe().Note("Where something is given in % v/v. Ethanol 0.789 g/mL at 20 °C."),
			),
			bathDensity(),
			balanceInput(),
			reckoning.PlusMinus(&litres),
		},
		Results: []reckoning.ResultSpec{
			{Name: "products", Title: "All products together", Unit: "g"},
			{Name: "active_mass", Title: "All active substance", Unit: "g"},
			{Name: "strength", Title: "All active substance in a litre", Unit: "g/L"},
			{Name: "water", Title: "Water, about", Unit: "L"},
		},
		Sources: reckoning.From(&dilution, &density20, &paste, &readError, &cmcRange, &cmcSalt, &shrinking, &ironRecipe, &fastness, &reckoning.Definitions, &aboutAcid, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"litres":"5 L","ingredients":[{"name":"ascorbic acid","target":"10 g/L","form":"powder","active":"100"},{"name":"disodium EDTA","target":"10 g/L","form":"powder","active":"99 %"},{"name":"surfactant","target":"3 × CMC","cmc":"2.34 g/L","form":"paste","active":"28 %","density":"1.04 g/mL"}],"balance":"0.1 g"}`,
		Figures: severalFigures, Explain: explainSeveral,
	}).Ready()
}

// balanceInput declares the step of a balance, which marks what it weighs badly.
func balanceInput() reckoning.Input {
	return reckoning.Quantity("balance", "Smallest step of the balance", "g", 0.00001, 100).Maybe().Note("Marks what is too little to weigh within 5 %.")
}

// weighsWell is the reading error up to which an amount counts as weighed well:
// what is usually tolerated here.
const weighsWell = 0.05

// ingredient is one row worked out.
type ingredient struct {
	name     string
	strength unit.Concentration
	solution.Batch
}

// ingredientsOf works all rows out; a problem of the first row that makes no bath.
func ingredientsOf(s *reckoning.Sheet) ([]ingredient, *reckoning.Problem) {
	var out []ingredient
	for i, row := range s.Rows("ingredients") {
		one, p := ingredientOf(s, row)
		switch {
		case p == nil:
			out = append(out, one)
		case p.Field == "bath_density":
			return nil, p
		default:
			return nil, reckoning.InRow("ingredients", i+1, p)
		}
	}
	return out, nil
}

// ingredientOf works a row out.
func ingredientOf(s, row *reckoning.Sheet) (ingredient, *reckoning.Problem) {
	if wants := lacking(row, s.Has("bath_density")); len(wants) > 0 {
		l := wants[0]
		if l.field == "bath_density" {
			return ingredient{}, s.Cannot(l.field, "", l.say)
		}
		return ingredient{}, row.Cannot(l.field, l.allowed, l.say)
	}
	strength, p := strengthIn(row, bathDensityOf(s)), productOf(row)
	if beyond := beyondLimits(row, strength); len(beyond) > 0 {
		return ingredient{}, row.Cannot(beyond[0].field, beyond[0].allowed, beyond[0].say)
	}
	b, err := solution.Make(unit.Volume(s.Base("litres")), strength, p, water20())
	if err != nil {
		return ingredient{}, cannotMake(row, err, strength, p)
	}
	return ingredient{row.Words("name"), strength, b}, nil
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
		return nil, s.Cannot("ingredients", "products that fill less than "+s.Litres(bath), "together these products fill more than the bath. Is a strength in another unit?")
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
