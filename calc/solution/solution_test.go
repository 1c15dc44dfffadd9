package solution

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula, which is a check against regression only.

// Molar masses in g/mol: S-01 (d), from the atomic weights of the Commission on
// Isotopic Abundances 2021 (a, conventional values b).
const (
	dodecylSulfate  unit.MolarMass = 288.378
	citrateDihydr   unit.MolarMass = 294.098
	citricAnhydrous unit.MolarMass = 192.123
	citricMonohydr  unit.MolarMass = 210.138
)

// water20 is water at 20 °C: W-06, CRC 53rd edition (b).
const water20 unit.Density = 0.998203

func check(t *testing.T, source string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v ± %v", source, got, want, tolerance)
	}
}

func TestDilutionAgainstPublishedCases(t *testing.T) {
	stock := StockVolume[unit.Molarity](12, 2, 500*unit.Millilitre)
	check(t, "S-02-1 (a) course worksheet, Molarity Worksheet Key: mL stock", stock.Millilitres(), 83.33, 0.01)
	check(t, "S-02-1 (a) the same: mL water", (500*unit.Millilitre - stock).Millilitres(), 416.67, 0.01)

	hcl := unit.Fraction(0.25).At(1.12).Molarity(36.46)
	check(t, "S-02-2 (a, density b) laboratorynotes.com: mol/L of 25 % w/w acid", hcl.MolesPerLitre(), 7.68, 0.02)

	acid := (100 * unit.Millilitre).At(1.18)
	solute := unit.Fraction(0.36).At(1.18).In(100 * unit.Millilitre)
	check(t, "S-02-3 (a) assignmentexpert.com 100038: g solute", solute.Grams(), 42.48, 0.1)
	check(t, "S-02-3 (a) the same: g water to 10 % w/w", WaterToThin(acid, 0.36, 0.10).Grams(), 306.8, 0.1)

	b, err := Make(5, 0.1*unit.PercentByVolume, Product{ByVolume: 1 * unit.PercentByVolume}, water20)
	check(t, "S-02-4 (d) 5 L of 0.1 % w/v from 1 % w/v: mL stock", b.Measure.Millilitres(), 500, 1e-9)
	check(t, "S-02-4 (d) the same: L water", b.Water.Litres(), 4.5, 1e-9)
	if err != nil {
		t.Error(err)
	}
	check(t, "S-02-5 (d) 10 % w/w at 1.035 g/mL: % w/v", unit.Fraction(0.10).At(1.035).GramsPerLitre()/10, 10.35, 0.01)

	b, err = Make(2, 0.5*unit.PercentByVolume, Product{ByMass: 1}, water20)
	check(t, "S-02-6 (d) 2 L of 0.5 % w/v from solid: g", b.Product.Grams(), 10, 1e-9)
	if err != nil {
		t.Error(err)
	}
	b, err = Make(8, unit.Molarity(0.010).Concentration(citrateDihydr), Product{ByMass: 1}, water20)
	check(t, "S-02-7 (d) 8 L of 0.010 mol/L trisodium citrate dihydrate: g", b.Product.Grams(), 23.528, 0.01)
	if err != nil {
		t.Error(err)
	}
	share := unit.Fraction(citricAnhydrous / citricMonohydr)
	check(t, "S-02-8 (d) 9.143 g anhydrous citric acid as monohydrate: g", ProductMass(9.143, share).Grams(), 10.0, 0.002)
}

func TestThePasteOfThePublishedNote(t *testing.T) {
	const source = "S-03 (a) CCI Notes 13/9: paste of 28 % w/w and 1.04 g/mL"
	_, stock, err := Product{ByMass: 0.28, Density: 1.04}.Contents()
	if err != nil {
		t.Fatal(err)
	}
	rows := []struct{ dose, active, mmol, times float64 }{
		{8, 2.3296, 8.078, 0.996},
		{12, 3.4944, 12.117, 1.493},
	}
	for _, r := range rows {
		c := Diluted(stock, unit.Volume(r.dose)*unit.Millilitre, 1)
		check(t, source+": g/L", c.GramsPerLitre(), r.active, 0.005*r.active)
		check(t, source+": mmol/L", c.Molarity(dodecylSulfate).MolesPerLitre()*1000, r.mmol, 0.005*r.mmol)
		check(t, source+": times 2.34 g/L", float64(InCMC(c, 2.34)), r.times, 0.005*r.times)
	}
	b, err := Make(40, OfCMC(1, 2.34), Product{ByMass: 0.28, Density: 1.04}, water20)
	check(t, source+", inverse (d): mL for 40 L", b.Measure.Millilitres(), 321.4, 0.005*321.4)
	check(t, source+", inverse (d): g for 40 L", b.Product.Grams(), 334.3, 0.005*334.3)
	if err != nil {
		t.Error(err)
	}
	check(t, "practice sheet (a): at 30 % active 3.3 times the mass", ProductMass(1, 0.30).Grams(), 3.3, 0.05)
}

