package outline

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// D-02 (d): with lengths to 0.1 mm the area is good to 0.5 cm², the angles to 0.05°.
func TestPublishedOutlines(t *testing.T) {
	rows := []struct {
		name   string
		m      Measures
		area   float64 // cm²
		angles [4]float64
	}{
		{"rectangle", Measures{1200, 800, 1200, 800, 1442.2, 1442.2}, 9600, [4]float64{90, 90, 90, 90}},
		{"leaning", Measures{1000, 701.1, 1000, 701.1, 1253.6, 1188.1}, 7000, [4]float64{86.73, 93.27, 86.73, 93.27}},
		{"general", Measures{1180.1, 778.1, 1203.1, 805.0, 1432.5, 1428.4}, 9430.8, [4]float64{89.99, 91.69, 89.61, 88.72}},
	}
	for _, r := range rows {
		f, err := Fit(r.m)
		if err != nil {
			t.Fatal(r.name, err)
		}
		if !near(f.Area()/100, r.area, 0.5) {
			t.Errorf("%s: %v cm², want %v", r.name, f.Area()/100, r.area)
		}
		for i, a := range f.Angles() {
			if !near(a, r.angles[i], 0.05) {
				t.Errorf("%s: angle %d is %v, want %v", r.name, i, a, r.angles[i])
			}
		}
		if f.Worst > 0.06 {
			t.Errorf("%s: off by %v mm", r.name, f.Worst)
		}
		// Bretschneider's formula, the form from memory.
		a, b, c, d, p, q := r.m[0], r.m[1], r.m[2], r.m[3], r.m[4], r.m[5]
		diff := a*a - b*b + c*c - d*d
		if k := math.Sqrt(4*p*p*q*q-diff*diff) / 4; !near(k, f.Area(), 60) {
			t.Errorf("%s: %v by the formula, %v by the corners", r.name, k, f.Area())
		}
	}
	// The lean of a parallelogram (D-02).
	f, _ := Fit(rows[1].m)
	if cos := math.Cos(f.Angles()[0] * math.Pi / 180); !near(cos, 0.05705, 2e-4) {
		t.Errorf("lean %v", cos)
	}
}

// anyShape draws an outline that is roughly a rectangle.
func anyShape(t *rapid.T) Shape {
	w, h := rapid.Float64Range(50, 3000).Draw(t, "width"), rapid.Float64Range(50, 3000).Draw(t, "height")
	off := rapid.Float64Range(-0.2, 0.2)
	by := func(name string, of float64) float64 { return of * off.Draw(t, name) }
	return Shape{[4]Point{{}, {w, 0}, {w + by("cx", w), h + by("cy", h)}, {by("dx", w), h + by("dy", h)}}}
}

func TestAnOutlineReproducesItsOwnMeasures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShape(t)
		m := s.Measures()
		f, err := Fit(m)
		if err != nil {
			t.Fatalf("%v: %v", s, err)
		}
		if f.Off > 1e-5 || !near(f.Area(), s.Area(), 1e-4*s.Area()) {
			t.Fatalf("%v: off by %v, area %v of %v", s, f.Off, f.Area(), s.Area())
		}
		sum := 0.0
		for _, a := range f.Angles() {
			sum += a
		}
		if !near(sum, 360, 1e-9) {
			t.Fatalf("angles come to %v", sum)
		}
		// Where one begins to go round changes nothing.
		turned, err := Fit(Measures{m[1], m[2], m[3], m[0], m[5], m[4]})
		if err != nil || !near(turned.Area(), f.Area(), 1e-6*f.Area()) {
			t.Fatalf("turned: %v (%v), area %v", turned, err, f.Area())
		}
		for i := range m {
			if should, ok := byOthers(m, i); !ok || !near(should, m[i], 1e-5*m[i]+1e-6) {
				t.Fatalf("%v: %s is %v, by the others %v, %v", m, Names[i], m[i], should, ok)
			}
		}
	})
}

