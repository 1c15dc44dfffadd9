package solution

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

func TestCMCWithSalt(t *testing.T) {
	for _, r := range SaltRows {
		got, err := SaltedCMC(r.Salt)
		if err != nil {
			t.Fatal(err)
		}
		check(t, "S-04 (b) Rosen, Table 2-1, mmol/L beside salt", 1000*float64(got), 1000*float64(r.CMC), 1000*SaltBand*float64(r.CMC))
	}
	for i, want := range []float64{8.4, 5.5, 1.4, 0.53} {
		got, _ := SaltedCMC(SaltRows[i].Salt)
		check(t, "S-04 (d) the line through the rows, mmol/L", 1000*float64(got), want, 0.07*want)
	}
	got, _ := SaltedCMC(0.340)
	check(t, "S-04 (a) J. Colloid Interface Sci. 200, abstract: about 0.7 mmol/L at about 340 mmol/L", 1000*float64(got), 0.7, 0.2)
}

func TestCMCFallsWithSaltAndSolvesItsLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(0, 0.39).Draw(t, "mol/L")
		x, err := SaltedCMC(unit.Molarity(c))
		if err != nil {
			t.Fatal(err)
		}
		if law := saltA - saltB*math.Log10(float64(x)+c); math.Abs(law-math.Log10(float64(x))) > 1e-10 {
			t.Fatalf("log10 CMC %v, law %v", math.Log10(float64(x)), law)
		}
		if more, err := SaltedCMC(unit.Molarity(c + 0.01)); err != nil || more >= x {
			t.Fatalf("more salt gives %v, less %v (%v)", more, x, err)
		}
	})
}

func TestSaltOutsideOfWhatWasMeasured(t *testing.T) {
	for _, c := range []unit.Molarity{-0.001, 0.401, 5, unit.Molarity(math.NaN()), unit.Molarity(math.Inf(1))} {
		if x, err := SaltedCMC(c); !errors.Is(err, ErrSalt) {
			t.Errorf("SaltedCMC(%v) = %v, %v", c, x, err)
		}
	}
}
