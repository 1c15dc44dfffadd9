package solution

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

func TestThinningByMass(t *testing.T) {
	acid := (100 * unit.Millilitre).At(1.18)
	check(t, "S-02-3 (a) assignmentexpert.com 100038: g water", ThinFrom(acid, 0.36, 0.10).Water.Grams(), 306.8, 0.1)
	there := ThinTo(ThinFrom(acid, 0.36, 0.10).Total, 0.36, 0.10)
	check(t, "the same, asked the other way (d): g stock", there.Stock.Grams(), 118, 1e-9)
	check(t, "S-02-1 (a) 12 to 2 mol/L, the other way: mL made of 83.33", MadeFrom(12, 2, 83.3333*unit.Millilitre).Millilitres(), 500, 0.01)
	check(t, "S-02-2 (a, density b): 25 % w/w acid, mol/L", ByShare(0.25, 1.12, 36.46).MolesPerLitre(), 7.68, 0.02)
	check(t, "Z-11 (d): 38 % w/w acid, mol/L and not 10.47", ByShare(0.38, 1.18, 36.46).MolesPerLitre(), 12.30, 0.005)
	check(t, "70 % v/v of a liquid of 0.789 g/mL (d): g/L", PureAt(0.70, 0.789).GramsPerLitre(), 552.3, 1e-9)
}

func TestThinningIsUndone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := unit.Mass(rapid.Float64Range(0.1, 1e5).Draw(t, "g"))
		from := unit.Fraction(rapid.Float64Range(0.01, 1).Draw(t, "from"))
		to := from * unit.Fraction(rapid.Float64Range(0.001, 1).Draw(t, "of it"))
		a := ThinFrom(m, from, to)
		b := ThinTo(a.Total, from, to)
		if !near(float64(b.Stock), float64(m), 1e-12) || a.Water < 0 || b.Water < 0 {
			t.Fatalf("%+v, back %+v", a, b)
		}
		if held := float64(a.Stock) * float64(from) / float64(a.Total); !near(held, float64(to), 1e-12) {
			t.Fatalf("holds %v, want %v", held, to)
		}
		if v := MadeFrom(float64(from), float64(to), 3); v < 3*(1-1e-12) || !near(float64(StockVolume(unit.Concentration(from), unit.Concentration(to), v)), 3, 1e-12) {
			t.Fatalf("made up to %v", v)
		}
	})
}

func TestAnIntermediateStockFromTheBench(t *testing.T) {
	// 12 mg for a litre of bath, balance to 10 mg, measure to 0.5 mL, 5 % allowed:
	// worked by hand (d): at least 20 mL of dose and 400 mg weighed; 400 × 20 / 12
	// = 667 mL, so a litre; 12 × 1000 / 20 = 600 mg.
	got, err := ByStock(0.012, 1, Steps{First: 0.010, Measure: 0.5 * unit.Millilitre, Allowed: 0.05, Vessel: 1})
	if err != nil {
		t.Fatal(err)
	}
	check(t, "weighed, g", got.First, 0.600, 1e-9)
	check(t, "made up to, mL", got.Made.Millilitres(), 1000, 1e-9)
	check(t, "taken of that, mL", got.Dose.Millilitres(), 20, 1e-9)
	check(t, "error, 10/600 + 0.5/20", float64(got.Error), 0.041667, 1e-5)

	if _, err := ByStock(0.012, 1, Steps{First: 0.010, Measure: 0.5 * unit.Millilitre, Allowed: 0.05, Vessel: 0.5}); !errors.Is(err, ErrVessel) {
		t.Errorf("half a litre of vessel: %v", err)
	}
	if _, err := ByStock(0.012, 10*unit.Millilitre, Steps{First: 0.010, Measure: 0.5 * unit.Millilitre, Allowed: 0.05, Vessel: 1}); !errors.Is(err, ErrDose) {
		t.Errorf("a bath of 10 mL: %v", err)
	}
}

func TestAnIntermediateStockKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := rapid.Float64Range(1e-6, 10).Draw(t, "amount")
		s := Steps{First: rapid.Float64Range(1e-4, 1).Draw(t, "step"), Measure: unit.Volume(rapid.Float64Range(1e-6, 0.1).Draw(t, "measure")),
			Allowed: unit.Fraction(rapid.Float64Range(0.001, 0.2).Draw(t, "allowed")), Vessel: unit.Volume(rapid.Float64Range(0.01, 100).Draw(t, "vessel"))}
		bath := unit.Volume(rapid.Float64Range(0.01, 100).Draw(t, "bath"))
		b, err := ByStock(amount, bath, s)
		if errors.Is(err, ErrVessel) || errors.Is(err, ErrDose) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if held := b.First / float64(b.Made) * float64(b.Dose); !near(held, amount, 1e-12) {
			t.Fatalf("the dose holds %v, want %v", held, amount)
		}
		if b.Error > s.Allowed*(1+1e-6) || b.Dose > min(bath, b.Made)*(1+1e-6) || b.Made > s.Vessel*(1+1e-6) || b.Made < 9.99*unit.Millilitre {
			t.Fatalf("%+v for %+v", b, s)
		}
	})
}
