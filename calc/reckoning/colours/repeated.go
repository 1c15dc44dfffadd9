package colours

import (
	"sinkside/calc/colour"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Repeated reckons mean and spread of repeated readings, of one place or before
// and after.
func Repeated() *reckoning.Reckoning {
	readings := func(name, title string) reckoning.Input {
		return reckoning.Rows(name, title, 30, reckoning.Number("l", "L*", 0, 100), reckoning.Number("a", "a*", -150, 150), reckoning.Number("b", "b*", -150, 150))
	}
	return (&reckoning.Reckoning{
		Name: "repeated_readings", Title: "Repeated colour readings", Asks: "How sure are these colour readings, and is the change more than their spread?", Family: family,
		Inputs: []reckoning.Input{readings("before", "Readings of the place").Note("One row for each time the instrument was set down anew."), readings("after", "Readings after").Maybe()},
		Results: []reckoning.ResultSpec{
			{Name: "l", Title: "Mean L*", Digits: 4}, {Name: "a", Title: "Mean a*", Signed: true, Digits: 4}, {Name: "b", Title: "Mean b*", Signed: true, Digits: 4},
			{Name: "mcdm", Title: "Mean difference from the mean (MCDM), ΔE*ab"},
			{Name: "reach", Title: "The mean may be off by, ΔE*ab"},
			{Name: "de76", Title: "From before to after, ΔE*ab"}, {Name: "de00", Title: "From before to after, CIEDE2000"},
		},
		Sources: reckoning.From(&spread, &cielab, &ciede, &template, &reckoning.CommonPractice),
		Example: `{"before":[{"l":"52.4","a":"38.1","b":"17.9"},{"l":"52.6","a":"38.0","b":"17.7"},{"l":"52.3","a":"38.4","b":"18.0"}],"after":[{"l":"53.2","a":"36.4","b":"17.2"},{"l":"53.0","a":"36.7","b":"17.4"},{"l":"53.3","a":"36.2","b":"17.1"}]}`,
		Figures: repeatedFigures, Explain: explainRepeated,
	}).Ready()
}

func spreadOf(s *reckoning.Sheet, name string) colour.Spread {
	var readings []colour.Lab
	for _, row := range s.Rows(name) {
		readings = append(readings, colour.Lab{L: row.Base("l"), A: row.Base("a"), B: row.Base("b")})
	}
	return colour.Repeated(readings)
}

func repeatedFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	before := spreadOf(s, "before")
	var out reckoning.Figures
	mean := func(name string, x, half float64) { out.Between(name, x, x-half, x+half) }
	out.Between("l", before.Mean.L, max(before.Mean.L-before.Half.L, 0), before.Mean.L+before.Half.L)
	mean("a", before.Mean.A, before.Half.A)
	mean("b", before.Mean.B, before.Half.B)
	if before.N > 1 {
		out.Add("mcdm", before.MCDM)
		out.Add("reach", before.Reach())
	}
	if s.Has("after") {
		after := spreadOf(s, "after")
		off := before.Reach() + after.Reach()
		e := colour.CIE76(before.Mean, after.Mean)
		if before.N > 1 && after.N > 1 {
			out.Between("de76", e, max(e-off, 0), e+off)
		} else { // how far off a single reading is, it does not show
			out.Add("de76", e)
		}
		out.Add("de00", colour.CIEDE2000(before.Mean, after.Mean, 1, 1, 1))
	}
	return out, nil
}

func explainRepeated(s *reckoning.Sheet, out *reckoning.Result) {
	table := out.Table("Mean and standard deviation", "Set", "Readings", "L*", "a*", "b*")
	line := func(title string, p colour.Spread) {
		cell := func(x, sd float64) string {
			if p.N < 2 {
				return unit.Text(x, 4)
			}
			return unit.Text(x, 4) + " ± " + unit.Text(sd, 2)
		}
		table.Row(title, unit.Text(float64(p.N), 3), cell(p.Mean.L, p.SD.L), cell(p.Mean.A, p.SD.A), cell(p.Mean.B, p.SD.B))
	}
	before := spreadOf(s, "before")
	line("Before", before)
	out.Work("Mean of each coordinate, its standard deviation, and the range that holds the mean in 95 of 100 cases.", "half width = t × deviation ÷ √n",
		"L* ± "+put(before.Half.L)+", a* ± "+put(before.Half.A)+", b* ± "+put(before.Half.B), spread.Name)
	if before.N < 2 {
		out.NotKnown("reach", s.Title("reach"), "One reading shows no spread of its own: set the instrument down anew, three times or more.")
	}
	if s.Has("after") {
		after := spreadOf(s, "after")
		line("After", after)
		e, off := colour.CIE76(before.Mean, after.Mean), before.Reach()+after.Reach()
		out.Work("The two means compared, with what both may be off by taken together.", "ΔE*ab against reach before + reach after", put(e)+" against "+put(before.Reach())+" + "+put(after.Reach()), cielab.Name)
		switch {
		case before.N < 2 || after.N < 2:
			out.Verdict("means", "In words", "Whether this is a change cannot be told: one of the sets has a single reading.")
		case off == 0 && e > 0:
			out.Verdict("means", "In words", "The readings of each set are all alike, so that they show no spread to hold the change against: more readings, or finer ones, are needed.")
		case e == 0:
			out.Verdict("means", "In words", "The same to the figures given.")
		case e <= off:
			out.Verdict("means", "In words", "Within the instrument's error, as the readings show it: the two sets differ by no more than their own spread.")
		default:
			out.Verdict("means", "In words", "The change is more than the spread of the readings.")
		}
	}
	if before.N > 1 && before.Reach() == 0 {
		out.Object("Readings that are all alike are not without error: what is beyond the last figure shown stays hidden.", reckoning.CommonPractice)
	}
	out.Object("The spread holds what setting down anew does, not what the instrument is off by as a whole: check that on its own tile.", reckoning.CommonPractice)
	measureAlike(out)
}
