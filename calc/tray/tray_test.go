package tray

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula, which is a check against regression only.

func TestWaterDensityAgainstTables(t *testing.T) {
	rows := []struct{ celsius, formula, table float64 }{
		// W-06: the formula (d), and the CRC Handbook 53rd edition p. F-4 (a; from
		// 20 °C on b), both kg/m³.
		{0, 999.840, 999.841},
		{4, 999.972, 999.973},
		{5, 999.964, 999.965},
		{10, 999.699, 999.700},
		{15, 999.099, 999.099},
		{20, 998.203, 998.203},
		{25, 997.043, 997.044},
		{40, 992.212, 992.22},
	}
	for _, r := range rows {
		d, err := WaterDensity(unit.Temperature(r.celsius))
		if err != nil {
			t.Fatal(err)
		}
		got := d.GramsPerMillilitre() * 1000
		if math.Abs(got-r.formula) > 0.0006 {
			t.Errorf("W-06 Bettin and Spieweck (d): %v °C = %v, want %v", r.celsius, got, r.formula)
		}
		if math.Abs(got-r.table) > 0.02 {
			t.Errorf("W-06 CRC 53rd: %v °C = %v, want %v ± 0.02", r.celsius, got, r.table)
		}
	}
}

func TestTrapsZ01AndZ02TheTranspositionAndTheHighTable(t *testing.T) {
	d, err := WaterDensity(25)
	if got := d.GramsPerMillilitre() * 1000; err != nil || math.Abs(got-996.73) < 0.2 || math.Abs(got-997.13) < 0.05 {
		t.Errorf("Z-01, Z-02: 25 °C = %v, %v: one of the misprinted values", got, err)
	}
}

func TestWaterDensityOutsideItsTable(t *testing.T) {
	for _, c := range []float64{-0.1, 40.1, math.NaN(), math.Inf(1)} {
		if d, err := WaterDensity(unit.Temperature(c)); !errors.Is(err, ErrTemperature) {
			t.Errorf("WaterDensity(%v) = %v, %v, want ErrTemperature", c, d, err)
		}
	}
}

func TestShapes(t *testing.T) {
	rows := []struct {
		source string
		got    unit.Volume
		want   float64
	}{
		{"practice sheet 8 (c), L × W × D in cm ÷ 1000: 90 × 60 × 10", Rectangular(900, 600, 100), 54},
		{"geometry (d): the same, 6 cm at one end and 14 at the other", Sloped(900, 600, 60, 140), 54},
		{"geometry (d): a wedge to a dry edge is half", Sloped(900, 600, 0, 100), 27},
		{"geometry (d): round, 500 mm across, 80 mm deep", Round(500, 80), 15.70796},
		{"J-01 recipe arithmetic (d): 30 × 40 cm by 6 mm is 720 mL", Rectangular(300, 400, 6), 0.720},
	}
	for _, r := range rows {
		if math.Abs(r.got.Litres()-r.want) > 1e-5*r.want {
			t.Errorf("%s: got %v L, want %v", r.source, r.got, r.want)
		}
	}
}

func TestShapesGrowWithEveryMeasure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) unit.Length { return unit.Length(rapid.Float64Range(1, 5000).Draw(t, name)) }
		l, w, d, e := length("length"), length("width"), length("depth"), length("deep")
		v := Sloped(l, w, d, e)
		if turned := Sloped(l, w, e, d); turned != v {
			t.Fatalf("turned about it holds %v L, else %v", turned, v)
		}
		if low, high := Rectangular(l, w, min(d, e)), Rectangular(l, w, max(d, e)); v < low || v > high {
			t.Fatalf("sloped %v L is not between %v and %v", v, low, high)
		}
		for i, more := range []unit.Volume{Sloped(l*2, w, d, e), Sloped(l, w*2, d, e), Sloped(l, w, d*2, e), Sloped(l, w, d, e*2)} {
			if more <= v {
				t.Fatalf("with measure %d doubled it holds %v L, before %v", i, more, v)
			}
		}
		if r, box := Round(l, d), Rectangular(l, l, d); r >= box {
			t.Fatalf("a round tray holds %v L, the box around it %v", r, box)
		}
	})
}

func TestDensityFallsFromFourDegreesOn(t *testing.T) {
	last := math.Inf(1)
	for c := 4.0; c <= 40; c += 0.25 {
		d, err := WaterDensity(unit.Temperature(c))
		if err != nil || float64(d) >= last {
			t.Errorf("WaterDensity(%v) = %v, %v, not below %v", c, d, err, last)
		}
		last = float64(d)
	}
}

// (d): the depths that come of a volume give it back, by the formula for a sloped
// tray, whole or in part covered.
func TestSlopedDepths(t *testing.T) {
	for _, litres := range []unit.Volume{1, 5, 13.5, 27, 60} {
		shallow, deep, reach := SlopedDepths(900, 600, 50, litres)
		if got := Sloped(reach, 600, shallow, deep); got < litres*(1-1e-12) || got > litres*(1+1e-12) {
			t.Errorf("%v L: %v and %v over %v hold %v L", litres, shallow, deep, reach, got)
		}
		if (litres < 13.5) != (reach < 900) {
			t.Errorf("%v L reach %v mm", litres, reach)
		}
	}
}
