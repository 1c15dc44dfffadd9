// Package effort adds up the hours of work that a log holds and foretells those
// of new work from them: the median of what the same kind of step took before,
// with the middle half of those as its spread. Hours are in h, areas in m².
//
// No source: medians and quartiles are textbook statistics; that they are a fair
// guess of a new treatment is the conservator's to judge.
package effort

import (
	"errors"
	"slices"
	"strings"
)

// Done is one step that was done.
type Done struct {
	Step   string  // its kind, in the words of the log
	Object string  // what kind of object it was done to; empty where it is not known
	Area   float64 // of the object, m²; 0 where it is not known
	Hours  float64
}

// Sum is what one kind of step came to.
type Sum struct {
	Step  string
	Times int
	Hours float64
}

// Sums adds up by kind of step, in the order in which each comes first. Two
// spellings that differ in letter case or space alone are one kind.
func Sums(done []Done) []Sum {
	var out []Sum
	for _, d := range done {
		i := slices.IndexFunc(out, func(s Sum) bool { return Same(s.Step, d.Step) })
		if i < 0 {
			i = len(out)
			out = append(out, Sum{Step: d.Step})
		}
		out[i].Times++
		out[i].Hours += d.Hours
	}
	return out
}

// Same reports whether two names are those of one kind.
func Same(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

// Spread is the middle of some numbers and how far they lie apart.
type Spread struct {
	N                 int
	Low, Median, High float64
	Quartiles         bool // Low and High are the quartiles; with fewer than five numbers they are the least and the greatest
}

// enough is from how many numbers quartiles say more than the ends.
const enough = 5

// SpreadOf returns the spread of at least one number. Quartiles lie between
// neighbours in proportion: the median of 1, 2, 4, 8 is 3.
func SpreadOf(xs []float64) Spread {
	s := slices.Sorted(slices.Values(xs))
	out := Spread{N: len(s), Median: at(s, 0.5), Low: s[0], High: s[len(s)-1]}
	if len(s) >= enough {
		out.Low, out.High, out.Quartiles = at(s, 0.25), at(s, 0.75), true
	}
	return out
}

func at(sorted []float64, share float64) float64 {
	place := share * float64(len(sorted)-1)
	i := min(int(place), len(sorted)-2)
	if i < 0 {
		return sorted[0]
	}
	part := place - float64(i)
	return float64(sorted[i]*(1-part)) + float64(sorted[i+1]*part)
}

// Scaled multiplies a spread.
func (s Spread) Scaled(by float64) Spread {
	s.Low, s.Median, s.High = float64(s.Low*by), float64(s.Median*by), float64(s.High*by)
	return s
}

// ErrNone is returned where no step of the kind was done before.
var ErrNone = errors.New("no step of this kind is among the past ones")

// ErrNoArea is returned where a step is to grow with the area and no past one of
// its kind has an area.
var ErrNoArea = errors.New("no past step of this kind has an area")

// alike is how many past steps on the same kind of object it takes to leave the
// others out. Our choice: of two nobody can tell which was the odd one.
const alike = 3

// Foretold is what one kind of step may take, once.
type Foretold struct {
	Spread
	Alike bool // rests on the same kind of object alone
}

// Foretell returns the hours that a step may take, once, on an object of kind
// object and, where byArea, of so many m²: then hours for each m² are compared.
// It rests on past steps on the same kind of object where there are three or
// more, else on all of its kind.
func Foretell(past []Done, step, object string, area float64, byArea bool) (Foretold, error) {
	var all, same []float64
	found := false
	for _, d := range past {
		if !Same(d.Step, step) {
			continue
		}
		found = true
		x := d.Hours
		if byArea {
			if d.Area <= 0 {
				continue
			}
			x /= d.Area
		}
		all = append(all, x)
		if object != "" && Same(d.Object, object) {
			same = append(same, x)
		}
	}
	switch {
	case !found:
		return Foretold{}, ErrNone
	case len(all) == 0:
		return Foretold{}, ErrNoArea
	}
	out := Foretold{Alike: len(same) >= alike}
	if out.Spread = SpreadOf(all); out.Alike {
		out.Spread = SpreadOf(same)
	}
	if byArea {
		out.Spread = out.Scaled(area)
	}
	return out, nil
}