func TestAMisreadingIsAmongTheSuspectsWithItsSlip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyShape(t).Measures()
		at := rapid.IntRange(0, 5).Draw(t, "at")
		was := m[at]
		m[at] += rapid.SampledFrom([]float64{-100, -10, 10, 100}).Draw(t, "slip")
		if m[at] < 20 {
			return
		}
		for _, s := range Suspects(m, 1, false) {
			if s.At == at {
				if !near(s.Should, was, 1e-4) || s.Slip == "" {
					t.Fatalf("%v: %+v, it was %v", m, s, was)
				}
				return
			}
		}
		t.Fatalf("%v: %s is not among %+v", m, Names[at], Suspects(m, 1, false))
	})
}

// With readings that are off, each by up to 1 mm, a slip of 100 mm is still among
// those that are explained, and what the six disagree by is more than errors of
// reading make; honest readings are never said to disagree by more than those may.
func TestSlipsShowThroughErrorsOfReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShape(t)
		m := s.Measures()
		if min(m[0], m[1], m[2], m[3]) < 300 {
			return
		}
		const off = 1.0
		for i := range m {
			m[i] += rapid.Float64Range(-off, off).Draw(t, "error")
		}
		if by, may, ok := Disagreement(m, off); !ok || by > may*1.01+1e-6 {
			t.Fatalf("honest readings %v disagree by %v, and may by %v", m, by, may)
		}
		at := rapid.IntRange(0, 5).Draw(t, "at")
		m[at] += rapid.SampledFrom([]float64{-100, 100}).Draw(t, "slip")
		for _, q := range Suspects(m, off, false) {
			if q.At == at {
				if math.Abs(math.Abs(q.Read-q.Should)-100) > q.Most*1.2 {
					t.Fatalf("%s: %+v", Names[at], q)
				}
				return
			}
		}
		t.Fatalf("%s is not among %+v", Names[at], Suspects(m, off, false))
	})
}

func TestSlips(t *testing.T) {
	rows := []struct {
		read, should float64
		want         string
	}{
		{1230, 1220.3, "1 cm too much"}, {1200, 1300.4, "10 cm too little"}, {812, 820.6, "two digits in the wrong order"}, {1450, 1540, "two digits in the wrong order"},
		{500, 1270, "inches and centimetres mixed up"}, {1203, 1200, ""}, {900, 912, ""},
	}
	for _, r := range rows {
		if got := metric.slip(r.read, r.should, 1); got != r.want {
			t.Errorf("%v read of %v: %q, want %q", r.read, r.should, got, r.want)
		}
	}
	const inch = 25.4
	for _, r := range []struct {
		read, should float64 // in
		want         string
	}{{47, 46, "an inch too much"}, {34, 46, "a foot too little"}, {64, 46, "two digits in the wrong order"}, {46.5, 45.6, "two digits in the wrong order"}, {46, 18.11, "inches and centimetres mixed up"}, {46, 45.5, ""}} {
		if got := imperial.slip(r.read*inch, r.should*inch, 1); got != r.want {
			t.Errorf("%v in read of %v: %q, want %q", r.read, r.should, got, r.want)
		}
	}
}

func TestWhatIsNoOutline(t *testing.T) {
	for name, m := range map[string]Measures{
		"a diagonal as long as the house": {1200, 800, 1200, 800, 9000, 1442},
		"a side too short":                {100, 800, 1200, 800, 1442, 1442},
	} {
		if f, err := Fit(m); err == nil && f.Worst < 50 {
			t.Errorf("%s: %+v", name, f)
		}
	}
	// A dart: D lies inside of the triangle ABC.
	dart := Shape{[4]Point{{}, {1000, 0}, {500, 900}, {500, 200}}}
	if _, err := Fit(dart.Measures()); !errors.Is(err, ErrBent) && !errors.Is(err, ErrNoShape) {
		t.Errorf("a dented outline: %v", err)
	}
	if !strings.Contains(ErrBent.Error(), "dented") {
		t.Error(ErrBent)
	}
}

