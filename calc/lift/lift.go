// Package lift gives what two published ways of judging say of a lift by one
// person. Neither says that a lift is safe: the revised equation of NIOSH is made
// for two hands, a steady load and good footing, and the filter of the British
// Health and Safety Executive sorts out what needs no closer look. Both are void
// for loads that shift and for lifts by more than one person. Masses are in kg,
// lengths in cm, angles in degrees.
package lift

import "math"

// Constant is the load constant of the NIOSH equation, kg (CCOHS, read).
const Constant = 23.0

// Lift is one lift as the NIOSH equation asks for it.
type Lift struct {
	H float64 // hands from the ankles, horizontally, 25 to 63 cm
	V float64 // hands above the floor, 0 to 175 cm
	D float64 // way up or down, 25 to 175 cm; less counts as 25
	A float64 // turn, 0 to 135 degrees
	F float64 // frequency multiplier, from the published table
	C float64 // coupling multiplier: good 1, fair 0.95 or 1, poor 0.90
}

// Multipliers of the NIOSH equation.
type Multipliers struct{ H, V, D, A float64 }

// Multipliers returns the four that follow from lengths and angles (the forms by a
// solved example, homeworksource.com 1093113, read, and NIOSH 94-110, memory).
func (l Lift) Multipliers() Multipliers {
	m := Multipliers{H: min(25/l.H, 1), V: 1 - 0.003*math.Abs(l.V-75), D: 1, A: 1 - 0.0032*l.A}
	if l.D > 25 {
		m.D = 0.82 + 4.5/l.D
	}
	return m
}

// Limit returns the recommended weight limit, kg.
func (l Lift) Limit() float64 {
	m := l.Multipliers()
	return Constant * m.H * m.V * m.D * m.A * l.F * l.C
}

// Index returns the load over the limit: above 1 the task is beyond what the
// equation recommends.
func (l Lift) Index(load float64) float64 { return load / l.Limit() }

// Durations for which a frequency is kept up: of lifting in all, with rests.
const (
	AnHour     = iota // up to an hour
	TwoHours          // up to two
	EightHours        // up to eight
)

// Frequencies are lifts a minute with their multipliers for work of up to one, two
// and eight hours; 0 is not to be done at all. Where they differ by the height of
// the hands, those below 75 cm are taken, which are the less. From memory of NIOSH
// 94-110, table 5.
var Frequencies = []struct {
	PerMinute   float64
	Multipliers [3]float64
}{
	{0.2, [3]float64{1, 0.95, 0.85}}, {0.5, [3]float64{0.97, 0.92, 0.81}}, {1, [3]float64{0.94, 0.88, 0.75}}, {2, [3]float64{0.91, 0.84, 0.65}},
	{3, [3]float64{0.88, 0.79, 0.55}}, {4, [3]float64{0.84, 0.72, 0.45}}, {5, [3]float64{0.80, 0.60, 0.35}}, {6, [3]float64{0.75, 0.50, 0.27}},
	{7, [3]float64{0.70, 0.42, 0.22}}, {8, [3]float64{0.60, 0.35, 0.18}}, {9, [3]float64{0.52, 0.30, 0}}, {10, [3]float64{0.45, 0.26, 0}},
	{11, [3]float64{0.41, 0, 0}}, {12, [3]float64{0.37, 0, 0}},
}

// Zone is a height that the hands pass through.
type Zone struct {
	Name                                   string
	MenClose, MenFar, WomenClose, WomenFar float64 // kg
	Least, Most                            float64 // cm above the floor, for any adult
}

// Zones of the filter, from the head down; close to the body and with the arms
// stretched. From memory of HSE guidance L23 and INDG143. The heights are our
// choice, wide enough for short and tall adults: outside of them a zone and a
// height contradict each other.
var Zones = [5]Zone{
	{"head", 10, 5, 7, 3, 115, 175}, {"shoulder to elbow", 20, 10, 13, 7, 80, 165}, {"elbow to knuckle", 25, 15, 16, 10, 55, 130},
	{"knuckle to middle of the lower leg", 20, 10, 13, 7, 15, 95}, {"floor", 10, 5, 7, 3, 0, 45},
}

// Stretched is from where on hands are too far from the ankles to be close to the
// body, cm: our choice.
const Stretched = 50.0

// Filter returns the least of the figures of the zones from and to, both counted
// and all between: the smallest holds where the hands pass through several.
func Filter(from, to int, women, far bool) float64 {
	least := math.Inf(1)
	for i := min(from, to); i <= max(from, to); i++ {
		z := Zones[i]
		figures := [2][2]float64{{z.MenClose, z.MenFar}, {z.WomenClose, z.WomenFar}}
		w, f := 0, 0
		if women {
			w = 1
		}
		if far {
			f = 1
		}
		least = min(least, figures[w][f])
	}
	return least
}

// Reduced takes the published reductions off a figure: for operations a minute,
// 30 % at one or two, 50 % at five to eight, 80 % above twelve; between those the
// stricter; and for turning beyond 45° 10 %, beyond 90° 20 % (HSE guidance as
// reprinted in a works booklet, watmos.simplyhas.com, read). Up to about thirty an
// hour nothing is taken off.
func Reduced(figure, perMinute, turn float64) float64 {
	switch {
	case perMinute > 8:
		figure *= 0.2
	case perMinute > 2:
		figure *= 0.5
	case perMinute > 0.5:
		figure *= 0.7
	}
	switch {
	case turn > 90:
		figure *= 0.8
	case turn > 45:
		figure *= 0.9
	}
	return figure
}
