package rinse

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// Marks of a source: (a) read, (b) from memory, (c) common practice, (d)
// computed from the formula, which is a check against regression only.

func near(got unit.Fraction, want, tolerance float64) bool {
	return math.Abs(float64(got)-want) <= tolerance*math.Abs(want)
}

func TestPublishedRinses(t *testing.T) {
	rows := []struct {
		source    string
		got       unit.Fraction
		want      float64
		tolerance float64
	}{
		// The page gives the whole water in the vessel; fresh is that less what was kept.
		{"R-01-1 (a) The Power of Dilution, mikefay.info: 40.2 g kept of 696 g", After(40.2, 696-40.2, 1), 0.0578, 0.001},
		{"R-01-1 (a) the same: 1 in 17.3", After(40.2, 696-40.2, 1), 1 / 17.3, 0.002},
		// Extraction with a partition of K is a rinse with K times the water.
		{"R-01-2 (a) freddyo.com 13180153, K = 2, V2 = V1/2, n = 1", After(1, 2*0.5, 1), 0.50, 1e-12},
		{"R-01-2 (a) n = 2", After(1, 2*0.5, 2), 0.25, 1e-12},
		{"R-01-2 (a) n = 3", After(1, 2*0.5, 3), 0.125, 1e-12},
		{"R-01-2 (a) n = 4", After(1, 2*0.5, 4), 0.0625, 1e-12},
		{"R-01-3 (a) justaaa.com 321415, K = 3, 100 mL, one portion of 500 mL", Left(0.1, 3*0.5), 0.0625, 1e-12},
		{"R-01-4 (a formula, d value) the same water as 5 × 100 mL", After(0.1, 3*0.1, 5), 0.000977, 0.001},
	}
	for _, r := range rows {
		if !near(r.got, r.want, r.tolerance) {
			t.Errorf("%s: got %v, want %v", r.source, r.got, r.want)
		}
	}
}

func TestTrapZ04TheMisprintedPower(t *testing.T) {
	got := After(0.1, 0.3, 5).Percent()
	if math.Abs(got-0.0977) > 0.00005 || math.Abs(got-0.98) < 0.1 {
		t.Errorf("Z-04: (1/4)^5 = %v %%, want 0.0977 and not the printed 0.98", got)
	}
}

func TestComputedRinses(t *testing.T) {
	rows := []struct {
		kept, fresh unit.Volume
		n           int
		want        float64 // R-01 computed table (d), tolerance 0.1 %
	}{
		{1, 9, 1, 0.1}, {1, 9, 3, 0.001}, {0.5, 10, 2, 0.00226757}, {1.5, 12, 4, 0.00015242}, {2, 8, 5, 0.00032},
	}
	for _, r := range rows {
		if got := After(r.kept, r.fresh, r.n); !near(got, r.want, 0.001) {
			t.Errorf("R-01 (d): After(%v, %v, %d) = %v, want %v", r.kept, r.fresh, r.n, got, r.want)
		}
	}
}

func TestRinsesNeeded(t *testing.T) {
	rows := []struct {
		kept, fresh unit.Volume
		target      unit.Fraction
		real        float64
		whole       int // R-01 rinses needed (d)
	}{
		{1, 9, 0.01, 2.000, 2}, {1.5, 10, 0.01, 2.261, 3}, {0.8, 20, 0.001, 2.120, 3},
	}
	for _, r := range rows {
		if got := NeededReal(r.kept, r.fresh, r.target); math.Abs(got-r.real) > 0.0005 {
			t.Errorf("R-01 (d): NeededReal(%v, %v, %v) = %v, want %v", r.kept, r.fresh, r.target, got, r.real)
		}
		if got, ok := Needed(r.kept, r.fresh, r.target); !ok || got != r.whole {
			t.Errorf("R-01 (d): Needed(%v, %v, %v) = %v %v, want %v", r.kept, r.fresh, r.target, got, ok, r.whole)
		}
	}
	if n, ok := Needed(10, 0.1, 1e-6); ok {
		t.Errorf("Needed = %d for a rinse that hardly thins, want more than %d", n, Most)
	}
}

func TestSplitsOfAFixedAmount(t *testing.T) {
	rows := []struct {
		water, kept unit.Volume
		n           int
		want        float64 // R-02 (d)
	}{
		{30, 1, 1, 0.03225806}, {30, 1, 2, 0.00390625}, {30, 1, 3, 0.00075131}, {30, 1, 5, 0.00005950}, {10, 1, 2, 0.02777778},
	}
	for _, r := range rows {
		if got := Split(r.kept, r.water, r.n); !near(got, r.want, 0.001) {
			t.Errorf("R-02 (d): Split(%v, %v, %d) = %v, want %v", r.kept, r.water, r.n, got, r.want)
		}
	}
	if got := Left(1, 7, 3); !near(got, 0.031250, 1e-12) {
		t.Errorf("R-02 (d): 7 + 3 L leave %v, want 0.031250", got)
	}
}

