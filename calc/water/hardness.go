package water

import "sinkside/calc/unit"

// Hardness is what calcium and magnesium make a water hard by, in milligrams of
// calcium carbonate to the litre.
type Hardness float64

// CarbonateMass is the molar mass of calcium carbonate, and those of the two
// metals, in g/mol: standard atomic weights (Ca read, Mg from memory).
const (
	CarbonateMass unit.MolarMass = 100.086
	CalciumMass   unit.MolarMass = 40.078
	MagnesiumMass unit.MolarMass = 24.305
)

// FromIons returns the hardness that calcium and magnesium make together. Each
// mole of either counts as a mole of calcium carbonate:
//
//	mg/L CaCO3 = 2.4973 × Ca + 4.1179 × Mg, both in mg/L
//
// A page prints 2.497 and 4.115 (wiktel.com, read); these follow from the
// atomic weights.
func FromIons(calcium, magnesium unit.Molarity) Hardness {
	return Hardness(float64(calcium+magnesium) * float64(CarbonateMass) * 1000)
}

// Molarity returns the amount of both metals in a litre.
func (h Hardness) Molarity() unit.Molarity {
	return unit.Molarity(float64(h) / 1000 / float64(CarbonateMass))
}

// Class is a word for a hardness, and up to where it holds, mg/L CaCO3.
type Class struct {
	Below Hardness
	Word  string
}

// The two published scales of words (both in one table adapted from the United
// States Geological Survey, h2odistributors.com, "hard water map", read). Other
// publishers draw the lines elsewhere: 50, 150 and 300, or 75, 150 and 300.
var (
	Survey      = []Class{{60, "soft"}, {120, "moderately hard"}, {180, "hard"}, {0, "very hard"}}
	Association = []Class{{17.1, "soft"}, {60, "slightly hard"}, {120, "moderately hard"}, {180, "hard"}, {0, "very hard"}}
)

// Word returns the word of a scale for a hardness. A hardness on a line, but for
// rounding, bears the harder word.
func (h Hardness) Word(scale []Class) string {
	const slack = 1e-6 // mg/L
	for _, c := range scale[:len(scale)-1] {
		if h < c.Below-slack {
			return c.Word
		}
	}
	return scale[len(scale)-1].Word
}

// Molar masses of two chelators, computed from standard atomic weights, g/mol.
const (
	DisodiumEDTA     unit.MolarMass = 372.238 // dihydrate
	TrisodiumCitrate unit.MolarMass = 294.098 // dihydrate
)

// Chelator returns what binds the hardness of a water when one mole holds one
// mole of metal, times excess.
func Chelator(h Hardness, v unit.Volume, excess float64) unit.Amount {
	return unit.Amount(float64(h.Molarity()) * v.Litres() * excess)
}
