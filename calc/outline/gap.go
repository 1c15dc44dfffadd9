package outline

import "math"

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

// Why is why six measures make no outline, by the one that is most at odds with the
// others.
type Why struct {
	At     int     // which of the six
	Most   float64 // mm, that it may be by the two that it meets; 0 where that is not it
	Should float64 // mm, that it would be by the other five; 0 where they do not say
	Say    string  // without figures
}

// Blame finds the measure to look at first where [Fit] finds no outline: the longest of
// three that do not meet; else, of those that alone would mend it if they were read
// otherwise, the one that would have to change least; else the one that the nearest
// outline, dented or crossed, misses by most.
func Blame(m Measures) Why {
	if g, found := Widest(m); found {
		return Why{At: g.Longest, Most: g.Most, Say: g.String()}
	}
	const bent = "By these measures the outline would be dented, or its sides would cross. "
	at := -1
	var should [6]float64 // of those that mend it; 0 of the others
	for i := range m {
		x, ok := mends(m, i)
		if !ok {
			continue
		}
		should[i] = x
		if at < 0 || math.Abs(m[i]-x) < math.Abs(m[at]-should[at]) {
			at = i
		}
	}
	if at < 0 {
		f, _ := nearest(m)
		at = f.farthest()
		return Why{At: at, Say: bent + "No single measure read otherwise mends it; " + Names[at] + " lies farthest from what the others make. Measure all six again. A textile that is dented is measured in two parts."}
	}
	others := ""
	for i, x := range should {
		if x > 0 && i != at {
			if others != "" {
				others += ", "
			}
			others += Names[i]
		}
	}
	why := Why{At: at, Should: should[at]}
	why.Say = bent + Names[at] + " would have to change least to mend it"
	if others != "" {
		why.Say += "; read otherwise, one of these alone would do it as well: " + others
	}
	why.Say += ". Measure again. A textile that is dented is measured in two parts."
	return why
}

// mends is what one measure would be by the other five, where with that they make an
// outline.
func mends(m Measures, i int) (float64, bool) {
	should, ok := byOthers(m, i)
	if !ok || should <= 0 {
		return 0, false
	}
	m[i] = should
	_, err := Fit(m)
	return should, err == nil
}

// farthest is the measure that a fit misses by most.
func (f Fitted) farthest() int {
	at := 0
	for i, left := range f.Left {
		if math.Abs(left) > math.Abs(f.Left[at]) {
			at = i
		}
	}
	return at
}
