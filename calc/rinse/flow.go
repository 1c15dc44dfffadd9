package rinse

import (
	"math"

	"sinkside/calc/unit"
)

// Overflowing returns the share that is left of what was in a well-mixed tank of
// volume tank after so much fresh water has run through and over: e^(-water ÷
// tank). From memory of the stirred tank of chemical engineering.
func Overflowing(tank, water unit.Volume) unit.Fraction {
	return unit.Fraction(math.Exp(-float64(water) / float64(tank)))
}

// OverflowFor returns the water that has to run through for a share to be left.
func OverflowFor(tank unit.Volume, target unit.Fraction) unit.Volume {
	return unit.Volume(-float64(tank) * math.Log(float64(target)))
}

// SteadyRatio returns by how much a single running tank thins what is dragged into
// it, once it runs steadily: (D + Q) ÷ D for D of carried liquid and Q of fresh
// water in the same time ("10 Minutes to Better Rinsing", poly-products.com, read).
func SteadyRatio(drag, fresh float64) float64 { return (drag + fresh) / drag }

// CounterFlow returns the fresh water for each litre dragged in, by n tanks against
// whose order the water runs, so that what leaves the last is thinned by ratio:
// ratio^(1/n) + 1/n (remco.com an2, read). One tank is often simplified to ratio.
func CounterFlow(ratio float64, n int) float64 {
	return math.Pow(ratio, 1/float64(n)) + 1/float64(n)
}
