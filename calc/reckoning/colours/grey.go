package colours

import (
	"sinkside/calc/colour"
	"sinkside/calc/greyscale"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Change grades a change of colour.
func Change() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "grey_change", Title: "Grey-scale grade of a change in colour", Asks: "Which step of the grey scale is this change of colour?", Family: family,
		Inputs: append(append(lab("before", "Before"), lab("after", "After")...), instrument()),
		Results: []reckoning.ResultSpec{
			{Name: "gsc", Title: "Grade as a number, ISO 105-A05"}, {Name: "de_f", Title: "ΔEF of ISO 105-A05"}, {Name: "de76", Title: "ΔE*ab"},
		},
		Sources: reckoning.From(&a05, &halfSteps, &a02, &cielab, &template, &reckoning.CommonPractice),
		Example: `{"before_l":"55","before_a":45,"before_b":10,"after_l":58,"after_a":"38","after_b":"9"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			x, y := labOf(s, "before"), labOf(s, "after")
			g := greyscale.ChangeOf(x, y)
			var out reckoning.Figures
			best, worst := g.Within(s.Base("error"))
			out.Between("gsc", g.GSc, min(worst.GSc, g.GSc), max(best.GSc, g.GSc))
			out.Between("de_f", g.DeltaF, best.DeltaF, worst.DeltaF)
			e := colour.CIE76(x, y)
			out.Between("de76", e, max(e-s.Base("error"), 0), e+s.Base("error"))
			return out, nil
		},
		Explain: explainChange,
	}).Ready()
}

func explainChange(s *reckoning.Sheet, out *reckoning.Result) {
	x, y := labOf(s, "before"), labOf(s, "after")
	g, e := greyscale.ChangeOf(x, y), colour.CIE76(x, y)
	best, worst := g.Within(s.Base("error"))
	out.Verdict("grade", "Grade, by measurement", gradeSays(s, g.Grade, best.Grade, worst.Grade)+" (ISO 105-A05; its half-steps from memory)")
	nearest := greyscale.Nearest(greyscale.Change, e)
	out.Verdict("step", "Nearest step of the scale that is held beside it", nearest.Grade+", whose own ΔE*ab is "+unit.Text(nearest.Delta, 3)+" ± "+unit.Text(nearest.Tolerance, 2)+" (ISO 105-A02)")
	out.Work("Chroma and hue are weighted by their mean and by how near the hue lies to blue, then put together.", "ΔEF = √(ΔL*² + ΔCF² + ΔHF²)", labels(x)+" to "+labels(y)+": ΔEF "+put(g.DeltaF), a05.Name)
	out.Work("The grade as a number.", "5 - ΔEF ÷ 1.7 up to 3.40; above, 5 - log₂(ΔEF ÷ 0.85); at least 1", put(g.GSc), a05.Name)
	out.Work("In half-steps, by the limits of ΔEF, which are from memory.", "below 0.40 is 5, 1.25 4-5, 2.10 4, 2.95 3-4, 4.10 3, 5.80 2-3, 8.20 2, 11.60 1-2, else 1", put(g.DeltaF)+": "+g.Grade, halfSteps.Name)
	out.Work("The straight distance, which the steps of the scale are made by.", "ΔE*ab", put(e)+", nearest step "+nearest.Grade, a02.Name)
	out.Object("The two need not agree: the scale is judged by eye, the formula stands for many eyes. Say in the record which of them a grade is by.", reckoning.CommonPractice)
	measureAlike(out)
}

// gradeSays is a grade, with what the instrument's error may make of it.
func gradeSays(s *reckoning.Sheet, grade, best, worst string) string {
	switch {
	case !s.Has("error"):
		return grade
	case best == worst:
		return grade + ", whatever the instrument's error makes of it"
	}
	return grade + ", within the instrument's error " + worst + " to " + best
}

// Stain grades the staining of an adjacent fabric.
func Stain() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "grey_stain", Title: "Grey-scale grade of a staining", Asks: "Which step of the grey scale is this stain on the blotter or the fabric beside it?", Family: family,
		Inputs: append(append(lab("clean", "Clean"), lab("stained", "Stained")...), instrument()),
		Results: []reckoning.ResultSpec{
			{Name: "ssr", Title: "Grade as a number, ISO 105-A04", Signed: true}, {Name: "de_gs", Title: "ΔEGS of ISO 105-A04"}, {Name: "de76", Title: "ΔE*ab"},
		},
		Sources: reckoning.From(&a04, &a03, &cielab, &template, &reckoning.CommonPractice),
		Example: `{"clean_l":"94","clean_a":"-1","clean_b":"2","stained_l":"91","stained_a":"0","stained_b":"4"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			g := greyscale.StainingOf(labOf(s, "clean"), labOf(s, "stained"))
			var out reckoning.Figures
			best, worst := g.Within(s.Base("error"))
			out.Between("ssr", g.SSR, min(worst.SSR, g.SSR), max(best.SSR, g.SSR))
			out.Between("de_gs", g.DeltaGS, best.DeltaGS, worst.DeltaGS)
			out.Between("de76", g.Delta, max(g.Delta-s.Base("error"), 0), g.Delta+s.Base("error"))
			return out, nil
		},
		Explain: explainStain,
	}).Ready()
}

func explainStain(s *reckoning.Sheet, out *reckoning.Result) {
	x, y := labOf(s, "clean"), labOf(s, "stained")
	g := greyscale.StainingOf(x, y)
	best, worst := g.Within(s.Base("error"))
	out.Verdict("grade", "Grade, by measurement", gradeSays(s, g.Grade, best.Grade, worst.Grade)+" (ISO 105-A04, from memory)")
	nearest := greyscale.Nearest(greyscale.Staining, g.Delta)
	out.Verdict("step", "Nearest step of the scale that is held beside it", nearest.Grade+", whose own ΔE*ab is "+unit.Text(nearest.Delta, 3)+" ± "+unit.Text(nearest.Tolerance, 2)+" (ISO 105-A03, from memory)")
	out.Work("The distance, less what of it is not lightness, in part.", "ΔEGS = ΔE - 0.4 × √(ΔE² - ΔL²)", labels(x)+" to "+labels(y)+": ΔE "+put(g.Delta)+", ΔEGS "+put(g.DeltaGS), a04.Name)
	out.Work("The grade as a number, by a formula from memory; a fabric that shows no difference is 5.", "6.1 - 1.45 × ln ΔEGS; if that is above 4, 5 - 0.23 × ΔEGS", put(g.SSR)+", in half-steps "+g.Grade, a04.Name)
	if g.Grade != "5" {
		out.Object("Less than 5: dye has come off, at this dwell, in this liquid, at this temperature. It does not show what a longer time or another liquid does.", reckoning.CommonPractice)
	}
	out.Object("A stain is judged wet and again dry: what dries in can look less, or leave a line at the edge.", reckoning.CommonPractice)
	measureAlike(out)
}
