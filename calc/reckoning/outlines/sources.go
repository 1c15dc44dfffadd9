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
	slack      = reckoning.Source{Name: "agreement of measures", Where: "More than about 3 mm in a metre between what five measures give and the sixth means a misreading, or a piece that does not lie flat: common practice.", Mark: reckoning.Practice}
	dimensions = reckoning.Source{Name: "ISO 5077 and ISO 3759", Where: "As summarised at texfire.net: change = 100 (after - before) ÷ before; marks at least 350 mm apart and 50 mm from the edge, three specimens where possible.", Mark: reckoning.Read}
	perArea    = reckoning.Source{Name: "ISO 3801", Where: "Principle: conditioned mass ÷ area.", Mark: reckoning.Memory}
	tubes      = reckoning.Source{Name: "tubes for rolling", Where: "CCI Notes 13/3: tubes of 5 to 15 cm most used. A museum page, mpmuseum.org, 3 to 6 in and at least 4 in longer than the piece; STASH, G. Brown 1992, 3 to 4 in, 6 to 8 in for larger ones.", Mark: reckoning.Read}
	dryFirst   = reckoning.Source{Name: "when to measure", Where: "Same points, tool and humidity, 24 hours after drying or later: common practice.", Mark: reckoning.Practice}
)

func mm(x float64) string { return reckoning.InUnit("mm", x) }

// read writes a length of the outline as the person reads it: in inches where the
// first side was measured in them.
func read(s *reckoning.Sheet, x float64) string {
	if s.Inches("AB") {
		return reckoning.InUnit("in", x)
	}
	return mm(x)
}

func cm2(x float64) string { return unit.Text(x/100, 4) + " cm²" }
