// Package greyscale grades a change of colour and a staining on the five-step
// scales of textiles, 5 for none down to 1, half-steps between.
//
// The scales are seen by eye: their steps are differences in CIELAB. From
// measured colours, a change is graded by the formula of ISO 105-A05 and a
// staining by that of ISO 105-A04, which do not use that difference as it is.
package greyscale

import (
	"math"

	"sinkside/calc/colour"
)

// Step is one step of a scale.
type Step struct {
	Grade     string
	Delta     float64 // CIELAB difference of the step
	Tolerance float64 // allowed of a scale that is sold
}

// Change are the steps of ISO 105-A02, read in the sample of EN 20105-A02:1994
// and in the identical GOST R ISO 105-A02-99, table 1.
var Change = [9]Step{{"5", 0, 0.2}, {"4-5", 0.8, 0.2}, {"4", 1.7, 0.3}, {"3-4", 2.5, 0.35}, {"3", 3.4, 0.4}, {"2-3", 4.8, 0.5}, {"2", 6.8, 0.6}, {"1-2", 9.6, 0.7}, {"1", 13.6, 1.0}}

// Staining are the steps of ISO 105-A03, from memory; the formula of A04 gives
// each of them back to 0.02.
var Staining = [9]Step{{"5", 0, 0.2}, {"4-5", 2.2, 0.3}, {"4", 4.3, 0.3}, {"3-4", 6.0, 0.4}, {"3", 8.5, 0.5}, {"2-3", 12.0, 0.7}, {"2", 16.9, 1.0}, {"1-2", 24.0, 1.5}, {"1", 34.1, 2.0}}

// Nearest returns the step that a difference is nearest to, the worse one where it
// lies half-way.
func Nearest(scale [9]Step, delta float64) Step {
	best := scale[0]
	for _, s := range scale[1:] {
		if math.Abs(delta-s.Delta) <= math.Abs(delta-best.Delta)+1e-9 {
			best = s
		}
	}
	return best
}

// Changed is what ISO 105-A05 makes of two colours.
type Changed struct {
	DeltaF float64 // ΔEF
	GSc    float64 // the grade as a number, 5 down to 1
	Grade  string  // in half-steps
}

// upTo are the limits of ΔEF below which each grade holds, from memory of ISO
// 105-A05.
var upTo = [8]float64{0.40, 1.25, 2.10, 2.95, 4.10, 5.80, 8.20, 11.60}

// ChangeOf grades a change of colour by ISO 105-A05. The formulas are as two public
// source files give them, read; that ΔHK takes the same D off as ΔCK does looks
// odd, and is so in the source.
func ChangeOf(reference, treated colour.Lab) Changed {
	c0, ct, h0, ht := reference.Chroma(), treated.Chroma(), reference.Hue(), treated.Hue()
	cm, hm := (c0+ct)/2, (h0+ht)/2
	if math.Abs(ht-h0) > 180 {
		if h0+ht < 360 {
			hm += 180
		} else {
			hm -= 180
		}
	}
	away := math.Abs(hm - 280)
	if away > 180 {
		away = 360 - away
	}
	away /= 30
	parts := colour.PartsOf(reference, treated)
	dh := math.Abs(parts.H)
	if ht < h0 {
		dh = -dh
	}
	if math.Abs(ht-h0) > 180 {
		dh = -dh
	}
	d := parts.C * cm * math.Exp(-float64(away*away)) / 100
	c, h := 20*cm/1000, 10*cm/1000
	cf := (parts.C - d) / (1 + float64(c*c))
	hf := (dh - d) / (1 + float64(h*h))
	return graded(math.Sqrt(float64(parts.L*parts.L) + float64(cf*cf) + float64(hf*hf)))
}

// graded grades a ΔEF.
func graded(deltaF float64) Changed {
	out := Changed{DeltaF: deltaF, GSc: 5 - deltaF/1.7, Grade: "1"}
	if deltaF > 3.40 {
		out.GSc = 5 - math.Log2(deltaF/0.85)
	}
	out.GSc = max(out.GSc, 1)
	for i, limit := range upTo {
		if deltaF < limit {
			out.Grade = Change[i].Grade
			break
		}
	}
	return out
}

// Within returns the best and the worst that a change may be graded when its
// difference is off by up to so much.
func (c Changed) Within(off float64) (best, worst Changed) {
	return graded(max(c.DeltaF-off, 0)), graded(c.DeltaF + off)
}

// Stained is what ISO 105-A04 makes of two colours.
type Stained struct {
	Delta   float64 // ΔE*ab
	DeltaGS float64 // ΔEGS
	SSR     float64 // the grade as a number, at most 5
	Grade   string  // in half-steps
}

// StainingOf grades the staining of an adjacent fabric by ISO 105-A04: ΔEGS and the
// rounding as a source file that cites EN ISO 105-A04:1999 gives them, read; the
// two formulas of the grade from memory. A fabric that shows no difference is 5:
// the logarithm has no value there.
func StainingOf(clean, stained colour.Lab) Stained {
	e := colour.CIE76(clean, stained)
	l := stained.L - clean.L
	out := stainGraded(max(e-0.4*math.Sqrt(max(float64(e*e)-float64(l*l), 0)), 0))
	out.Delta = e
	return out
}

// Within returns the best and the worst that a staining may be graded when its
// difference is off by up to so much.
func (s Stained) Within(off float64) (best, worst Stained) {
	return stainGraded(max(s.DeltaGS-off, 0)), stainGraded(s.DeltaGS + off)
}

// stainGraded grades a ΔEGS.
func stainGraded(deltaGS float64) Stained {
	out := Stained{DeltaGS: deltaGS, SSR: 5}
	if out.DeltaGS > 0 {
		if out.SSR = 6.1 - 1.45*math.Log(out.DeltaGS); out.SSR > 4 {
			out.SSR = 5 - 0.23*out.DeltaGS
		}
	}
	out.Grade = "1"
	for i, from := range [8]float64{4.75, 4.25, 3.75, 3.25, 2.75, 2.25, 1.75, 1.25} {
		if out.SSR >= from {
			out.Grade = Staining[i].Grade
			break
		}
	}
	return out
}
