package outline

import (
	"math"
	"strconv"
)

// Suspect is one measure that, read otherwise, would make all six agree. With six
// measures there is one check alone, so each of the six can be the one; what tells
// them apart is whether the slip would be one that people make.
type Suspect struct {
	At     int     // which of the six
	Read   float64 // mm, as it was given
	Should float64 // mm, by the other five
	Slip   string  // the slip that people make which explains it; empty for none

	// Tells is how far Should may be off when each of the six is: the root of the
	// sum of squares, since errors of reading are independent. Most is the same when
	// all of them go the worst way.
	Tells, Most float64 // mm
}

// Suspects returns every measure that could be misread, those with a slip that
// people make first. off is how far a right reading may be off, mm; inches says that
// they were read from a tape in inches, on which people slip otherwise.
func Suspects(m Measures, off float64, inches bool) []Suspect {
	tape := metric
	if inches {
		tape = imperial
	}
	var slips, others []Suspect
	for i := range m {
		should, ok := byOthers(m, i)
		if !ok {
			continue
		}
		s := Suspect{At: i, Read: m[i], Should: should}
		s.Tells, s.Most = carried(m, i, should, off)
		s.Slip = tape.slip(m[i], should, s.Tells)
		if s.Slip != "" {
			slips = append(slips, s)
		} else {
			others = append(others, s)
		}
	}
	return append(slips, others...)
}

// carried is what errors of reading of so much make of a measure reckoned by the
// other five, its own error among them.
func carried(m Measures, i int, should, off float64) (likely, most float64) {
	squares, sum := 1.0, 1.0
	for j := range m {
		if j == i {
			continue
		}
		const step = 0.01 // mm: small against any textile, large against rounding
		n := m
		n[j] += step
		moved, ok := byOthers(n, i)
		if !ok {
			n[j] = m[j] - step
			if moved, ok = byOthers(n, i); !ok {
				continue
			}
		}
		by := math.Abs(moved-should) / step
		squares += float64(by * by)
		sum += by
	}
	return off * math.Sqrt(squares), off * sum
}

// Disagreement returns by how much one measure alone would have to be read
// otherwise, at the least, for all six to agree, and by how much that may be when
// each is off by so much; false where no five of them close to an outline.
func Disagreement(m Measures, off float64) (by, may float64, ok bool) {
	for _, s := range Suspects(m, off, false) {
		if d := math.Abs(s.Read - s.Should); !ok || d < by {
			by, may, ok = d, s.Most, true
		}
	}
	return by, may, ok
}

// byOthers is the length of one measure by the other five; false where they close
// to no outline.
func byOthers(m Measures, i int) (float64, bool) {
	if i >= 4 {
		// A diagonal: by the triangles on both sides of the other one.
		side := func(other, p1, q1, p2, q2 float64) (float64, bool) {
			a, ok1 := exact(other, p1, q1)
			c, ok2 := exact(other, p2, q2)
			return distance(a, Point{c.X, -c.Y}), ok1 && ok2
		}
		if i == 4 { // AC across BD: A by AB, AD; C by BC, CD
			return side(m[5], m[0], m[3], m[1], m[2])
		}
		return side(m[4], m[0], m[1], m[3], m[2]) // BD across AC: B by AB, BC; D by DA, CD
	}
	// A side: turn the outline until it is AB. D stands by DA, CD on AC; B by BC and BD.
	for range i {
		m = Measures{m[1], m[2], m[3], m[0], m[5], m[4]}
	}
	b, c, d, p, q := m[1], m[2], m[3], m[4], m[5]
	top, ok := exact(p, d, c) // D over AC, A at the origin, C at (p, 0)
	if !ok {
		return 0, false
	}
	// B lies on the circle of C by b and of D by q, on the other side of AC than D.
	base := distance(Point{p, 0}, top)
	at, ok := exact(base, b, q)
	if !ok {
		return 0, false
	}
	ux, uy := (top.X-p)/base, top.Y/base // from C to D
	for _, side := range []float64{1, -1} {
		corner := Point{p + float64(ux*at.X) - float64(side*uy*at.Y), float64(uy*at.X) + float64(side*ux*at.Y)}
		if corner.Y < 0 {
			return math.Hypot(corner.X, corner.Y), true
		}
	}
	return 0, false
}

// exact is the corner over a base, as apex, where the triangle closes.
func exact(base, p, q float64) (Point, bool) {
	if base <= 0 || base > p+q || p > base+q || q > base+p {
		return Point{}, false
	}
	x := (float64(base*base) + float64(p*p) - float64(q*q)) / (2 * base)
	return Point{x, math.Sqrt(max(float64(p*p)-float64(x*x), 0))}, true
}

// tape is what people slip by on one.
type tape struct {
	rounds []round
	scales []float64 // mm: of the units in whose whole numbers a length is written down
}

type round struct {
	mm   float64
	name string
}

var (
	metric   = tape{[]round{{10, "1 cm"}, {50, "5 cm"}, {100, "10 cm"}, {200, "20 cm"}, {500, "half a metre"}, {1000, "a metre"}}, []float64{1, 10}}
	imperial = tape{[]round{{25.4, "an inch"}, {127, "5 inches"}, {254, "10 inches"}, {304.8, "a foot"}, {609.6, "2 feet"}, {914.4, "a yard"}}, []float64{25.4, 2.54}}
)

// slip names the slip of the eye or the pencil by which should was read as read: a
// round length too much or too little, two neighbouring digits in the wrong order, or
// inches taken for centimetres. Each is common practice to look for; no source counts
// them.
func (t tape) slip(read, should, off float64) string {
	by := read - should
	for _, r := range t.rounds {
		if math.Abs(math.Abs(by)-r.mm) <= off {
			if by > 0 {
				return r.name + " too much"
			}
			return r.name + " too little"
		}
	}
	if math.Abs(by) <= 2*off {
		return ""
	}
	for _, scale := range t.scales {
		if s := swapped(math.Round(read/scale), should/scale, off/scale+0.5); s != "" {
			return s
		}
	}
	if math.Abs(read-float64(should*2.54)) <= off*2.54 || math.Abs(float64(read*2.54)-should) <= off*2.54 {
		return "inches and centimetres mixed up"
	}
	return ""
}

// swapped looks for two neighbouring digits of a number that, changed over, make
// it the other number.
func swapped(read, should, off float64) string {
	digits := []byte(strconv.FormatFloat(read, 'f', 0, 64))
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] || i == 0 && digits[1] == '0' {
			continue
		}
		digits[i], digits[i+1] = digits[i+1], digits[i]
		x, _ := strconv.ParseFloat(string(digits), 64)
		digits[i], digits[i+1] = digits[i+1], digits[i]
		if math.Abs(x-should) <= off {
			return "two digits in the wrong order"
		}
	}
	return ""
}
