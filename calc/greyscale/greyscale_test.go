package greyscale

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/colour"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// G-03 (d), tolerance 0.002; the pair of G-03-2 stands in one of the two sources.
func TestChangeOfColour(t *testing.T) {
	rows := []struct {
		name               string
		reference, treated colour.Lab
		ab, d00, f, gsc    float64
		grade              string
	}{
		{"G-03-1", colour.Lab{L: 50, A: 0.001}, colour.Lab{L: 53.4, A: 0.001}, 3.4, 3.3695, 3.4, 3, "3"},
		{"G-03-2", colour.Lab{L: 33.49205637, A: 18.21758719, B: 18.75735102}, colour.Lab{L: 34.12387882, A: 18.98491883, B: 19.08586749}, 1.0469, 0.6859, 0.9219, 4.458, "4-5"},
		{"G-03-3", colour.Lab{L: 40, A: -5, B: -40}, colour.Lab{L: 44, A: -4, B: -34}, 7.2801, 4.3445, 5.1902, 2.390, "2-3"},
		{"G-03-4", colour.Lab{L: 55, A: 45, B: 10}, colour.Lab{L: 58, A: 38, B: 9}, 7.6811, 3.7009, 5.0925, 2.417, "2-3"},
		{"G-03-5", colour.Lab{L: 60, A: 30, B: -4}, colour.Lab{L: 62, A: 28, B: 5}, 9.4340, 5.9333, 8.6646, 1.650, "1-2"},
		{"G-03-6", colour.Lab{L: 70, A: -20, B: 35}, colour.Lab{L: 70.5, A: -19, B: 33}, 2.2913, 0.8988, 1.4745, 4.133, "4"},
	}
	for _, r := range rows {
		got := ChangeOf(r.reference, r.treated)
		if !near(got.DeltaF, r.f, 0.002) || !near(got.GSc, r.gsc, 0.002) || got.Grade != r.grade {
			t.Errorf("%s: %+v, want %v, %v, %s", r.name, got, r.f, r.gsc, r.grade)
		}
		if ab, d00 := colour.CIE76(r.reference, r.treated), colour.CIEDE2000(r.reference, r.treated, 1, 1, 1); !near(ab, r.ab, 1e-4) || !near(d00, r.d00, 1e-4) {
			t.Errorf("%s: ΔE*ab %v, ΔE00 %v, want %v, %v", r.name, ab, d00, r.ab, r.d00)
		}
	}
	// Consistency of the formula on itself (d): pure lightness differences.
	for delta, want := range map[float64]float64{1.7: 4, 3.4: 3, 6.8: 2, 13.6: 1, 0.8: 4.529, 9.6: 1.503} {
		if got := ChangeOf(colour.Lab{L: 30}, colour.Lab{L: 30 + delta}).GSc; !near(got, want, 0.002) {
			t.Errorf("ΔEF %v: %v, want %v", delta, got, want)
		}
	}
}

// G-04 (d), tolerance 0.002; pure lightness differences give the steps of A03 back.
func TestStaining(t *testing.T) {
	rows := []struct {
		name       string
		to         colour.Lab
		e, gs, ssr float64
		grade      string
	}{
		{"G-04-1", colour.Lab{L: -3, A: 1, B: 2}, 3.7417, 2.8472, 4.345, "4-5"},
		{"G-04-2", colour.Lab{L: -6, A: 4, B: -3}, 7.8102, 5.8102, 3.549, "3-4"},
		{"G-04-3", colour.Lab{L: -1, A: 0.5, B: 0.5}, 1.2247, 0.9419, 4.783, "5"},
		{"G-04-4", colour.Lab{L: -14, A: 8, B: 6}, 17.2047, 13.2047, 2.358, "2-3"},
		{"none", colour.Lab{}, 0, 0, 5, "5"},
	}
	white := colour.Lab{L: 94, A: -1, B: 2}
	for _, r := range rows {
		got := StainingOf(white, colour.Lab{L: white.L + r.to.L, A: white.A + r.to.A, B: white.B + r.to.B})
		if !near(got.Delta, r.e, 1e-4) || !near(got.DeltaGS, r.gs, 1e-4) || !near(got.SSR, r.ssr, 0.002) || got.Grade != r.grade {
			t.Errorf("%s: %+v, want %+v", r.name, got, r)
		}
	}
	for delta, want := range map[float64]float64{2.2: 4.494, 6.0: 3.502, 8.5: 2.997, 16.9: 2.000, 34.1: 0.982} {
		if got := StainingOf(white, colour.Lab{L: white.L - delta, A: white.A, B: white.B}); !near(got.SSR, want, 0.002) {
			t.Errorf("ΔL %v: %v, want %v", delta, got.SSR, want)
		}
	}
	for _, s := range Staining {
		if got := StainingOf(white, colour.Lab{L: white.L - s.Delta, A: white.A, B: white.B}); got.Grade != s.Grade {
			t.Errorf("the step %v of A03 is graded %s, not %s", s.Delta, got.Grade, s.Grade)
		}
	}
}

// Tables G-01 (a) and G-02 (b).
func TestStepsOfTheScales(t *testing.T) {
	for _, scale := range [][9]Step{Change, Staining} {
		for i, s := range scale {
			if got := Nearest(scale, s.Delta); got.Grade != s.Grade {
				t.Errorf("%v is nearest to %s, not to %s", s.Delta, got.Grade, s.Grade)
			}
			if i > 0 {
				if half := (scale[i-1].Delta + s.Delta) / 2; Nearest(scale, half).Grade != s.Grade {
					t.Errorf("half-way, at %v: %s, want the worse, %s", half, Nearest(scale, half).Grade, s.Grade)
				}
			}
		}
	}
	if got := Nearest(Change, 100).Grade; got != "1" {
		t.Errorf("beyond the scale: %s", got)
	}
}

func TestAGradeFallsAsTheDifferenceGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := colour.Lab{L: rapid.Float64Range(10, 90).Draw(t, "L"), A: rapid.Float64Range(-60, 60).Draw(t, "a"), B: rapid.Float64Range(-60, 60).Draw(t, "b")}
		small := rapid.Float64Range(0, 30).Draw(t, "small")
		large := small + rapid.Float64Range(0, 30).Draw(t, "more")
		at := func(d float64) colour.Lab { return colour.Lab{L: from.L - d, A: from.A, B: from.B} }
		if a, b := ChangeOf(from, at(small)), ChangeOf(from, at(large)); a.GSc < b.GSc-1e-9 || a.Grade < b.Grade {
			t.Fatalf("ΔL %v: %+v, ΔL %v: %+v", small, a, large, b)
		}
		if a, b := StainingOf(from, at(small)), StainingOf(from, at(large)); a.SSR < b.SSR-1e-9 || a.SSR > 5 {
			t.Fatalf("ΔL %v: %+v, ΔL %v: %+v", small, a, large, b)
		}
	})
}
