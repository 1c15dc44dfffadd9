// Package colours accounts for reckonings with colour: how far two colours are
// apart, on which step of the grey scales, and how sure repeated readings are.
package colours

import (
	"sinkside/calc/colour"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const family = "Colour"

var (
	cielab    = reckoning.Source{Name: "CIELAB", Where: "CIE 15, Colorimetry: L*, a*, b*, the difference ΔE*ab of 1976 and that of 1994. Held against the test data of an open colour-science library to 1e-7.", Mark: reckoning.Memory}
	ciede     = reckoning.Source{Name: "CIEDE2000", Where: "Sharma, Wu and Dalal, Color Research and Application 30 (2005) 21-30: held against 22 pairs of its table 1, to the last figure.", Mark: reckoning.Read}
	srgb      = reckoning.Source{Name: "sRGB", Where: "IEC 61966-2-1, white point x 0.3127, y 0.3290; the procedure as printed at brucelindbloom.com, adaptation to D50 after Bradford.", Mark: reckoning.Read}
	a02       = reckoning.Source{Name: "ISO 105-A02", Where: "Grey scale for change in colour: EN 20105-A02:1994, sample, and GOST R ISO 105-A02-99, table 1.", Mark: reckoning.Read}
	a03       = reckoning.Source{Name: "ISO 105-A03", Where: "Grey scale for staining: its steps, from memory; the formula of A04 gives each of them back.", Mark: reckoning.Memory}
	a04       = reckoning.Source{Name: "ISO 105-A04", Where: "Instrumental staining: ΔEGS and the rounding from a source file that cites EN ISO 105-A04:1999; the formula of the grade from memory, which gives each step of A03 back.", Mark: reckoning.Memory}
	a05       = reckoning.Source{Name: "ISO 105-A05", Where: "Instrumental change in colour: the formulas as two public source files give them.", Mark: reckoning.Read}
	halfSteps = reckoning.Source{Name: "half-steps of ISO 105-A05", Where: "The limits of ΔEF between the half-steps, from memory.", Mark: reckoning.Memory}
	spread    = reckoning.Source{Name: "repeated readings", Where: "Textbook statistics: standard deviation with n - 1, and Student's t for 95 of 100.", Mark: reckoning.Memory}
	template  = reckoning.Source{Name: "the same place each time", Where: "Journal of the American Institute for Conservation 43, second-hand: repeated readings through a template.", Mark: reckoning.Read}
	justFaded = reckoning.Source{Name: "just noticeable", Where: "E. Hagan, Canadian Conservation Institute, background note: one just noticeable difference is taken as about ΔE 1.6, step 4 of the grey scale.", Mark: reckoning.Read}
)

// lab asks for the three coordinates of one colour.
func lab(prefix, title string) []reckoning.Input {
	return []reckoning.Input{
		reckoning.Number(prefix+"_l", title+", L*", 0, 100),
		reckoning.Number(prefix+"_a", title+", a*", -150, 150),
		reckoning.Number(prefix+"_b", title+", b*", -150, 150),
	}
}

// instrument asks how far readings may be off.
func instrument() reckoning.Input {
	return reckoning.Number("error", "Error of the instrument, ΔE", 0, 20).Maybe().Note("How far two readings of one place may differ, as ΔE*ab: from its manual, or from repeated readings.")
}

func labOf(s *reckoning.Sheet, prefix string) colour.Lab {
	return colour.Lab{L: s.Base(prefix + "_l"), A: s.Base(prefix + "_a"), B: s.Base(prefix + "_b")}
}

// labels writes a colour for the working.
func labels(c colour.Lab) string {
	return "L* " + unit.Text(c.L, 5) + ", a* " + unit.Text(c.A, 5) + ", b* " + unit.Text(c.B, 5)
}

// put writes a number of a colour for the working.
func put(x float64) string { return unit.Text(x, 4) }

// measureAlike is said wherever two measured colours are compared.
func measureAlike(out *reckoning.Result) {
	out.Object("Compare only colours measured at the same place, with the same instrument, opening, light and observer; a textile's direction and what lies under it count too. Through a template the place is found again.", template)
}
