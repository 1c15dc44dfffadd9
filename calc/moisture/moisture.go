// Package moisture reckons the water in fibres. Regain is the water for the dry
// mass, content the water for the whole mass; both in per cent. Masses are in
// grams.
package moisture

import (
	"errors"

	"sinkside/calc/unit"
)

// Content returns the moisture content of a regain: M = 100 R ÷ (100 + R).
func Content(regain float64) float64 { return 100 * regain / (100 + regain) }

// Regain returns the regain of a moisture content below 100 %: R = 100 M ÷ (100 - M).
func Regain(content float64) float64 { return 100 * content / (100 - content) }

// RegainOf returns the regain of a textile by its masses as it is and oven-dry.
func RegainOf(conditioned, dry unit.Mass) float64 { return 100 * float64((conditioned-dry)/dry) }

// Dry returns the dry mass of a textile that holds so much regain.
func Dry(conditioned unit.Mass, regain float64) unit.Mass {
	return unit.Mass(float64(conditioned) / (1 + regain/100))
}

// At returns the mass of a dry textile with so much regain: of a trade's figure its
// commercial mass.
func At(dry unit.Mass, regain float64) unit.Mass { return unit.Mass(float64(dry) * (1 + regain/100)) }

// Convention is a trade's agreed regain of a fibre. It is agreed, not measured.
type Convention struct {
	Fibre string
	ASTM  float64 // D1909; 0 where it is not known here
	EU    float64 // 1007/2011, Annex IX
	Known string  // how the ASTM figure is known; those of the EU are from memory
	Seen  string  // measured at 65 % RH and 20 °C, as printed
	Also  string  // what else the EU agrees on for it, by its state; empty where nothing
}

// Conventions: ASTM D1909-13 by way of table 10 of Bioresources and Bioprocessing 7
// (2020), doi 10.1186/s40643-020-00339-1 (read), the rest of that column and EU
// Regulation 1007/2011 from memory. Measured values after Morton and Hearle 2008 by
// the same table (read), the others say that they are from memory.
var Conventions = []Convention{
	{"cotton", 8.5, 8.50, "read", "7 to 8", "mercerised 10.5"}, {"flax", 12, 12, "read", "7", ""}, {"hemp", 12, 12, "read", "8", ""}, {"jute", 13.75, 17, "read", "12", ""},
	{"silk", 11, 11, "read", "10", ""}, {"wool", 13.6, 18.25, "read", "14 to 18", "carded 17"}, {"ramie", 7.8, 8.5, "memory", "-", ""}, {"viscose", 11, 13, "memory", "12 to 14 (from memory)", ""},
	{"nylon", 4.5, 6.25, "memory", "4.1 (from memory)", "filament 5.75"}, {"polyester", 0.4, 1.5, "memory", "0.4 (from memory)", ""}, {"acetate", 6.5, 9, "memory", "6.0 (from memory)", ""}, {"acrylic", 1.5, 2, "memory", "1 to 2 (from memory)", ""},
}

// Sorption is a fibre's regain at 24 °C over the humidity.
type Sorption struct {
	Fibre string
	At    [6]float64 // regain at Humidities
}

// Humidities of the points, % RH.
var Humidities = [6]float64{10, 20, 40, 50, 70, 90}

// Tolerance is how far a regain read off the points may be off: hysteresis alone is
// worth that much.
const Tolerance = 1.5

// Sorptions: from memory of the ASHRAE Handbook, HVAC Applications, Regain of
// hygroscopic materials.
var Sorptions = []Sorption{
	{"raw cotton", [6]float64{2.5, 3.7, 5.5, 6.6, 9.5, 14.1}}, {"linen yarn", [6]float64{3.6, 5.4, 7.3, 8.1, 9.8, 13.8}}, {"raw silk", [6]float64{3.2, 5.5, 8, 8.9, 11.9, 18.8}},
	{"worsted wool", [6]float64{4.7, 7, 10.8, 12.8, 17.2, 23.4}}, {"viscose", [6]float64{4, 5.7, 7.9, 9.2, 12.4, 16}},
}

// ErrOutside is returned outside of the published points.
var ErrOutside = errors.New("published points reach from 10 to 90 % RH")

// Regain returns the regain at a humidity from 10 to 90 %, straight between the
// points.
func (s Sorption) Regain(humidity float64) (float64, error) {
	last := len(Humidities) - 1
	if !(humidity >= Humidities[0] && humidity <= Humidities[last]) {
		return 0, ErrOutside
	}
	i := 0
	for i < last-1 && humidity > Humidities[i+1] {
		i++
	}
	share := (humidity - Humidities[i]) / (Humidities[i+1] - Humidities[i])
	return s.At[i] + float64(share*(s.At[i+1]-s.At[i])), nil
}

// Centrifuged is the water that a fibre holds after a centrifuge, per cent of its
// dry mass, give or take ten: from memory of Preston and Nimkar 1949, with low
// confidence. After draining the make of the cloth decides, not the fibre.
var Centrifuged = []struct {
	Fibre string
	Held  float64
}{{"cotton", 48}, {"wool", 45}, {"silk", 50}, {"viscose", 105}, {"nylon", 15}}

// CentrifugedOff is how far each of these may be off.
const CentrifugedOff = 10

// Atmosphere is one in which textiles are tested (ISO 139:2005, overview read).
type Atmosphere struct{ Celsius, CelsiusOff, Humidity, HumidityOff float64 }

// The standard atmosphere, and the other one that may be agreed on.
var (
	Standard = Atmosphere{20, 2, 65, 4}
	ByAccord = Atmosphere{23, 2, 50, 4}
)
