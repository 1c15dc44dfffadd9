package outlines

import (
	"math"

	"sinkside/calc/outline"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
)

// Outline finds the shape of a textile from four sides and two diagonals.
func Outline() *reckoning.Reckoning {
	side := func(i int, title string) reckoning.Input {
		return reckoning.Quantity(outline.Names[i], title+" "+outline.Names[i], "mm", 10, 20000).In("mm", "cm", "m", "in", "ft")
	}
	angle := func(at string) reckoning.ResultSpec {
		return reckoning.ResultSpec{Name: at, Title: "Angle at " + at, Unit: "°", Digits: 4}
	}
	return (&reckoning.Reckoning{
		Name: "outline", Title: "Outline from sides and diagonals", Asks: "How square is it, how large, and do my measures agree?", Family: family,
		Inputs: []reckoning.Input{
			side(0, "Side").Note("Corners go round: A, B, C, D."), side(1, "Side"), side(2, "Side"), side(3, "Side"), side(4, "Diagonal"), side(5, "Diagonal"),
			reckoning.Quantity("error", "A measure may be off by", "mm", 0.1, 100).In("mm", "cm", "in").Usually("1").Note("On a soft textile rather 2 mm than 1."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "area", Title: "Area", Unit: "cm²", Digits: 4},
			angle("A"), angle("B"), angle("C"), angle("D"),
			{Name: "askew", Title: "Furthest from a right angle", Unit: "°"},
			{Name: "disagree", Title: "The six measures disagree by", Unit: "mm", Digits: 2},
		},
		Sources: reckoning.From(&planar, &measured.Agreement, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.OurChoice),
		Example: `{"AB":"1180,1","BC":"778.1","CD":{"value":"120,31","unit":"cm"},"DA":"805","AC":"1432.5","BD":"1428.4","error":"1"}`,
		Prepare: measured.CheckError, Figures: outlineFigures, Explain: explainOutline, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

// disagree is by how much one measure alone would have to be read otherwise, at the
// least, and how much that may be, mm; where no five of the six close to an outline,
// the misfit of the best one.
func disagree(f outline.Fitted, m outline.Measures, off float64) (by, may float64) {
	by, may, ok := outline.Disagreement(m, off)
	if !ok {
		return f.Off, 0
	}
	return by, may
}

func outlineFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	m, off := measured.Six(s), s.Base("error")
	f, err := outline.Fit(m)
	if err != nil {
		return nil, measured.NoOutline(s, m)
	}
	var out reckoning.Figures
	spread, wide := outline.Spread(m, f, off)
	out.Between("area", f.Area()/1e6, max(f.Area()-wide, 0)/1e6, (f.Area()+wide)/1e6)
	askew, least, most := 0.0, 0.0, 0.0
	for i, a := range f.Angles() {
		out.Between(string("ABCD"[i]), a, max(a-spread[i], 0), min(a+spread[i], 180))
		by := math.Abs(a - 90)
		askew, least, most = max(askew, by), max(least, by-spread[i]), max(most, by+spread[i])
	}
	out.Between("askew", askew, least, min(most, 90))
	by, _ := disagree(f, m, off)
	out.Add("disagree", by)
	return out, nil
}
