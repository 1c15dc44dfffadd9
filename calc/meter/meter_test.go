package meter

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed.

// P-05 (a): both tables, row by row.
func TestBufferTables(t *testing.T) {
	names := []string{"phthalate", "phosphate", "borax", "carbonate", "t4", "t7", "t10"}
	rows := map[unit.Temperature][]float64{
		0:  {4.01, 6.98, 9.46, 10.32, 4.00, 7.12, 10.32},
		10: {4.00, 6.92, 9.33, 10.18, 4.00, 7.06, 10.18},
		20: {4.00, 6.88, 9.22, 10.07, 4.00, 7.02, 10.06},
		25: {4.01, 6.86, 9.18, 10.02, 4.00, 7.00, 10.01},
		30: {4.01, 6.85, 9.14, 9.97, 4.01, 6.99, 9.97},
		40: {4.03, 6.84, 9.07, 0, 4.03, 6.98, 9.89},
		50: {4.06, 6.83, 9.01, 0, 4.06, 6.97, 9.83},
	}
	for at, row := range rows {
		for i, want := range row {
			b, ok := BufferNamed(names[i])
			got, err := b.PH(at)
			switch {
			case !ok:
				t.Errorf("no buffer %s", names[i])
			case want == 0 && !errors.Is(err, ErrOutside):
				t.Errorf("P-05: %s at %v °C = %v, %v, want it refused", names[i], at, got, err)
			case want != 0 && (err != nil || math.Abs(got-want) > 1e-9):
				t.Errorf("P-05: %s at %v °C = %v, %v, want %v", names[i], at, got, err, want)
			}
		}
	}
	for _, b := range Buffers {
		for _, at := range []unit.Temperature{-0.1, 50.1, unit.Temperature(math.NaN())} {
			if _, err := b.PH(at); !errors.Is(err, ErrOutside) {
				t.Errorf("%s at %v °C: %v", b.Name, at, err)
			}
		}
	}
	// P-05 (a), J. Res. NBS 73A, 37-41: bicarbonate and carbonate 10.012 at 25 °C.
	carbonate, _ := BufferNamed("carbonate")
	if got, err := carbonate.PH(25); err != nil || math.Abs(got-10.012) > 0.02 {
		t.Errorf("P-05: carbonate at 25 °C = %v, %v, want 10.012", got, err)
	}
	b, _ := BufferNamed("phosphate")
	if got, err := b.PH(22.5); err != nil || math.Abs(got-6.87) > 1e-9 { // (d) half way from 6.88 to 6.86
		t.Errorf("phosphate at 22.5 °C = %v, %v", got, err)
	}
}

// P-05 (a): two published formulas for 0.05 mol/kg phthalate, against the values
// computed from them and against the table, ±0.02.
func TestPhthalateFormulas(t *testing.T) {
	formulas := []func(float64) float64{
		func(c float64) float64 { k := c + 273.16; return 1336.08/k - 5.2678 + 0.016069*k }, // NBS RP1690, 1946
		func(c float64) float64 { return 4.000 + 0.0000479*(c-15)*(c-15) },                  // the same
		func(c float64) float64 { // Hetzer, Durst, Robinson, Bates 1977
			k := c + 273.15
			return 2073.44/k - 13.3270 + 0.045199*k - 3.4846e-5*k*k
		},
	}
	b, _ := BufferNamed("phthalate")
	for c, want := range map[float64][]float64{10: {4.0008, 4.0012, 4.0001}, 20: {4.0005, 4.0012, 4.0015}, 25: {4.0044, 4.0048, 4.0059}, 40: {4.0308, 4.0299, 4.0312}} {
		table, err := b.PH(unit.Temperature(c))
		for i, f := range formulas {
			if got := f(c); math.Abs(got-want[i]) > 0.0003 {
				t.Errorf("P-05: formula %d at %v °C = %v, want %v", i, c, got, want[i])
			}
			if err != nil || math.Abs(f(c)-table) > 0.02 {
				t.Errorf("P-05: table at %v °C = %v, %v, formula %d %v", c, table, err, i, f(c))
			}
		}
	}
}

func TestTheory(t *testing.T) {
	// (a) studylib.net 25392327: 59.16 mV at 25 °C, about 64 at 50 and 54 at 0.
	for at, want := range map[unit.Temperature]float64{25: 59.16, 50: 64, 0: 54} {
		if got := float64(Theory(at)); math.Abs(got-want) > 0.5 || at == 25 && math.Abs(got-want) > 0.005 {
			t.Errorf("Theory(%v) = %v, want %v", at, got, want)
		}
	}
}

