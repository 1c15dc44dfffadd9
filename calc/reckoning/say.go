package reckoning

import (
	"strconv"

	"sinkside/calc/unit"
)

// InUnit writes a quantity of the kind's own unit in one unit for the working,
// closer than results are shown, so that the next step can be followed.
//
//go:noinline
func InUnit(symbol string, base float64) string { return mustUnit(symbol).Write(base, 4) }

// Handy writes a quantity in the metric unit that fits its size.
func Handy(k unit.Kind, base float64) string {
	if units := unit.Handy(k, base, unit.Metric); len(units) > 0 {
		return units[0].Write(base, 4)
	}
	return unit.Own(k).Write(base, 4)
}

// Grams, Weight and Volume write a strength, a mass and a volume for the working.
func Grams(c unit.Concentration) string { return Handy(unit.ConcentrationKind, c.GramsPerLitre()) }
func Weight(m unit.Mass) string         { return Handy(unit.MassKind, m.Grams()) }
func Volume(v unit.Volume) string       { return Handy(unit.VolumeKind, v.Litres()) }

// Celsius writes a temperature for the working.
//
//go:noinline
func Celsius(t unit.Temperature) string { return InUnit("°C", t.Celsius()) }

// Share writes a share for the working.
func Share(f unit.Fraction) string {
	if f < Least {
		return "less than " + InUnit("%", Least)
	}
	return InUnit("%", float64(f))
}

// Counted writes a number of things: "1 rinse", "3 rinses".
func Counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}
