package outlines

import (
	"math"

	"sinkside/calc/outline"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Outline finds the shape of a textile from four sides and two diagonals.
func Outline() *reckoning.Reckoning {
	side := func(i int, title string) reckoning.Input {
		return reckoning.Quantity(outline.Names[i], title+" "+outline.Names[i], "mm", 10, 20000).In("mm", "cm", "m", "in", "ft")
	}
	return (&reckoning.Reckoning{
		Name: "outline", Title: "Outline from sides and diagonals", Asks: "How square is it, how large, and do my measures agree?", Family: family,
		Inputs: []reckoning.Input{
			side(0, "Side").Note("Corners go round: A, B, C, D."), side(1, "Side"), side(2, "Side"), side(3, "Side"), side(4, "Diagonal"), side(5, "Diagonal"),
			reckoning.Quantity("error", "A measure may be off by", "mm", 0.1, 100).In("mm", "cm", "in").Usually("1").Note("On a soft textile rather 2 mm than 1."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "area", Title: "Area", Unit: "cm²"},
			{Name: "A", Title: "Angle at A", Unit: "°"}, {Name: "B", Title: "Angle at B", Unit: "°"}, {Name: "C", Title: "Angle at C", Unit: "°"}, {Name: "D", Title: "Angle at D", Unit: "°"},
			{Name: "askew", Title: "Furthest from a right angle", Unit: "°"},
			{Name: "disagree", Title: "The six measures disagree by", Unit: "mm"},
		},
		Sources: reckoning.From(&planar, &slack, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.OurChoice),
		Example: `{"AB":"1180,1","BC":"778.1","CD":{"value":"120,31","unit":"cm"},"DA":"805","AC":"1432.5","BD":"1428.4","error":"1"}`,
		Figures: outlineFigures, Explain: explainOutline, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func measures(s *reckoning.Sheet) (m outline.Measures) {
	for i, name := range outline.Names {
		m[i] = s.Base(name)
	}
	return m
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
	m, off := measures(s), s.Base("error")
	f, err := outline.Fit(m)
	if err != nil {
		if gap, found := outline.Widest(m); found {
			return nil, s.Cannot(outline.Names[gap.Longest], "up to "+s.InWords(unit.LengthKind, gap.Most), "the six measures make no outline. "+gap.String())
		}
		return nil, &reckoning.Problem{Say: "These six measures make no outline: " + err.Error() + "."}
	}
	var out reckoning.Figures
	spread, area := outline.Spread(m, f, off)
	out.Between("area", f.Area()/1e6, max(f.Area()-area, 0)/1e6, (f.Area()+area)/1e6)
	askew, which := 0.0, 0
	for i, a := range f.Angles() {
		out.Between(string("ABCD"[i]), a, max(a-spread[i], 0), min(a+spread[i], 180))
		if by := math.Abs(a - 90); by > askew {
			askew, which = by, i
		}
	}
	out.Between("askew", askew, max(askew-spread[which], 0), min(askew+spread[which], 90))
	by, _ := disagree(f, m, off)
	out.Add("disagree", by)
	return out, nil
}

func explainOutline(s *reckoning.Sheet, out *reckoning.Result) {
	m, off := measures(s), s.Base("error")
	f, _ := outline.Fit(m)
	by, may := disagree(f, m, off)
	// What six readings may disagree by when each is off by so much, and what a soft
	// piece may without a misreading.
	allowed := max(may, 3*max(m[4], m[5])/1000)
	out.Verdict("agree", "Do the measures agree", agreeSays(s, m, off, by, allowed))
	if by > allowed {
		table := out.Table("Read otherwise, one alone would make all agree", "Measure", "Read", "By the others", "A slip that would do it")
		for _, q := range outline.Suspects(m, off) {
			slip := q.Slip
			if slip == "" {
				slip = "none that is usual"
			}
			table.Row(outline.Names[q.At], read(s, q.Read), read(s, q.Should), slip)
		}
	}
	draw(out, f)
	places := out.Table("Corners, from A along AB and square to it", "Corner", "Along", "Across")
	for i, p := range f.Corners {
		places.Row(string("ABCD"[i]), read(s, p.X), read(s, p.Y))
	}
	out.Work("The outline whose six lengths lie nearest to the measures.", "least Σ (measured - fitted)²", "left over: "+leftOver(f), planar.Name)
	out.Work("Area by the corners.", "½ Σ (x y′ - x′ y)", cm2(f.Area())+"; in brackets what all six measures off by "+mm(off)+", each the worst way, would make of it", planar.Name)
	out.Work("Five measures fix the sixth. By how much one alone would have to be read otherwise, at the least, against what may be.", "what all six off by "+mm(off)+" may come to, or 3 mm in a metre of the longer diagonal", roughly(by)+" against "+roughly(allowed), slack.Name)
	out.Object("Measured lying flat, untensioned, with nothing pulled straight. A bowed side is longer than the straight way between its corners: measure the straight way.", reckoning.CommonPractice)
}

func agreeSays(sheet *reckoning.Sheet, m outline.Measures, off, by, allowed float64) string {
	if by <= allowed {
		return "They agree: one alone would have to be read otherwise by " + roughly(by) + " at the least, which may be."
	}
	suspects := outline.Suspects(m, off)
	say := "They do not agree, by " + roughly(by) + " at the least. "
	slips := 0
	names := ""
	for _, s := range suspects {
		if s.Slip != "" {
			slips++
			if names != "" {
				names += "; "
			}
			names += outline.Names[s.At] + " " + read(sheet, s.Read) + ", for " + read(sheet, s.Should) + " (" + s.Slip + ")"
		}
	}
	switch {
	case slips == 1:
		return say + "Measure this one again first: " + names + ". Of the slips that people make only this one would do it; that is a hint and no proof."
	case slips > 1:
		return say + "Several could be misread, and one check cannot tell which: " + names + ". Measure these again."
	}
	return say + "No usual slip explains it. Measure all six again, or the piece does not lie flat."
}

// roughly writes a misfit, of which two figures say enough.
func roughly(x float64) string { return unit.Text(x, 2) + " mm" }

func leftOver(f outline.Fitted) string {
	say := ""
	for i, name := range outline.Names {
		if i > 0 {
			say += ", "
		}
		say += name + " " + unit.Text(f.Left[i], 2)
	}
	return say + " mm"
}

// draw shows the outline with its corners.
func draw(out *reckoning.Result, f outline.Fitted) {
	left, top, right, bottom := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range f.Corners {
		left, right = min(left, p.X), max(right, p.X)
		top, bottom = min(top, p.Y), max(bottom, p.Y)
	}
	width, height := right-left, bottom-top
	at := func(p outline.Point) (float64, float64) {
		return min(max(p.X-left, 0), width), min(max(p.Y-top, 0), height)
	}
	pic := out.Picture("The outline", unit.Length(width), unit.Length(height))
	var points []float64
	for _, p := range f.Corners {
		x, y := at(p)
		points = append(points, x, y)
	}
	pic.Shape("", true, points...)
	for i, p := range f.Corners {
		x, y := at(p)
		pic.Shape(string("ABCD"[i]), false, x, y, x, y)
	}
	for _, d := range [2][2]int{{0, 2}, {1, 3}} {
		x, y := at(f.Corners[d[0]])
		u, v := at(f.Corners[d[1]])
		pic.Shape("", false, x, y, u, v)
	}
}
