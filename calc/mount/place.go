package mount

import "math"

// Point is a place on the board, mm from its left and its upper edge.
type Point struct{ X, Y float64 }

// Placed puts the corners of an outline on a board: turned so that the two sides
// across lean as little as they can, one to the left and the other to the right,
// and centred by the room that they take. Corners go round from the upper left;
// they may be in any place and turned by less than a quarter.
func Placed(corners [4]Point, width, height float64) [4]Point {
	top, bottom := angle(corners[0], corners[1]), angle(corners[3], corners[2])
	turn := -(top + bottom) / 2
	sin, cos := math.Sincos(turn)
	var out [4]Point
	for i, c := range corners {
		out[i] = Point{float64(cos*c.X) - float64(sin*c.Y), float64(sin*c.X) + float64(cos*c.Y)}
	}
	least, most := ends(out)
	dx, dy := (width-least.X-most.X)/2, (height-least.Y-most.Y)/2
	for i := range out {
		out[i].X += dx
		out[i].Y += dy
	}
	return out
}

// ends are the least and the most that any corner has, across and down.
func ends(corners [4]Point) (least, most Point) {
	least, most = corners[0], corners[0]
	for _, c := range corners {
		least = Point{min(least.X, c.X), min(least.Y, c.Y)}
		most = Point{max(most.X, c.X), max(most.Y, c.Y)}
	}
	return least, most
}

// Needs returns how wide and how high a board is at the least that takes the outline
// as it lies.
func Needs(corners [4]Point) (width, height float64) {
	least, most := ends(corners)
	return most.X - least.X, most.Y - least.Y
}

func angle(from, to Point) float64 { return math.Atan2(to.Y-from.Y, to.X-from.X) }

// besideCorner is how near to a corner a mark would only be a second mark of the
// corner, mm.
const besideCorner = 2

// Between returns points on the straight line from one corner to the next, at a
// spacing from the first, the corners and what would lie beside the second left
// out.
func Between(from, to Point, spacing float64) []Point {
	length := math.Hypot(to.X-from.X, to.Y-from.Y)
	var out []Point
	for d := spacing; d < length-besideCorner; d += spacing {
		share := d / length
		out = append(out, Point{from.X + float64(share*(to.X-from.X)), from.Y + float64(share*(to.Y-from.Y))})
	}
	return out
}

// Room returns how far the outline stays from the edges of the board at the least;
// below nought where it reaches over one.
func Room(corners [4]Point, width, height float64) float64 {
	least := math.Inf(1)
	for _, c := range corners {
		least = min(least, c.X, c.Y, width-c.X, height-c.Y)
	}
	return least
}
