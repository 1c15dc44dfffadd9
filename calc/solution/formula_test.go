package solution

import (
	"errors"
	"math"
	"strings"
	"testing"

	"sinkside/calc/unit"
)

func TestMolarMassesOfTheReference(t *testing.T) {
	rows := []struct {
		source  string
		formula string
		want    float64
	}{
		{"S-01 (d) sodium dodecyl sulfate", "C12H25NaO4S", 288.378},
		{"S-01 (d) trisodium citrate dihydrate", "C6H5Na3O7·2H2O", 294.098},
		{"S-01 (d) citric acid", "C6H8O7", 192.123},
		{"S-01 (d) citric acid monohydrate", "C6H8O7·H2O", 210.138},
		{"S-01 (d) calcium carbonate", "CaCO3", 100.086},
		{"S-01 (d) EDTA disodium salt dihydrate", "C10H14N2Na2O8·2H2O", 372.238},
		{"S-01 (d) diammonium hydrogen citrate", "C6H14N2O7", 226.185},
		{"S-01 (d) sodium dihydrogen phosphate dihydrate", "NaH2PO4·2H2O", 156.006},
		{"Apelblat, Citric Acid, p. 13 (a)", "C6H8O7", 192.12},
		{"weblaboratorium.hu 2019 (a)", "C6H8O7·H2O", 210.14},
		{"weblaboratorium.hu 2019 (a)", "C6H5Na3O7·2H2O", 294.10},
		{"University of Massachusetts recipe (a)", "Na2HPO4", 141.98},
		{"S-02-2 hydrochloric acid (a)", "HCl", 36.46},
	}
	for _, r := range rows {
		got, err := MolarMassOf(r.formula)
		if err != nil {
			t.Errorf("%s: %v", r.formula, err)
		}
		check(t, r.source+": "+r.formula, float64(got), r.want, 0.03)
	}
}

// The same recipe page prints 178.05 for disodium hydrogen phosphate dihydrate.
// The formula gives 177.99, by 141.96 and two waters of 18.015, so the page is
// 0.06 too high: a slip that makes 0.03 % of a recipe.
func TestAPrintedMolarMassThatIsTooHigh(t *testing.T) {
	got, err := MolarMassOf("Na2HPO4·2H2O")
	if err != nil {
		t.Fatal(err)
	}
	check(t, "University of Massachusetts recipe (a), 178.05", float64(got), 178.05, 0.07)
	check(t, "S-01 weights (d)", float64(got), 177.987, 0.001)
}

func TestFormulasInOtherSpellings(t *testing.T) {
	rows := [][2]string{
		{"Na2CO3·10H2O", "Na2CO3.10H2O"}, {"Na2CO3·10H2O", "Na2CO3 * 10 H2O"}, {"Na2CO3·10H2O", "Na₂CO₃·10H₂O"},
		{"C6H14N2O7", "(NH4)2C6H6O7"}, {"Ca(OH)2", "CaO2H2"}, {"Mg3[Ca(OH)2]2", "Mg3Ca2O4H4"},
		{"CaSO4·0.5H2O", "(CaSO4)2(H2O)O0H0"}, {"C4H6CaO4", "Ca(CH3COO)2"},
	}
	for _, r := range rows {
		a, errA := MolarMassOf(r[0])
		b, errB := MolarMassOf(r[1])
		if strings.Contains(r[1], "0H0") { // a count of nought is refused
			if errA != nil || !errors.Is(errB, ErrFormula) {
				t.Errorf("%s: %v, %v", r[1], errA, errB)
			}
			continue
		}
		if errA != nil || errB != nil || math.Abs(float64(a-b)) > 1e-9 {
			t.Errorf("%s = %v (%v), %s = %v (%v)", r[0], a, errA, r[1], b, errB)
		}
	}
	half, err := MolarMassOf("CaSO4·0.5H2O")
	check(t, "plaster of Paris (b) 145.15", float64(half), 145.15, 0.02)
	if err != nil {
		t.Error(err)
	}
}

func TestWhatIsNoFormula(t *testing.T) {
	rows := map[string]error{
		"": ErrFormula, "·": ErrFormula, "H2O·": ErrFormula, "2": ErrFormula, "h2o": ErrFormula, "(H2O": ErrFormula, "H2O)": ErrFormula,
		"()": ErrFormula, "H1000": ErrFormula, "Xx2": ErrElement, "CitricAcid": ErrElement, "H2O·-1H2O": ErrFormula, "H2O·.5H2O": ErrFormula,
		strings.Repeat("C", MostFormula+1): ErrFormula, "H2O·1.5": ErrFormula,
	}
	for formula, want := range rows {
		if m, err := MolarMassOf(formula); !errors.Is(err, want) {
			t.Errorf("MolarMassOf(%q) = %v, %v, want %v", formula, m, err, want)
		}
	}
}

func FuzzMolarMass(f *testing.F) {
	for _, seed := range []string{"Na2CO3·10H2O", "(NH4)2HC6H5O7", "CaSO4·0.5H2O", "((((", "H2O..5", "Na₂O"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, formula string) {
		m, err := MolarMassOf(formula)
		if err == nil && !(m > 0 && !math.IsInf(float64(m), 0)) {
			t.Fatalf("MolarMassOf(%q) = %v", formula, m)
		}
	})
}

func TestHydrates(t *testing.T) {
	citric := Substances[0]
	check(t, "S-02-8 (d) 10 g of monohydrate replaced by anhydrous, g", Instead(10, citric.MolarMass(1), citric.MolarMass(0)).Grams(), 9.143, 0.002)
	check(t, "the other way (d), g", Instead(9.143, citric.MolarMass(0), citric.MolarMass(1)).Grams(), 10, 0.002)
	check(t, "a hydrate as typed (d)", float64(Hydrated(Substances[5].MolarMass(0), 10)), 286.14, 0.03)
	for _, s := range Substances {
		for _, from := range s.Waters {
			for _, to := range s.Waters {
				there := Instead(7, s.MolarMass(from), s.MolarMass(to))
				if back := Instead(there, s.MolarMass(to), s.MolarMass(from)); !near(float64(back), 7, 1e-14) {
					t.Errorf("%s: 7 g come back as %v g", s.Name, back)
				}
				if (to > from) != (there > 7) && to != from {
					t.Errorf("%s: %v g with %v waters for 7 g with %v", s.Name, there, to, from)
				}
			}
		}
		if !s.Sold(0) || s.Sold(99) {
			t.Errorf("%s: Sold", s.Name)
		}
	}
	if water, err := MolarMassOf("H2O"); err != nil || water != Water {
		t.Errorf("water %v, %v, want %v", water, err, Water)
	}
	if m, err := MolarMassOf("C12H25NaO4S"); err != nil || !near(float64(m), float64(DodecylSulfate), 1e-5) {
		t.Errorf("sodium dodecyl sulfate %v, %v", m, err)
	}
	var _ unit.MolarMass = Water
}
