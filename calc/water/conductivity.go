// Package water reckons with the water of a bath: its conductivity at 25 °C, and
// whether what stands ready lasts for a plan.
package water

import (
	"errors"

	"sinkside/calc/unit"
)

// Conductivity is a conductivity in microsiemens per centimetre.
type Conductivity float64

// Coefficient is by how much conductivity changes, in per cent of that at 25 °C
// by the kelvin.
type Coefficient float64

// Usual is the coefficient that meters most often take: "about 2.0 %/K is most
// common" (manual of the hand-held meter G 7500, 6.5.2, read). For ordinary
// water another manual gives 2.2 (dTRANS CR 02, chapter 16, read).
const Usual Coefficient = 2.0

// reference is the temperature, in °C, to which all readings are brought.
const reference = 25

// MostConductive is the greatest reading that is taken, µS/cm: ten times a strong
// salt solution's would be a slip.
const MostConductive = 200000

// Linear brings a reading at a temperature to 25 °C by the linear equation
//
//	κ25 = κ / (1 + α·(T - 25))
//
// (manual G 7500, 6.5.2, read). α·(T - 25) must be above -1: from 0 °C on, that
// holds for every coefficient below 4 %/K.
func Linear(k Conductivity, at unit.Temperature, a Coefficient) Conductivity {
	return k / Conductivity(1+float64(float64(a)/100*(at.Celsius()-reference)))
}

// CoefficientOf returns the coefficient that two readings of the same water
// show: (κ1 - κ2) / ((T1 - T2)·κ1), κ1 the one nearest to 25 °C (manual G 7500,
// read). The temperatures must differ and k1 be above 0.
func CoefficientOf(k1 Conductivity, t1 unit.Temperature, k2 Conductivity, t2 unit.Temperature) Coefficient {
	return Coefficient(float64(k1-k2) / (t1.Celsius() - t2.Celsius()) / float64(k1) * 100)
}

// ReadingFor returns what the same water would read at t2 with a coefficient: the
// inverse of [CoefficientOf].
func ReadingFor(k1 Conductivity, t1, t2 unit.Temperature, a Coefficient) Conductivity {
	return k1 * Conductivity(1+float64(float64(a)/100*float64(t2-t1)))
}

// Where ISO 7888 holds: for natural water from 0 to 35.9 °C, and about 60 to
// 1000 µS/cm as read.
const (
	ISOColdest unit.Temperature = 0
	ISOWarmest unit.Temperature = 35.9
	ISOLeast   Conductivity     = 60
	ISOMost    Conductivity     = 1000
)

// Why ISO 7888 does not apply.
var (
	ErrISOTemperature = errors.New("the table of ISO 7888 ends at 0 and at 35.9 °C")
	ErrISOWater       = errors.New("ISO 7888 is made for natural water of about 60 to 1000 µS/cm")
)

// isoFactors are 1000·f25 at 0, 1, … 35 °C: ISO 7888 as its table is reprinted
// in the manual of the instrument C.A 10141, annex 1 (read).
var isoFactors = [...]uint16{
	1918, 1857, 1800, 1745, 1693, 1643, 1596, 1551, 1508, 1467, 1428, 1390,
	1354, 1320, 1287, 1256, 1225, 1196, 1168, 1141, 1116, 1091, 1067, 1044,
	1021, 1000, 979, 959, 940, 921, 903, 886, 869, 853, 837, 822,
}

// ISOFactor returns f25 of ISO 7888, between whole degrees on the straight line
// through them, and beyond 35 °C on that through the last two. Against the
// tenths that were read of the table it is right within 0.001.
func ISOFactor(at unit.Temperature) (float64, error) {
	if !(at >= ISOColdest && at <= ISOWarmest) {
		return 0, ErrISOTemperature
	}
	i := min(int(at), len(isoFactors)-2)
	low, high := float64(isoFactors[i]), float64(isoFactors[i+1])
	return (low + float64((at.Celsius()-float64(i))*(high-low))) / 1000, nil
}

// ISO7888 brings a reading of natural water to 25 °C: κ25 = κ·f25(T).
func ISO7888(k Conductivity, at unit.Temperature) (Conductivity, error) {
	f, err := ISOFactor(at)
	if err != nil {
		return 0, err
	}
	if !(k >= ISOLeast && k <= ISOMost) {
		return 0, ErrISOWater
	}
	return k * Conductivity(f), nil
}
