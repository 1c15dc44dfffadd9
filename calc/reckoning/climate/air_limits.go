package climate

import (
	"math"

	"sinkside/calc/air"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// contradiction says which of two readings that belong to no one air is to be
// looked at, and what it can be beside the other.
func contradiction(s *reckoning.Sheet, err error) *reckoning.Problem {
	t, whole, rh := unit.Temperature(s.Base("temperature")), air.Pressure(s.Base("pressure")), unit.Fraction(s.Base("humidity"))
	least, most, field := 0.0, 0.0, byDewPoint
	switch s.Choice("known") {
	case byDewPoint:
		least, most = air.ByHumidity(t, air.Driest, whole).DewPoint().Celsius(), t.Celsius()
	case byWetBulb:
		field = byWetBulb
		least, most = air.ByHumidity(t, air.Driest, whole).WetBulb().Celsius(), t.Celsius()
	case humidityAndDew:
		least, most = air.ByHumidity(air.Coldest, rh, whole).DewPoint().Celsius(), air.ByHumidity(air.Warmest, rh, whole).DewPoint().Celsius()
	case humidityAndWet:
		field = byWetBulb
		least, most = air.ByHumidity(air.Coldest, rh, whole).WetBulb().Celsius(), air.ByHumidity(air.Warmest, rh, whole).WetBulb().Celsius()
	default:
		low, high, ok := air.DewPointsBeside(unit.Temperature(s.Base(byWetBulb)), whole)
		least, most = low.Celsius(), high.Celsius()
		if !ok { // then no dew point goes with it
			field = byWetBulb
			least, most = air.ByHumidity(air.Coldest, air.Driest, whole).WetBulb().Celsius(), math.Inf(1)
		}
	}
	say := "would be air colder than 0 °C or warmer than 60 °C, for which nothing is reckoned here"
	switch err {
	case air.ErrDewPoint, air.ErrWetBulb:
		say = "cannot be above the temperature of the air, " + s.InAnswersUnit("temperature", t.Celsius())
	case air.ErrDewAboveWet:
		say = "cannot be above the wet bulb, " + s.InAnswersUnit(byWetBulb, s.Base(byWetBulb))
	case air.ErrTooDry:
		say = "would be air drier than 1 %"
	}
	return s.Limits(field, least, most, say)
}

// condenses says whether the surface gets wet, with what the ± leaves open.
func condenses(s *reckoning.Sheet, out *reckoning.Result, dew unit.Temperature) string {
	at := unit.Temperature(s.Base("surface"))
	dewLow, dewHigh, _ := out.Range("dew_point")
	low, high := at.Celsius(), at.Celsius()
	if s.Has("surface_pm") {
		low, high, _ = out.Range("surface")
	}
	where := "The surface at " + s.Degrees(at)
	switch {
	case high <= dewLow:
		return where + " is at or below the dew point of " + s.Degrees(dew) + ": water condenses on it. Keep the object away from it."
	case low <= dewHigh:
		return where + " is so near to the dew point of " + s.Degrees(dew) + " that the ± leaves open whether water condenses on it. Take it that it does, and keep the object away from it."
	}
	by := unit.Text(low-dewHigh, 2) + " °C"
	if dewLow < dewHigh || low < high {
		by += " at least"
	}
	return where + " stays dry, by " + by + ". Air that gets damper by drying work may still reach it."
}
