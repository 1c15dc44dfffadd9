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

// disagreement is by how much one measure alone would have to be read otherwise,
// at the least, mm.
func disagreement(m outline.Measures, off float64) float64 {
	least := math.Inf(1)
	for _, s := range outline.Suspects(m, off) {
		least = min(least, math.Abs(s.Read-s.Should))
	}
	return least
}

// disagree is that, or the misfit of the best outline where no five of the six
// close to one.
func disagree(f outline.Fitted, m outline.Measures, off float64) float64 {
	if by := disagreement(m, off); !math.IsInf(by, 1) {
		return by
	}
	return f.Off
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
	// A side that is off moves the area by about the side across it, halved for the
	// two ends; all four together at the most.
	worst := off * (m[0] + m[1] + m[2] + m[3]) / 2
	out.Between("area", f.Area()/1e6, max(f.Area()-worst, 0)/1e6, (f.Area()+worst)/1e6)
	askew := 0.0
	for i, a := range f.Angles() {
		out.Add(string("ABCD"[i]), a)
		askew = max(askew, math.Abs(a-90))
	}
	out.Add("askew", askew)
	out.Add("disagree", disagree(f, m, off))
	return out, nil
}

func explainOutline(s *reckoning.Sheet, out *reckoning.Result) {
	m, off := measures(s), s.Base("error")
	f, _ := outline.Fit(m)
	by := disagree(f, m, off)
	// What six readings may disagree by when each is off by so much, and what a soft
	// piece may without a misreading.
	allowed := max(4*off, 3*max(m[4], m[5])/1000)
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
	out.Work("Area by the corners.", "½ Σ (x y′ - x′ y)", cm2(f.Area())+"; in brackets what all four sides off by "+mm(off)+" would make of it", planar.Name)
	out.Work("Five measures fix the sixth. By how much one alone would have to be read otherwise, at the least, against what may be.", "4 × what a measure may be off by, or 3 mm in a metre of the longer diagonal", roughly(by)+" against "+mm(allowed), slack.Name)
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
		return say + "Measure this one again first: " + names + ". No other would be explained by a slip that people make; certain it is not."
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
