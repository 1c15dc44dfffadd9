package buffer

import (
	"errors"
	"math"

	"sinkside/calc/unit"
)

// ErrSpent happens when strong acid or base is added in such an amount that it
// uses one half of the pair up: what is left is no buffer.
var ErrSpent = errors.New("what is added uses the buffer up")

// PH returns the pH of a pair by Henderson and Hasselbalch: pKa + log10 of base
// over acid, as amounts or concentrations. Both must be above 0.
func PH(pKa float64, base, acid unit.Amount) float64 {
	return pKa + math.Log10(float64(base)/float64(acid))
}

// Ratio returns base over acid for a pH, the inverse of [PH].
func Ratio(pKa, pH float64) float64 { return math.Pow(10, pH-pKa) }

// Shares returns how an amount of buffer is to be divided for a pH.
func Shares(pKa, pH float64, total unit.Amount) (base, acid unit.Amount) {
	r := Ratio(pKa, pH)
	return unit.Amount(float64(total) * r / (1 + r)), unit.Amount(float64(total) / (1 + r))
}

// Moved returns by how much strong base, or, below 0, strong acid moves the pH of
// a pair. It is not taken as the difference of two pH, whose last bits differ
// between machines and would be most of a small step. What is added must leave
// both above 0.
func Moved(base, acid, added unit.Amount) float64 {
	return (math.Log1p(float64(added/base)) - math.Log1p(-float64(added/acid))) / math.Ln10
}

// After returns the pair once strong base has turned acid into base, or, below
// 0, strong acid base into acid.
func After(base, acid, added unit.Amount) (unit.Amount, unit.Amount, error) {
	base, acid = base+added, acid-added
	if base <= 0 || acid <= 0 {
		return 0, 0, ErrSpent
	}
	return base, acid, nil
}
