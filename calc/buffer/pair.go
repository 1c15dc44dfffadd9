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
	base = unit.Amount(float64(total) * r / (1 + r))
	return base, total - base
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
