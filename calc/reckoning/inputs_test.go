package reckoning

import "testing"

func TestInwards(t *testing.T) {
	rows := []struct {
		x    float64
		side int
		want float64
	}{
		{0.002641720, 1, 0.00265}, {1320.86, -1, 1320}, {0, 1, 0}, {10, 1, 10}, {999.9, 1, 1000}, {999.9, -1, 999},
		{32, 1, 32}, {104.00000000000001, -1, 104}, {9.999, 1, 10}, {1.001, -1, 1}, {1000.4, 1, 1010}, {-17.7778, 1, -17.7}, {-17.7778, -1, -17.8},
	}
	for _, r := range rows {
		if got := inwards(r.x, r.side); got != r.want {
			t.Errorf("inwards(%v, %v) = %v, want %v", r.x, r.side, got, r.want)
		}
	}
}
