package mount

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// a small flat mount (CCI Notes 13/6, a): 30 × 40 cm with 4 cm, and a fabric 5 cm
// larger all round, is 38 × 48 and 48 × 58 cm (d). X-09 (d).
func TestPublishedMounts(t *testing.T) {
	w, h := Board(300, 40, 40), Board(400, 40, 40)
	all := Wrap(4, 6, 40)
	if w != 380 || h != 480 || w+2*all != 480 || h+2*all != 580 {
		t.Errorf("%v × %v, cloth %v × %v", w, h, w+2*all, h+2*all)
	}
	for degrees, want := range map[float64]float64{15: 0.259, 30: 0.5, 45: 0.707, 60: 0.866} {
		if got := InPlane(degrees); !near(got, want, 5e-4) {
			t.Errorf("%v°: %v, want %v", degrees, got, want)
		}
	}
}

// (d) by hand: 3 mm of glass is 7.5 kg/m², 4 mm of acrylic sheet 4.76.
func TestMasses(t *testing.T) {
	if got := (Layer{Width: 1000, Height: 1000, Thickness: 3, Density: Glass}).Mass(); !near(got, 7500, 1e-9) {
		t.Errorf("glass %v g", got)
	}
	if got := (Layer{Width: 500, Height: 1000, Thickness: 4, Density: Acrylic}).Mass(); !near(got, 2380, 1e-9) {
		t.Errorf("acrylic %v g", got)
	}
	if got := (Layer{Width: 500, Height: 1000, PerArea: 150}).Mass(); !near(got, 75, 1e-12) {
		t.Errorf("cloth %v g", got)
	}
	if Hanging(6000, 4, 2) != 24000 || Hanging(6000, 4, 3) != 12000 || Hanging(6000, 4, 1) != 24000 {
		t.Error(Hanging(6000, 4, 2), Hanging(6000, 4, 3), Hanging(6000, 4, 1))
	}
}

func TestPlacing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-20, 20)
		shape := [4]Point{{f.Draw(t, "ax"), f.Draw(t, "ay")}, {400 + f.Draw(t, "bx"), f.Draw(t, "by")}, {400 + f.Draw(t, "cx"), 300 + f.Draw(t, "cy")}, {f.Draw(t, "dx"), 300 + f.Draw(t, "dy")}}
		placed := Placed(shape, 600, 500)
		// Nothing is bent: all six lengths stay.
		for i := range 4 {
			for j := range i {
				was := math.Hypot(shape[i].X-shape[j].X, shape[i].Y-shape[j].Y)
				if is := math.Hypot(placed[i].X-placed[j].X, placed[i].Y-placed[j].Y); !near(is, was, 1e-9*was) {
					t.Fatalf("%d to %d was %v, is %v", i, j, was, is)
				}
			}
		}
		// It stands in the middle, and what leans to one side above leans to the other below.
		left, right, upper, lower := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, p := range placed {
			left, right, upper, lower = min(left, p.X), max(right, p.X), min(upper, p.Y), max(lower, p.Y)
		}
		if !near(left, 600-right, 1e-9) || !near(upper, 500-lower, 1e-9) || !near(angle(placed[0], placed[1]), -angle(placed[3], placed[2]), 1e-12) {
			t.Fatalf("%v is not centred: %v", shape, placed)
		}
		if room := Room(placed, 600, 500); !near(room, min(left, upper), 1e-9) {
			t.Fatalf("room %v", room)
		}
		if w, h := Needs(placed); !near(w, right-left, 1e-12) || !near(h, lower-upper, 1e-12) {
			t.Fatalf("needs %v × %v", w, h)
		}
		for _, p := range Between(placed[0], placed[1], 50) {
			if d := math.Hypot(p.X-placed[0].X, p.Y-placed[0].Y) + math.Hypot(p.X-placed[1].X, p.Y-placed[1].Y); !near(d, math.Hypot(placed[1].X-placed[0].X, placed[1].Y-placed[0].Y), 1e-9) {
				t.Fatalf("%v is not on the side", p)
			}
		}
	})
	if n := len(Between(Point{0, 0}, Point{200, 0}, 50)); n != 3 {
		t.Errorf("%d points between", n)
	}
}
