// Package measured is what forms share in which somebody measures lengths: the ruler
// that they measure by, and the six measures of an outline.
package measured

import (
	"sinkside/calc/outline"
	"sinkside/calc/reckoning"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// Agreement is how far six measures may disagree before one is taken for misread.
var Agreement = reckoning.Source{Name: "agreement of measures", Where: "More than about 3 mm in a metre between what five measures give and the sixth means a misreading, or a piece that does not lie flat: common practice.", Mark: reckoning.Practice}

// soft is that, as a share of the longer diagonal.
const soft = 0.003

// Ruler is the ruler of the person who gave the answer named.
func Ruler(s *reckoning.Sheet, name string) size.Ruler { return size.RulerIn(s.Inches(name)) }

// TypedRuler is the ruler in the very unit of the answer named, as a refusal names it.
func TypedRuler(s *reckoning.Sheet, name string) size.Ruler {
	return size.RulerFor(s.Cannot(name, "", "").Unit)
}

// Six are the measures of an outline, in millimetres, from the inputs that are called as
// [outline.Names].
func Six(s *reckoning.Sheet) (m outline.Measures) {
	for i, name := range outline.Names {
		m[i] = s.Base(name)
	}
	return m
}

// CheckError notes where six measures may be off, by the input error, as much as the
// shortest is long.
func CheckError(s *reckoning.Sheet) {
	if m := Six(s); s.Base("error") >= min(m[0], m[1], m[2], m[3], m[4], m[5]) {
		s.Fault("error", "it is not below the shortest of the six, and so says nothing.")
	}
}

// MayDisagree is by how much one of six measures alone may have to be read otherwise, mm:
// may is what errors of reading make of it, and a soft piece may do more.
func MayDisagree(m outline.Measures, may float64) float64 {
	return max(may, float64(soft*max(m[4], m[5])))
}

// NoOutline says why six measures make none, of the one to look at first.
func NoOutline(s *reckoning.Sheet, m outline.Measures) *reckoning.Problem {
	why := outline.Blame(m)
	name, allowed := outline.Names[why.At], ""
	switch r := TypedRuler(s, name); {
	case why.Most > 0:
		allowed = "up to " + r.Both(why.Most)
	case why.Should > 0:
		allowed = "about " + r.Coarse().Both(why.Should)
	}
	return s.Cannot(name, allowed, "the six measures make no outline. "+why.Say)
}

// Angles writes the angles at the four corners.
func Angles(f outline.Fitted) string {
	say := ""
	for i, a := range f.Angles() {
		if i > 0 {
			say += ", "
		}
		say += string("ABCD"[i]) + " " + unit.Text(a, 4) + "°"
	}
	return say
}
