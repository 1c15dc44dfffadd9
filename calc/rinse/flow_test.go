package rinse

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// the first five (a), the last the published formula with the value (d).
func TestFlowingRinses(t *testing.T) {
	near := func(name string, got, want, off float64) {
		t.Helper()
		if math.Abs(got-want) > off {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
	near("R-03-1", SteadyRatio(1, 99), 100, 1e-9)
	near("R-03-2", SteadyRatio(1, 2000), 2001, 1e-9)
	near("R-03-2, what is left of 10 oz/gal", 10/SteadyRatio(1, 2000), 0.005, 1e-5)
	carried := 20.0 / 1000 * 100 * 6 / 60 // litres a minute: 20 mL/ft², 100 panels an hour of 6 ft²
	near("R-03-3, g/min", carried*250, 50, 1e-9)
	near("R-03-4, simplified, L/min", carried*250/0.050, 1000, 1e-9)
	near("R-03-5, simplified, L/min", carried*250/0.100, 500, 1e-9)
	near("R-03-6, L/min", carried*CounterFlow(250/0.100, 2), 10.10, 0.005)
}

func TestLawsOfFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tank := unit.Volume(rapid.Float64Range(1, 500).Draw(t, "tank"))
		target := unit.Fraction(rapid.Float64Range(1e-5, 0.5).Draw(t, "target"))
		water := OverflowFor(tank, target)
		if got := Overflowing(tank, water); math.Abs(float64(got-target)) > 1e-9 {
			t.Fatalf("%v of %v through %v leaves %v, not %v", water, tank, tank, got, target)
		}
		// Emptied and filled anew, the same water leaves less than when it runs over.
		n := rapid.IntRange(1, 10).Draw(t, "n")
		kept := tank / unit.Volume(rapid.Float64Range(2, 20).Draw(t, "drained to"))
		fresh := tank - kept
		if still, over := After(kept, fresh, n), Overflowing(tank, fresh*unit.Volume(n)); still > over*(1+1e-9) {
			t.Fatalf("%d fills of %v over %v leave %v, overflowing %v", n, fresh, kept, still, over)
		}
		ratio := rapid.Float64Range(10, 1e5).Draw(t, "ratio")
		if CounterFlow(ratio, n+1) > CounterFlow(ratio, n) && ratio > math.Pow(float64(n+1), float64(n+1)) {
			t.Fatalf("%d tanks need %v, %d need %v", n, CounterFlow(ratio, n), n+1, CounterFlow(ratio, n+1))
		}
	})
}