func TestCMCOfDodecylSulfate(t *testing.T) {
	const source = "S-04 (a) 2.34 g/L of CCI Notes 13/9 within the band of Mukerjee and Mysels (value b)"
	c := unit.Concentration(2.34).Molarity(dodecylSulfate).MolesPerLitre() * 1000
	check(t, "S-03 (d): 2.34 g/L in mmol/L", c, 8.114, 0.001)
	check(t, source, c, (7.9+8.4)/2, (8.4-7.9)/2)
}

func TestTrapZ11DensityMultiplies(t *testing.T) {
	got := unit.Fraction(0.38).At(1.18).Molarity(36.46).MolesPerLitre()
	check(t, "Z-11 (d): 38 % w/w acid at 1.18 g/mL, mol/L", got, 12.30, 0.005)
	if math.Abs(got-10.47) < 1 {
		t.Errorf("Z-11: got %v, which is the published slip of dividing by the density", got)
	}
}

func TestMakeRefusesWhatNoProductGives(t *testing.T) {
	rows := []struct {
		name     string
		strength unit.Concentration
		p        Product
		want     error
	}{
		{"stock weaker than the bath", 20, Product{ByVolume: 10}, ErrTooWeak},
		{"paste weaker than the bath", 300, Product{ByMass: 0.28, Density: 1.04}, ErrTooWeak},
		{"more product than bath", 300, Product{ByMass: 0.28}, ErrTooMuch},
		{"denser than itself", 5, Product{ByVolume: 1100, Density: 1.04}, ErrTooDense},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if b, err := Make(10, r.strength, r.p, water20); !errors.Is(err, r.want) {
				t.Errorf("Make = %+v, %v, want %v", b, err, r.want)
			}
		})
	}
}

// anyProduct draws a product that can make strength, with or without density.
func anyProduct(t *rapid.T) Product {
	p := Product{ByMass: unit.Fraction(rapid.Float64Range(0.05, 1).Draw(t, "share"))}
	if rapid.Bool().Draw(t, "density known") {
		p.Density = unit.Density(rapid.Float64Range(0.7, 2).Draw(t, "density"))
	}
	return p
}

func TestDilutionUndoesConcentration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bath := unit.Volume(rapid.Float64Range(0.1, 1000).Draw(t, "litres"))
		strength := unit.Concentration(rapid.Float64Range(0.01, 30).Draw(t, "g/L"))
		p := anyProduct(t)
		b, err := Make(bath, strength, p, water20)
		if err != nil {
			t.Fatal(err)
		}
		share, stock, _ := p.Contents()
		if back := unit.Mass(float64(b.Product) * float64(share)); !near(float64(back), float64(b.Active), 1e-14) {
			t.Fatalf("the product holds %v g, want %v", back, b.Active)
		}
		if stock > 0 {
			if back := Diluted(stock, b.Measure, bath); !near(float64(back), float64(strength), 1e-14) {
				t.Fatalf("diluted again = %v g/L, want %v", back, strength)
			}
		}
		to := share / 3
		m := WaterToThin(b.Product, share, to)
		if back := float64(b.Active) / float64(b.Product+m); !near(back, float64(to), 1e-14) {
			t.Fatalf("thinned to %v, want %v", back, to)
		}
		if b.Active > b.Product*(1+1e-12) {
			t.Fatalf("%v g of product cannot hold %v g", b.Product, b.Active)
		}
	})
}

func TestMoreIsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bath := unit.Volume(rapid.Float64Range(0.1, 1000).Draw(t, "litres"))
		strength := unit.Concentration(rapid.Float64Range(0.01, 15).Draw(t, "g/L"))
		grow := rapid.Float64Range(1.001, 2).Draw(t, "grow")
		p := anyProduct(t)
		b, err := Make(bath, strength, p, water20)
		if err != nil {
			t.Fatal(err)
		}
		larger, err := Make(bath*unit.Volume(grow), strength, p, water20)
		if err != nil || larger.Product <= b.Product {
			t.Fatalf("a larger bath takes %v g, the smaller %v (%v)", larger.Product, b.Product, err)
		}
		stronger, err := Make(bath, strength*unit.Concentration(grow), p, water20)
		if err != nil || stronger.Product <= b.Product {
			t.Fatalf("a stronger bath takes %v g, the weaker %v (%v)", stronger.Product, b.Product, err)
		}
		p.ByMass /= unit.Fraction(grow)
		weaker, err := Make(bath, strength, p, water20)
		if err != nil || weaker.Product <= b.Product {
			t.Fatalf("of a weaker product %v g, of the stronger %v (%v)", weaker.Product, b.Product, err)
		}
	})
}

func TestTheUsualMistakeIsAlwaysTooWeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := unit.Concentration(rapid.Float64Range(0.01, 100).Draw(t, "g/L"))
		w := unit.Fraction(rapid.Float64Range(0.001, 0.99).Draw(t, "share"))
		if got := TakenAsPure(c, w); got >= c {
			t.Fatalf("TakenAsPure(%v, %v) = %v", c, w, got)
		}
	})
}

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}
