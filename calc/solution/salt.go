package solution

import (
	"errors"
	"math"

	"sinkside/calc/unit"
)

// ErrSalt happens when the salt lies outside of what was measured.
var ErrSalt = errors.New("counter-ion outside of 0 to 0.4 mol/L, where nothing was measured")

// Sodium dodecyl sulfate in pure water at 25 °C: 8.2 mmol/L (Mukerjee and Mysels
// 1971, value from memory; 7.9 to 8.4 in what was read).
const (
	DodecylSulfate    unit.MolarMass = 288.378
	DodecylSulfateCMC unit.Molarity  = 0.0082
)

// MostSalt is the highest measured concentration of sodium chloride.
const MostSalt unit.Molarity = 0.40

// SaltBand is how far the law below may be off: it is the tolerance that the
// reference gives with the measured rows.
const SaltBand = 0.15

// SaltRow is one measured CMC of sodium dodecyl sulfate beside a salt.
type SaltRow struct{ Salt, CMC unit.Molarity }

// SaltRows are the measured values: M. J. Rosen, Surfactants and Interfacial
// Phenomena, 3rd edition, Table 2-1, sodium chloride at 21 °C, the first row in
// water at 25 °C (from memory).
var SaltRows = [...]SaltRow{{0, 0.0082}, {0.01, 0.0056}, {0.10, 0.0015}, {0.40, 0.00052}}

// The line through those rows: log10 CMC = saltA - saltB·log10(CMC + salt), both
// in mol/L (form by Corrin and Harkins, from memory; coefficients by least
// squares). It gives 8.4, 5.5, 1.4 and 0.53 mmol/L for the rows.
const saltA, saltB = -3.563, 0.718

// SaltedCMC returns the CMC of sodium dodecyl sulfate in water that holds so much
// of the counter-ion, sodium, beside its own: 0 to 0.4 mol/L, near 21 to 25 °C,
// right to [SaltBand]. It was measured with sodium chloride.
func SaltedCMC(counter unit.Molarity) (unit.Molarity, error) {
	if !(counter >= 0 && counter <= MostSalt) {
		return 0, ErrSalt
	}
	// The left side minus the right rises with the CMC, so halving finds it; on
	// the logarithm, 60 halvings of two decades are exact to the last bits.
	low, high := -4.0, -2.0
	for range 60 {
		mid := (low + high) / 2
		if mid+float64(saltB*math.Log10(math.Pow(10, mid)+float64(counter))) > saltA {
			high = mid
		} else {
			low = mid
		}
	}
	return unit.Molarity(math.Pow(10, (low+high)/2)), nil
}