func TestAddOnFromPickUp(t *testing.T) {
	rows := []struct {
		source            string
		pickUp, dissolved unit.Fraction
		want              float64
	}{
		{"R-05 (a) collegedunia.com: 80 % of a 6.0 % bath", 0.80, 0.06, 0.048},
		{"R-05 (d): 150 % of 0.2 %", 1.50, 0.002, 0.0030},
	}
	for _, r := range rows {
		if got := AddOn(r.pickUp, r.dissolved); !near(got, r.want, 1e-12) {
			t.Errorf("%s: got %v, want %v", r.source, got, r.want)
		}
	}
	if got := PickUp(400, 1.20).Grams(); math.Abs(got-480) > 1e-9 {
		t.Errorf("R-05 (d): a 400 g linen at 120 %% holds %v g, want 480", got)
	}
}

func draw(t *rapid.T, name string, low, high float64) unit.Volume {
	return unit.Volume(rapid.Float64Range(low, high).Draw(t, name))
}

// R-02 (a), Burgot and Burgot, Crosscurrent extraction, abstract: several
// portions beat one.
func TestSplittingIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kept, water := draw(t, "kept", 0.01, 20), draw(t, "water", 0.1, 500)
		n := rapid.IntRange(1, Most-1).Draw(t, "n")
		if few, more := Split(kept, water, n), Split(kept, water, n+1); more > few*slack {
			t.Fatalf("%d portions leave %v, %d leave %v", n, few, n+1, more)
		}
		// The limit is an exponential: its own last bits need room.
		if f, limit := Split(kept, water, n), Limit(kept, water); f < limit*(1-1e-9) {
			t.Fatalf("%d portions leave %v, below the limit %v", n, f, limit)
		}
	})
}

func TestEqualPortionsAreBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kept := draw(t, "kept", 0.01, 20)
		n := rapid.IntRange(1, 8).Draw(t, "n")
		var portions []unit.Volume
		var water unit.Volume
		for range n {
			v := draw(t, "portion", 0, 100)
			portions, water = append(portions, v), water+v
		}
		if uneven, even := Left(kept, portions...), Split(kept, water, n); even > uneven*slack {
			t.Fatalf("portions %v leave %v, equal ones %v", portions, uneven, even)
		}
	})
}

func TestMoreRinsesAndMoreWaterLeaveLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kept, fresh := draw(t, "kept", 0.01, 20), draw(t, "fresh", 0.1, 200)
		n := rapid.IntRange(0, Most-1).Draw(t, "n")
		f := After(kept, fresh, n)
		if f < 0 || f > 1 {
			t.Fatalf("After = %v, not a share", f)
		}
		if next := After(kept, fresh, n+1); next >= f {
			t.Fatalf("rinse %d leaves %v, the one before %v", n+1, next, f)
		}
		if n > 0 {
			if richer := After(kept, fresh*2, n); richer >= f {
				t.Fatalf("with twice the water %v, before %v", richer, f)
			}
			if drier := After(kept/2, fresh, n); drier >= f {
				t.Fatalf("kept half %v, before %v", drier, f)
			}
		}
	})
}

func TestNeededIsTheLeastThatReachesTheTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kept, fresh := draw(t, "kept", 0.01, 20), draw(t, "fresh", 0.1, 200)
		target := unit.Fraction(rapid.Float64Range(1e-6, 0.99).Draw(t, "target"))
		n, ok := Needed(kept, fresh, target)
		if !ok {
			if After(kept, fresh, Most) <= target {
				t.Fatal("refused a target that it reaches")
			}
			return
		}
		if After(kept, fresh, n) > target*slack || After(kept, fresh, n-1) <= target {
			t.Fatalf("Needed = %d is not the least", n)
		}
		if real := NeededReal(kept, fresh, target); math.Abs(math.Ceil(real)-float64(n)) > 1 {
			t.Fatalf("Needed = %d, the equation gives %v", n, real)
		}
	})
}

func TestPortions(t *testing.T) {
	rows := []struct {
		water, least unit.Volume
		want         int
	}{{30, 10, 3}, {29.99, 10, 2}, {9, 10, 0}, {0.3, 0.1, 3}, {1e6, 0.001, Most}}
	for _, r := range rows {
		if got := Portions(r.water, r.least); got != r.want {
			t.Errorf("Portions(%v, %v) = %d, want %d", r.water, r.least, got, r.want)
		}
	}
}
