package outlines

import (
	"math"

	"sinkside/calc/outline"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// first is the measure whose unit the whole outline is written in.
const first = "AB"

func explainOutline(s *reckoning.Sheet, out *reckoning.Result) {
	m, off := measured.Six(s), s.Base("error")
	f, _ := outline.Fit(m)
	r := measured.Ruler(s, first)
	by, may := disagree(f, m, off)
	allowed := measured.MayDisagree(m, may)
	suspects := outline.Suspects(m, off, s.Inches(first))
	if by > allowed {
		out.Verdict("agree", "Do the measures agree", disagreeSays(r, suspects, "They do not agree, by "+about(s, first, by)+" at the least. "))
		table := out.Table("Read otherwise, one alone would make all agree", "Measure", "Read", "By the others", "A slip that would do it")
		for _, q := range suspects {
			slip := q.Slip
			if slip == "" {
				slip = "none that is usual"
			}
			table.Row(outline.Names[q.At], r.Of(q.Read), r.Coarse().Of(q.Should), slip)
		}
	} else {
		out.Verdict("agree", "Do the measures agree", "They agree: one alone would have to be read otherwise by "+about(s, first, by)+" at the least, which may be.")
	}
	draw(out, f)
	places := out.Table("Corners, from A along AB and square to it", "Corner", "Along", "Across")
	for i, p := range f.Corners {
		places.Row(string("ABCD"[i]), r.Coarse().Of(p.X), r.Coarse().Of(p.Y))
	}
	out.Work("The outline whose six lengths lie nearest to the measures.", "least Σ (measured - fitted)²", "left over: "+leftOver(s, f), planar.Name)
	out.Work("Area by the corners.", "½ Σ (x y′ - x′ y)", area(s, first, "cm²", f.Area()/1e6)+"; in brackets what all six measures off by "+r.Both(off)+", each the worst way, would make of it", planar.Name)
	out.Work("Each angle by the two sides that meet in it.", "cos A = (AB² + DA² - BD²) ÷ (2 × AB × DA), of the fitted lengths", measured.Angles(f), planar.Name)
	out.Work("Five measures fix the sixth. By how much one alone would have to be read otherwise, at the least, against what may be.", "what all six off by "+r.Both(off)+" may come to, or 3 mm in a metre of the longer diagonal", about(s, first, by)+" against "+about(s, first, allowed), measured.Agreement.Name)
	if by > allowed {
		out.Object("As long as the measures do not agree, area, angles and corners are those of no outline that was measured, and their ranges do not hold.", planar)
	}
	out.Object("Measured lying flat, untensioned, with nothing pulled straight. A bowed side is longer than the straight way between its corners: measure the straight way.", reckoning.CommonPractice)
}

// disagreeSays goes on with which measures could be misread.
func disagreeSays(r size.Ruler, suspects []outline.Suspect, say string) string {
	slips := 0
	names := ""
	for _, s := range suspects {
		if s.Slip != "" {
			slips++
			if names != "" {
				names += "; "
			}
			names += outline.Names[s.At] + " " + r.Of(s.Read) + ", for " + r.Coarse().Of(s.Should) + " (" + s.Slip + ")"
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

func leftOver(s *reckoning.Sheet, f outline.Fitted) string {
	say := ""
	for i, name := range outline.Names {
		if i > 0 {
			say += ", "
		}
		say += name + " " + about(s, first, f.Left[i])
	}
	return say
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
