package meter

import (
	"sinkside/calc/unit"
)

// Standard is a solution of potassium chloride whose conductivity is known by
// temperature.
type Standard struct {
	Name, Title string
	Within      float64 // how far off it may be, a share
	values      table   // µS/cm
}

var tenToThirty = []float64{10, 20, 25, 30}

// Standards: two by molality (Wu, Koch and Pratt 1991, as the CRC Handbook prints
// them on p. 5-73, read; about 0.03 %) and four as sold (bench-meter manual
// S230, p. 45, read; 1 %). Of the latter only 10 to 30 °C is taken:
// the manual labels values of 5 °C as 0 °C, and its value at 35 °C is 1.6 % low.
var Standards = []Standard{
	{"s1413", "1413 µS/cm, as sold", 0.01, table{tenToThirty, []float64{1020, 1278, 1413, 1552}}},
	{"s84", "84 µS/cm, as sold", 0.01, table{tenToThirty, []float64{60.34, 75.80, 84.00, 92.19}}},
	{"s500", "500 µS/cm, as sold", 0.01, table{tenToThirty, []float64{359.6, 451.5, 500.0, 548.5}}},
	{"s12880", "12.88 mS/cm, as sold", 0.01, table{tenToThirty, []float64{9330, 11670, 12880, 14120}}},
	{"kcl001", "KCl 0.01 mol/kg", 0.0003, table{toFifty, []float64{772.92, 1013.95, 1273.03, 1408.23, 1546.63, 1831.27, 2123.43}}},
	{"kcl01", "KCl 0.1 mol/kg", 0.0003, table{toFifty, []float64{7116.85, 9291.72, 11615.9, 12824.6, 14059.2, 16591.0, 19180.9}}},
}

// StandardNamed returns the standard of that name.
func StandardNamed(name string) (Standard, bool) {
	for _, s := range Standards {
		if s.Name == name {
			return s, true
		}
	}
	return Standard{}, false
}

// Conducts returns the conductivity of the standard at a temperature, µS/cm, on
// the cubic through the rows around it; [ErrOutside] beyond its table.
func (s Standard) Conducts(at unit.Temperature) (float64, error) { return s.values.curved(at) }

// Ends are where the table of the standard begins and ends.
func (s Standard) Ends() (coldest, warmest unit.Temperature) {
	return unit.Temperature(s.values.at[0]), unit.Temperature(s.values.at[len(s.values.at)-1])
}

// CellConstant returns the constant of a cell, per centimetre, where the meter,
// set to one constant, shows a reading in a standard that conducts so much. The
// reading must be above 0.
func CellConstant(set, reading, conducts float64) float64 {
	return set * (conducts / reading)
}
