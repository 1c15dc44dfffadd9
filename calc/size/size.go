// Package size reckons with lengths of a textile: how it changed, what it weighs
// by its area, and how thick it rolls. Lengths are in millimetres.
package size

import (
	"math"

	"sinkside/calc/unit"
)

// Change returns the change from before to after in per cent of before; below
// nought is shrinkage (ISO 5077, as summarised at texfire.net, read). before must
// be above nought.
func Change(before, after unit.Length) float64 { return 100 * float64(after-before) / float64(before) }

// ChangeRange returns between what a change in per cent lies, when each of the two
// lengths may be off by so much at the most. Both must be longer than that.
func ChangeRange(before, after, off unit.Length) (low, high float64) {
	return Change(before+off, after-off), Change(before-off, after+off)
}

// Area returns the change of an area in per cent from those of its two lengths.
func Area(warp, weft float64) float64 {
	return warp + weft + float64(warp*weft)/100
}

// Mean returns the mean of at least one length.
func Mean(lengths []unit.Length) unit.Length {
	sum := unit.Length(0)
	for _, l := range lengths {
		sum += l
	}
	return sum / unit.Length(len(lengths))
}

// PerArea returns the mass of a square metre in grams, of a piece of so many square
// metres (principle of ISO 3801, from memory: conditioned mass ÷ area).
func PerArea(m unit.Mass, area float64) float64 { return m.Grams() / area }

// Roll returns the outer diameter of a roll and how often it goes round: of a
// length l of something of thickness t on a tube of diameter d. What is rolled is
// taken to fill the ring, D² = d² + 4 l t ÷ π.
func Roll(d, l, t unit.Length) (outer unit.Length, turns float64) {
	outer = unit.Length(math.Sqrt(float64(d*d) + 4*float64(l*t)/math.Pi))
	return outer, float64((outer - d) / (2 * t))
}
