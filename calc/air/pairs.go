package air

import (
	"errors"

	"sinkside/calc/unit"
)

// Why two readings without the temperature of the air do not belong to one air.
var (
	ErrDewAboveWet = errors.New("the dew point cannot be above the wet bulb")
	ErrOutside     = errors.New("that would be air colder than 0 °C or warmer than 60 °C, for which nothing is reckoned here")
)

// ByHumidityAndDewPoint returns the state of air of relative humidity rh that
// condenses at dew.
func ByHumidityAndDewPoint(rh unit.Fraction, dew unit.Temperature, whole Pressure) (State, error) {
	vapour := Saturation(dew)
	full := Pressure(float64(vapour) / float64(rh)) // the saturation pressure at the temperature sought
	if full > Saturation(Warmest)*(1+1e-12) {
		return State{}, ErrOutside
	}
	t := search(Warmest, func(t unit.Temperature) bool { return Saturation(t) < full })
	return State{t, vapour, whole}.within()
}

// ByHumidityAndWetBulb returns the state of air of relative humidity rh in which a
// wet thermometer shows wet.
func ByHumidityAndWetBulb(rh unit.Fraction, wet unit.Temperature, whole Pressure) (State, error) {
	// The warmer the air above one wet bulb, the drier it is.
	t, ok := above(wet, func(t unit.Temperature) bool {
		w := overWetBulb(t, wet, whole)
		return State{t, whole * Pressure(w/(massRatio+w)), whole}.Humidity() > rh*(1+1e-12)
	})
	if !ok {
		return State{}, ErrOutside
	}
	return ByHumidity(t, rh, whole).within()
}

// ByDewPointAndWetBulb returns the state of air that condenses at dew and in which
// a wet thermometer shows wet.
func ByDewPointAndWetBulb(dew, wet unit.Temperature, whole Pressure) (State, error) {
	if dew > wet {
		return State{}, ErrDewAboveWet
	}
	vapour := Saturation(dew)
	ratio := Ratio(vapour, whole)
	t, ok := above(wet, func(t unit.Temperature) bool { return overWetBulb(t, wet, whole) > ratio*(1+1e-12) })
	if !ok {
		return State{}, ErrOutside
	}
	return State{t, vapour, whole}.within()
}

// DewPointsBeside returns from where to where the dew point of air can lie in which
// a wet thermometer shows wet; false where no air that is reckoned here has such a
// wet bulb.
func DewPointsBeside(wet unit.Temperature, whole Pressure) (low, high unit.Temperature, ok bool) {
	damp, err := ByWetBulb(max(wet, Coldest), wet, whole)
	if err != nil || wet > Warmest {
		return 0, 0, false
	}
	// The warmer the air above one wet bulb, the drier it is.
	dry, err := ByHumidityAndWetBulb(Driest, wet, whole)
	if err != nil {
		dry, _ = ByWetBulb(Warmest, wet, whole)
	}
	if high = wet; wet < Coldest { // else air at its dew point, to the last bit
		high = damp.DewPoint()
	}
	return dry.DewPoint(), high, true
}

// above finds where, from low to Warmest, what holds of cooler air ends; false
// where it holds to the end.
func above(low unit.Temperature, cooler func(unit.Temperature) bool) (unit.Temperature, bool) {
	high := Warmest
	if low > high || cooler(high) {
		return 0, false
	}
	for range 64 {
		mid := (low + high) / 2
		if cooler(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return high, true
}

// within holds a state that was searched for to the bounds, where it may end a bit
// off them.
func (s State) within() (State, error) {
	if s.DryBulb < Coldest && s.DryBulb > Coldest-1e-9 {
		s.DryBulb = Coldest
	}
	if s.DryBulb < Coldest || s.DryBulb > Warmest {
		return State{}, ErrOutside
	}
	return s.checked()
}

// Enthalpy returns the heat of the air in kJ for a kilogram of dry air, counted
// from 0 °C and liquid water (ASHRAE Fundamentals 2017, chapter 1, memory).
func (s State) Enthalpy() float64 {
	t := s.DryBulb.Celsius()
	return float64(1.006*t) + s.Ratio()*(2501+float64(1.86*t))
}

// Volume returns the volume of the air in m³ for a kilogram of dry air (the same
// source).
func (s State) Volume() float64 {
	return 0.287042 * (s.DryBulb.Celsius() + zero) * (1 + float64(1.607858*s.Ratio())) / (float64(s.Whole) / 1000)
}
