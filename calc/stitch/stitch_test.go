package stitch

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestNoTwoNeighbouringEndsLieInLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shortest := rapid.Float64Range(1, 200).Draw(t, "shortest")
		longest := shortest + rapid.Float64Range(LeastRange, 100).Draw(t, "more")
		n := rapid.IntRange(1, 2000).Draw(t, "n")
		lengths, err := Lengths(n, shortest, longest)
		if err != nil || len(lengths) != n {
			t.Fatal(len(lengths), err)
		}
		apart := Apart(shortest, longest)
		if apart <= 0 {
			t.Fatalf("apart by %v", apart)
		}
		for i, l := range lengths {
			if l < shortest-Step/2-1e-9 || l > longest+Step/2+1e-9 {
				t.Fatalf("%v is not within %v to %v", l, shortest, longest)
			}
			if i > 0 && math.Abs(l-lengths[i-1]) < apart-1e-9 {
				t.Fatalf("stitch %d is %v long, the one before %v: nearer than %v", i, l, lengths[i-1], apart)
			}
		}
		if Thread(lengths, 4) <= 2*shortest*float64(n)*0.9 {
			t.Fatal("the thread is shorter than its stitches")
		}
	})
	if _, err := Lengths(5, 10, 12); !errors.Is(err, ErrRange) {
		t.Error(err)
	}
	if lengths, err := Lengths(5, 2.1, 5.1); err != nil || len(lengths) != 5 {
		t.Errorf("from 2.1 to 5.1 mm: %v, %v", lengths, err)
	}
}

// (d) by hand.
func TestCountsAndThread(t *testing.T) {
	for _, r := range []struct {
		along, spacing float64
		want           int
	}{{300, 4, 76}, {301, 4, 76}, {3, 4, 1}, {0.3, 0.1, 4}} {
		if got := Count(r.along, r.spacing); got != r.want {
			t.Errorf("%v mm every %v: %d, want %d", r.along, r.spacing, got, r.want)
		}
	}
	if got := Thread([]float64{3, 3}, 4); got != 16 { // 3 over, 5 behind, twice
		t.Errorf("%v", got)
	}
	if thread, held := Laid([]float64{40, 60}, 10, 2); thread != 100+12*4 || held != 12 {
		t.Errorf("%v mm, %d", thread, held)
	}
}
