// Package outlines accounts for reckonings with the measures of a textile: its
// outline, how it changed, what it weighs by its area, and how thick it rolls.
package outlines

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const family = "Dimensions"

var (
	planar     = reckoning.Source{Name: "plane geometry", Where: "Corners from six lengths by least squares, angles by the cosine rule; the area held against Bretschneider's formula.", Mark: reckoning.Computed}
	dimensions = reckoning.Source{Name: "ISO 5077 and ISO 3759", Where: "As summarised at texfire.net: change = 100 (after - before) ÷ before; marks at least 350 mm apart and 50 mm from the edge, three specimens where possible.", Mark: reckoning.Read}
	perArea    = reckoning.Source{Name: "ISO 3801", Where: "Principle: conditioned mass ÷ area.", Mark: reckoning.Memory}
	tubes      = reckoning.Source{Name: "tubes for rolling", Where: "CCI Notes 13/3: tubes of 5 to 15 cm most used. A museum page, mpmuseum.org, 3 to 6 in and at least 4 in longer than the piece; STASH, G. Brown 1992, 3 to 4 in, 6 to 8 in for larger ones.", Mark: reckoning.Read}
	dryFirst   = reckoning.Source{Name: "when to measure", Where: "Same points, tool and humidity, 24 hours after drying or later: common practice.", Mark: reckoning.Practice}
)

// about writes what two figures say enough of, in inches with the millimetres behind.
func about(s *reckoning.Sheet, name string, x float64) string {
	mm := unit.Text(x, 2) + " mm"
	if !s.Inches(name) {
		return mm
	}
	in, _ := unit.Named("in")
	return in.Write(x, 2) + " (" + mm + ")"
}

// area writes an area of so many square metres in a metric unit, in square inches
// before it where the answer named was given in inches.
func area(s *reckoning.Sheet, name, metric string, x float64) string {
	own := reckoning.InUnit(metric, x)
	if !s.Inches(name) {
		return own
	}
	return reckoning.InUnit("in²", x) + " (" + own + ")"
}