// (a) studylib.net 25392327: two electrodes in buffers 7.01 and 4.01 at 25 °C; the
// difference is to be 150 mV (85 %) to 186 mV (105 %).
func TestPublishedElectrodes(t *testing.T) {
	rows := []struct {
		seven, four Potential
		share       float64
		state       State
	}{{-15, 160, 98.6, Good}, {15, 160, 81.7, Failed}, {0, 151, 85.1, Poor}, {0, 186, 104.8, Good}, {0, 165, 93.0, Worn}, {0, 190, 107.1, Poor}}
	for _, r := range rows {
		c, err := Calibrate([]Point{{7.01, r.seven}, {4.01, r.four}}, 25)
		if err != nil || math.Abs(100*c.Share()-r.share) > 0.05 || SlopeState(100*c.Share()) != r.state {
			t.Errorf("%v, %v mV: %v %%, state %v, %v; want %v, %v", r.seven, r.four, 100*c.Share(), SlopeState(100*c.Share()), err, r.share, r.state)
		}
	}
	for offset, want := range map[Potential]State{0: Good, 30: Good, -30: Good, 30.1: Poor, -45: Poor} {
		if got := OffsetState(offset); got != want {
			t.Errorf("OffsetState(%v) = %v, want %v", offset, got, want)
		}
	}
	for percent, want := range map[float64]State{105: Good, 94.96: Good, 94.9: Worn, 90: Worn, 89.9: Poor, 85: Poor, 84.9: Failed, 105.1: Poor} {
		if got := SlopeState(percent); got != want {
			t.Errorf("SlopeState(%v) = %v, want %v", percent, got, want)
		}
	}
}

func TestACalibrationReproducesItsBuffers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := unit.Temperature(rapid.Float64Range(0, 50).Draw(t, "at"))
		slope, offset := Potential(rapid.Float64Range(0.5, 1.2).Draw(t, "share"))*Theory(at), Potential(rapid.Float64Range(-80, 80).Draw(t, "offset"))
		phs := []float64{4.01, 7, 10.01}[:rapid.IntRange(2, 3).Draw(t, "buffers")]
		bent := Potential(rapid.Float64Range(-5, 5).Draw(t, "bent"))
		var points []Point
		for i, ph := range phs {
			points = append(points, Point{ph, offset + slope*Potential(7-ph) + bent*Potential(i%2)})
		}
		c, err := Calibrate(points, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range points {
			if got := c.PH(p.Read); math.Abs(got-p.PH) > 1e-9 {
				t.Fatalf("%v mV = pH %v, want %v", p.Read, got, p.PH)
			}
		}
		if len(points) == 2 && bent == 0 && (math.Abs(float64(c.Slope-slope)) > 1e-9 || math.Abs(float64(c.Offset-offset)) > 1e-9) {
			t.Fatalf("slope %v, offset %v, want %v, %v", c.Slope, c.Offset, slope, offset)
		}
		for _, m := range c.Moved(BufferError, 0) {
			if math.Abs(m.Share()/c.Share()-1) > 0.02 || math.Abs(float64(m.Offset-c.Offset)) > 5 {
				t.Fatalf("buffers off by 0.02 move %v, %v to %v, %v", c.Share(), c.Offset, m.Share(), m.Offset)
			}
		}
		a, b := Potential(rapid.Float64Range(-500, 500).Draw(t, "reading")), Potential(rapid.Float64Range(0.01, 100).Draw(t, "more"))
		if !(c.PH(a+b) < c.PH(a)) {
			t.Fatalf("pH %v at %v mV, %v at %v", c.PH(a), a, c.PH(a+b), a+b)
		}
	})
}

func TestWhatMakesNoCalibration(t *testing.T) {
	rows := []struct {
		name   string
		points []Point
		want   error
	}{
		{"one buffer", []Point{{7, 0}}, ErrPoints},
		{"four", []Point{{4, 170}, {7, 0}, {9, -120}, {10, -170}}, ErrPoints},
		{"the same twice", []Point{{7, 0}, {7, -1}}, ErrApart},
		{"6.86 beside 7.00", []Point{{6.86, 8}, {7, 0}}, ErrApart},
		{"the wrong way", []Point{{4, -170}, {7, 0}}, ErrReadings},
		{"a dead electrode", []Point{{4, 1}, {7, 0}}, ErrReadings},
		{"no number", []Point{{4, Potential(math.NaN())}, {7, 0}}, ErrReadings},
		{"buffer of no pH", []Point{{math.NaN(), 1}, {7, 0}}, ErrApart},
	}
	for _, r := range rows {
		if _, err := Calibrate(r.points, 25); !errors.Is(err, r.want) {
			t.Errorf("%s: %v, want %v", r.name, err, r.want)
		}
	}
}
