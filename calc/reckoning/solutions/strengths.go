package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Strengths is the reckoning of one strength in all the ways it can be given.
func Strengths() *reckoning.Reckoning {
	strength := strengthInput("strength", "Strength")
	density := reckoning.Quantity("density", "Density of the solution", "g/mL", 0.6, 2.5).Maybe().Note("Leads from by mass (w/w) to by volume (w/v). Up to 2 % it is about 1.")
	return (&reckoning.Reckoning{
		Name: "strengths", Title: "A strength in other units", Asks: "What is this strength in g/L, % w/v, % w/w, mol/L or % v/v?", Family: family,
		Inputs: []reckoning.Input{
			strength, density,
			reckoning.Quantity("molar_mass", "Molar mass of the substance", "g/mol", 10, 500000).Maybe().Note("Leads to mol/L. “Anhydrous or with water” finds it from a formula."),
			reckoning.Quantity("pure_density", "Density of the pure liquid", "g/mL", 0.6, 2.5).Maybe().Note("Leads to % v/v, for liquids in water. Ethanol 0.789 g/mL at 20 °C."),
			reckoning.PlusMinus(&strength), reckoning.PlusMinus(&density),
		},
		Results: []reckoning.ResultSpec{
			{Name: "g_l", Title: "Grams in a litre", Unit: "g/L"},
			{Name: "w_w", Title: "By mass", Unit: "% w/w"},
			{Name: "v_v", Title: "Of a liquid, by volume", Unit: "% v/v"},
			{Name: "mol_l", Title: "As an amount", Unit: "mol/L"},
		},
		Sources: reckoning.From(&dilution, &toMolar, &shrinking, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"strength":"38 % w/w","density":"1.18 g/mL","molar_mass":"36.46","pure_density":"1.18"}`,
		Prepare: prepareStrengths, Figures: strengthsFigures, Explain: explainStrengths,
	}).Ready()
}

func prepareStrengths(s *reckoning.Sheet) {
	switch s.Kind("strength") {
	case unit.FractionKind:
		if !s.Has("density") {
			s.Missing("density", "it is needed to go from by mass (w/w) to anything else.")
		}
	case unit.MolarityKind:
		if !s.Has("molar_mass") {
			s.Missing("molar_mass", "it is needed to go from an amount to anything else.")
		}
	case unit.VolumeShareKind:
		if !s.Has("pure_density") {
			s.Missing("pure_density", "it is needed to go from % v/v to anything else.")
		}
	}
}

// plainStrength returns the strength in g/L.
func plainStrength(s *reckoning.Sheet) unit.Concentration {
	if s.Kind("strength") == unit.VolumeShareKind {
		return unit.Fraction(s.Base("strength")).At(unit.Density(s.Base("pure_density")))
	}
	return inGramsPerLitre(s, "strength")
}

// pureGrams says what a litre of a density weighs, which is all that can be in it.
func pureGrams(s *reckoning.Sheet, density string) string {
	return reckoning.Grams(unit.Fraction(1).At(unit.Density(s.Base(density))))
}

func strengthsFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	c := plainStrength(s)
	if c.GramsPerLitre() > 3000 {
		return nil, s.Cannot("strength", "up to 3000 g/L", "it comes to "+reckoning.Grams(c)+", more than any solution holds.")
	}
	const slack = 1e-9
	if s.Has("density") && c.Share(unit.Density(s.Base("density"))) > 1+slack {
		return nil, s.Cannot("strength", "up to "+pureGrams(s, "density"), "a litre would hold more of the substance than it weighs. Is it in another unit, or the density too low?")
	}
	if s.Has("pure_density") && c.Share(unit.Density(s.Base("pure_density"))) > 1+slack {
		return nil, s.Cannot("strength", "up to "+pureGrams(s, "pure_density"), "it would be more than the pure liquid. Is it in another unit, or the density of the pure liquid too low?")
	}
	var out reckoning.Figures
	out.Add("g_l", c.GramsPerLitre())
	switch {
	case s.Kind("strength") == unit.FractionKind:
		out.Add("w_w", s.Base("strength"))
	case s.Has("density"):
		out.Add("w_w", float64(c.Share(unit.Density(s.Base("density")))))
	}
	if s.Has("pure_density") {
		out.Add("v_v", float64(c.Share(unit.Density(s.Base("pure_density")))))
	}
	if s.Has("molar_mass") {
		out.Add("mol_l", c.Molarity(unit.MolarMass(s.Base("molar_mass"))).MolesPerLitre())
	}
	return out, nil
}

func explainStrengths(s *reckoning.Sheet, out *reckoning.Result) {
	workPercents(s, out, "", "strength")
	c := plainStrength(s)
	given := strengthText(s.Kind("strength"), s.Base("strength"))
	in := func(symbol, name string) string { return reckoning.InUnit(symbol, s.Base(name)) }
	switch s.Kind("strength") {
	case unit.FractionKind:
		out.Work("Grams in a litre. Multiplied by the density, never divided.", "g/L = 10 × % w/w × density in g/mL", "10 × "+given+" × "+in("g/mL", "density")+" = "+reckoning.Grams(c), toMolar.Name)
	case unit.MolarityKind:
		out.Work("Grams in a litre.", "g/L = mol/L × g/mol", given+" × "+in("g/mol", "molar_mass")+" = "+reckoning.Grams(c), dilution.Name)
	case unit.VolumeShareKind:
		out.Work("Grams in a litre.", "g/L = 10 × % v/v × density of the pure liquid", "10 × "+given+" × "+in("g/mL", "pure_density")+" = "+reckoning.Grams(c), dilution.Name)
	}
	out.Work("By volume of the solution.", "% w/v = g/L ÷ 10", reckoning.Grams(c)+" = "+reckoning.InUnit("% w/v", c.GramsPerLitre()), dilution.Name)
	strengthSteps(s, out, c)
	table := out.Table("The same strength", "Given as", "Strength")
	table.Row("w/v, grams in 100 mL of the solution", reckoning.InUnit("% w/v", c.GramsPerLitre()))
	table.Row("grams in a litre", unit.Text(c.GramsPerLitre(), 4)+" g/L")
	for _, row := range [][3]string{{"w_w", "w/w, grams in 100 g", "% w/w"}, {"v_v", "v/v, millilitres of the liquid in 100 mL", "% v/v"}, {"mol_l", "moles in a litre", "mol/L"}} {
		if x, ok := out.Value(row[0]); ok {
			table.Row(row[1], unit.Text(x, 4)+" "+row[2])
		}
	}
	solutionPeople(out)
	if s.Kind("strength") == unit.VolumeShareKind {
		out.People("Alcohols and other solvents burn: no flame or spark, air the room.", reckoning.CommonPractice)
	}
	out.Object("Write w/v, w/w or v/v beside every per cent: on the label, in the log and in the report.", reckoning.CommonPractice)
}

// strengthSteps leads on from g/L as far as what is known allows.
func strengthSteps(s *reckoning.Sheet, out *reckoning.Result, c unit.Concentration) {
	if s.Has("density") && s.Kind("strength") != unit.FractionKind {
		d := unit.Density(s.Base("density"))
		out.Work("By mass.", "% w/w = % w/v ÷ density in g/mL", reckoning.InUnit("% w/v", c.GramsPerLitre())+" ÷ "+reckoning.InUnit("g/mL", float64(d))+" = "+reckoning.InUnit("% w/w", float64(c.Share(d))), dilution.Name)
	}
	for _, row := range [][3]string{
		{"w_w", "density", "Not known without the density of the solution."},
		{"v_v", "pure_density", "Not known without the density of the pure liquid; it only means something for liquids."},
		{"mol_l", "molar_mass", "Not known without the molar mass."},
	} {
		if !s.Has(row[1]) {
			out.NotKnown(row[0], s.Title(row[0]), row[2])
		}
	}
	if s.Has("molar_mass") {
		mm := unit.MolarMass(s.Base("molar_mass"))
		out.Work("As an amount.", "mol/L = g/L ÷ g/mol", reckoning.Grams(c)+" ÷ "+reckoning.InUnit("g/mol", float64(mm))+" = "+reckoning.Handy(unit.MolarityKind, float64(c.Molarity(mm))), toMolar.Name)
	}
	if s.Has("pure_density") {
		d := unit.Density(s.Base("pure_density"))
		out.Work("Of a liquid, by volume.", "% v/v = % w/v ÷ density of the pure liquid", reckoning.InUnit("% w/v", c.GramsPerLitre())+" ÷ "+reckoning.InUnit("g/mL", float64(d))+" = "+reckoning.InUnit("% v/v", float64(c.Share(d))), dilution.Name)
	}
}
