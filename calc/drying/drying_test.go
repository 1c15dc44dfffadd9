package drying

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/air"
	"sinkside/calc/unit"
)

func off(got, want, share float64) bool { return !(math.Abs(got-want) <= share*math.Abs(want)) }

func moist(t, rh float64) air.State {
	return air.ByHumidity(unit.Temperature(t), unit.Fraction(rh/100), air.Standard)
}

// E-01 and E-02 (d), all rows: with the surface at the temperature that the rows
// name. Tolerance 0.5 %.
func TestPublishedRates(t *testing.T) {
	for _, r := range []struct{ area, speed, surface, at, rh, pool, ratio float64 }{
		{1, 0, 20, 20, 50, 0.1529, 0}, {1, 0.1, 20, 20, 50, 0.1664, 0.2000}, {1, 0.5, 20, 20, 50, 0.2201, 0.2564}, {2, 0.2, 25, 25, 40, 0.5847, 0.7028}, {1, 0.3, 15, 20, 60, 0.0499, 0},
	} {
		s, surface := moist(r.at, r.rh), unit.Temperature(r.surface)
		if got := r.area * float64(Pool(s, surface, r.speed)); off(got, r.pool, 0.005) {
			t.Errorf("E-01 %+v: %v kg/h", r, got)
		}
		if got := r.area * float64(Ratio(s, surface, r.speed)); r.ratio > 0 && off(got, r.ratio, 0.005) {
			t.Errorf("E-02 %+v: %v kg/h", r, got)
		}
	}
	// E-02 (a): 25 m × 20 m, v 0.5, xs 0.019826, x 0.0115: 143.62 kg/h, 0.03990
	// kg/s. The trap in that thread is to mix the two.
	dew := air.State{DryBulb: 25, Vapour: air.Standard * 0.0115 / (0.621945 + 0.0115), Whole: air.Standard}
	xs := air.Standard * 0.019826 / (0.621945 + 0.019826)
	surface := air.State{DryBulb: 30, Vapour: xs, Whole: air.Standard}.DewPoint()
	if got := 500 * float64(Ratio(dew, surface, 0.5)); off(got, 143.62, 0.0005) || off(got/3600, 0.03990, 0.0005) {
		t.Errorf("E-02: %v kg/h, want 143.62", got)
	}
	// E-01 (a): its twin in kg/h and mmHg, (42.6 + 37.6·v)·(pw - pa)/Y.
	const mmHg = 133.322
	got := float64(Pool(moist(20, 50), 20, 0.3))
	if want := (42.6 + 37.6*0.3) * float64(air.Saturation(20)-moist(20, 50).Vapour) / mmHg / LatentHeat; off(got, want, 0.005) {
		t.Errorf("E-01: %v, its twin in mmHg gives %v", got, want)
	}
}

// E-03 (d): 0.48 kg from 1 m² at 0.16 kg/(m²·h).
func TestConstantRateTime(t *testing.T) {
	for sides, want := range map[float64]float64{1: 3, 2: 1.5} {
		r := From(0.16, 0.16, sides)
		if got := Hours(480, (r.Low+r.High)/2); off(got, want, 1e-12) {
			t.Errorf("E-03: %v sides take %v h, want %v", sides, got, want)
		}
		if off(r.Low, 160*sides*0.7, 1e-12) || off(r.High, 160*sides*1.3, 1e-12) {
			t.Errorf("±30 %% of %v is %+v", 160*sides, r)
		}
	}
	if r := From(-0.1, 0.2, 1); r.Low != 0 || off(r.High, 260, 1e-12) {
		t.Errorf("air that condenses by one equation: %+v", r)
	}
}

func TestDamperSlowerWindierFaster(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(0, 50).Draw(t, "temperature")
		rh := rapid.Float64Range(1, 98).Draw(t, "humidity")
		v := rapid.Float64Range(0, 5).Draw(t, "speed")
		s, damper := moist(at, rh), moist(at, rh+1)
		for name, f := range map[string]func(air.State, unit.Temperature, float64) Flux{"pool": Pool, "ratio": Ratio} {
			here := f(s, s.WetBulb(), v)
			if !(here > 0) || !(f(damper, damper.WetBulb(), v) < here) || !(f(s, s.WetBulb(), v+0.1) > here) || !(f(s, s.DryBulb, v) > here) {
				t.Fatalf("%s at %v °C, %v %%, %v m/s: %v", name, at, rh, v, here)
			}
		}
		one, two := From(Pool(s, s.WetBulb(), v), Ratio(s, s.WetBulb(), v), 1), From(Pool(s, s.WetBulb(), v), Ratio(s, s.WetBulb(), v), 2)
		if off(Hours(100, two.Low), Hours(100, one.Low)/2, 1e-12) || one.Low >= one.High {
			t.Fatalf("one side %+v, two %+v", one, two)
		}
	})
}

func TestWeighings(t *testing.T) {
	reckoned := Rate{40, 100}
	for _, r := range []struct {
		name    string
		at, m   []float64
		want    float64 // g/h
		slowing bool
		err     error
	}{
		{"steady", []float64{0, 0.5, 1, 2}, []float64{400, 370, 340, 280}, 60, false, nil},
		{"two", []float64{0, 0.5}, []float64{400, 380}, 40, false, nil},
		{"slowing", []float64{0, 1, 2, 3}, []float64{400, 340, 280, 265}, 46.5, true, nil},
		{"a rise within the scale", []float64{0, 1, 1.1, 2}, []float64{400, 340, 341, 280}, 60, false, nil},
		{"rises", []float64{0, 1, 2}, []float64{400, 340, 350}, 0, false, ErrRise},
		{"below dry", []float64{0, 1}, []float64{400, 150}, 0, false, ErrBelowDry},
		{"one alone", []float64{0}, []float64{400}, 0, false, ErrFew},
		{"no loss", []float64{0, 1}, []float64{400, 399}, 0, false, ErrNoLoss},
		{"drips", []float64{0, 0.1}, []float64{400, 300}, 0, false, ErrTooFast},
		{"none", nil, nil, 0, false, ErrFew},
	} {
		got, err := Weighings{r.at, r.m, 200, 1}.Fit(reckoned)
		if err != r.err || off(got.Fit, r.want, 0.01) || got.Slowing != r.slowing {
			t.Errorf("%s: %+v, %v, want %v, slowing %v, %v", r.name, got, err, r.want, r.slowing, r.err)
		}
	}
}

// A true steady loss, weighed with an error up to the scale's, lies in the range
// that the weighings give.
func TestTheTrueRateLiesInTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := rapid.Float64Range(20, 120).Draw(t, "g/h")
		w := Weighings{Dry: 100, Scale: 1}
		at := 0.0
		for range rapid.IntRange(2, 12).Draw(t, "weighings") {
			at += rapid.Float64Range(0.2, 1).Draw(t, "hours")
			w.At = append(w.At, at)
			w.Masses = append(w.Masses, 2000-truth*at+rapid.Float64Range(-1, 1).Draw(t, "error"))
		}
		got, err := w.Fit(Rate{40, 100})
		if err == ErrNoLoss {
			return
		}
		const hair = 1e-9 // both weighings off by all that they may be: the edge itself, to the last bit
		if err != nil || !(got.Low > 0 && got.Low <= truth*(1+hair) && truth*(1-hair) <= got.High) {
			t.Fatalf("%+v, %v of a true %v", got, err, truth)
		}
	})
}
