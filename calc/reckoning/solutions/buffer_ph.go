package solutions

import (
	"math"
	"strings"

	"sinkside/calc/buffer"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// What is asked of a pair.
const (
	askPH    = "ph"
	askRatio = "ratio"
)

// pairs are the pairs of acid and base that are listed, by the constant between
// them. The first is the usual one.
var pairs = []struct {
	name, title string
	pKa         float64
}{
	{"citrate1", "citric acid and dihydrogen citrate, pKa 3.13", buffer.Citric.PK[0]},
	{"citrate2", "dihydrogen citrate and hydrogen citrate, pKa 4.76", buffer.Citric.PK[1]},
	{"citrate3", "hydrogen citrate and citrate, pKa 6.40", buffer.Citric.PK[2]},
	{"phosphate1", "phosphoric acid and dihydrogen phosphate, pKa 2.15", buffer.Phosphoric.PK[0]},
	{"phosphate2", "dihydrogen phosphate and hydrogen phosphate, pKa 7.21", buffer.Phosphoric.PK[1]},
	{"phosphate3", "hydrogen phosphate and phosphate, pKa 12.34", buffer.Phosphoric.PK[2]},
	{"carbonate", "hydrogen carbonate and carbonate, pKa 10.33", buffer.Carbonic.PK[1]},
	{"acetate", "acetic acid and acetate, pKa 4.76", buffer.Acetic.PK[0]},
}

const ownPair = "own"

// BufferPH is the reckoning by Henderson and Hasselbalch.
func BufferPH() *reckoning.Reckoning {
	var choices []string
	for _, p := range pairs {
		choices = append(choices, p.name, p.title)
	}
	choices = append(choices, ownPair, "another, by its pKa")
	base := reckoning.Quantity("base", "Base in it", "mmol", 0.0001, 1e6).If("ask", askPH).Note("The form with a proton less, such as hydrogen phosphate.")
	acid := reckoning.Quantity("acid", "Acid in it", "mmol", 0.0001, 1e6).If("ask", askPH).Note("The form with a proton more, such as dihydrogen phosphate.")
	total := reckoning.Quantity("total", "Acid and base together", "mmol", 0.0001, 1e6).If("ask", askRatio).Note("Litres × mmol/L: two litres of 20 mmol/L hold 40 mmol.")
	strongBase := reckoning.Quantity("strong_base", "Strong base added", "mmol", 0, 1e6).Usually("0").Note("Such as sodium hydroxide: 50 mL of 0.1 mol/L are 5 mmol.")
	strongAcid := reckoning.Quantity("strong_acid", "Strong acid added", "mmol", 0, 1e6).Usually("0").Note("Such as hydrochloric acid.")
	return (&reckoning.Reckoning{
		Name: "buffer_ph", Title: "pH of a buffer pair", Asks: "What pH do this acid and its salt give, or in what ratio do I mix them, and how far does acid or alkali move it?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("ask", "I want to know", askPH, "the pH", askRatio, "what to mix for a pH"),
			reckoning.Choose("pair", "Pair", choices...),
			reckoning.Number("pka", "pKa", 0, 14).If("pair", ownPair).Note("At 25 °C."),
			base, acid,
			reckoning.Number("ph", "pH wanted", 0, 14).If("ask", askRatio),
			total,
			strongBase, strongAcid,
			reckoning.PlusMinus(&base), reckoning.PlusMinus(&acid), reckoning.PlusMinus(&strongBase), reckoning.PlusMinus(&strongAcid),
		},
		Results: []reckoning.ResultSpec{
			{Name: "ph", Title: "pH", Unit: "", Signed: true},
			{Name: "ratio", Title: "Base to acid", Unit: ""},
			{Name: "base_amount", Title: "Base to take", Unit: "mmol"},
			{Name: "acid_amount", Title: "Acid to take", Unit: "mmol"},
			{Name: "ph_after", Title: "pH after what is added", Unit: "", Signed: true},
			{Name: "moved", Title: "Moved by", Unit: "", Signed: true},
		},
		Sources: reckoning.From(&henderson, &citricPK, &otherPK, &handbookPK, &bands, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"ask":"ph","pair":"phosphate2","base":"200 mmol","acid":"200 mmol","strong_base":"5 mmol","strong_acid":"0"}`,
		Prepare: prepareBufferPH, Figures: bufferPHFigures, Explain: explainBufferPH,
	}).Ready()
}

func pKaOf(s *reckoning.Sheet) float64 {
	for _, p := range pairs {
		if p.name == s.Choice("pair") {
			return p.pKa
		}
	}
	return s.Base("pka")
}

// mostOff is how far from its pKa a pair is still reckoned: a thousand to one.
const mostOff = 3

func prepareBufferPH(s *reckoning.Sheet) {
	if s.Choice("ask") == askRatio {
		pKa := pKaOf(s)
		if math.Abs(s.Base("ph")-pKa) > mostOff+1e-9 {
			allowed := unit.Text(pKa-mostOff, 4) + " to " + unit.Text(pKa+mostOff, 4)
			s.Beyond("ph", allowed, "it is more than 3 from the pKa of "+unit.Text(pKa, 4)+", where this pair is no buffer. Choose another pair.")
		}
		return
	}
	if r := s.Base("base") / s.Base("acid"); r > 1000*(1+1e-9) || r < 0.001*(1-1e-9) {
		acid := s.Base("acid")
		s.Beyond("base", unit.Text(acid, 4)+" to "+reckoning.InUnit("mmol", acid*1000), "it is more than a thousand times the acid, or less than a thousandth: that is no buffer, and this equation does not hold.")
	}
}

// pairOf returns the amounts of the pair before anything is added.
func pairOf(s *reckoning.Sheet) (base, acid unit.Amount) {
	if s.Choice("ask") == askRatio {
		return buffer.Shares(pKaOf(s), s.Base("ph"), unit.Amount(s.Base("total")))
	}
	return unit.Amount(s.Base("base")), unit.Amount(s.Base("acid"))
}

func addedTo(s *reckoning.Sheet) unit.Amount {
	return unit.Amount(s.Base("strong_base") - s.Base("strong_acid"))
}

func bufferPHFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	pKa := pKaOf(s)
	base, acid := pairOf(s)
	pH := buffer.PH(pKa, base, acid)
	out.Add("ratio", float64(base/acid))
	if s.Choice("ask") == askPH {
		out.Between("ph", pH, pH-buffer.CitrateBand, pH+buffer.CitrateBand)
	} else {
		out.Add("base_amount", base.Moles())
		out.Add("acid_amount", acid.Moles())
	}
	if added := addedTo(s); added != 0 {
		b, a, err := buffer.After(base, acid, added)
		if err != nil {
			name, of, most := "strong_base", "acid", s.Base("strong_acid")+acid.Moles()
			if added < 0 {
				name, of, most = "strong_acid", "base", s.Base("strong_base")+base.Moles()
			}
			return nil, s.Cannot(name, "below "+reckoning.InUnit("mmol", most), "it uses all the "+of+" of the pair up: what is left is no buffer, and this equation does not hold.")
		}
		after := buffer.PH(pKa, b, a)
		out.Between("ph_after", after, after-buffer.CitrateBand, after+buffer.CitrateBand)
		out.Add("moved", buffer.Moved(base, acid, added))
	}
	return out, nil
}

func explainBufferPH(s *reckoning.Sheet, out *reckoning.Result) {
	pKa := pKaOf(s)
	base, acid := pairOf(s)
	mmol := func(a unit.Amount) string { return reckoning.InUnit("mmol", a.Moles()) }
	pH := buffer.PH(pKa, base, acid)
	if s.Choice("ask") == askPH {
		out.Work("pH of the pair.", "pH = pKa + log10(base ÷ acid)", unit.Text(pKa, 5)+" + log10("+mmol(base)+" ÷ "+mmol(acid)+") = "+unit.Text(pH, 4), henderson.Name)
	} else {
		r := buffer.Ratio(pKa, s.Base("ph"))
		out.Work("Ratio for the pH.", "base ÷ acid = 10^(pH - pKa)", "10^("+unit.Text(s.Base("ph"), 4)+" - "+unit.Text(pKa, 5)+") = "+unit.Text(r, 4), henderson.Name)
		out.Work("Shares of the whole.", "base = total × ratio ÷ (1 + ratio)", mmol(unit.Amount(s.Base("total")))+" × "+unit.Text(r, 4)+" ÷ "+unit.Text(1+r, 4)+" = "+mmol(base)+" of base, "+mmol(acid)+" of acid", henderson.Name)
	}
	if added := addedTo(s); added != 0 {
		b, a, _ := buffer.After(base, acid, added)
		out.Work("After what is added: strong base turns acid into base, strong acid base into acid.", "pH = pKa + log10((base + added) ÷ (acid - added))",
			unit.Text(pKa, 5)+" + log10("+mmol(b)+" ÷ "+mmol(a)+") = "+unit.Text(buffer.PH(pKa, b, a), 4), henderson.Name)
	}
	out.Work("How sure a pH by this equation is: ±0.4 for buffers up to about 0.05 mol/L, since it leaves out how ions act on each other; stronger ones are further off. A mixture of citric acid with phosphate is off by up to 0.74.", "", "", bands.Name)
	solutionPeople(out)
	powderPeople(out)
	if s.Base("strong_base") > 0 || s.Base("strong_acid") > 0 {
		out.People("Strong acids and alkalis burn skin and eyes: add them drop by drop to the stirred buffer.", reckoning.CommonPractice)
	}
	if math.Abs(pH-pKa) > 1 {
		out.Object("At more than 1 from its pKa a pair buffers little.", reckoning.CommonPractice)
	}
	if pH < 3 || pH > 11 {
		out.Object("Below pH 3 and above pH 11 the acid or alkali of the water itself counts, and this equation is further off.", reckoning.CommonPractice)
	}
	harshOnFibres(out, pH)
	measureIt(out)
	if pair := s.Choice("pair"); strings.HasPrefix(pair, "citrate") || strings.HasPrefix(pair, "phosphate") {
		takesMetal(out)
	}
}
