package colour

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// C-01. Sharma, Wu and Dalal 2005, table 1, in part; the values as the test data of an
// open colour-science library gives them (a). To the last printed figure.
//
//go:embed testdata/ciede2000.csv
var sharma string

func TestCIEDE2000OfThePublishedPairs(t *testing.T) {
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(sharma), "\n")[1:] {
		var v []float64
		for _, cell := range strings.Split(strings.TrimSpace(line), ",") {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			v = append(v, x)
		}
		x, y := Lab{v[1], v[2], v[3]}, Lab{v[4], v[5], v[6]}
		if got := CIEDE2000(x, y, 1, 1, 1); !near(got, v[7], 1e-4) {
			t.Errorf("pair %v: %v, want %v", v[0], got, v[7])
		}
		if there, back := CIEDE2000(x, y, 1, 1, 1), CIEDE2000(y, x, 1, 1, 1); !near(there, back, 1e-12) {
			t.Errorf("pair %v: %v one way, %v the other", v[0], there, back)
		}
		n++
	}
	if n != 22 {
		t.Errorf("read %d pairs of 22", n)
	}
}

// Values of the same file for colours far outside, to 1e-7 (a).
func TestDifferencesOfFarColours(t *testing.T) {
	first := Lab{100, 21.57210357, 272.22819350}
	rows := []struct {
		name string
		got  float64
		want float64
	}{
		{"2000", CIEDE2000(first, Lab{100, 426.67945353, 72.39590835}, 1, 1, 1), 94.03564903},
		{"2000", CIEDE2000(first, Lab{100, 74.05216981, 276.45318193}, 1, 1, 1), 14.87906419},
		{"2000 for textiles", CIEDE2000(first, Lab{50, 426.67945353, 72.39590835}, 2, 1, 1), 95.79205352},
		{"2000 for textiles", CIEDE2000(first, Lab{50, 74.05216981, 276.45318193}, 2, 1, 1), 23.55420943},
		{"94", CIE94(first, Lab{100, 426.67945353, 72.39590835}, GraphicArts), 83.7792255009},
		{"94 for textiles", CIE94(first, Lab{100, 426.67945353, 72.39590835}, Textiles), 88.3355530575},
		{"94", CIE94(first, Lab{100, 74.05216981, 276.45318193}, GraphicArts), 10.0539319546},
		{"94 for textiles", CIE94(first, Lab{100, 74.05216981, 276.45318193}, Textiles), 10.6126578900},
	}
	for _, r := range rows {
		if !near(r.got, r.want, 1e-7) {
			t.Errorf("%s: %v, want %v", r.name, r.got, r.want)
		}
	}
}

// By an independent implementation under npm, confirmed with a second one (d); XYZ
// to 0.0002, Lab to 0.02.
func TestFromSRGB(t *testing.T) {
	rows := []struct {
		hex     string
		x, y, z float64
		d65     Lab
		d50     Lab
	}{
		{"#ffffff", 0.95046, 1.00000, 1.08906, Lab{100, 0, 0}, Lab{100, 0, 0}},
		{"#808080", 0.20517, 0.21586, 0.23508, Lab{53.585, 0, 0}, Lab{53.585, 0, 0}},
		{"#ff0000", 0.41239, 0.21264, 0.01933, Lab{53.237, 80.090, 67.203}, Lab{54.291, 80.805, 69.891}},
		{"#00ff00", 0.35758, 0.71517, 0.11919, Lab{87.736, -86.182, 83.187}, Lab{87.819, -79.271, 80.995}},
		{"336699", 0.11866, 0.12506, 0.31927, Lab{42.009, -0.146, -32.845}, Lab{41.521, -4.573, -33.494}},
		{" #8B4513 ", 0.12893, 0.09793, 0.01827, Lab{37.468, 26.439, 40.984}, Lab{37.932, 28.075, 41.566}},
		{"#c8b28a", 0.44326, 0.45956, 0.30581, Lab{73.517, 1.895, 23.372}, Lab{73.745, 3.763, 23.565}},
	}
	for _, r := range rows {
		c, err := Hex(r.hex)
		if err != nil {
			t.Fatal(err)
		}
		v := c.XYZ()
		if !near(v.X, r.x, 2e-4) || !near(v.Y, r.y, 2e-4) || !near(v.Z, r.z, 2e-4) {
			t.Errorf("%s: %+v", r.hex, v)
		}
		if got := v.Lab(D65); CIE76(got, r.d65) > 0.02 {
			t.Errorf("%s: %+v under D65, want %+v", r.hex, got, r.d65)
		}
		if got := v.Adapted(D65, D50).Lab(D50); CIE76(got, r.d50) > 0.02 {
			t.Errorf("%s: %+v under D50, want %+v", r.hex, got, r.d50)
		}
	}
	for _, bad := range []string{"", "#12345", "#1234567", "#12345g", "rgb(1,2,3)", "\x10\x1112345", "#12 456"} {
		if _, err := Hex(bad); err == nil {
			t.Errorf("%q was taken for a colour", bad)
		}
	}
}

