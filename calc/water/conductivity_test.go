package water

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula, which is a check against regression only.

func within(got Conductivity, want, tolerance float64) bool {
	return math.Abs(float64(got)-want) <= tolerance
}

func TestLinear(t *testing.T) {
	rows := []struct {
		source    string
		k         Conductivity
		at        unit.Temperature
		a         Coefficient
		want      float64
		tolerance float64 // µS/cm
	}{
		{"W-02 (a formula, d value)", 500, 15, 2.00, 625.0, 0.1},
		{"W-02 (a formula, d value)", 500, 20, 2.00, 555.6, 0.1},
		{"W-02 (a formula, d value)", 250, 30, 2.00, 227.3, 0.1},
		{"W-02 (a formula, d value)", 1278, 20, 1.94, 1415.3, 0.1},
		{"W-02 (a formula, d value)", 1020, 10, 1.91, 1429.6, 0.1},
		{"W-02 (a formula, d value)", 60, 12, 2.20, 84.0, 0.1},
		{"W-02 (a) manual PS9TK p. 59, natural water: 900 at 15 °C; result (d)", 900, 15, 1.68, 1081.7, 0.1},
		{"W-02 (a) the same, potassium chloride; result (d)", 900, 15, 1.90, 1111.1, 0.1},
		{"W-01 (a) CRC p. 5-73, 0.01 mol/kg KCl at 20 °C, coefficient W-02 (a): 1408.23 at 25 °C", 1273.03, 20, 1.94, 1408.23, 3},
		{"W-01 (a) the same at 30 °C", 1546.63, 30, 1.99, 1408.23, 3},
		{"W-01 (a) bench-meter manual p. 45, standard 84 at 20 °C, 1 %", 75.80, 20, 1.94, 84, 0.84},
		{"W-01 (a) standard 84 at 30 °C", 92.19, 30, 1.99, 84, 0.84},
		{"W-01 (a) standard 84 at 10 °C", 60.34, 10, 1.91, 84, 0.84},
		{"W-01 (a) standard 500 at 20 °C", 451.5, 20, 1.94, 500, 5},
		{"W-01 (a) standard 500 at 10 °C", 359.6, 10, 1.91, 500, 5},
		{"W-01 (a) standard 1413 at 30 °C", 1552, 30, 1.99, 1413, 14},
		{"W-01 (a) standard 12.88 mS/cm at 20 °C", 11670, 20, 1.94, 12880, 129},
	}
	for _, r := range rows {
		if got := Linear(r.k, r.at, r.a); !within(got, r.want, r.tolerance) {
			t.Errorf("%s: Linear(%v, %v, %v) = %v, want %v", r.source, r.k, r.at, r.a, got, r.want)
		}
	}
}

func TestCoefficientOfTwoReadings(t *testing.T) {
	// W-02 (a formula, d value): manual G 7500, 1413 at 25 and 1278 at 20 °C.
	if got := CoefficientOf(1413, 25, 1278, 20); math.Abs(float64(got)-1.911) > 0.0005 {
		t.Errorf("CoefficientOf = %v, want 1.911", got)
	}
}

// A bench-meter manual prints 896 and 53.02 µS/cm as what the standards 1413 and
// 84 show at 0 °C. They are values of 5 °C: the CRC table has 772.92 at 0 °C for
// 1408.23 (both read).
func TestTrapZ06TheMislabelledStandards(t *testing.T) {
	const a = 1.91 // W-02 (d), from 1413 and 1278
	for _, r := range []struct{ printed, at25 Conductivity }{{896, 1413}, {53.02, 84}} {
		if wrong := Linear(r.printed, 0, a); wrong < r.at25*1.15 {
			t.Errorf("Z-06: %v taken at 0 °C gives %v, which hides the misprint", r.printed, wrong)
		}
		if right := Linear(r.printed, 5, a); math.Abs(float64(right/r.at25)-1) > 0.04 {
			t.Errorf("Z-06: %v taken at 5 °C gives %v, want about %v", r.printed, right, r.at25)
		}
	}
	if ratio := 772.92 / 1408.23; math.Abs(896/1413.0-ratio) < 0.05 {
		t.Error("Z-06: 896 would be a value of 0 °C")
	}
}

