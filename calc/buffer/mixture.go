package buffer

import (
	"errors"
	"math"

	"sinkside/calc/unit"
)

// ErrBeyond happens when a mixture would lie outside of pH 0 to 14, where nothing
// here holds.
var ErrBeyond = errors.New("the mixture lies outside of pH 0 to 14")

// Mixture is what a solution holds, each in moles in a litre.
type Mixture struct {
	Citrate   unit.Molarity // all of it, in whatever form it went in
	Phosphate unit.Molarity
	Sodium    unit.Molarity // strong base and the sodium of the salts, less strong acid
}

// waterPK is the ion product of water at 25 °C (from memory, as in every table).
const waterPK = 14.0

// Ideal returns the pH at which the charges balance, without activities: see the
// package comment for how far that is off.
//
//	sodium + [H] = [OH] + citrate × its charge + phosphate × its charge
func (m Mixture) Ideal() (float64, error) {
	over := func(pH float64) float64 {
		return float64(m.Sodium) + math.Pow(10, -pH) - math.Pow(10, pH-waterPK) -
			float64(float64(m.Citrate)*Citric.Charge(pH)) - float64(float64(m.Phosphate)*Phosphoric.Charge(pH))
	}
	low, high := 0.0, 14.0
	if !(over(low) > 0 && over(high) < 0) {
		return 0, ErrBeyond
	}
	for range 60 { // over falls as the pH rises
		if mid := (low + high) / 2; over(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2, nil
}
