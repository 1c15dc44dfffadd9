package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/solution"
	"sinkside/calc/unit"
)

// What the salt in the bath is, by how much sodium each of its units brings.
const (
	saltChloride  = "chloride"
	saltCitrate   = "trisodium_citrate"
	saltPhosphate = "disodium_phosphate"
	saltCarbonate = "sodium_carbonate"
	saltEDTA      = "disodium_edta"
)

// sodiumOf returns the sodium of one unit of the salt.
func sodiumOf(salt string) float64 {
	switch salt {
	case saltCitrate:
		return 3
	case saltPhosphate, saltCarbonate, saltEDTA:
		return 2
	}
	return 1
}

// CMCSalt is the reckoning of a CMC beside salt.
func CMCSalt() *reckoning.Reckoning {
	strength := reckoning.Quantity("strength", "Surfactant in the bath", "g/L", 0.001, 100).Also("mmol/L", 0.001, 400).Maybe().Note("Active sodium dodecyl sulfate. Gives the multiple of the CMC.")
	salt := reckoning.Quantity("salt_strength", "Salt in the bath", "mmol/L", 0, 400).Note("Of the salt itself. Its sodium is counted from that, and may come to 400 mmol/L.")
	return (&reckoning.Reckoning{
		Name: "cmc_salt", Title: "CMC beside salt", Asks: "How far does salt in the bath lower the CMC of sodium dodecyl sulfate, and how many CMC is my bath then?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("salt", "The salt", saltChloride, "sodium chloride", saltCitrate, "trisodium citrate", saltPhosphate, "disodium hydrogen phosphate", saltCarbonate, "sodium carbonate", saltEDTA, "EDTA disodium salt"),
			salt,
			strength,
			reckoning.PlusMinus(&salt), reckoning.PlusMinus(&strength),
		},
		Results: []reckoning.ResultSpec{
			{Name: "cmc", Title: "CMC in this bath", Unit: "mmol/L"},
			{Name: "cmc_gl", Title: "CMC in this bath, by mass", Unit: "g/L"},
			{Name: "share", Title: "Of the CMC in pure water", Unit: "%"},
			{Name: "multiple", Title: "The bath, counted in its own CMC", Unit: "× CMC"},
			{Name: "multiple_pure", Title: "The bath, counted in the CMC of pure water", Unit: "× CMC"},
		},
		Sources: reckoning.From(&rosen, &corrin, &weakSalt, &cmcSalt, &weightsOf, &cmcRange, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"salt":"chloride","salt_strength":"10 mmol/L","strength":"2.34 g/L"}`,
		Prepare: prepareCMCSalt, Figures: cmcSaltFigures, Explain: explainCMCSalt,
	}).Ready()
}

func counterIon(s *reckoning.Sheet) unit.Molarity {
	return unit.Molarity(s.Base("salt_strength") * sodiumOf(s.Choice("salt")))
}

func prepareCMCSalt(s *reckoning.Sheet) {
	if c := counterIon(s); c > solution.MostSalt*(1+1e-9) {
		s.Beyond("salt_strength", mostOfSalt(s), "its sodium comes to "+reckoning.InUnit("mmol/L", float64(c))+"; beyond "+reckoning.InUnit("mmol/L", float64(solution.MostSalt))+" nothing was measured that is known here.")
	}
}

// mostOfSalt says how much of the salt brings no more sodium than was measured.
func mostOfSalt(s *reckoning.Sheet) string {
	return "up to " + reckoning.InUnit("mmol/L", float64(solution.MostSalt)/sodiumOf(s.Choice("salt")))
}

// saltedOf returns the CMC; sodium a rounding error above the limit is the limit.
func saltedOf(s *reckoning.Sheet) (unit.Molarity, error) {
	return solution.SaltedCMC(min(counterIon(s), solution.MostSalt))
}

func cmcSaltFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if c := counterIon(s); c > solution.MostSalt*(1+1e-9) {
		return nil, s.Cannot("salt_strength", mostOfSalt(s), "its sodium is beyond what was measured.")
	}
	x, err := saltedOf(s)
	if err != nil {
		return nil, s.Cannot("salt_strength", mostOfSalt(s), "its sodium is beyond what was measured.")
	}
	var out reckoning.Figures
	band := func(name string, x float64) { out.Between(name, x, x*(1-solution.SaltBand), x*(1+solution.SaltBand)) }
	band("cmc", x.MolesPerLitre())
	band("cmc_gl", x.Concentration(solution.DodecylSulfate).GramsPerLitre())
	pure, _ := solution.SaltedCMC(0)
	band("share", float64(x/pure))
	if s.Has("strength") {
		c := surfactantOf(s)
		m := float64(c / x)
		out.Between("multiple", m, m/(1+solution.SaltBand), m/(1-solution.SaltBand))
		out.Add("multiple_pure", float64(c/solution.DodecylSulfateCMC))
	}
	return out, nil
}

func surfactantOf(s *reckoning.Sheet) unit.Molarity {
	if s.Kind("strength") == unit.MolarityKind {
		return unit.Molarity(s.Base("strength"))
	}
	return unit.Concentration(s.Base("strength")).Molarity(solution.DodecylSulfate)
}

func explainCMCSalt(s *reckoning.Sheet, out *reckoning.Result) {
	c := counterIon(s)
	x, _ := saltedOf(s)
	if n := sodiumOf(s.Choice("salt")); n > 1 {
		out.Work("Sodium that the salt brings.", "sodium = salt × "+unit.Text(n, 2), reckoning.InUnit("mmol/L", s.Base("salt_strength"))+" × "+unit.Text(n, 2)+" = "+reckoning.InUnit("mmol/L", float64(c)), reckoning.Arithmetic.Name)
	}
	out.Work("CMC that satisfies the law, mol/L on both sides.", "log10 CMC = -3.563 - 0.718 × log10(CMC + sodium)",
		"CMC = "+unit.Text(float64(x), 3)+" with sodium "+unit.Text(float64(c), 4), corrin.Name)
	out.Work("By mass.", "g/L = mol/L × g/mol", reckoning.InUnit("mmol/L", float64(x))+" × "+unit.Text(float64(solution.DodecylSulfate), 6)+" g/mol = "+reckoning.Grams(x.Concentration(solution.DodecylSulfate)), weightsOf.Name)
	if s.Has("strength") {
		out.Work("The bath, counted in CMC.", "multiple = strength ÷ CMC", reckoning.InUnit("mmol/L", float64(surfactantOf(s)))+" ÷ "+reckoning.InUnit("mmol/L", float64(x))+" = "+unit.Text(float64(surfactantOf(s)/x), 3), reckoning.Arithmetic.Name)
	}
	table := out.Table("Measured, sodium dodecyl sulfate with sodium chloride", "Sodium chloride", "CMC")
	for _, row := range solution.SaltRows {
		table.Row(reckoning.InUnit("mmol/L", float64(row.Salt)), reckoning.InUnit("mmol/L", float64(row.CMC)))
	}
	out.Work("How sure it is: ±15 %, at 21 to 25 °C, for this surfactant alone.", "", "", rosen.Name)
	solutionPeople(out)
	if s.Choice("salt") != saltChloride {
		out.Object("The law was measured with sodium chloride. For another sodium salt only the sodium is counted, and how much of it is free is not known: take the result for a rough one.", weakSalt)
	}
	out.Object("Products are seldom pure: their own salt lowers the CMC as well. Calcium and magnesium of hard water do more than sodium, and can bring the surfactant out of solution.", reckoning.CommonPractice)
}
