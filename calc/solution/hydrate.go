package solution

import "sinkside/calc/unit"

// Substance is a salt or acid that is sold with and without water of
// crystallisation.
type Substance struct {
	Name    string
	Title   string
	Formula string // without water
	Waters  []float64
}

// Substances that a studio meets in two forms or more. Waters lists the forms
// that are commonly sold (common practice); the molar masses follow from the
// formulas.
var Substances = []Substance{
	{"citric_acid", "citric acid", "C6H8O7", []float64{0, 1}},
	{"trisodium_citrate", "trisodium citrate", "C6H5Na3O7", []float64{0, 2}},
	{"sodium_dihydrogen_phosphate", "sodium dihydrogen phosphate", "NaH2PO4", []float64{0, 1, 2}},
	{"disodium_hydrogen_phosphate", "disodium hydrogen phosphate", "Na2HPO4", []float64{0, 2, 7, 12}},
	{"disodium_edta", "EDTA disodium salt", "C10H14N2Na2O8", []float64{0, 2}},
	{"sodium_carbonate", "sodium carbonate", "Na2CO3", []float64{0, 1, 10}},
	{"sodium_tetraborate", "sodium tetraborate (borax)", "Na2B4O7", []float64{0, 5, 10}},
	{"calcium_acetate", "calcium acetate", "C4H6CaO4", []float64{0, 1}},
	{"calcium_chloride", "calcium chloride", "CaCl2", []float64{0, 2, 6}},
	{"magnesium_sulfate", "magnesium sulfate", "MgSO4", []float64{0, 1, 7}},
	{"sodium_thiosulfate", "sodium thiosulfate", "Na2S2O3", []float64{0, 5}},
}

// MolarMass returns the molar mass of the substance with so many molecules of
// water to each of its own.
func (s Substance) MolarMass(waters float64) unit.MolarMass {
	m, err := MolarMassOf(s.Formula)
	if err != nil {
		panic("solution: " + s.Formula + ": " + err.Error())
	}
	return Hydrated(m, waters)
}

// Sold reports whether the form with so many waters is one that is commonly
// sold.
func (s Substance) Sold(waters float64) bool {
	for _, w := range s.Waters {
		if w == waters {
			return true
		}
	}
	return false
}

// Hydrated returns the molar mass of a substance that holds so many molecules of
// water to each of its own.
func Hydrated(dry unit.MolarMass, waters float64) unit.MolarMass {
	return dry + unit.MolarMass(float64(waters*float64(Water)))
}

// Instead returns the mass of another form that holds the same amount of the
// substance: m2 = m1·M2/M1. Both molar masses must be above 0.
func Instead(m unit.Mass, asked, have unit.MolarMass) unit.Mass {
	return unit.Mass(float64(m) * float64(have) / float64(asked))
}
