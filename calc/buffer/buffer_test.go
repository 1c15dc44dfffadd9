package buffer

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula, which is a check against regression only.

func check(t *testing.T, source string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v ± %v", source, got, want, tolerance)
	}
}

func TestConstants(t *testing.T) {
	for i, want := range []float64{3.13, 4.76, 6.40} {
		check(t, "P-01 CRC rounding (b), citric acid", Citric.PK[i], want, 0.005)
	}
	for i, want := range []float64{2.16, 7.21, 12.32} {
		check(t, "P-01 CRC (b), phosphoric acid, tables differ by 0.03", Phosphoric.PK[i], want, 0.03)
	}
	if math.Abs(Citric.PK[2]-5.602) < 0.5 {
		t.Error("Z-09: the third constant of citric acid is 6.397, not the 5.602 of one page")
	}
}

func TestHendersonHasselbalch(t *testing.T) {
	check(t, "P-02-1 (a) ontola.com", PH(7.21, 0.2, 0.2), 7.21, 0.005)
	base, acid, err := After(0.2, 0.2, 0.005)
	if err != nil {
		t.Fatal(err)
	}
	check(t, "P-02-2 (a) the same after 5 mmol of NaOH", PH(7.21, base, acid), 7.2317, 0.005)
	check(t, "P-02-3 (d) citrate pair 2, 3:1", PH(Citric.PK[1], 3, 1), 5.236, 0.002)
	check(t, "P-02-4 (d) phosphate at 7.00, ratio", Ratio(Phosphoric.PK[1], 7.00), 0.6223, 0.001)
	check(t, "P-02-5 (a) carbonate 1:1", PH(Carbonic.PK[1], 1, 1), 10.329, 0.002)
	for _, added := range []unit.Amount{0.2, 0.3, -0.2, -1} {
		if b, a, err := After(0.2, 0.2, added); !errors.Is(err, ErrSpent) {
			t.Errorf("After %v: %v, %v, %v", added, b, a, err)
		}
	}
}

func TestThePairGoesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pK := rapid.Float64Range(2, 12).Draw(t, "pK")
		pH := pK + rapid.Float64Range(-2, 2).Draw(t, "off")
		total := unit.Amount(rapid.Float64Range(1e-4, 10).Draw(t, "mol"))
		base, acid := Shares(pK, pH, total)
		if back := PH(pK, base, acid); math.Abs(back-pH) > 1e-9 || base <= 0 || acid <= 0 {
			t.Fatalf("%v and %v mol give pH %v, want %v", base, acid, back, pH)
		}
		added := acid * unit.Amount(rapid.Float64Range(0.001, 0.9).Draw(t, "of the acid"))
		b, a, err := After(base, acid, added)
		if moved := Moved(base, acid, added); math.Abs(moved-(PH(pK, b, a)-pH)) > 1e-9 || moved <= 0 {
			t.Fatalf("strong base moves the pH by %v, from %v to %v", moved, pH, PH(pK, b, a))
		}
		if err != nil || PH(pK, b, a) <= pH {
			t.Fatalf("strong base brings the pH from %v to %v (%v)", pH, PH(pK, b, a), err)
		}
	})
}

func TestSpeciesOfCitricAcid(t *testing.T) {
	textbook := Acid{PK: []float64{3.13, 4.76, 6.40}}
	rows := []struct {
		pH   float64
		want [4]float64
	}{
		{3, [4]float64{0.57006, 0.42259, 0.00734, 0}},
		{5.2, [4]float64{0.00216, 0.25403, 0.69966, 0.04415}},
		{6.4, [4]float64{0.00001, 0.01132, 0.49433, 0.49433}},
		{8, [4]float64{0, 0.00001, 0.02450, 0.97548}},
	}
	for _, r := range rows {
		near, ours := textbook.Fractions(r.pH), Citric.Fractions(r.pH)
		for i, want := range r.want {
			check(t, "P-03 (a) problem in Biochemistry 4th ed., answers (d)", near[i], want, 0.0005)
			check(t, "P-03 the same with the evaluated constants", ours[i], want, 0.003)
		}
	}
	for i, want := range []float64{0.043, 5.081, 13.993, 0.883} {
		check(t, "P-03 (d) mmol/L at pH 5.2 and 20 mmol/L", 20*textbook.Fractions(5.2)[i], want, 0.001)
	}
}

// anyAcid draws one of the acids that are listed.
func anyAcid(t *rapid.T) Acid {
	return rapid.SampledFrom([]Acid{Citric, Phosphoric, Carbonic, Acetic}).Draw(t, "acid")
}

func TestSpeciesSumToOneAndShiftOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAcid(t)
		pH := rapid.Float64Range(-2, 16).Draw(t, "pH")
		f, more := a.Fractions(pH), a.Fractions(pH+0.1)
		sum := 0.0
		for _, x := range f {
			if x < 0 || x > 1 {
				t.Fatalf("fraction %v", x)
			}
			sum += x
		}
		last := len(f) - 1
		if math.Abs(sum-1) > 1e-12 || more[0] > f[0] || more[last] < f[last] || a.Charge(pH+0.1) < a.Charge(pH) {
			t.Fatalf("at pH %v %v, sum %v; at 0.1 more %v", pH, f, sum, more)
		}
	})
}

func TestTheRangeOfAFractionHoldsAllBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAcid(t)
		low := rapid.Float64Range(0, 13).Draw(t, "low")
		high := low + rapid.Float64Range(0, 1.5).Draw(t, "wide")
		at := low + (high-low)*rapid.Float64Range(0, 1).Draw(t, "at")
		for lost, f := range a.Fractions(at) {
			least, most := a.FractionBetween(lost, low, high)
			if f < least-1e-9 || f > most+1e-9 {
				t.Fatalf("species %d at pH %v is %v, said to lie in %v to %v", lost, at, f, least, most)
			}
		}
	})
}

func TestNeutralIdealMixtures(t *testing.T) {
	pure := Mixture{}
	if pH, err := pure.Ideal(); err != nil || math.Abs(pH-7) > 1e-9 {
		t.Errorf("pure water: %v, %v", pH, err)
	}
	lye := Mixture{Sodium: 0.01}
	if pH, err := lye.Ideal(); err != nil || math.Abs(pH-12) > 1e-6 {
		t.Errorf("0.01 mol/L of lye: %v, %v", pH, err)
	}
	for _, m := range []Mixture{{Sodium: 2}, {Sodium: -2}} {
		if pH, err := m.Ideal(); !errors.Is(err, ErrBeyond) {
			t.Errorf("%+v: %v, %v", m, pH, err)
		}
	}
}
