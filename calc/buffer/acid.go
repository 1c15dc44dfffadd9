// Package buffer reckons the pH of buffers in two ways that are kept apart.
//
// Recipes are published tables of measured mixtures: they are looked up, with a
// straight line between neighbouring rows and nothing beyond the last. The ideal
// equations (Henderson and Hasselbalch, species fractions, charge balance) hold
// for solutions so thin that ions do not feel each other. Buffers are not so
// thin: the equations miss the published mixtures by up to 0.35 pH for 0.05 mol/L
// citrate and 0.74 pH for citrate with phosphate, and whoever shows their answer
// shows a band with it that holds these.
//
// All of it is for 25 °C. A pH is a plain number; constants are as pK.
package buffer

import "math"

// Acid is an acid with its dissociation constants, the first proton first.
type Acid struct {
	Name  string
	Title string
	PK    []float64 // at 25 °C and no ionic strength
}

// The acids that are listed. Citric acid: Journal of Solution Chemistry, doi
// 10.1007/BF02439444, abstract (read), ±0.002; its third is 6.397, not the 5.602
// that one page lists. Phosphoric acid and the second of carbonic acid: Fromm,
// Ionization Constants of Aqueous Polyprotic Acids, 1997 (read); tables differ by
// ±0.03. The first of carbonic acid, and acetic acid: CRC Handbook (from memory).
var (
	Citric     = Acid{"citric", "citric acid", []float64{3.127, 4.759, 6.397}}
	Phosphoric = Acid{"phosphoric", "phosphoric acid", []float64{2.148, 7.206, 12.342}}
	Carbonic   = Acid{"carbonic", "carbonic acid", []float64{6.352, 10.329}}
	Acetic     = Acid{"acetic", "acetic acid", []float64{4.756}}
)

// The bands that an ideal pH is shown with, from comparing the ideal equations
// with the published mixtures. ±0.7 for citric acid with disodium phosphate, as three
// rows of the table would have it, does not hold the rows of pH 5.4 and 5.6, which are
// missed by 0.74 and 0.73: a band that a published row leaves is none.
const (
	CitrateBand = 0.4 // 0.05 mol/L citrate
	MixedBand   = 0.75
)

// Fractions returns how the acid is shared out among its species at a pH, that
// with all its protons first. They sum to 1. The pH must be finite.
//
//	αi = 10^(i·pH - pK1 - ... - pKi) / sum of these
func (a Acid) Fractions(pH float64) []float64 {
	exponents := make([]float64, len(a.PK)+1)
	most := 0.0
	for i, pK := range a.PK {
		exponents[i+1] = exponents[i] + (pH - pK)
		most = max(most, exponents[i+1])
	}
	sum := 0.0
	for i, e := range exponents {
		exponents[i] = math.Pow(10, e-most) // the largest is 1: nothing overflows
		sum += exponents[i]
	}
	for i := range exponents {
		exponents[i] /= sum
	}
	return exponents
}

// Charge returns the mean negative charge of a molecule at a pH: 0 to the number
// of its protons, rising with the pH.
func (a Acid) Charge(pH float64) float64 {
	n := 0.0
	for i, f := range a.Fractions(pH) {
		n += float64(float64(i) * f)
	}
	return n
}

// FractionBetween returns the least and the greatest that the fraction of a
// species, counted by protons lost, becomes between two pH. The first species only
// falls and the last only rises; one between has its greatest where the mean
// charge equals its own.
func (a Acid) FractionBetween(lost int, low, high float64) (least, most float64) {
	l, h := a.Fractions(low)[lost], a.Fractions(high)[lost]
	least, most = min(l, h), max(l, h)
	if n := float64(lost); a.Charge(low) < n && a.Charge(high) > n {
		for range 60 {
			if mid := (low + high) / 2; a.Charge(mid) < n {
				low = mid
			} else {
				high = mid
			}
		}
		most = max(most, a.Fractions(low)[lost])
	}
	return least, most
}