func anyLab(t *rapid.T, name string) Lab {
	axis := rapid.Float64Range(-120, 120)
	return Lab{rapid.Float64Range(0, 100).Draw(t, name+" L"), axis.Draw(t, name+" a"), axis.Draw(t, name+" b")}
}

func TestLawsOfDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := anyLab(t, "x"), anyLab(t, "y")
		for name, f := range map[string]func(x, y Lab) float64{
			"76": CIE76, "2000": func(x, y Lab) float64 { return CIEDE2000(x, y, 1, 1, 1) },
		} {
			there, back := f(x, y), f(y, x)
			if !near(there, back, 1e-9) || there < 0 || math.IsNaN(there) {
				t.Fatalf("%s of %v and %v: %v one way, %v the other", name, x, y, there, back)
			}
			if on := f(x, x); on != 0 {
				t.Fatalf("%s of %v on itself: %v", name, x, on)
			}
		}
		if on := CIE94(x, x, Textiles); on != 0 {
			t.Fatalf("94 of %v on itself: %v", x, on)
		}
		p := PartsOf(x, y)
		if whole := math.Sqrt(p.L*p.L + p.C*p.C + p.H*p.H); !near(whole, CIE76(x, y), 1e-9) {
			t.Fatalf("the parts of %v and %v come to %v, the whole is %v", x, y, whole, CIE76(x, y))
		}
	})
}

func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.IntRange(0, 255)
		c := RGB{float64(part.Draw(t, "r")) / 255, float64(part.Draw(t, "g")) / 255, float64(part.Draw(t, "b")) / 255}
		if back, err := Hex(c.Hex()); err != nil || back != c {
			t.Fatalf("%v as hex is %v (%v)", c, back, err)
		}
		for _, white := range []XYZ{D65, D50} {
			lab := c.XYZ().Adapted(D65, white).Lab(white)
			back, err := lab.XYZ(white).Adapted(white, D65).RGB()
			if err != nil || math.Abs(back.R-c.R)+math.Abs(back.G-c.G)+math.Abs(back.B-c.B) > 1e-9 {
				t.Fatalf("%v goes to %v and back to %v (%v)", c, lab, back, err)
			}
		}
	})
	if _, err := (Lab{60, 100, -100}).XYZ(D65).RGB(); err != ErrGamut {
		t.Errorf("a colour outside of sRGB: %v", err)
	}
}

// (d) by hand: L 50, 51, 52 have the mean 51, the deviation 1 and, with t 4.303 for
// two degrees of freedom, a half width of 2.484.
func TestRepeated(t *testing.T) {
	s := Repeated([]Lab{{50, 1, 2}, {51, 1, 2}, {52, 1, 2}})
	if s.N != 3 || s.Mean != (Lab{51, 1, 2}) || !near(s.SD.L, 1, 1e-12) || s.SD.A != 0 || !near(s.Half.L, 4.303/math.Sqrt(3), 1e-9) || !near(s.MCDM, 2.0/3, 1e-12) {
		t.Errorf("%+v", s)
	}
	if one := Repeated([]Lab{{50, 1, 2}}); one.SD != (Lab{}) || one.Half != (Lab{}) || one.Mean != (Lab{50, 1, 2}) {
		t.Errorf("%+v", one)
	}
	for df := 1; df < 200; df++ {
		if student95(df) <= student95(df+1) {
			t.Errorf("t of %d is %v, of %d %v", df, student95(df), df+1, student95(df+1))
		}
	}
	if !near(student95(60), 2.000, 0.005) || !near(student95(120), 1.980, 0.005) {
		t.Errorf("t of 60 and 120: %v, %v", student95(60), student95(120))
	}
}
