package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// How a dilution is made and what is known of it.
const (
	byVolume   = "volume"
	byMass     = "mass"
	knowsTotal = "total"
	knowsStock = "stock"
)

// Dilution is the reckoning of a weaker solution from a stronger one.
func Dilution() *reckoning.Reckoning {
	amount := reckoning.Quantity("amount", "Amount", "L", 0.0001, 5000).Also("g", 0.1, 5e6).Also("kg", 0.0001, 5000).Also("oz", 0.004, 176000).Also("lb", 0.0003, 11000).
		Note("Of the weaker or of the stronger, as chosen above. Litres where it is measured, grams where it is weighed.")
	stock := strengthInput("stock", "Strength of the stronger")
	wanted := strengthInput("wanted", "Strength wanted")
	density := reckoning.Quantity("density", "Density of the stronger", "g/mL", 0.6, 2.5).Maybe().
		Note("Needed where its strength is by mass (w/w) and it is measured by volume. The safety data sheet has it in section 9.")
	return (&reckoning.Reckoning{
		Name: "dilution", Title: "Thin a stronger solution", Asks: "How much of the stronger solution, and how much water, make the weaker one?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("by", "I work by", byVolume, "volume: measured, made up to a mark", byMass, "mass: both weighed"),
			reckoning.Choose("know", "I know how much", knowsTotal, "of the weaker I want", knowsStock, "of the stronger I have"),
			amount, stock, wanted, density,
			reckoning.Quantity("molar_mass", "Molar mass of the substance", "g/mol", 10, 500000).Maybe().Note("Only needed where one strength is in mol/L or mmol/L and the other is not."),
			reckoning.Quantity("step", "Smallest step of the measure", "mL", 0.001, 1000).Also("g", 0.0001, 1000).Also("mg", 0.1, 1e6).Also("oz", 0.000004, 35).Maybe().
				Note("What the measuring vessel, or the balance where it is weighed, can still tell apart. Gives the error of the amount, and a way round where that is too large."),
			reckoning.Quantity("tolerated", "Error that is tolerable", "%", 0.1, 50).In("%").Usually("5"),
			reckoning.Quantity("vessel", "Largest vessel for an intermediate stock", "L", 0.01, 100).Usually("1"),
			reckoning.PlusMinus(&amount), reckoning.PlusMinus(&stock), reckoning.PlusMinus(&density),
		},
		Results: []reckoning.ResultSpec{
			{Name: "stock_volume", Title: "Stronger solution to measure", Unit: "mL"},
			{Name: "stock_mass", Title: "Stronger solution to weigh", Unit: "g"},
			{Name: "water_volume", Title: "Water, about", Unit: "L"},
			{Name: "water_mass", Title: "Water to weigh", Unit: "g"},
			{Name: "total_volume", Title: "It makes", Unit: "L"},
			{Name: "total_mass", Title: "It makes, by weight", Unit: "g"},
			{Name: "times", Title: "Thinned so many times", Unit: ""},
			{Name: "stock_gl", Title: "The stronger holds", Unit: "g/L"},
			{Name: "stock_molarity", Title: "The stronger holds, as an amount", Unit: "mol/L"},
			{Name: "reading", Title: "Error from reading the measure once", Unit: "%"},
		},
		Sources: reckoning.From(&dilution, &thinning, &toMolar, &density20, &readError, &shrinking, &aboutAcid, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"by":"volume","know":"total","amount":"500 mL","stock":"12 mol/L","wanted":"2 mol/L","density":"1.18 g/mL","molar_mass":"36.46","step":"1 mL","tolerated":"5 %","vessel":"1 L"}`,
		Prepare: prepareDilution, Figures: dilutionFigures, Explain: explainDilution,
	}).Ready()
}

// family is what these reckonings are listed under.
const family = "Solutions"

// strengthInput declares a strength in any of the ways that a label gives one.
func strengthInput(name, title string) reckoning.Input {
	return reckoning.Quantity(name, title, "% w/v", 0.0001, 200).Also("% w/w", 0.0001, 100).Also("% v/v", 0.0001, 100).Also("mol/L", 0.000001, 40).Also("mmol/L", 0.001, 40000).
		Note("Say which per cent it is: by volume of the solution (w/v), by mass (w/w) or of a liquid by volume (v/v).")
}

func prepareDilution(s *reckoning.Sheet) {
	volume := s.Kind("amount") == unit.VolumeKind
	if s.Choice("by") == byMass {
		prepareByMass(s, volume)
	} else {
		prepareByVolume(s, volume)
	}
	if !s.Sound() {
		return
	}
	stock, wanted := strengths(s)
	if stock == 0 || wanted == 0 {
		s.Beyond("wanted", "in the unit of the stronger", "its unit does not go with that of the stronger. Give both alike.")
		return
	}
	if wanted > stock*(1+1e-12) {
		s.Beyond("wanted", "up to "+mostWanted(s), "it is stronger than what it is to be made from. Thinning makes weaker solutions only.")
	}
}

// rangeByMass is what a strength by mass may be.
const rangeByMass = "0.0001 to 100 % w/w"

// mostWanted says the strength of the stronger in the way in which the weaker is
// given.
func mostWanted(s *reckoning.Sheet) string {
	if s.Kind("stock") == s.Kind("wanted") {
		return strengthText(s.Kind("stock"), s.Base("stock"))
	}
	c := inGramsPerLitre(s, "stock")
	if s.Kind("wanted") == unit.MolarityKind {
		return reckoning.Handy(unit.MolarityKind, float64(c.Molarity(unit.MolarMass(s.Base("molar_mass")))))
	}
	return reckoning.Grams(c)
}

func prepareByMass(s *reckoning.Sheet, volume bool) {
	for _, name := range []string{"stock", "wanted"} {
		if s.Kind(name) != unit.FractionKind {
			s.Beyond(name, rangeByMass, "where both are weighed, the strength is by mass (% w/w).")
		}
	}
	switch {
	case volume && s.Choice("know") == knowsTotal:
		s.Beyond("amount", "0.1 to 5\u00a0000\u00a0000 g", "where the mixture is weighed, say how many grams of it you want.")
	case volume && !s.Has("density"):
		s.Missing("density", "it is needed to know what the measured volume weighs.")
	}
	if s.Has("step") && s.Kind("step") != unit.MassKind {
		s.Beyond("step", "0.0001 to 1000 g", "where both are weighed, it is the step of the balance, in g or mg.")
	}
}

func prepareByVolume(s *reckoning.Sheet, volume bool) {
	if !volume {
		s.Beyond("amount", s.Allowed("amount").String(), "where the mixture is made up to a mark, it is a volume.")
	}
	if s.Kind("wanted") == unit.FractionKind {
		s.Beyond("wanted", s.Allowed("wanted").String(), "% w/w is a strength by mass: weigh both, or give % w/v.")
	}
	mixed := s.Kind("stock") != s.Kind("wanted")
	if s.Kind("stock") == unit.FractionKind && !s.Has("density") {
		s.Missing("density", "it is needed, since the strength of the stronger is by mass and you measure by volume.")
	}
	if mixed && !s.Has("molar_mass") && (s.Kind("stock") == unit.MolarityKind || s.Kind("wanted") == unit.MolarityKind) {
		s.Missing("molar_mass", "it is needed, since one strength is an amount and the other a mass.")
	}
	if mixed && (s.Kind("stock") == unit.VolumeShareKind || s.Kind("wanted") == unit.VolumeShareKind) {
		s.Beyond("wanted", "both in % v/v, or neither", "% v/v counts millilitres of a liquid and goes with % v/v only, and the stronger was read in "+symbolOf(s, "stock")+", the weaker in "+symbolOf(s, "wanted")+". Give both alike.")
	}
	if s.Has("step") && s.Kind("step") != unit.VolumeKind {
		s.Beyond("step", s.Allowed("step").String(), "where it is measured, it is the step of the measure, in mL.")
	}
}

// strengths returns both strengths in one unit; what that is does not matter to
// their ratio. It is 0 where one cannot be brought to the other's.
func strengths(s *reckoning.Sheet) (stock, wanted float64) {
	if s.Kind("stock") == s.Kind("wanted") {
		return s.Base("stock"), s.Base("wanted")
	}
	return float64(inGramsPerLitre(s, "stock")), float64(inGramsPerLitre(s, "wanted"))
}

// inGramsPerLitre returns a strength by volume; 0 where density or molar mass
// would be needed and is not there, and for % v/v.
func inGramsPerLitre(s *reckoning.Sheet, name string) unit.Concentration {
	switch s.Kind(name) {
	case unit.ConcentrationKind:
		return unit.Concentration(s.Base(name))
	case unit.FractionKind:
		if s.Has("density") {
			return unit.Fraction(s.Base(name)).At(unit.Density(s.Base("density")))
		}
	case unit.MolarityKind:
		if s.Has("molar_mass") {
			return unit.Molarity(s.Base(name)).Concentration(unit.MolarMass(s.Base("molar_mass")))
		}
	}
	return 0
}

func dilutionFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	stock, wanted := strengths(s)
	if wanted > stock*(1+1e-12) {
		return nil, s.Cannot("wanted", "up to "+mostWanted(s), "it is stronger than what it is to be made from.")
	}
	taken := 0.0
	if s.Choice("by") == byMass {
		t := thinned(s)
		taken = t.Stock.Grams()
		out.Add("stock_mass", t.Stock.Grams())
		out.Add("water_mass", max(0, t.Water.Grams()))
		out.Add("total_mass", t.Total.Grams())
		if s.Has("density") {
			out.Add("stock_volume", t.Stock.Over(unit.Density(s.Base("density"))).Litres())
		}
	} else {
		v, total := measured(s)
		taken = v.Litres()
		out.Add("stock_volume", v.Litres())
		out.Add("water_volume", max(0, (total-v).Litres()))
		out.Add("total_volume", total.Litres())
		if s.Has("density") {
			out.Add("stock_mass", v.At(unit.Density(s.Base("density"))).Grams())
		}
	}
	out.Add("times", stock/wanted)
	if c := inGramsPerLitre(s, "stock"); c > 0 {
		out.Add("stock_gl", c.GramsPerLitre())
		if s.Has("molar_mass") {
			out.Add("stock_molarity", c.Molarity(unit.MolarMass(s.Base("molar_mass"))).MolesPerLitre())
		}
	}
	if s.Has("step") {
		out.Add("reading", float64(solution.ReadingError(s.Base("step"), taken)))
	}
	return out, nil
}

// thinned returns the dilution by mass.
func thinned(s *reckoning.Sheet) solution.Thinned {
	stock, wanted := strengths(s)
	from, to := unit.Fraction(stock), unit.Fraction(wanted)
	m := unit.Mass(s.Base("amount"))
	if s.Kind("amount") == unit.VolumeKind {
		m = unit.Volume(s.Base("amount")).At(unit.Density(s.Base("density")))
	}
	if s.Choice("know") == knowsTotal {
		return solution.ThinTo(m, from, to)
	}
	return solution.ThinFrom(m, from, to)
}

// measured returns the stock to measure and what it is made up to.
func measured(s *reckoning.Sheet) (v, total unit.Volume) {
	stock, wanted := strengths(s)
	amount := unit.Volume(s.Base("amount"))
	if s.Choice("know") == knowsStock {
		return amount, solution.MadeFrom(stock, wanted, amount)
	}
	return solution.StockVolume(unit.Concentration(stock), unit.Concentration(wanted), amount), amount
}