// W-03 (a): the table of f25 in the manual of C.A 10141, annex 1, with κ25 of a
// reading of 500 µS/cm. Tolerance 0.001 in f.
func TestISO7888WholeTable(t *testing.T) {
	f25 := []float64{
		1.918, 1.857, 1.800, 1.745, 1.693, 1.643, 1.596, 1.551, 1.508, 1.467, 1.428, 1.390,
		1.354, 1.320, 1.287, 1.256, 1.225, 1.196, 1.168, 1.141, 1.116, 1.091, 1.067, 1.044,
		1.021, 1.000, 0.979, 0.959, 0.940, 0.921, 0.903, 0.886, 0.869, 0.853, 0.837, 0.822,
	}
	k25 := []float64{
		959, 929, 900, 873, 847, 822, 798, 776, 754, 734, 714, 695, 677, 660, 644, 628, 613, 598, 584, 571, 558, 546, 534, 522,
		510, 500, 490, 480, 470, 461, 452, 443, 435, 427, 419, 411,
	}
	for i, want := range f25 {
		at := unit.Temperature(i)
		f, err := ISOFactor(at)
		if err != nil || math.Abs(f-want) > 1e-12 {
			t.Errorf("W-03: f25(%d °C) = %v, %v, want %v", i, f, err, want)
		}
		if got, err := ISO7888(500, at); err != nil || !within(got, k25[i], 0.5001) {
			t.Errorf("W-03: 500 µS/cm at %d °C = %v, %v, want %v", i, got, err, k25[i])
		}
	}
	for at, want := range map[unit.Temperature]float64{0.1: 1.912, 10.3: 1.416, 15.2: 1.249, 20.1: 1.113, 30.2: 0.900} { // W-03 tenths (a)
		if f, err := ISOFactor(at); err != nil || math.Abs(f-want) > 0.001 {
			t.Errorf("W-03: f25(%v °C) = %v, %v, want %v", at, f, err, want)
		}
	}
}

func TestISO7888RefusesWhatItIsNotMadeFor(t *testing.T) {
	rows := []struct {
		k    Conductivity
		at   unit.Temperature
		want error
	}{
		{500, -0.1, ErrISOTemperature}, {500, 36, ErrISOTemperature}, {500, unit.Temperature(math.NaN()), ErrISOTemperature},
		{59.9, 20, ErrISOWater}, {1001, 20, ErrISOWater}, {Conductivity(math.NaN()), 20, ErrISOWater},
		{60, 0, nil}, {1000, 35.9, nil},
	}
	for _, r := range rows {
		if got, err := ISO7888(r.k, r.at); !errors.Is(err, r.want) || (err != nil && got != 0) {
			t.Errorf("ISO7888(%v, %v) = %v, %v, want %v", r.k, r.at, got, err, r.want)
		}
	}
}

// The same reading means less at 25 °C the warmer the water was, whichever way.
func TestWarmerWaterOfTheSameReadingIsPurer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := Conductivity(rapid.Float64Range(60, 1000).Draw(t, "reading"))
		a := Coefficient(rapid.Float64Range(0.5, 3).Draw(t, "coefficient"))
		cold := rapid.Float64Range(0, 35.8).Draw(t, "cold")
		warm := rapid.Float64Range(cold+0.01, 35.9).Draw(t, "warm")
		if c, w := Linear(k, unit.Temperature(cold), a), Linear(k, unit.Temperature(warm), a); !(w < c) || w <= 0 {
			t.Fatalf("linear: %v at %v °C, %v at %v °C", c, cold, w, warm)
		}
		c, err := ISO7888(k, unit.Temperature(cold))
		w, err2 := ISO7888(k, unit.Temperature(warm))
		if err != nil || err2 != nil || !(w < c) || w <= 0 {
			t.Fatalf("ISO 7888: %v at %v °C, %v at %v °C; %v, %v", c, cold, w, warm, err, err2)
		}
	})
}
