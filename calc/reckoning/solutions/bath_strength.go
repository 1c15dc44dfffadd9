package solutions

import (
	"errors"

	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// BathStrength is the reckoning of what a bath holds that was made already: the
// other way round from [Solution].
func BathStrength() *reckoning.Reckoning {
	litres := reckoning.Quantity("litres", "Bath", "L", 0.01, 5000).Note("The whole, product and water together.")
	amount := reckoning.Quantity("amount", "Product in it", "mL", 0.001, 1e6).Also("g", 0.001, 1e6).Also("kg", 0.000001, 1000).Also("oz", 0.00004, 35000).Also("lb", 0.000003, 2200).Note("As measured or as weighed.")
	active := reckoning.Quantity("active", "Active content of the product", "% w/w", 0.1, 100).In("% w/w").Also("% w/v", 0.01, 200).Also("g/L", 0.1, 2000)
	density := reckoning.Quantity("density", "Density of the product", "g/mL", 0.6, 2.5).Maybe().Note("Needed where a share by mass was measured by volume, or one by volume weighed.")
	cmc := reckoning.Quantity("cmc", "CMC of the active substance", "g/L", 0.0001, 50).Also("mmol/L", 0.0001, 500).Maybe().Note("Sodium dodecyl sulfate: 2.34 g/L.")
	return (&reckoning.Reckoning{
		Name: "bath_strength", Title: "How strong a bath is", Asks: "I have put this much product into this many litres: how strong is the bath?", Family: family,
		Inputs: []reckoning.Input{
			litres, amount, active, density, cmc,
			reckoning.Quantity("molar_mass", "Molar mass of the active substance", "g/mol", 10, 500000).Maybe().Note("Sodium dodecyl sulfate: 288.378 g/mol."),
			reckoning.PlusMinus(&litres), reckoning.PlusMinus(&amount), reckoning.PlusMinus(&active), reckoning.PlusMinus(&density), reckoning.PlusMinus(&cmc),
		},
		Results: []reckoning.ResultSpec{
			{Name: "strength", Title: "Strength of the bath", Unit: "g/L"},
			{Name: "active_mass", Title: "Active substance in it", Unit: "g"},
			{Name: "multiple", Title: "Strength, counted in CMC", Unit: "× CMC"},
			{Name: "molarity", Title: "Strength, as an amount", Unit: "mmol/L"},
			{Name: "believed_strength", Title: "Wrong: strength, if the product were all active", Unit: "g/L"},
		},
		Sources: reckoning.From(&dilution, &paste, &cmcRange, &cmcSalt, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"litres":"1 L","amount":"8 mL","active":"28 % w/w","density":"1.04 g/mL","cmc":"2.34 g/L","molar_mass":"288.378"}`,
		Prepare: prepareBathStrength, Figures: bathStrengthFigures, Explain: explainBathStrength,
	}).Ready()
}

func prepareBathStrength(s *reckoning.Sheet) {
	if s.Has("cmc") && s.Kind("cmc") == unit.MolarityKind && !s.Has("molar_mass") {
		s.Missing("molar_mass", "it is needed, since the CMC is given as an amount.")
	}
	weighed, byMassShare := s.Kind("amount") == unit.MassKind, s.Kind("active") == unit.FractionKind
	if weighed != byMassShare && !s.Has("density") {
		s.Missing("density", "it is needed, since of amount and content one is by mass and the other by volume.")
	}
}

// activeIn returns the active substance in the product that was taken.
func activeIn(s *reckoning.Sheet) (unit.Mass, error) {
	p := solution.Product{}
	if s.Kind("active") == unit.FractionKind {
		p.ByMass = unit.Fraction(s.Base("active"))
	} else {
		p.ByVolume = unit.Concentration(s.Base("active"))
	}
	if s.Has("density") {
		p.Density = unit.Density(s.Base("density"))
	}
	share, stock, err := p.Contents()
	if s.Kind("amount") == unit.MassKind {
		return unit.Mass(s.Base("amount") * float64(share)), err
	}
	return stock.In(unit.Volume(s.Base("amount"))), err
}

// takenMass returns what the product is taken to weigh by those who take it for
// pure: a gram to the millilitre where it was measured.
func takenMass(s *reckoning.Sheet) unit.Mass {
	if s.Kind("amount") == unit.MassKind {
		return unit.Mass(s.Base("amount"))
	}
	return unit.Volume(s.Base("amount")).At(unit.GramPerMillilitre)
}

// mostProduct says what fills the bath, as it was measured or weighed.
func mostProduct(s *reckoning.Sheet) string {
	litres := unit.Volume(s.Base("litres"))
	if s.Kind("amount") == unit.MassKind {
		return s.Weight(litres.At(unit.GramPerMillilitre))
	}
	return s.Litres(litres)
}

func bathStrengthFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	active, err := activeIn(s)
	if errors.Is(err, solution.ErrTooDense) {
		return nil, s.Cannot("active", "up to "+reckoning.Grams(unit.Fraction(1).At(unit.Density(s.Base("density")))), "a litre of the product would hold more active substance than it weighs.")
	}
	litres := s.Base("litres")
	if takenMass(s).Kilograms() > litres {
		return nil, s.Cannot("amount", "up to "+mostProduct(s), "that is more product than bath.")
	}
	c := unit.Concentration(active.Grams() / litres)
	var out reckoning.Figures
	out.Add("strength", c.GramsPerLitre())
	out.Add("active_mass", active.Grams())
	if s.Has("cmc") {
		out.Add("multiple", float64(solution.InCMC(c, inGrams(s, "cmc"))))
	}
	if s.Has("molar_mass") {
		out.Add("molarity", c.Molarity(unit.MolarMass(s.Base("molar_mass"))).MolesPerLitre())
	}
	if taken := takenMass(s); float64(active) < nearlyPure*float64(taken) {
		out.Add("believed_strength", taken.Grams()/litres)
	}
	return out, nil
}

func explainBathStrength(s *reckoning.Sheet, out *reckoning.Result) {
	workPercents(s, out, "", "active")
	active, _ := activeIn(s)
	litres := unit.Volume(s.Base("litres"))
	c := unit.Concentration(active.Grams() / litres.Litres())
	put := reckoning.Handy(s.Kind("amount"), s.Base("amount"))
	if s.Has("density") && (s.Kind("amount") == unit.MassKind) != (s.Kind("active") == unit.FractionKind) {
		by := " × "
		if s.Kind("amount") == unit.MassKind {
			by = " ÷ "
		}
		put += by + reckoning.InUnit("g/mL", s.Base("density"))
	}
	out.Work("Active substance in the product taken.", "active = product × active content, over the density where one is by mass and the other by volume",
		put+" × "+strengthText(s.Kind("active"), s.Base("active"))+" = "+reckoning.Weight(active), dilution.Name)
	out.Work("Strength of the bath.", "strength = active ÷ bath", reckoning.Weight(active)+" ÷ "+reckoning.Volume(litres)+" = "+reckoning.Grams(c), dilution.Name)
	if m, ok := out.Value("molarity"); ok {
		out.Work("As an amount.", "mol/L = g/L ÷ g/mol", reckoning.Grams(c)+" ÷ "+reckoning.InUnit("g/mol", s.Base("molar_mass"))+" = "+unit.Text(m, 4)+" mmol/L", dilution.Name)
	}
	if m, ok := out.Value("multiple"); ok {
		out.Work("Counted in CMC.", "multiple = strength ÷ CMC", reckoning.Grams(c)+" ÷ "+reckoning.Grams(inGrams(s, "cmc"))+" = "+unit.Text(m, 4), paste.Name)
	} else {
		out.NotKnown("multiple", s.Title("multiple"), "Not known without the CMC of the active substance.")
	}
	table := out.Table("Published dose of a 28 % w/w paste of sodium dodecyl sulfate, 1.04 g/mL", "mL to the litre", "Active", "× CMC of 2.34 g/L", "For")
	table.Row("5", "1.456 g/L", "0.62", "lightly soiled linen or silk")
	table.Row("8 to 12", "2.33 to 3.49 g/L", "1 to 1.5", "the usual dose")
	solutionPeople(out)
	micelleCautions(s, out, c)
}
