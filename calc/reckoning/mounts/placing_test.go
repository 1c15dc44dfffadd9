package mounts

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

// six are the measures of a quadrilateral chosen by its corners.
func six(c [4][2]float64) form {
	f := form{}
	for name, at := range map[string][2]int{"AB": {0, 1}, "BC": {1, 2}, "CD": {2, 3}, "DA": {3, 0}, "AC": {0, 2}, "BD": {1, 3}} {
		p, q := c[at[0]], c[at[1]]
		f[name] = strconv.FormatFloat(math.Hypot(p[0]-q[0], p[1]-q[1]), 'f', 6, 64)
	}
	return f
}

// A board exactly as large as its textile takes it, whatever rounding made of the
// diagonals; one that is half a millimetre smaller does not, and says which way.
func TestABoardAsLargeAsItsTextile(t *testing.T) {
	for w := 100; w <= 1000; w += 17 {
		for h := 100; h <= 1300; h += 29 {
			f := six([4][2]float64{{0, 0}, {float64(w), 0}, {float64(w), float64(h)}, {0, float64(h)}}).With(form{"width": w, "height": h, "error": 0.1, "spacing": 1000})
			r, problems := reckoningtest.Ask(t, Placing(), f)
			if len(problems) > 0 {
				t.Fatalf("%d × %d: %+v", w, h, problems)
			}
			if v := reckoningtest.Value(t, r, "room"); v.Value < 0 || v.Value > 0.01 {
				t.Fatalf("%d × %d: %+v", w, h, v)
			}
		}
	}
	f := six([4][2]float64{{0, 0}, {300, 0}, {300, 400}, {0, 400}})
	for _, r := range []struct {
		width, height string
		short         []string
	}{{"300", "399.5", []string{"height"}}, {"299.5", "400", []string{"width"}}, {"290", "390", []string{"width", "height"}}} {
		_, problems := reckoningtest.Ask(t, Placing(), f.With(form{"width": r.width, "height": r.height}))
		var got []string
		for _, p := range problems {
			got = append(got, p.Field)
		}
		if strings.Join(got, " ") != strings.Join(r.short, " ") {
			t.Errorf("%s × %s: %+v, want %q", r.width, r.height, problems, r.short)
		}
	}
	if p := reckoningtest.Refused(t, Placing(), f.With(form{"width": "300", "height": "399.5"}), "height"); p.Allowed != "at least 400 mm" || !strings.Contains(p.Say, "takes 400 mm, and this board has 399.5 mm") {
		t.Errorf("%+v", p)
	}
	if p := reckoningtest.Refused(t, Placing(), f.With(form{"width": "300", "height": "15 in"}), "height"); p.Allowed != "at least 15.75 in" || !strings.Contains(p.Say, "takes 15.75 in (400 mm), and this board has 15 in (381 mm)") {
		t.Errorf("%+v", p)
	}
}

// An uneven textile, chosen first as it lies on its board: its upper side falls by 6 mm
// in 300 to the right, its lower one rises by as much, and what it takes is centred, 40 mm
// from left and right, 44 from above and below. The reckoning gets its six lengths alone
// and must give the corners back (d, by the theorem of Pythagoras).
func TestAnUnevenTextileLiesWhereItWasChosen(t *testing.T) {
	want := [4][2]float64{{40, 50}, {340, 44}, {352, 446.12}, {46, 440}}
	f := six(want).With(form{"width": 40 + 352, "height": 44 + 446.12, "spacing": 100})
	r := reckoningtest.Run(t, Placing(), f)
	width, height := 392.0, 490.12
	for i, c := range want {
		for k, x := range []float64{c[0], c[1], width - c[0], height - c[1]} {
			if got := r.Tables[0].Rows[i][k+1]; got != strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) {
				t.Errorf("%s: %q, want %v of %v", r.Tables[0].Rows[i], got, x, c)
			}
		}
		if p := r.Pictures[0].Shapes[0].Points; math.Abs(p[2*i]-c[0]) > 0.001 || math.Abs(p[2*i+1]-c[1]) > 0.001 {
			t.Errorf("corner %d lies at %v, want %v", i, p[2*i:2*i+2], c)
		}
	}
	// A mark 100 mm along AB, which is √(300² + 6²) long, and the least margin.
	if row := r.Tables[1].Rows[0]; strings.Join(row, " ") != "AB 1 140 48 252 442.1" {
		t.Errorf("%q", row)
	}
	if v := reckoningtest.Value(t, r, "room"); math.Abs(v.Value-40) > 0.001 {
		t.Errorf("%+v", v)
	}
}

// Every measure off by 1 mm the worst way: for a square of 300 mm, whose width follows
// sides and diagonals, readings drawn at the ends of their errors stay in the range.
func TestTheMarginHasARange(t *testing.T) {
	f := form{"AB": 300, "BC": 300, "CD": 300, "DA": 300, "AC": 424.264, "BD": 424.264, "width": 380, "height": 380, "error": 1}
	v := reckoningtest.Value(t, reckoningtest.Run(t, Placing(), f), "room")
	for corner := range 64 {
		g := f.With(form{})
		for i, name := range []string{"AB", "BC", "CD", "DA", "AC", "BD"} {
			x := 300.0
			if i > 3 {
				x = 424.264
			}
			g[name] = x + float64(2*(corner>>i&1)-1)
		}
		if x := reckoningtest.Value(t, reckoningtest.Run(t, Placing(), g), "room").Value; x < *v.Low-0.02 || x > *v.High+0.02 {
			t.Errorf("%v has the margin %v, outside of %v to %v", g, x, *v.Low, *v.High)
		}
	}
	if *v.High-*v.Low > 6 {
		t.Errorf("%v to %v is wider than errors of 1 mm make it", *v.Low, *v.High)
	}
}

func TestWhatIsNotPlaced(t *testing.T) {
	// AC misread by 100 mm: the board is not to blame alone.
	misread := form{"AB": 300, "BC": 400, "CD": 300, "DA": 400, "AC": 600, "BD": 500, "width": 390, "height": 500}
	if p := reckoningtest.Refused(t, Placing(), misread, "width"); !strings.Contains(p.Say, "do not agree: see to them first") {
		t.Errorf("%+v", p)
	}
	r := reckoningtest.Run(t, Placing(), misread.With(form{"width": 500}))
	if !slices.ContainsFunc(r.Cautions, func(c reckoning.Caution) bool { return strings.Contains(c.Say, "one is misread") }) {
		t.Errorf("%+v", r.Cautions)
	}
	f := form{"AB": 1200, "BC": 800, "CD": 1200, "DA": 800, "AC": 1442.2, "BD": 500, "width": 3000, "height": 3000}
	if p := reckoningtest.Refused(t, Placing(), f, "AC"); !strings.Contains(p.Say, "dented") || p.Allowed != "about 1977.4 mm" {
		t.Errorf("%+v", p)
	}
	reckoningtest.Refused(t, Placing(), f.With(form{"BD": "1442.2", "spacing": 5}), "spacing")
	reckoningtest.Refused(t, Placing(), form{"AB": 40, "BC": 30, "CD": 40, "DA": 30, "AC": 50, "BD": 50, "width": 60, "height": 60, "error": 30}, "error")
}
