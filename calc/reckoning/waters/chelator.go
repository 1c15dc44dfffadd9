package waters

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
	"sinkside/calc/water"
)

const (
	agentCitrate = "citrate"
	agentEDTA    = "edta"
	agentOwn     = "own"
)

// Chelator reckons what binds a hardness.
func Chelator() *reckoning.Reckoning {
	hardness := reckoning.Quantity("hardness", "Hardness", "mg/L CaCO3", 0.1, 2000)
	volume := volumeInput("volume", "Water", 0.01, 5000)
	purity := reckoning.Quantity("purity", "Content of the product", "% w/w", 1, 100).In("% w/w").Usually("100").Note("From its label; a laboratory salt is 99 % and more.")
	return (&reckoning.Reckoning{
		Name: "chelator", Title: "Chelator for a hardness", Asks: "How much citrate or EDTA binds the hardness of this water?", Family: family,
		Inputs: []reckoning.Input{
			hardness, volume,
			reckoning.Choose("agent", "Chelator", agentCitrate, "trisodium citrate dihydrate", agentEDTA, "EDTA, disodium salt dihydrate", agentOwn, "another that binds one to one"),
			reckoning.Quantity("molar_mass", "Molar mass", "g/mol", 50, 5000).If("agent", agentOwn),
			reckoning.Number("excess", "Times the equal amount", 0.1, 20).Usually("1").Note("1 is a molecule for each metal ion."),
			purity,
			reckoning.PlusMinus(&hardness), reckoning.PlusMinus(&volume), reckoning.PlusMinus(&purity),
		},
		Results: []reckoning.ResultSpec{
			{Name: "mass", Title: "Weigh out", Unit: "g"}, {Name: "strength", Title: "In a litre", Unit: "g/L"},
			{Name: "amount", Title: "As an amount", Unit: "mmol"}, {Name: "metal", Title: "Calcium and magnesium in a litre", Unit: "mmol/L"},
		},
		Sources: reckoning.From(&hardnessScales, &chelation, &chelatedIron, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"hardness":"12 °dH","hardness_pm":"1","volume":"20 L","agent":"edta","excess":"1,2","purity":"99"}`,
		Figures: chelatorFigures, Explain: explainChelator,
	}).Ready()
}

func chelatorMass(s *reckoning.Sheet) unit.MolarMass {
	switch s.Choice("agent") {
	case agentEDTA:
		return water.DisodiumEDTA
	case agentOwn:
		return unit.MolarMass(s.Base("molar_mass"))
	}
	return water.TrisodiumCitrate
}

func chelatorFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	h, v := water.Hardness(s.Base("hardness")), unit.Volume(s.Base("volume"))
	amount := water.Chelator(h, v, s.Base("excess"))
	grams := amount.Mass(chelatorMass(s)).Grams() / s.Base("purity")
	strength := water.Chelator(h, 1, s.Base("excess")).Mass(chelatorMass(s)).Grams() / s.Base("purity")
	if strength > 500 {
		return nil, s.Cannot("hardness", "up to "+text("mg/L CaCO3", 500/strength*float64(h), 4), "this comes to more than 500 g in a litre, which is no softened water any more. Is the hardness in another scale?")
	}
	var out reckoning.Figures
	out.Add("mass", grams)
	out.Add("strength", strength)
	out.Add("amount", amount.Moles())
	out.Add("metal", h.Molarity().MolesPerLitre())
	return out, nil
}

func explainChelator(s *reckoning.Sheet, out *reckoning.Result) {
	h, v, excess := water.Hardness(s.Base("hardness")), unit.Volume(s.Base("volume")), s.Base("excess")
	amount := water.Chelator(h, v, excess)
	out.Work("What is to be bound.", "metal = hardness ÷ 100.086 mg/mmol", text("mg/L CaCO3", float64(h), 4)+" = "+text("mmol/L", float64(h.Molarity()), 4), hardnessScales.Name)
	out.Work("A molecule for each ion, times the excess.", "amount = metal × litres × excess",
		text("mmol/L", float64(h.Molarity()), 4)+" × "+reckoning.Volume(v)+" × "+unit.Text(excess, 4)+" = "+text("mmol", amount.Moles(), 4), chelation.Name)
	mass, _ := out.Value("mass")
	out.Work("Weighed.", "mass = amount × M ÷ content", text("mmol", amount.Moles(), 4)+" × "+unit.Text(float64(chelatorMass(s)), 6)+" g/mol ÷ "+unit.Text(s.Base("purity"), 4)+" = "+reckoning.Weight(unit.Mass(mass)), reckoning.Arithmetic.Name)
	out.People("Keep its dust out of eyes and lungs, with goggles, gloves and what its safety data sheet asks for besides. Chelators carry heavy metals with them: whether the bath may go down the drain is for local rules.", reckoning.CommonPractice)
	out.Object("A chelator does not ask whose metal it takes: mordants of alum, tin and iron, iron-tannate black and metal thread give theirs up, and colours change. Test every colour with it.", chelatedIron)
	switch s.Choice("agent") {
	case agentEDTA:
		out.Object("The disodium salt makes water acid, about pH 4 to 5, and binds calcium well only above about pH 8: measure and adjust the pH, which adds salt of its own.", chelation)
	case agentCitrate:
		out.Object("Citrate holds calcium more loosely than EDTA: at equal amounts a part of the hardness stays free. Measure what is left.", chelation)
	default:
		out.Object("Taken to bind one ion a molecule. Polyphosphates and polymers do not: use their maker's figure.", chelation)
	}
	if excess < 1 {
		out.Object("Less than the equal amount leaves hardness unbound.", reckoning.Arithmetic)
	}
	out.Object("What was added has to be rinsed out again, with water that is not hard: purified water to begin with spares both.", reckoning.CommonPractice)
}
