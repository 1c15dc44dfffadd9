// Package rinse reckons what batch rinses leave behind.
//
// A drained textile keeps some liquid. Fresh water thins what that liquid holds,
// and draining leaves the same volume of the thinner liquid. With V_kept litres
// kept and V litres of fresh water, one rinse leaves the share
//
//	f = V_kept / (V_kept + V)
//
// and n of them the product of the shares. It is the algebra of repeated
// extraction (read in two teaching pages). Mind that V is the fresh water alone:
// a source that gives the whole volume in the tray has counted V_kept in.
//
// The account assumes complete mixing and that fibres hold on to nothing. Real
// textiles hold surfactant back and rinse more slowly (Tímár-Balázsy, Reviews in
// Conservation, abstract read): the figure is the best that can happen, a plan
// and not a measurement.
package rinse

import (
	"math"

	"sinkside/calc/unit"
)

// Most is the greatest number of rinses that is reckoned with.
const Most = 50

// Left returns the share that is left after rinses with these portions of fresh
// water, in any order. kept must be above 0.
func Left(kept unit.Volume, portions ...unit.Volume) unit.Fraction {
	f := 1.0
	for _, v := range portions {
		f *= float64(kept) / float64(kept+v)
	}
	return unit.Fraction(f)
}

// After returns the share that is left after n equal rinses. It multiplies
// rather than calling math.Pow, whose last bits differ between machines.
func After(kept, fresh unit.Volume, n int) unit.Fraction {
	one := float64(kept) / float64(kept+fresh)
	f := 1.0
	for range n {
		f *= one
	}
	return unit.Fraction(f)
}

// slack lets a target be met that only rounding misses: 0.1 × 0.1 is not 0.01
// in a float64.
const slack = 1 + 1e-12

// Needed returns the least whole number of equal rinses that leaves no more than
// target, and false when that is more than [Most].
func Needed(kept, fresh unit.Volume, target unit.Fraction) (int, bool) {
	for n := range Most + 1 {
		if After(kept, fresh, n) <= target*slack {
			return n, true
		}
	}
	return 0, false
}

// NeededReal returns the number of equal rinses for a target as the equation
// gives it, before it is made whole: ln f / ln (V_kept / (V_kept + V)).
func NeededReal(kept, fresh unit.Volume, target unit.Fraction) float64 {
	return math.Log(float64(target)) / math.Log(float64(kept)/float64(kept+fresh))
}

// Split returns the share left when a fixed amount of water is used in n equal
// portions, the best division into n. n must be above 0.
func Split(kept, water unit.Volume, n int) unit.Fraction {
	return After(kept, water/unit.Volume(n), n)
}

// Limit returns what no division of a fixed amount of water comes below:
// exp(-V/V_kept), the limit for ever smaller portions.
func Limit(kept, water unit.Volume) unit.Fraction {
	return unit.Fraction(math.Exp(-float64(water) / float64(kept)))
}

// Portions returns the best number of rinses that a fixed amount of water gives
// when each must be at least the volume that covers the object: as many as there
// are, since splitting further never leaves more. It is 0 when the water does
// not cover the object once, and at most [Most].
func Portions(water, least unit.Volume) int {
	return int(math.Min(math.Floor(float64(water)/float64(least)*slack), Most))
}

// PickUp returns the liquid that a textile of the given dry mass holds when it
// takes up that share of it; 1.2 is a pick-up of 120 %.
func PickUp(dry unit.Mass, pickUp unit.Fraction) unit.Mass {
	return unit.Mass(float64(dry) * float64(pickUp))
}

// AddOn returns the share of its dry mass that a textile keeps when the liquid
// in it dries up: pick-up times the share by mass dissolved in the liquid.
func AddOn(pickUp, dissolved unit.Fraction) unit.Fraction {
	return unit.Fraction(float64(pickUp) * float64(dissolved))
}
