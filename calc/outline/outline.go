// Package outline finds the shape of a four-sided textile from its four sides and
// two diagonals. Five of the six measures fix it; the sixth is a check, and where
// it does not agree one of them was misread or the piece does not lie flat.
//
// Corners go round: A, B, C, D, with the sides AB, BC, CD, DA and the diagonals AC
// and BD. Lengths are in millimetres, areas in square millimetres, angles in
// degrees. Geometry; the area's formula after Bretschneider serves as a check in
// the tests.
package outline

import (
	"errors"
	"math"
)

// Measures are the six lengths: AB, BC, CD, DA, AC, BD.
type Measures [6]float64

// Names of the six, in their order.
var Names = [6]string{"AB", "BC", "CD", "DA", "AC", "BD"}

// ends are the corners that each measure lies between.
var ends = [6][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}}

// Point is a place in the plane, mm.
type Point struct{ X, Y float64 }

// Shape is an outline that was found: A at the origin, AB along x, C and D at
// positive y.
type Shape struct{ Corners [4]Point }

var (
	// ErrNoShape is returned where no outline has these measures, not nearly.
	ErrNoShape = errors.New("no outline has these measures: one of them is longer than the way round by the others")
	// ErrBent is returned where the outline would be dented or cross itself.
	ErrBent = errors.New("these measures make a dented or crossed outline, for which the diagonals do not cross inside")
)

