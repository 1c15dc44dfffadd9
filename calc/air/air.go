// Package air reckons the state of moist air: what its vapour weighs, where it
// condenses and how cold a wet surface in it gets. Any two of dry bulb, relative
// humidity, dew point and wet bulb give the whole state.
//
// The equations are those of the ASHRAE Handbook, Fundamentals 2017, chapter 1,
// from memory; they are held against values of that handbook and of the CRC
// Handbook that were read. Everything is over liquid water, below 0 °C too: frost
// then forms at a temperature about a tenth nearer to 0 °C than the dew point.
package air

import (
	"errors"
	"math"

	"sinkside/calc/unit"
)

// Pressure is a pressure in pascals.
type Pressure float64

// Standard is the pressure of the standard atmosphere, by definition.
const Standard Pressure = 101325

// Bounds within which a state is reckoned.
const (
	Coldest unit.Temperature = 0
	Warmest unit.Temperature = 60
	Driest  unit.Fraction    = 0.01
	Lowest  Pressure         = 60000 // about 4200 m above the sea
	Highest Pressure         = 110000
)

// Why two readings do not belong to one air.
var (
	ErrDewPoint = errors.New("the dew point cannot be above the temperature of the air")
	ErrWetBulb  = errors.New("the wet bulb cannot be above the temperature of the air")
	ErrTooDry   = errors.New("that would be air drier than 1 %")
)

const zero = 273.15 // °C in kelvin, by definition

// Saturation returns the pressure of water vapour over liquid water: the form of
// Hyland and Wexler with the constants of ASHRAE Fundamentals 2017, chapter 1
// (memory). From 0 to 50 °C it agrees with the CRC table (read) within 0.1 %.
func Saturation(at unit.Temperature) Pressure {
	t := at.Celsius() + zero
	return Pressure(math.Exp(-5.8002206e3/t + 1.3914993 - 4.8640239e-2*t + 4.1764768e-5*t*t - 1.4452093e-8*t*t*t + 6.5459673*math.Log(t)))
}

// State is moist air.
type State struct {
	DryBulb unit.Temperature
	Vapour  Pressure // of the water vapour alone
	Whole   Pressure
}

// ByHumidity returns the state of air of relative humidity rh, above 0 and at
// most 1.
func ByHumidity(t unit.Temperature, rh unit.Fraction, whole Pressure) State {
	return State{t, Pressure(rh) * Saturation(t), whole}
}

// ByDewPoint returns the state of air that condenses at dew.
func ByDewPoint(t, dew unit.Temperature, whole Pressure) (State, error) {
	if dew > t {
		return State{}, ErrDewPoint
	}
	return State{t, Saturation(dew), whole}.checked()
}

// ByWetBulb returns the state of air in which a wet thermometer shows wet.
func ByWetBulb(t, wet unit.Temperature, whole Pressure) (State, error) {
	if wet > t {
		return State{}, ErrWetBulb
	}
	w := overWetBulb(t, wet, whole)
	return State{t, whole * Pressure(w/(massRatio+w)), whole}.checked()
}

func (s State) checked() (State, error) {
	if !(s.Humidity() >= Driest*(1-1e-9)) { // a search ends a bit off
		return State{}, ErrTooDry
	}
	return s, nil
}

// Humidity returns the relative humidity.
func (s State) Humidity() unit.Fraction { return unit.Fraction(s.Vapour / Saturation(s.DryBulb)) }

// massRatio is the molar mass of water over that of dry air: ASHRAE Fundamentals
// 2017, by way of a program's published tests (read).
const massRatio = 0.621945

// Ratio returns the mass of vapour for one of dry air: W = 0.621945·pv/(P - pv).
func Ratio(vapour, whole Pressure) float64 { return massRatio * float64(vapour/(whole-vapour)) }

// Ratio returns the mass of vapour for one of dry air.
func (s State) Ratio() float64 { return Ratio(s.Vapour, s.Whole) }

// Absolute returns the grams of vapour in a cubic metre: 2.16679·pv/T, from the
// law of ideal gases.
func (s State) Absolute() float64 { return 2.16679 * float64(s.Vapour) / (s.DryBulb.Celsius() + zero) }

// DewPoint returns the temperature at which the air would condense.
func (s State) DewPoint() unit.Temperature {
	if s.Vapour >= Saturation(s.DryBulb) {
		return s.DryBulb
	}
	return search(s.DryBulb, func(t unit.Temperature) bool { return Saturation(t) < s.Vapour })
}

// WetBulb returns the temperature of a wet surface in moving air that gets its
// heat from that air alone.
func (s State) WetBulb() unit.Temperature {
	if s.Vapour >= Saturation(s.DryBulb) {
		return s.DryBulb // to the last bit, so that nothing dries in it
	}
	w := s.Ratio()
	return root(s.DryBulb, func(t unit.Temperature) float64 { return overWetBulb(s.DryBulb, t, s.Whole) - w })
}

// overWetBulb returns the humidity ratio of air in which a wet thermometer shows
// wet: equation 33 of ASHRAE Fundamentals 2017, chapter 1 (memory). Below 0 when
// no air is so dry.
func overWetBulb(t, wet unit.Temperature, whole Pressure) float64 {
	ws, dry, w := Ratio(Saturation(wet), whole), t.Celsius(), wet.Celsius()
	return ((2501-2.326*w)*ws - 1.006*(dry-w)) / (2501 + 1.86*dry - 4.186*w)
}

// root finds where f, which rises, passes 0 below high. A range of readings asks this
// for dozens of states, so it goes by the secant, a tenth of the steps of halving; where
// the secant would leave what is known to enclose the place, it halves.
func root(high unit.Temperature, f func(unit.Temperature) float64) unit.Temperature {
	const near = 1e-13 // °C; the last step is far longer than what is left
	low := unit.Temperature(-90)
	a, b := high, high-1
	fa := f(a)
	for range 100 {
		fb := f(b)
		if fb < 0 {
			low = b
		} else {
			high = b
		}
		next := b - unit.Temperature(fb*float64(b-a)/(fb-fa))
		if !(next > low && next < high) {
			if fb == 0 || high-low < near {
				return b
			}
			next = (low + high) / 2
		}
		if next-b < near && b-next < near {
			return next
		}
		a, fa, b = b, fb, next
	}
	return b
}

// search halves the way from far below to high until nothing is left of it, and
// returns where colder ends.
func search(high unit.Temperature, colder func(unit.Temperature) bool) unit.Temperature {
	low := unit.Temperature(-90)
	for range 64 {
		mid := (low + high) / 2
		if colder(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
