// Package stitch plans rows of stitches whose ends vary, so that no two neighbouring
// ends lie in one line: a line of ends is where a weak cloth tears. Lengths are in
// millimetres.
package stitch

import (
	"errors"
	"math"
)

// golden is what the place of each end moves by, as a share of the range: the part
// of the golden section. Two neighbours then never come nearer than 0.382 of the
// range, and the pattern never repeats itself. Deterministic: the same plan gives
// the same stitches.
const golden = 0.6180339887498949

// Step is what lengths are rounded to: nobody sews to less.
const Step = 0.5

// LeastRange is the least difference between the shortest and the longest stitch
// for which neighbouring ends stay apart after rounding.
const LeastRange = 3.0

// Varies reports whether stitches from shortest to longest can keep their ends apart.
// 5.1 and 2.1 mm are 3 mm apart, though their difference as a float is less.
func Varies(shortest, longest float64) bool { return longest-shortest >= LeastRange-1e-9 }

// ErrRange is returned where shortest and longest lie nearer than LeastRange.
var ErrRange = errors.New("the longest stitch must be at least 3 mm longer than the shortest, or their ends come into one line")

// Lengths returns n lengths from shortest to longest, in the order of sewing, such
// that neighbours differ by Apart or more.
func Lengths(n int, shortest, longest float64) ([]float64, error) {
	if !Varies(shortest, longest) {
		return nil, ErrRange
	}
	out := make([]float64, n)
	for i := range out {
		_, share := math.Modf(float64(i) * golden)
		out[i] = math.Round((shortest+float64(share*(longest-shortest)))/Step) * Step
	}
	return out, nil
}

// Apart is the least by which two neighbouring lengths differ, mm: 0.382 of the
// range less what rounding takes.
func Apart(shortest, longest float64) float64 {
	return float64((1-golden)*(longest-shortest)) - Step
}

// Count returns how many stitches stand along a length, a stitch at both ends.
func Count(along, spacing float64) int { return int(math.Floor(along/spacing+1e-9)) + 1 }

// Thread returns the thread that whip stitches take: each goes its length over the
// face, and aslant behind to the next.
func Thread(lengths []float64, spacing float64) float64 {
	sum := 0.0
	for _, l := range lengths {
		sum += l + math.Hypot(l, spacing)
	}
	return sum
}

// Laid returns the thread that laid lines take which are held down by small
// stitches: the lines, and for each of so many stitches twice its width over and
// under.
func Laid(lines []float64, hold, width float64) (thread float64, held int) {
	for _, l := range lines {
		n := Count(l, hold)
		held += n
		thread += l + float64(2*float64(n)*width)
	}
	return thread, held
}
