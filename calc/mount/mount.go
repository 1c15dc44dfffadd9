// Package mount reckons the parts of a padded mount: board, cloths and turn-overs,
// what it weighs and what holds it. Lengths are in millimetres, masses in grams.
package mount

import "math"

// Board returns one side of the board: the textile's with a margin at either end.
func Board(textile, before, behind float64) float64 { return textile + before + behind }

// Wrap returns by how much a cover cloth is larger than the board at each edge:
// over the padding's loft, over the board's edge, and on over its back.
func Wrap(loft, thickness, turnOver float64) float64 { return loft + thickness + turnOver }

// InPlane returns the share of its weight that a textile bears along a board which
// leans by so many degrees from the level: the sine.
func InPlane(degrees float64) float64 { return math.Sin(degrees * math.Pi / 180) }

// Layer is one layer of a mount: its size, and its mass by area, or its thickness
// and density.
type Layer struct {
	Width, Height float64 // mm
	PerArea       float64 // g/m²; 0 where thickness and density are given
	Thickness     float64 // mm
	Density       float64 // g/mL
}

// Mass returns the mass of a layer, g.
func (l Layer) Mass() float64 {
	perArea := l.PerArea
	if perArea == 0 {
		perArea = l.Thickness * l.Density * 1000 // a millimetre of 1 g/mL is a kilogram on a square metre
	}
	return l.Width * l.Height / 1e6 * perArea
}

// Densities of glazing, g/mL: handbook values, from memory.
const (
	Glass   = 2.5
	Acrylic = 1.19
)

// Hanging returns the load that each of so many fixings must bear, g, when all of
// the mass hangs on them with a safety factor and one of them may fail: the others
// then bear it. With a single fixing there is no other.
func Hanging(mass, factor float64, fixings int) float64 {
	return mass * factor / float64(max(fixings-1, 1))
}
