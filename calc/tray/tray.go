// Package tray reckons what a tray holds and what its water weighs.
//
// Lengths are inside measures, in the water: a tray's wall is not water, and
// walls that lean are measured half-way down. The object and its support take up
// room of their own and are left out of the account.
package tray

import (
	"errors"
	"math"

	"sinkside/calc/unit"
)

// cubicMillimetresPerLitre is 1 L = 1 dm³, by definition.
const cubicMillimetresPerLitre = 1e6

// Rectangular returns what a tray with a level bottom holds.
func Rectangular(length, width, depth unit.Length) unit.Volume {
	return unit.Volume(float64(length) * float64(width) * float64(depth) / cubicMillimetresPerLitre)
}

// Sloped returns what a rectangular tray holds whose water is shallow at one
// end, deep at the other and even between. Either depth may be 0; where the
// water does not reach the far end, length is how far it reaches.
func Sloped(length, width, shallow, deep unit.Length) unit.Volume {
	return Rectangular(length, width, (shallow+deep)/2)
}

// SlopedDepths returns how deep water stands at both ends of a rectangular tray
// that is deeper at one end by fall, and how far from the deep end it reaches: not
// to the shallow one where it is too little.
func SlopedDepths(length, width, fall unit.Length, water unit.Volume) (shallow, deep, reach unit.Length) {
	floor := float64(length) * float64(width)
	mean := unit.Length(float64(water) * cubicMillimetresPerLitre / floor)
	if mean >= fall/2 {
		return mean - fall/2, mean + fall/2, length
	}
	deep = unit.Length(math.Sqrt(2 * float64(mean) * float64(fall)))
	return 0, deep, unit.Length(float64(length) * float64(deep/fall))
}

// Round returns what a tray with a round level bottom holds.
func Round(diameter, depth unit.Length) unit.Volume {
	d := float64(diameter)
	return unit.Volume(math.Pi / 4 * d * d * float64(depth) / cubicMillimetresPerLitre)
}

// ErrTemperature says that the density of water was asked outside [Coldest] to
// [Warmest].
var ErrTemperature = errors.New("water density is known here from 0 to 40 °C only")

// Coldest and Warmest bound the temperatures for which [WaterDensity] was held
// against a table.
const (
	Coldest unit.Temperature = 0
	Warmest unit.Temperature = 40
)

// WaterDensity returns the density of clean water at 101 325 Pa, for 0 to 40 °C.
//
// Bettin and Spieweck's formula on the ITS-90 scale, read with its coefficients
// in "Density of Water", IP Standard Methods 1998, appendix G, which states an
// uncertainty of 0.006 kg/m³. What is dissolved weighs more than that: a gram of
// salt to the litre adds about 0.7 kg/m³ (from memory), 0.07 % of the mass.
//
// Kell's formula of 1975 agrees within 0.004 kg/m³ but was not taken, since a
// widely read copy prints its denominator with two digits transposed.
func WaterDensity(at unit.Temperature) (unit.Density, error) {
	t := at.Celsius()
	if !(at >= Coldest && at <= Warmest) {
		return 0, ErrTemperature
	}
	above := 999.83952 + float64(t*(16.952577+float64(t*(-7.9905127e-3+float64(t*(-46.241757e-6+float64(t*(105.84601e-9+float64(t*-281.03006e-12)))))))))
	below := 1 + float64(16.887236e-3*t)
	return unit.Density(above / below / 1000), nil
}