func distance(p, q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Measures returns the six lengths of a shape.
func (s Shape) Measures() (m Measures) {
	for i, e := range ends {
		m[i] = distance(s.Corners[e[0]], s.Corners[e[1]])
	}
	return m
}

// Area is the area of the shape.
func (s Shape) Area() float64 {
	sum := 0.0
	for i, p := range s.Corners {
		q := s.Corners[(i+1)%4]
		sum += float64(p.X*q.Y) - float64(q.X*p.Y)
	}
	return sum / 2
}

// Angles are the inner angles at A, B, C and D.
func (s Shape) Angles() (out [4]float64) {
	for i, p := range s.Corners {
		next, last := s.Corners[(i+1)%4], s.Corners[(i+3)%4]
		ux, uy, vx, vy := next.X-p.X, next.Y-p.Y, last.X-p.X, last.Y-p.Y
		out[i] = math.Atan2(float64(ux*vy)-float64(uy*vx), float64(ux*vx)+float64(uy*vy)) * 180 / math.Pi
	}
	return out
}

// convex reports whether all inner angles are clearly below a straight one.
func (s Shape) convex() bool {
	for _, a := range s.Angles() {
		if !(a > 0.5 && a < 179.5) {
			return false
		}
	}
	return true
}

// Fitted is the outline that fits six measures best.
type Fitted struct {
	Shape
	Left  Measures // measured less fitted, mm
	Worst float64  // the largest of these, without its sign
	Off   float64  // the root of the sum of their squares: how far the six are from any outline
}

// Fit finds the outline whose six lengths come nearest to the measures by least
// squares, all measures counting alike.
func Fit(m Measures) (Fitted, error) {
	f, ok := nearest(m)
	switch {
	case !ok:
		return Fitted{}, ErrNoShape
	case !f.convex():
		return Fitted{}, ErrBent
	}
	return f, nil
}

// nearest is the shape that comes nearest to the measures, be it dented; false where
// there is none.
func nearest(m Measures) (Fitted, bool) {
	s, ok := start(m)
	if !ok {
		return Fitted{}, false
	}
	for range 60 {
		step := gauss(s, m)
		s = moved(s, step)
		if size(step) < 1e-10*m[0] {
			break
		}
	}
	f := Fitted{Shape: s}
	got := s.Measures()
	sum := 0.0
	for i := range m {
		f.Left[i] = m[i] - got[i]
		f.Worst = max(f.Worst, math.Abs(f.Left[i]))
		sum += float64(f.Left[i] * f.Left[i])
	}
	f.Off = math.Sqrt(sum)
	return f, !math.IsNaN(f.Off) && !math.IsInf(f.Off, 0)
}

// Spread returns how far each angle, in degrees, and the area may be off when each
// of the six measures is off by so much the worst way, to the first order.
func Spread(m Measures, f Fitted, off float64) (angles [4]float64, area float64) {
	for i := range m {
		const step = 0.01 // mm
		n := m
		n[i] += step
		moved, err := Fit(n)
		if err != nil { // at the edge of what is an outline, to its inside
			n[i] = m[i] - step
			if moved, err = Fit(n); err != nil {
				continue
			}
		}
		was, is := f.Angles(), moved.Angles()
		for k := range angles {
			angles[k] += float64(math.Abs(is[k]-was[k]) / step * off)
		}
		area += float64(math.Abs(moved.Area()-f.Area()) / step * off)
	}
	return angles, area
}

// start puts the corners by AB, then D by AD and BD, then C by AC and BC; where a
// triangle does not close, as nearly as it does.
func start(m Measures) (Shape, bool) {
	b := Point{m[0], 0}
	d, ok1 := apex(m[0], m[3], m[5])
	c, ok2 := apex(m[0], m[4], m[1])
	return Shape{[4]Point{{}, b, c, d}}, ok1 && ok2
}

// apex is the corner at distance p from the origin and q from (base, 0), at
// positive y. It gives up where the triangle is open by more than a tenth.
func apex(base, p, q float64) (Point, bool) {
	x := (float64(base*base) + float64(p*p) - float64(q*q)) / (2 * base)
	y2 := float64(p*p) - float64(x*x)
	if open := base - p - q; open > base/10 || p-base-q > p/10 || q-base-p > q/10 {
		return Point{}, false
	}
	return Point{x, math.Sqrt(max(y2, float64(p*p)/1e4))}, true
}

// The unknowns: x of B, x and y of C, x and y of D.
const unknowns = 5

func moved(s Shape, v [unknowns]float64) Shape {
	s.Corners[1].X += v[0]
	s.Corners[2].X += v[1]
	s.Corners[2].Y += v[2]
	s.Corners[3].X += v[3]
	s.Corners[3].Y += v[4]
	return s
}

func size(v [unknowns]float64) (most float64) {
	for _, x := range v {
		most = max(most, math.Abs(x))
	}
	return most
}

// place of a corner's x among the unknowns; its y is the next. -1: not free.
var place = [4][2]int{{-1, -1}, {0, -1}, {1, 2}, {3, 4}}

// gauss is one step of Gauss and Newton: the normal equations of the six lengths.
func gauss(s Shape, m Measures) [unknowns]float64 {
	var a [unknowns][unknowns + 1]float64
	for k, e := range ends {
		p, q := s.Corners[e[0]], s.Corners[e[1]]
		d := max(distance(p, q), 1e-9)
		var row [unknowns]float64
		put := func(at int, x float64) {
			if at >= 0 {
				row[at] += x
			}
		}
		put(place[e[0]][0], (p.X-q.X)/d)
		put(place[e[0]][1], (p.Y-q.Y)/d)
		put(place[e[1]][0], (q.X-p.X)/d)
		put(place[e[1]][1], (q.Y-p.Y)/d)
		for i := range row {
			for j := range row {
				a[i][j] += float64(row[i] * row[j])
			}
			a[i][unknowns] += float64(row[i] * (m[k] - d))
		}
	}
	return solve(a)
}

// solve is Gauss's elimination with the largest pivot; zeros where it is singular.
func solve(a [unknowns][unknowns + 1]float64) (x [unknowns]float64) {
	for i := range a {
		best := i
		for j := i + 1; j < unknowns; j++ {
			if math.Abs(a[j][i]) > math.Abs(a[best][i]) {
				best = j
			}
		}
		a[i], a[best] = a[best], a[i]
		if math.Abs(a[i][i]) < 1e-12 {
			return [unknowns]float64{}
		}
		for j := i + 1; j < unknowns; j++ {
			f := a[j][i] / a[i][i]
			for k := i; k <= unknowns; k++ {
				a[j][k] -= float64(f * a[i][k])
			}
		}
	}
	for i := unknowns - 1; i >= 0; i-- {
		sum := a[i][unknowns]
		for k := i + 1; k < unknowns; k++ {
			sum -= float64(a[i][k] * x[k])
		}
		x[i] = sum / a[i][i]
	}
	return x
}
