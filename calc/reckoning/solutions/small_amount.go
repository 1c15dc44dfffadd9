package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// SmallAmount is the reckoning of a way to take what is too little to weigh.
func SmallAmount() *reckoning.Reckoning {
	litres := reckoning.Quantity("litres", "Bath", "L", 0.001, 5000).Note("How much finished solution you want.")
	target := reckoning.Quantity("target", "Strength wanted", "g/L", 0.000001, 500)
	return (&reckoning.Reckoning{
		Name: "small_amount", Title: "Too little for the balance", Asks: "My balance cannot weigh so little: by which intermediate stock do I get there?", Family: family,
		Inputs: []reckoning.Input{
			litres, target,
			reckoning.Quantity("active", "Active content of the product", "% w/w", 0.1, 100).In("% w/w").Usually("100"),
			reckoning.Quantity("balance", "Smallest step of the balance", "g", 0.00001, 100).Note("What its display can still tell apart: 0.01 g for two decimals."),
			reckoning.Quantity("measure", "Smallest step of the measure", "mL", 0.001, 1000).Usually("1").Note("Of the cylinder, pipette or syringe with which the stock is dosed."),
			reckoning.Quantity("tolerated", "Error that is tolerable", "%", 0.1, 50).In("%").Usually("5"),
			reckoning.Quantity("vessel", "Largest vessel for the stock", "L", 0.01, 100).Usually("1"),
			reckoning.Quantity("dissolves", "Most that dissolves", "g/L", 0.001, 2000).Maybe().Note("Of the product in water, where you know it. A stock stronger than that is then refused."),
			reckoning.PlusMinus(&litres), reckoning.PlusMinus(&target),
		},
		Results: []reckoning.ResultSpec{
			{Name: "product_mass", Title: "Product that the bath needs", Unit: "g"},
			{Name: "reading", Title: "Error from weighing it directly", Unit: "%"},
			{Name: "least_mass", Title: "Least that this balance weighs well enough", Unit: "g"},
		},
		Sources: reckoning.From(&dilution, &readError, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"litres":"2 L","target":"10 mg/L","active":"80","balance":"0.01 g","measure":"1 mL","tolerated":"5 %","vessel":"2 L","dissolves":"50 g/L"}`,
		Figures: smallFigures, Explain: explainSmall,
	}).Ready()
}

// smallMass returns the product that the bath needs.
func smallMass(s *reckoning.Sheet) unit.Mass {
	active := unit.Concentration(s.Base("target")).In(unit.Volume(s.Base("litres")))
	return solution.ProductMass(active, unit.Fraction(s.Base("active")))
}

func smallFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	m := smallMass(s)
	if strongest := unit.Mass(1000).Grams() * s.Base("litres"); m.Grams() > strongest {
		return nil, s.Cannot("target", "up to "+reckoning.Grams(unit.Concentration(1000*s.Base("active"))), "this takes more than a kilogram of product to each litre.")
	}
	var out reckoning.Figures
	out.Add("product_mass", m.Grams())
	out.Add("reading", float64(solution.ReadingError(s.Base("balance"), m.Grams())))
	out.Add("least_mass", s.Base("balance")/s.Base("tolerated"))
	return out, nil
}

func explainSmall(s *reckoning.Sheet, out *reckoning.Result) {
	m, bath := smallMass(s), unit.Volume(s.Base("litres"))
	active := unit.Concentration(s.Base("target")).In(bath)
	out.Work("Active substance that the bath needs.", "active = bath × strength", reckoning.Volume(bath)+" × "+reckoning.Grams(unit.Concentration(s.Base("target")))+" = "+reckoning.Weight(active), dilution.Name)
	out.Work("Product that holds it.", "product = active ÷ active share", reckoning.Weight(active)+" ÷ "+reckoning.InUnit("% w/w", s.Base("active"))+" = "+reckoning.Weight(m), dilution.Name)
	e := solution.ReadingError(s.Base("balance"), m.Grams())
	allowed := unit.Fraction(s.Base("tolerated"))
	out.Work("How well the balance reads that.", "error = step ÷ amount", reckoning.Weight(unit.Mass(s.Base("balance")))+" ÷ "+reckoning.Weight(m)+" = "+reckoning.Share(e), readError.Name)
	if float64(e) <= float64(allowed)*(1+1e-9) {
		out.Verdict("way", "Way to take it", "Weigh "+s.Weight(m)+" directly: the reading is off by "+reckoning.Share(e)+" at most, within the "+reckoning.Share(allowed)+" tolerated.")
	} else {
		byStock(s, out, m, bath, allowed)
	}
	solutionPeople(out)
	powderPeople(out)
	out.Object("Make the intermediate stock fresh, label it, and stir until it is clear: what has not dissolved is missing in the bath.", reckoning.CommonPractice)
}

// byStock gives the way by an intermediate stock, if it dissolves.
func byStock(s *reckoning.Sheet, out *reckoning.Result, m unit.Mass, bath unit.Volume, allowed unit.Fraction) {
	steps := solution.Steps{First: s.Base("balance"), Measure: unit.Volume(s.Base("measure")), Allowed: allowed, Vessel: unit.Volume(s.Base("vessel"))}
	b, err := solution.ByStock(m.Grams(), bath, steps)
	if err == nil && s.Has("dissolves") && b.First/float64(b.Made) > s.Base("dissolves") {
		out.Verdict("way", "Way to take it", "By an intermediate stock of "+reckoning.Grams(unit.Concentration(b.First/float64(b.Made)))+", which is more than dissolves. Take a finer measure or balance, or tolerate a larger error.")
		return
	}
	if err == nil {
		out.Work("Strength of the intermediate stock.", "stock = weighed ÷ made up to", reckoning.Weight(unit.Mass(b.First))+" ÷ "+reckoning.Volume(b.Made)+" = "+reckoning.Grams(unit.Concentration(b.First/float64(b.Made)))+" of product", reckoning.Arithmetic.Name)
	}
	between(out, unit.MassKind, m.Grams(), bath, steps, "of the product")
}
