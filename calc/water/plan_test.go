package water

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

// The practice sheet (section 8, common practice) gives the algebra: (pre-soak +
// washes + rinses) × bath + spare; hours = litres ÷ litres an hour. The values are
// (d), computed from it.
func TestPlan(t *testing.T) {
	// One pre-soak, two washes and three rinses of 8 L: 48; two spare rinses: 64.
	p := Plan{Presoaks: 1, Washes: 2, Rinses: 3, Spare: SpareRinses, Presoak: 8, Wash: 8, Rinse: 8}
	if p.Planned() != 48 || p.Total() != 64 {
		t.Errorf("planned %v, in all %v, want 48 and 64", p.Planned(), p.Total())
	}
	if got := Short(50, p.Total()); got != 14 {
		t.Errorf("short by %v, want 14", got)
	}
	if got := Flow(4).Hours(14); got != 3.5 {
		t.Errorf("%v h, want 3.5", got)
	}
	for stock, want := range map[unit.Volume]int{0: 0, 23: 0, 24: 0, 31.9: 0, 32: 1, 50: 3, 64: 5, 1000: 122} {
		if got := p.RinsesFrom(stock); got != want {
			t.Errorf("%v L give %d rinses, want %d", stock, got, want)
		}
	}
	if got := (Plan{Rinses: 3, Rinse: 0.1}).RinsesFrom(0.3); got != 3 { // 0.3/0.1 is 2.9999999999999996
		t.Errorf("0.3 L give %d rinses of 0.1 L, want 3", got)
	}
}

func TestMoreStockNeverLeavesMoreToMake(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		litres := func(name string) unit.Volume { return unit.Volume(rapid.Float64Range(0.1, 500).Draw(t, name)) }
		n := func(name string) int { return rapid.IntRange(0, 20).Draw(t, name) }
		p := Plan{n("presoaks"), n("washes"), n("rinses"), n("spare"), litres("presoak"), litres("wash"), litres("rinse"), litres("other")}
		low := litres("stock")
		high := low + litres("more")
		if Short(high, p.Total()) > Short(low, p.Total()) || p.RinsesFrom(high) < p.RinsesFrom(low) {
			t.Fatalf("%+v with %v and %v", p, low, high)
		}
		if Short(low, p.Total()) == 0 && p.RinsesFrom(low) < p.Rinses+p.Spare {
			t.Fatalf("%+v: %v L are enough and give %d rinses", p, low, p.RinsesFrom(low))
		}
		if x := float64(p.Total()); math.IsNaN(x) || p.Total() < p.Planned() {
			t.Fatalf("%+v takes %v", p, p.Total())
		}
	})
}
