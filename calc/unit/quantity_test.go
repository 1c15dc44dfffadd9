package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// near reports whether got is want within a relative tolerance.
func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

func TestUnitsHaveTheirPublishedSizes(t *testing.T) {
	rows := []struct {
		source string // and its mark: a read, b memory, c practice, d computed
		symbol string
		x      float64
		want   float64 // in the kind's own unit
	}{
		{"W-05 (a): gallons 4.54609 and 3.785412 L", "imp gal", 1, 4.54609},
		{"W-05 (a): gallons 4.54609 and 3.785412 L", "US gal", 1, 3.785412},
		{"W-05 (a): grain 64.79891 mg, 7000 to the pound (b)", "lb", 1, 7000 * 0.06479891},
		{"NIST SP 811 (b): 1 US fl oz = 29.57353 mL", "US fl oz", 1, 0.02957353},
		{"NIST SP 811 (b): 1 imperial fl oz = 28.41306 mL", "imp fl oz", 1, 0.02841306},
		{"NIST SP 811 (b): 1 oz = 28.34952 g", "oz", 1, 28.34952},
		{"definition of the inch (b)", "in", 1, 25.4},
		{"definition of the foot (b)", "ft", 1, 304.8},
		{"definition of degree Fahrenheit (b)", "°F", 212, 100},
		{"X-03 (a): wash water at 80 °F is 27 °C", "°F", 80, 26.6667},
		{"J-05 (a): 140 °F is 60 °C", "°F", 140, 60},
		{"1 % w/v = 10 g/L (d)", "% w/v", 1, 10},
		{"1 mS/cm = 1000 µS/cm (d)", "mS/cm", 12.88, 12880},
		{"1 S/m = 10 mS/cm (d)", "S/m", 1, 10000},
	}
	for _, r := range rows {
		u, ok := Named(r.symbol)
		if !ok {
			t.Fatalf("Named(%q) is unknown", r.symbol)
		}
		if got := u.Base(r.x); !near(got, r.want, 2e-6) {
			t.Errorf("%s: %v %s = %v, want %v", r.source, r.x, r.symbol, got, r.want)
		}
	}
}

func TestConstantsAgreeWithTheTable(t *testing.T) {
	rows := map[string]float64{
		"L": float64(Litre), "mL": float64(Millilitre), "US gal": float64(USGallon), "US fl oz": float64(USFluidOunce),
		"imp gal": float64(ImperialGallon), "imp fl oz": float64(ImperialFluidOunce),
		"g": float64(Gram), "mg": float64(Milligram), "kg": float64(Kilogram), "lb": float64(Pound), "oz": float64(Ounce),
		"mm": float64(Millimetre), "cm": float64(Centimetre), "m": float64(Metre), "in": float64(Inch), "ft": float64(Foot),
		"g/L": float64(GramPerLitre), "% w/v": float64(PercentByVolume), "mg/L": float64(MilligramPerLitre), "% w/w": float64(Percent),
	}
	for symbol, want := range rows {
		u, ok := Named(symbol)
		if got := u.Base(1); !ok || !near(got, want, 1e-15) {
			t.Errorf("1 %s = %v, want the constant %v", symbol, got, want)
		}
	}
}

func TestEveryUnitGoesThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(table).Draw(t, "unit")
		x := rapid.Float64Range(1e-6, 1e9).Draw(t, "x")
		// A zero that is not zero costs bits where x is small beside it.
		tolerance := 4.5e-16 * math.Max(1, math.Abs(u.zero)/x) * 2
		if got := u.Of(u.Base(x)); !near(got, x, tolerance) {
			t.Fatalf("%v %s there and back = %v", x, u.Symbol, got)
		}
		if got := u.Base(u.Of(x)); !near(got, x, tolerance) {
			t.Fatalf("%v in the own unit, to %s and back = %v", x, u.Symbol, got)
		}
	})
}

func TestRelationsUndoEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string) float64 { return rapid.Float64Range(1e-3, 1e4).Draw(t, name) }
		d, v, w, mm := Density(size("density")), Volume(size("volume")), Fraction(size("share")), MolarMass(size("molar mass"))
		if got := v.At(d).Over(d); !near(float64(got), float64(v), 1e-15) {
			t.Fatalf("%v L to mass and back = %v", v, got)
		}
		if got := w.At(d).Share(d); !near(float64(got), float64(w), 1e-15) {
			t.Fatalf("share %v by volume and back = %v", w, got)
		}
		c := Concentration(size("concentration"))
		if got := c.Molarity(mm).Concentration(mm); !near(float64(got), float64(c), 1e-15) {
			t.Fatalf("%v g/L to mol/L and back = %v", c, got)
		}
	})
}

func TestSymbolsAreUnique(t *testing.T) {
	seen := map[string]bool{}
	for _, u := range table {
		if seen[u.Symbol] {
			t.Errorf("%q stands twice in the table", u.Symbol)
		}
		seen[u.Symbol] = true
	}
}

func TestWidthLeavesTheZeroAside(t *testing.T) {
	f, _ := Named("°F")
	if got := f.Width(9); got != 5 {
		t.Errorf("a difference of 9 °F = %v K, want 5", got)
	}
}
