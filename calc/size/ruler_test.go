package size

import "testing"

// (d) by hand; an inch is 25.4 mm.
func TestRulers(t *testing.T) {
	mm, in := RulerIn(false), RulerIn(true)
	for _, r := range []struct{ got, want string }{
		{mm.At(12345.5), "12\u00a0345.5"}, {mm.Of(0.126), "0.13 mm"}, {mm.At(-0.004), "0"}, {mm.Size(300, 12345.67), "300 × 12\u00a0345.67 mm"},
		{in.Of(48.625 * 25.4), "48.625 in"}, {in.Both(381), "15 in (381 mm)"}, {mm.Both(381), "381 mm"}, {in.BothSize(25.4, 50.8), "1 × 2 in (25.4 × 50.8 mm)"}, {mm.BothSize(1, 2), "1 × 2 mm"},
		{mm.Coarse().At(36.7742), "36.8"}, {in.Coarse().Of(36.7742), "1.45 in"},
		{mm.Coarse().AtLeast(306.41), "306.5 mm"}, {mm.Coarse().AtLeast(300.0000001), "300 mm"}, {in.Coarse().AtLeast(304.9), "12.01 in"}, {in.String(), "in"},
		{RulerFor("cm").Both(305), "30.5 cm (305 mm)"}, {RulerFor("m").Both(1234.56), "1.23456 m (1234.56 mm)"}, {RulerFor("m").Coarse().AtLeast(1234.56), "1.2346 m"}, {RulerFor("ft").Of(304.8), "12 in"}, {RulerFor("").Of(3), "3 mm"},
	} {
		if r.got != r.want {
			t.Errorf("got %q, want %q", r.got, r.want)
		}
	}
}
