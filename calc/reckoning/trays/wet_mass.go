package trays

import (
	"sinkside/calc/moisture"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// WetMass reckons what a wet textile weighs.
func WetMass() *reckoning.Reckoning {
	dry := reckoning.Quantity("dry_mass", "Dry mass of the textile", "g", 0.1, 200000)
	trial := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "g", 0.1, 200000).If("by", "trial")
	}
	trialDry, trialWet := trial("trial_dry", "Trial piece, dry"), trial("trial_wet", "Trial piece, wet and drained")
	support := reckoning.Quantity("support", "Support and netting, wet", "kg", 0.001, 500).Maybe()
	share := reckoning.Quantity("pick_up", "Pick-up", "%", 1, 2000).In("%").If("by", "measured", "guess")
	return (&reckoning.Reckoning{
		Name: "wet_mass", Title: "What it weighs wet", Asks: "How heavy is it when it comes out of the water?", Family: family,
		Inputs: []reckoning.Input{
			dry, reckoning.Choose("by", "Water taken up", "trial", "from a trial on a like piece", "measured", "a pick-up that was measured", "guess", "a guess"),
			trialDry, trialWet, share.Note("Water held, in per cent of the dry mass."), support,
			reckoning.PlusMinus(&dry), reckoning.PlusMinus(&trialDry), reckoning.PlusMinus(&trialWet), reckoning.PlusMinus(&share), reckoning.PlusMinus(&support),
		},
		Results: []reckoning.ResultSpec{{Name: "pick_up", Title: "Pick-up", Unit: "%"}, {Name: "water", Title: "Water in it", Unit: "g"}, {Name: "wet_mass", Title: "The textile, wet", Unit: "g"}, {Name: "load", Title: "With its support", Unit: "g"}},
		Sources: reckoning.From(&reckoning.PickUpRule, &drained, &centrifuge, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"dry_mass":"400 g","by":"trial","trial_dry":"12","trial_wet":"31","support":"1.2"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			p, dry := pickUp(s), s.Base("dry_mass")
			if p <= 0 {
				return nil, s.Cannot("trial_wet", "above "+s.Weight(unit.Mass(s.Base("trial_dry"))), "it is not above the dry mass of the trial piece.")
			}
			out.Add("pick_up", p)
			out.Add("water", dry*p)
			out.Add("wet_mass", dry*(1+p))
			if s.Has("support") {
				out.Add("load", dry*(1+p)+s.Base("support"))
			}
			return out, nil
		},
		Explain: explainWetMass,
	}).Ready()
}

func pickUp(s *reckoning.Sheet) float64 {
	if s.Choice("by") == "trial" {
		return (s.Base("trial_wet") - s.Base("trial_dry")) / s.Base("trial_dry")
	}
	return s.Base("pick_up")
}

func explainWetMass(s *reckoning.Sheet, out *reckoning.Result) {
	p, dry := pickUp(s), unit.Mass(s.Base("dry_mass"))
	g := func(name string) string { return reckoning.InUnit("g", s.Base(name)) }
	switch s.Choice("by") {
	case "trial":
		out.Work("Pick-up of the trial piece.", "(wet - dry) ÷ dry", "("+g("trial_wet")+" - "+g("trial_dry")+") ÷ "+g("trial_dry")+" = "+reckoning.InUnit("%", p), reckoning.PickUpRule.Name)
	case "guess":
		table := out.Table("Published, after a centrifuge; a drained textile holds more", "Fibre", "Pick-up")
		for _, c := range moisture.Centrifuged {
			table.Row(c.Fibre, unit.Text(c.Held-moisture.CentrifugedOff, 3)+" to "+unit.Text(c.Held+moisture.CentrifugedOff, 3)+" %")
		}
		out.Object("The figures after a centrifuge are from memory, with low confidence.", centrifuge)
		out.Verdict("guess", "Rests on", "a guess of "+reckoning.InUnit("%", p)+". Weigh a like piece wet, or the object itself when it comes out, and put that in its place.")
	}
	wet := dry + unit.Mass(dry.Grams()*p)
	out.Work("Wet mass.", "wet = dry × (1 + pick-up)", reckoning.Weight(dry)+" × (1 + "+reckoning.InUnit("%", p)+") = "+reckoning.Weight(wet), reckoning.PickUpRule.Name)
	if s.Has("support") {
		out.Work("With its support.", "wet + support", reckoning.Weight(wet+unit.Mass(s.Base("support"))), reckoning.Arithmetic.Name)
	} else {
		out.NotKnown("load", s.Title("load"), "Not known without the support; it holds water too.")
	}
	out.People("Lift it on its support, level, after the water has run off, with enough people; local rules for lifting come first.", reckoning.CommonPractice)
	out.Object("Straight from the bath it holds more than after draining. The added water pulls at weak cloth: never by its edges.", drained)
	out.Object("How much stays after draining is a matter of how the cloth is made, not of its fibre alone: a figure of another cloth is a guess.", drained)
}
