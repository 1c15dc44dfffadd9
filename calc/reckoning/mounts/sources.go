// Package mounts accounts for reckonings of mounting: boards and cloths, where the
// textile lies, how it is sewn, what is cut from what, and what holds it.
package mounts

import (
	"slices"

	"sinkside/calc/reckoning"
)

const family = "Mounts"

var (
	flat     = reckoning.Source{Name: "CCI Notes 13/6", Where: "A small flat mount: board a few centimetres larger all round; backing fabric cut 5 cm larger all round than the board.", Mark: reckoning.Read}
	hooks    = reckoning.Source{Name: "CCI Notes 13/4", Where: "Hook-and-loop hanging: strip 2 cm shorter than the upper edge, sleeve 0.5 cm wider all round than the tape.", Mark: reckoning.Read}
	whip     = reckoning.Source{Name: "whip stitch", Where: "A stitching guide: spaced 3 to 5 mm. CCI Notes 13/10: through existing holes, few, relaxed.", Mark: reckoning.Read}
	uneven   = reckoning.Source{Name: "ends that do not line up", Where: "Each end moves on by the part of the golden section of the range: neighbours stay apart by 0.382 of it, less rounding to 0.5 mm. A rule of our own for a common practice.", Mark: reckoning.Ours}
	empties  = reckoning.Source{Name: "largest empty rectangles", Where: "Pieces are put where a rule likes them best among all the largest empty rectangles, for several orders and rules; the best layout is kept. Not proved the best there is.", Mark: reckoning.Computed}
	handbook = reckoning.Source{Name: "handbook densities", Where: "Glass 2500, acrylic sheet 1190 kg/m³.", Mark: reckoning.Memory}
	leaning  = reckoning.Source{Name: "slope", Where: "The share of its weight along the board is the sine of the angle. Museums use a range of angles, chosen by fragility and the tooth of the surface: a mountmakers' forum, 2016.", Mark: reckoning.Read}
	sums     = reckoning.Source{Name: "sums of layers", Where: "Follows from the measures given.", Mark: reckoning.Computed}
)

// length declares a length of a mount.
func length(name, title string, least, most float64) reckoning.Input {
	return reckoning.Quantity(name, title, "mm", least, most).In("mm", "cm", "m", "in")
}

// withPlusMinus are inputs, and behind them the ± of those that are measured.
func withPlusMinus(inputs []reckoning.Input, measured ...string) []reckoning.Input {
	out := inputs
	for i := range inputs {
		if slices.Contains(measured, inputs[i].Name) {
			out = append(out, reckoning.PlusMinus(&inputs[i]))
		}
	}
	return out
}

func blades(out *reckoning.Result) {
	out.People("Cut with a sharp blade away from the hand that holds; a dull one slips. Clear tacks and blades before the textile comes to the table.", reckoning.CommonPractice)
}
