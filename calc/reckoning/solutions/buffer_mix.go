package solutions

import (
	"sinkside/calc/buffer"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// BufferMix is the reckoning of the ideal pH of a mixture of citrates and
// phosphates.
func BufferMix() *reckoning.Reckoning {
	litres := reckoning.Quantity("litres", "Made up to", "L", 0.01, 5000)
	part := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "mmol", 0, 1e6).Usually("0")
	}
	return (&reckoning.Reckoning{
		Name: "buffer_mix", Title: "pH of a citrate or phosphate mixture", Asks: "About what pH should this mixture of citric acid, citrates and phosphates have?", Family: family,
		Inputs: []reckoning.Input{
			litres,
			part("citric_acid", "Citric acid"),
			part("trisodium_citrate", "Trisodium citrate"),
			part("dihydrogen_phosphate", "Sodium dihydrogen phosphate"),
			part("hydrogen_phosphate", "Disodium hydrogen phosphate"),
			part("strong_base", "Sodium hydroxide"),
			part("strong_acid", "Hydrochloric acid"),
			reckoning.PlusMinus(&litres),
		},
		Results: []reckoning.ResultSpec{
			{Name: "ph", Title: "pH, about", Unit: "", Signed: true},
			{Name: "citrate", Title: "Citrate in all its forms", Unit: "mmol/L"},
			{Name: "phosphate", Title: "Phosphate in all its forms", Unit: "mmol/L"},
		},
		Sources: reckoning.From(&balance, &speciesSum, &citricPK, &otherPK, &handbookPK, &bands, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"litres":"1 L","citric_acid":"33 mmol","trisodium_citrate":"17 mmol","dihydrogen_phosphate":"0","hydrogen_phosphate":"0","strong_base":"0","strong_acid":"0"}`,
		Prepare: prepareBufferMix, Figures: bufferMixFigures, Explain: explainBufferMix,
	}).Ready()
}

// mostSolute is the strongest mixture that is reckoned, in mol/L: that of the
// published mixtures with which the ideal equations were compared.
const mostSolute = 0.2

// comparedCitrate is the citrate of the published buffers without phosphate.
const comparedCitrate unit.Molarity = 0.05

func mixtureOf(s *reckoning.Sheet) buffer.Mixture {
	in := func(name string) float64 { return s.Base(name) / s.Base("litres") }
	return buffer.Mixture{
		Citrate:   unit.Molarity(in("citric_acid") + in("trisodium_citrate")),
		Phosphate: unit.Molarity(in("dihydrogen_phosphate") + in("hydrogen_phosphate")),
		Sodium:    unit.Molarity(float64(3*in("trisodium_citrate")) + in("dihydrogen_phosphate") + float64(2*in("hydrogen_phosphate")) + in("strong_base") - in("strong_acid")),
	}
}

func prepareBufferMix(s *reckoning.Sheet) {
	m := mixtureOf(s)
	if m.Citrate+m.Phosphate == 0 {
		s.Missing("citric_acid", "there is neither citrate nor phosphate in it yet.")
		return
	}
	if all := m.Citrate + m.Phosphate; all > mostSolute {
		s.Beyond("litres", "at least "+reckoning.InUnit("L", float64(all)/mostSolute*s.Base("litres")), "the mixture comes to "+reckoning.InUnit("mol/L", float64(all))+", more than the "+unit.Text(mostSolute, 2)+" mol/L up to which this is reckoned.")
	}
}

// mixBand returns how far the ideal pH of a mixture may be off. The narrower band
// is only for citrate no stronger than it was compared with.
func mixBand(m buffer.Mixture) float64 {
	if m.Phosphate > 0 || m.Citrate > comparedCitrate*(1+1e-9) {
		return buffer.MixedBand
	}
	return buffer.CitrateBand
}

func bufferMixFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	m := mixtureOf(s)
	pH, err := m.Ideal()
	if err != nil {
		return nil, beyondPH(s, m)
	}
	var out reckoning.Figures
	out.Between("ph", pH, pH-mixBand(m), pH+mixBand(m))
	out.Add("citrate", float64(m.Citrate))
	out.Add("phosphate", float64(m.Phosphate))
	return out, nil
}

// beyondPH says which of strong acid and strong base is too much, and how much would
// bring the mixture to the end of the scale, where a litre holds a mole of either.
func beyondPH(s *reckoning.Sheet, m buffer.Mixture) *reckoning.Problem {
	const say = "the mixture would lie outside of pH 0 to 14: there is far more strong acid or base in it than buffer."
	litres, sodium := s.Base("litres"), float64(m.Sodium)
	held := func(pH float64) float64 {
		return float64(float64(m.Citrate)*buffer.Citric.Charge(pH)) + float64(float64(m.Phosphate)*buffer.Phosphoric.Charge(pH))
	}
	if sodium < 0 {
		return s.Cannot("strong_acid", "below "+reckoning.InUnit("mmol", s.Base("strong_acid")+float64(litres*(sodium+1-held(0)))), say)
	}
	return s.Cannot("strong_base", "below "+reckoning.InUnit("mmol", s.Base("strong_base")+float64(litres*(1+held(14)-sodium))), say)
}

func explainBufferMix(s *reckoning.Sheet, out *reckoning.Result) {
	m := mixtureOf(s)
	pH, _ := m.Ideal()
	mmol := func(x unit.Molarity) string { return reckoning.InUnit("mmol/L", float64(x)) }
	out.Work("What a litre holds.", "amount ÷ litres", mmol(m.Citrate)+" of citrate, "+mmol(m.Phosphate)+" of phosphate", reckoning.Arithmetic.Name)
	out.Work("Sodium, three to each citrate, one or two to each phosphate, with strong base and less strong acid.", "", mmol(m.Sodium), reckoning.Arithmetic.Name)
	out.Work("The pH at which charges balance.", "sodium + H = OH + citrate × its charge + phosphate × its charge",
		"at pH "+unit.Text(pH, 4)+" a citrate has "+unit.Text(buffer.Citric.Charge(pH), 4)+" and a phosphate "+unit.Text(buffer.Phosphoric.Charge(pH), 4)+" charges", balance.Name)
	sure := "How sure it is: ±" + unit.Text(mixBand(m), 2) + ". The equation leaves out how ions act on each other, and misses published mixtures by nearly as much. Where a published recipe exists, take that."
	if m.Phosphate > 0 && m.Citrate > 0 {
		sure += " ±0.7, which three rows of the published table would give, does not hold its rows of pH 5.4 and 5.6: they are missed by 0.74 and 0.73."
	}
	out.Work(sure, "", "", bands.Name)
	bufferCautions(out, pH)
}
