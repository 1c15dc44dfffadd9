package colours

import (
	"math"

	"sinkside/calc/colour"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Ways of weighting.
const (
	forTextiles = "textiles"
	plain       = "plain"
)

// Difference reckons how far two colours are apart.
func Difference() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "colour_difference", Title: "How far two colours are apart", Asks: "Did this colour change, and by how much?", Family: family,
		Inputs: append(append(lab("before", "Before"), lab("after", "After")...),
			reckoning.Choose("weights", "Weighted", plain, "as it is, all weights 1", forTextiles, "for textiles, lightness by half"),
			instrument(),
		),
		Results: []reckoning.ResultSpec{
			{Name: "de00", Title: "CIEDE2000"}, {Name: "de76", Title: "ΔE*ab of 1976"}, {Name: "de94", Title: "CIE94, from before to after"},
			{Name: "dl", Title: "Lightness changed by, ΔL* (minus: darker)", Signed: true}, {Name: "dc", Title: "Chroma changed by, ΔC* (minus: duller)", Signed: true}, {Name: "dh", Title: "Hue changed by, ΔH*", Signed: true},
		},
		Sources: reckoning.From(&ciede, &cielab, &template, &justFaded, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"before_l":"52,4","before_a":"38.1","before_b":"17.9","after_l":"53.2","after_a":"36.4","after_b":"17.2","weights":"plain","error":"0.4"}`,
		Figures: differenceFigures, Explain: explainDifference,
	}).Ready()
}

// weights are those that were chosen, of the differences of 2000 and of 1994.
func weights(s *reckoning.Sheet) (kL float64, w colour.Weights94) {
	if s.Choice("weights") == forTextiles {
		return 2, colour.Textiles
	}
	return 1, colour.GraphicArts
}

// differences are the three measures, in the weights that were chosen.
func differences(s *reckoning.Sheet) (de00, de76, de94 float64) {
	x, y := labOf(s, "before"), labOf(s, "after")
	kL, w := weights(s)
	return colour.CIEDE2000(x, y, kL, 1, 1), colour.CIE76(x, y), colour.CIE94(x, y, w)
}

func differenceFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	de00, de76, de94 := differences(s)
	p := colour.PartsOf(labOf(s, "before"), labOf(s, "after"))
	var out reckoning.Figures
	out.Add("de00", de00)
	// Two readings of one place lie as far apart as the error, so that the distance,
	// and what of it is lightness or chroma, may be off by as much.
	e := s.Base("error")
	out.Between("de76", de76, max(de76-e, 0), de76+e)
	out.Add("de94", de94)
	out.Between("dl", p.L, p.L-e, p.L+e)
	out.Between("dc", p.C, p.C-e, p.C+e)
	out.Add("dh", p.H)
	return out, nil
}

func explainDifference(s *reckoning.Sheet, out *reckoning.Result) {
	x, y := labOf(s, "before"), labOf(s, "after")
	_, de76, de94 := differences(s)
	p := colour.PartsOf(x, y)
	out.Verdict("means", "In words", inWords(s, de76, p))
	out.Work("The straight distance in CIELAB.", "ΔE*ab = √(ΔL*² + Δa*² + Δb*²)",
		"√("+put(y.L-x.L)+"² + "+put(y.A-x.A)+"² + "+put(y.B-x.B)+"²) = "+put(de76), cielab.Name)
	out.Work("Chroma and hue of the two, and the difference taken apart.", "C* = √(a*² + b*²); ΔH*² = ΔE*ab² - ΔL*² - ΔC*²",
		"C* "+put(x.Chroma())+" and "+put(y.Chroma())+"; h "+put(x.Hue())+"° and "+put(y.Hue())+"°; ΔH* "+put(p.H), cielab.Name)
	kL, w := weights(s)
	terms := colour.TermsOf(x, y, kL, 1, 1)
	out.Work("The difference of 2000: the same parts, each weighted by where in colour space they lie.", "ΔE00 = √((ΔL′ ÷ kL SL)² + (ΔC′ ÷ kC SC)² + (ΔH′ ÷ kH SH)² + RT × ΔC′ × ΔH′ ÷ (SC SH))",
		"√(("+put(terms.L)+" ÷ ("+put(kL)+" × "+put(terms.SL)+"))² + ("+put(terms.C)+" ÷ "+put(terms.SC)+")² + ("+put(terms.H)+" ÷ "+put(terms.SH)+")² + "+put(terms.RT)+" × "+put(terms.C)+" × "+put(terms.H)+" ÷ ("+put(terms.SC)+" × "+put(terms.SH)+")) = "+put(terms.Delta)+"; kC and kH are 1", ciede.Name)
	out.Work("The difference of 1994 takes the first colour for the reference: the other way round it is another number.", "ΔE94 = √((ΔL* ÷ kL)² + (ΔC* ÷ (1 + K1 C*))² + (ΔH* ÷ (1 + K2 C*))²)",
		"√(("+put(p.L)+" ÷ "+put(w.KL)+")² + ("+put(p.C)+" ÷ (1 + "+put(w.K1)+" × "+put(x.Chroma())+"))² + ("+put(p.H)+" ÷ (1 + "+put(w.K2)+" × "+put(x.Chroma())+"))²) = "+put(de94), cielab.Name)
	measureAlike(out)
	out.Object("About ΔE 1.6, step 4 of the grey scale, is often taken for what an eye just notices side by side. Whether a change matters is for the eye and the conservator to say.", justFaded)
}

func inWords(s *reckoning.Sheet, de76 float64, p colour.Parts) string {
	if s.Has("error") {
		if e := s.Base("error"); de76 <= e {
			return "Within the instrument's error of " + unit.Text(e, 3) + ": no change can be told from these readings."
		}
	}
	// A part that is within the error by itself is not named.
	least := max(0.05, s.Base("error"))
	say := ""
	add := func(x float64, more, less string) {
		if math.Abs(x) >= least {
			if say != "" {
				say += ", "
			}
			if x > 0 {
				say += more
			} else {
				say += less
			}
		}
	}
	add(p.L, "lighter", "darker")
	add(p.C, "more colourful", "duller")
	add(math.Abs(p.H), "turned in hue", "")
	switch {
	case say == "" && s.Has("error"):
		return "The change is more than the instrument's error, in no single direction by more than it."
	case say == "":
		return "The same to the figures given."
	}
	if !s.Has("error") {
		return "After it is " + say + ". Whether that is more than the instrument's error is not known: give the error."
	}
	return "After it is " + say + ", by more than the instrument's error."
}
