// Package drying reckons how fast a wet textile gives its water to the air.
//
// While the surface is wet the rate stays steady: water leaves as from an open
// pool of the surface's temperature. Two published equations say how fast, and
// differ by about a fifth in one state; both were made for pools, and a real
// surface may be 30 % off either. So the answer is a range and never a number.
//
// Which temperature the surface has decides most. Both equations take the
// temperature of the water at its surface, not that of the air. A wet textile
// that gets its heat from the air alone cools to the wet-bulb temperature and
// dries at that (a drying guide, read): at a fifth to a half of what the equations
// give for water as warm as the air.
//
// When the surface is no longer wet all over, the falling-rate period begins and
// adds time that is not foretold here.
package drying

import (
	"errors"

	"sinkside/calc/air"
	"sinkside/calc/unit"
)

// LatentHeat is what evaporating a kilogram takes, kJ/kg: 2501 - 2.4·T at about
// 20 °C, held fixed as in the values that this is tested against (computed).
const LatentHeat = 2450

// Uncertainty is by how much a real surface may be off either equation, on both
// sides: undisturbed pools were measured at 74 % of the first (read).
const Uncertainty unit.Fraction = 0.30

// Flux is water that leaves a surface, in kilograms from a square metre in an
// hour. It is below 0 where the air is so damp that it condenses.
type Flux float64

// Pool is the equation for pools: (0.089 + 0.0782·v)·(pw - pa)/Y in kg/s, kPa and
// kJ/kg (ASHRAE HVAC Applications, memory; its form in mmHg and that in inches
// and pounds were read). The speed of the air is in m/s; surface is the
// temperature of the water at its surface.
func Pool(s air.State, surface unit.Temperature, speed float64) Flux {
	return Flux((0.089 + 0.0782*speed) * float64(air.Saturation(surface)-s.Vapour) / 1000 / LatentHeat * 3600)
}

// Ratio is the equation by humidity ratios: (25 + 19·v)·(xs - x) in kg/h (an
// engineering site, as quoted in a forum, read). xs is that of saturated air as
// warm as the surface.
func Ratio(s air.State, surface unit.Temperature, speed float64) Flux {
	return Flux((25 + 19*speed) * (air.Ratio(air.Saturation(surface), s.Whole) - s.Ratio()))
}

// Rate is water lost in an hour, in grams: between Low and High.
type Rate struct{ Low, High float64 }

// From returns what an area in square metres, all sides counted, loses: from the
// lower equation less the uncertainty to the higher one and more. Nothing is
// lost where the air condenses.
func From(a, b Flux, area float64) Rate {
	grams := func(f Flux) float64 { return max(float64(f), 0) * area * 1000 }
	return Rate{grams(min(a, b)) * float64(1-Uncertainty), grams(max(a, b)) * float64(1+Uncertainty)}
}

// Hours returns how long a mass takes to leave at a rate, in hours. The rate must
// be above 0.
func Hours(m unit.Mass, rate float64) float64 { return m.Grams() / rate }

// Why weighings say nothing about the rate.
var (
	ErrFew      = errors.New("one weighing alone shows no rate")
	ErrRise     = errors.New("the mass rises from one weighing to the next (drops, a damp support, or weighed in another way)")
	ErrBelowDry = errors.New("a weighing is below the dry mass, so one of the two is wrong")
	ErrNoLoss   = errors.New("the loss is not above what the scale may be off")
	ErrTooFast  = errors.New("it loses water faster than it could in this air (water drips or was blotted, or air, area or weighings are not as given)")
)

// What weighings are held to: our own choice.
const (
	// LeastSpread is the share by which a rate from weighings is uncertain at
	// least, since air and cloth change.
	LeastSpread unit.Fraction = 0.10
	// TooFast is how often the highest rate reckoned a weighed one may be: sun, a
	// heater or a warm support give some heat of their own.
	TooFast = 3
	// Slowing is the share of the fitted rate below which the last interval shows
	// that the steady rate has ended.
	Slowing = 0.6
)

// Weighings are masses at their times, in hours and rising, as many of the one as
// of the other. Scale is what one weighing may be off.
type Weighings struct {
	At     []float64
	Masses []float64 // grams
	Dry    unit.Mass
	Scale  unit.Mass
}

// Fitted is what weighings show.
type Fitted struct {
	Rate
	Fit     float64 // g/h, the slope of the straight line
	Slowing bool    // the last interval is much slower than the line
}

// Fit lays a straight line through the weighings by least squares and returns the
// rate, with what it may be off: every weighing by the scale and by the furthest
// that one lies from the line. A rise within the scale's error counts as none.
func (w Weighings) Fit(reckoned Rate) (Fitted, error) {
	n := len(w.Masses)
	for i, m := range w.Masses {
		if m < float64(w.Dry-w.Scale) {
			return Fitted{}, ErrBelowDry
		}
		if i > 0 && m > w.Masses[i-1]+2*float64(w.Scale) {
			return Fitted{}, ErrRise
		}
	}
	if n < 2 {
		return Fitted{}, ErrFew
	}
	loss := w.Masses[0] - w.Masses[n-1]
	if loss <= 2*float64(w.Scale) {
		return Fitted{}, ErrNoLoss
	}
	slope, furthest := w.line()
	off := max(2*(float64(w.Scale)+furthest)/(w.At[n-1]-w.At[0]), slope*float64(LeastSpread))
	if !(slope > 0) {
		return Fitted{}, ErrNoLoss
	}
	if slope-off > TooFast*reckoned.High {
		return Fitted{}, ErrTooFast
	}
	last := (w.Masses[n-2] - w.Masses[n-1] + 2*float64(w.Scale)) / (w.At[n-1] - w.At[n-2])
	return Fitted{Rate{max(slope-off, slope/4), min(slope+off, max(slope, TooFast*reckoned.High))}, slope, last < Slowing*slope}, nil
}

// line returns the loss in an hour by least squares, and how far the furthest
// weighing lies from the line.
func (w Weighings) line() (slope, furthest float64) {
	n := float64(len(w.At))
	var t, m, tt, tm float64
	for i, at := range w.At {
		t += at / n
		m += w.Masses[i] / n
	}
	for i, at := range w.At {
		tt += (at - t) * (at - t)
		tm += (at - t) * (w.Masses[i] - m)
	}
	slope = -tm / tt
	for i, at := range w.At {
		d := w.Masses[i] - m + slope*(at-t)
		furthest = max(furthest, d, -d)
	}
	return slope, furthest
}
