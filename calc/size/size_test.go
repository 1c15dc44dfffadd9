package size

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// D-01 (d), tolerance 0.005.
func TestChange(t *testing.T) {
	rows := []struct {
		before, after []unit.Length
		want          float64
	}{
		{[]unit.Length{350}, []unit.Length{343}, -2}, {[]unit.Length{500}, []unit.Length{512}, 2.4}, {[]unit.Length{352.5}, []unit.Length{352.5}, 0},
		{[]unit.Length{349, 351, 350}, []unit.Length{340, 342, 341}, -2.571},
	}
	for _, r := range rows {
		if got := Change(Mean(r.before), Mean(r.after)); !near(got, r.want, 0.005) {
			t.Errorf("%v to %v: %v %%, want %v", r.before, r.after, got, r.want)
		}
	}
	if got := Area(-2, -3); !near(got, -4.940, 0.0005) {
		t.Errorf("area: %v", got)
	}
}

// D-03 (d).
func TestPerArea(t *testing.T) {
	if got := PerArea(1.845, 0.01); !near(got, 184.5, 1e-9) {
		t.Errorf("%v g/m²", got)
	}
	if got := PerArea(620, 1.20*2.15); !near(got, 240.31, 0.005) {
		t.Errorf("%v g/m²", got)
	}
}

// D-04 (d), tolerance 0.2 mm.
func TestRoll(t *testing.T) {
	rows := []struct {
		core, t, l unit.Length
		d, turns   float64
	}{{75, 1.2, 2500, 97.2, 9.2}, {100, 3, 4000, 159.0, 9.8}, {150, 0.6, 900, 152.3, 1.9}}
	for _, r := range rows {
		d, turns := Roll(r.core, r.l, r.t)
		if !near(float64(d), r.d, 0.2) || !near(turns, r.turns, 0.06) {
			t.Errorf("%+v: %v mm, %v turns", r, d, turns)
		}
	}
}

func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1, 10000)
		before, after := unit.Length(length.Draw(t, "before")), unit.Length(length.Draw(t, "after"))
		off := unit.Length(rapid.Float64Range(0, 0.4).Draw(t, "off"))
		low, high := ChangeRange(before, after, off)
		if low < -100 {
			t.Fatalf("%v to %v ± %v is %v at the least: less than nothing is left", before, after, off, low)
		}
		// Nothing inside of the error leaves the range, and its ends are reached.
		inside := rapid.Float64Range(-1, 1)
		b, a := before+unit.Length(inside.Draw(t, "of before"))*off, after+unit.Length(inside.Draw(t, "of after"))*off
		if got := Change(b, a); got < low-1e-9 || got > high+1e-9*(1+math.Abs(high)) {
			t.Fatalf("%v to %v is %v, outside of %v to %v", b, a, got, low, high)
		}
		tube, thick := unit.Length(rapid.Float64Range(10, 300).Draw(t, "tube")), unit.Length(rapid.Float64Range(0.1, 10).Draw(t, "thick"))
		d, turns := Roll(tube, after, thick)
		// What went round is as long as what was rolled: the mean way round, times the turns.
		if went := turns * math.Pi * float64(tube+d) / 2; d <= tube || !near(went, float64(after), 1e-6*float64(after)) {
			t.Fatalf("%v mm of %v on %v: %v, %v turns, which are %v mm", after, thick, tube, d, turns, went)
		}
	})
}
