package outline

// Gap is three of six measures that do not meet in a corner: Longest is longer than
// the two others together, which come to Most.
type Gap struct {
	Longest, One, Other int // places in Measures
	Most                float64
}

// triangles are the four that sides and diagonals make.
var triangles = [4][3]int{{0, 1, 4}, {2, 3, 4}, {0, 3, 5}, {1, 2, 5}}

// Widest finds the three measures that miss each other by most, where any do. One
// of them is misread, not always the longest.
func Widest(m Measures) (Gap, bool) {
	var widest Gap
	found, by := false, 0.0
	for _, t := range triangles {
		for i, at := range t {
			one, other := t[(i+1)%3], t[(i+2)%3]
			if over := m[at] - (m[one] + m[other]); over > by {
				widest, found, by = Gap{at, one, other, m[one] + m[other]}, true, over
			}
		}
	}
	return widest, found
}

// String says what is wrong, without the figures.
func (g Gap) String() string {
	return Names[g.Longest] + " is longer than " + Names[g.One] + " and " + Names[g.Other] + " together, so that the three do not meet: one of them is misread."
}