func FuzzFit(f *testing.F) {
	f.Add(1200.0, 800.0, 1200.0, 800.0, 1442.2, 1442.2)
	f.Add(1.0, 1.0, 1.0, 1.0, 1.0, 1.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, p, q float64) {
		m := Measures{a, b, c, d, p, q}
		for _, x := range m {
			if !(x >= 1 && x <= 50000) {
				return
			}
		}
		got, err := Fit(m)
		if err != nil {
			return
		}
		if !(got.Area() > 0) || math.IsInf(got.Area(), 0) || math.IsNaN(got.Off) || !got.convex() {
			t.Fatalf("%v: %+v", m, got)
		}
		for _, s := range Suspects(m, 1, false) {
			if math.IsNaN(s.Should) || math.IsInf(s.Should, 0) {
				t.Fatalf("%v: %+v", m, s)
			}
		}
	})
}

func TestWhichMeasuresDoNotMeet(t *testing.T) {
	m := Measures{1200, 800, 1200, 800, 1442, 1442}
	if g, found := Widest(m); found {
		t.Errorf("%+v of a rectangle", g)
	}
	m[4] = 9000
	if g, found := Widest(m); !found || Names[g.Longest] != "AC" || g.Most != 2000 {
		t.Errorf("%+v", g)
	}
	m[4], m[1] = 1442, 80 // BC, with a nought lost: AC is then too long for AB and BC, BD for CD and BC
	if g, found := Widest(m); !found || !strings.Contains(g.String(), "BC") {
		t.Errorf("%v", g)
	}
}

// A dented outline is laid on a measure, whatever the dent: (d), corners chosen and
// measured by their coordinates.
func TestADentIsLaidOnAMeasure(t *testing.T) {
	dart := Shape{[4]Point{{}, {1000, 0}, {500, 900}, {500, 200}}}.Measures()
	if w := Blame(dart); w.Should <= 0 || !strings.Contains(w.Say, Names[w.At]+" would have to change least") {
		t.Errorf("%+v", w)
	}
	// A rectangle whose diagonal BD was written much too short. Either diagonal would mend
	// it: the squares of both come to those of the four sides, 2 (1200² + 800²), and AC
	// would have to change by less than BD.
	m := Measures{1200, 800, 1200, 800, math.Hypot(1200, 800), 500}
	if _, err := Fit(m); !errors.Is(err, ErrBent) {
		t.Fatalf("%v: %v", m, err)
	}
	if w := Blame(m); Names[w.At] != "AC" || !near(w.Should, math.Sqrt(2*(1200*1200+800*800)-500*500), 1e-6) || !strings.Contains(w.Say, "would do it as well: BD.") {
		t.Errorf("%+v", w)
	}
	rapid.Check(t, func(t *rapid.T) {
		var m Measures
		for i := range m {
			m[i] = rapid.Float64Range(10, 2000).Draw(t, Names[i])
		}
		if _, err := Fit(m); err == nil {
			return
		}
		w := Blame(m)
		if w.At < 0 || w.At > 5 || !strings.Contains(w.Say, Names[w.At]) || w.Most < 0 || w.Should < 0 || math.IsNaN(w.Should) {
			t.Fatalf("%v: %+v", m, w)
		}
		if w.Should > 0 {
			m[w.At] = w.Should
			if _, err := Fit(m); err != nil {
				t.Fatalf("%v with %s read as %v: %v", m, Names[w.At], w.Should, err)
			}
		}
	})
}

// Whatever six readings are off by, each within its error, angles and area stay within
// what is said of them; a hundredth is left for what is not to the first order.
func TestSpreadHoldsWhatErrorsOfReadingMake(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyShape(t).Measures()
		if min(m[0], m[1], m[2], m[3]) < 300 {
			return
		}
		f, err := Fit(m)
		if err != nil {
			t.Fatal(err)
		}
		const off = 1.0
		angles, area := Spread(m, f, off)
		for i := range m {
			m[i] += rapid.Float64Range(-off, off).Draw(t, Names[i])
		}
		g, err := Fit(m)
		if err != nil {
			t.Fatal(err)
		}
		was, is := f.Angles(), g.Angles()
		for i := range is {
			if math.Abs(is[i]-was[i]) > angles[i]*1.01+0.01 {
				t.Fatalf("%c moved from %v to %v, and may by %v", "ABCD"[i], was[i], is[i], angles[i])
			}
		}
		if math.Abs(g.Area()-f.Area()) > area*1.01 {
			t.Fatalf("the area moved from %v to %v, and may by %v", f.Area(), g.Area(), area)
		}
	})
}
