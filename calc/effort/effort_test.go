package effort

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// The quartiles of 1 to 9 and of 1, 2, 4, 8 follow from the rule in the comment
// (d, computed by hand).
func TestSpreadOf(t *testing.T) {
	rows := []struct {
		name string
		xs   []float64
		want Spread
	}{
		{"one", []float64{3}, Spread{1, 3, 3, 3, false}},
		{"two", []float64{4, 2}, Spread{2, 2, 3, 4, false}},
		{"four", []float64{8, 1, 4, 2}, Spread{4, 1, 3, 8, false}},
		{"nine", []float64{9, 8, 7, 6, 5, 4, 3, 2, 1}, Spread{9, 3, 5, 7, true}},
		{"an odd one does not move it", []float64{2, 2, 2, 2, 40}, Spread{5, 2, 2, 2, true}},
	}
	for _, r := range rows {
		if got := SpreadOf(r.xs); got != r.want {
			t.Errorf("%s: %+v, want %+v", r.name, got, r.want)
		}
	}
}

func TestSums(t *testing.T) {
	got := Sums([]Done{{Step: "Rinse", Hours: 0.5}, {Step: "Wash", Hours: 1}, {Step: " rinse", Hours: 0.25}})
	want := []Sum{{"Rinse", 2, 0.75}, {"Wash", 1, 1}}
	if !slices.Equal(got, want) {
		t.Errorf("Sums = %+v, want %+v", got, want)
	}
}

func TestForetell(t *testing.T) {
	past := []Done{
		{"Stitching", "flag", 2, 20}, {"Stitching", "flag", 1, 8}, {"Stitching", "flag", 1, 12},
		{"Stitching", "bonnet", 0.1, 4}, {"Stitching", "", 0, 6},
		{"Report", "flag", 2, 3},
	}
	rows := []struct {
		name, step, object string
		area               float64
		byArea             bool
		want               Foretold
		err                error
	}{
		{"all kinds, any size", "stitching", "", 0, false, Foretold{Spread{5, 6, 8, 12, true}, false}, nil},
		{"the same kind of object", "Stitching", "Flag", 0, false, Foretold{Spread{3, 8, 12, 20, false}, true}, nil},
		{"the same kind, by area", "Stitching", "flag", 3, true, Foretold{Spread{3, 24, 30, 36, false}, true}, nil},
		{"one of the same kind is too few", "Stitching", "bonnet", 0, false, Foretold{Spread{5, 6, 8, 12, true}, false}, nil},
		{"never done", "Framing", "", 0, false, Foretold{}, ErrNone},
	}
	for _, r := range rows {
		got, err := Foretell(past, r.step, r.object, r.area, r.byArea)
		if got != r.want || !errors.Is(err, r.err) {
			t.Errorf("%s: %+v, %v, want %+v, %v", r.name, got, err, r.want, r.err)
		}
	}
	if _, err := Foretell(past[4:5], "Stitching", "", 1, true); !errors.Is(err, ErrNoArea) {
		t.Errorf("without an area: %v", err)
	}
}

func TestLawsOfTheSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := rapid.SliceOfN(rapid.Float64Range(0, 500), 1, 60).Draw(t, "hours")
		s := SpreadOf(xs)
		least, most := slices.Min(xs), slices.Max(xs)
		if !(least <= s.Low && s.Low <= s.Median*(1+1e-12) && s.Median <= s.High*(1+1e-12) && s.High <= most*(1+1e-12)) {
			t.Fatalf("%v: %+v", xs, s)
		}
		by := rapid.Float64Range(0.01, 100).Draw(t, "by")
		scaled := make([]float64, len(xs))
		sum := 0.0
		done := make([]Done, len(xs))
		for i, x := range xs {
			scaled[i] = x * by
			sum += x
			done[i] = Done{Step: rapid.SampledFrom([]string{"a", "b"}).Draw(t, "step"), Hours: x}
		}
		if got, want := SpreadOf(scaled).Median, s.Scaled(by).Median; math.Abs(got-want) > 1e-9*want {
			t.Fatalf("scaled median %v, want %v", got, want)
		}
		total := 0.0
		for _, s := range Sums(done) {
			total += s.Hours
		}
		if math.Abs(total-sum) > 1e-9*sum {
			t.Fatalf("sums come to %v, all to %v", total, sum)
		}
	})
}
