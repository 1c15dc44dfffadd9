package unit

import "strings"

// Kind says what a number measures.
type Kind uint8

// The kinds of quantity.
const (
	NoKind Kind = iota
	VolumeKind
	MassKind
	LengthKind
	TemperatureKind
	FractionKind
	ConcentrationKind
	MolarityKind
	DensityKind
	MolarMassKind
	ConductivityKind
	MultipleKind
	FlowKind
	TimeKind
	PerKelvinKind
	PressureKind
	AreaKind
	SpeedKind
	LossKind
	VapourKind
	MoistureKind
)

var kindNames = [...]string{"a plain number", "a volume", "a mass", "a length", "a temperature", "a share by mass",
	"a mass in a volume", "an amount in a volume", "a density", "a molar mass", "a conductivity", "a multiple of the CMC",
	"a volume in an hour", "a time", "a change by the kelvin",
	"a pressure", "an area", "a speed", "a mass in an hour", "a mass in a volume of air", "a mass of vapour in dry air"}

// String says the kind with its article: "a volume".
func (k Kind) String() string { return kindNames[k] }

// System is the family of units that a person works in.
type System uint8

// The systems. InchPound marks units that both gallon families share.
const (
	Metric    System = 0
	US        System = 1 << 0
	Imperial  System = 1 << 1
	InchPound System = US | Imperial
)

// Unit is one unit of one kind. Its zero value is the plain number.
type Unit struct {
	Symbol string // as people write it: "mL"
	Kind   Kind
	System System

	// A reading x is (x - zero) * mul / div in the kind's own unit. Dividing
	// by 1000 is right to the last bit where multiplying by 0.001 is not.
	mul, div, zero float64
	also           []string
}

// table lists every unit, the kind's own first, then by how common it is.
var table = []Unit{
	{"L", VolumeKind, Metric, 1, 1, 0, []string{"litre", "litres", "liter", "liters", "ltr", "l"}},
	{"mL", VolumeKind, Metric, 1, 1000, 0, []string{"ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc", "cm3", "cm³"}},
	{"US gal", VolumeKind, US, float64(USGallon), 1, 0, []string{"gal", "gallon", "gallons", "US gallon", "US gallons", "gal US"}},
	{"US fl oz", VolumeKind, US, float64(USGallon), 128, 0, []string{"fl oz", "fl. oz", "fl. oz.", "floz", "US floz", "fluid ounce", "fluid ounces", "oz"}},
	{"imp gal", VolumeKind, Imperial, float64(ImperialGallon), 1, 0, []string{"gal", "gallon", "gallons", "imperial gallon", "imperial gallons", "UK gal", "gal imp"}},
	{"imp fl oz", VolumeKind, Imperial, float64(ImperialGallon), 160, 0, []string{"fl oz", "fl. oz", "fl. oz.", "floz", "UK fl oz", "imp floz", "fluid ounce", "fluid ounces", "oz"}},

	{"g", MassKind, Metric, 1, 1, 0, []string{"gram", "grams", "gramme", "grammes"}},
	{"kg", MassKind, Metric, 1000, 1, 0, []string{"kilo", "kilos", "kilogram", "kilograms"}},
	{"mg", MassKind, Metric, 1, 1000, 0, []string{"milligram", "milligrams"}},
	{"oz", MassKind, InchPound, float64(Pound), 16, 0, []string{"ounce", "ounces", "oz."}},
	{"lb", MassKind, InchPound, float64(Pound), 1, 0, []string{"lbs", "pound", "pounds", "lb."}},

	{"mm", LengthKind, Metric, 1, 1, 0, []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	{"cm", LengthKind, Metric, 10, 1, 0, []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	{"m", LengthKind, Metric, 1000, 1, 0, []string{"metre", "metres", "meter", "meters"}},
	{"in", LengthKind, InchPound, float64(Inch), 1, 0, []string{"inch", "inches", "\"", "″", "in."}},
	{"ft", LengthKind, InchPound, float64(Foot), 1, 0, []string{"foot", "feet", "'", "′", "ft."}},

	{"°C", TemperatureKind, Metric, 1, 1, 0, []string{"C", "degC", "deg C", "º C", "ºC", "° C", "celsius"}},
	{"°F", TemperatureKind, InchPound, 5, 9, 32, []string{"F", "degF", "deg F", "ºF", "° F", "fahrenheit"}},

	{"% w/w", FractionKind, Metric, 1, 100, 0, []string{"%", "%w/w", "% (w/w)", "percent", "per cent", "wt%", "wt %"}},

	{"g/L", ConcentrationKind, Metric, 1, 1, 0, []string{"g/l", "g per L", "grams per litre", "mg/mL"}},
	{"% w/v", ConcentrationKind, Metric, 10, 1, 0, []string{"%", "%w/v", "% (w/v)", "percent", "per cent", "g/100 mL", "g/100mL"}},
	{"mg/L", ConcentrationKind, Metric, 1, 1000, 0, []string{"mg/l", "mg per L"}},

	{"mol/L", MolarityKind, Metric, 1, 1, 0, []string{"mol/l", "M", "molar"}},
	{"mmol/L", MolarityKind, Metric, 1, 1000, 0, []string{"mmol/l", "mM"}},

	{"g/mL", DensityKind, Metric, 1, 1, 0, []string{"g/ml", "g/cm3", "g/cm³", "g/cc", "kg/L", "kg/l"}},
	{"kg/m³", DensityKind, Metric, 1, 1000, 0, []string{"kg/m3", "g/L"}},

	{"g/mol", MolarMassKind, Metric, 1, 1, 0, []string{"Da"}},

	{"µS/cm", ConductivityKind, Metric, 1, 1, 0, []string{"uS/cm", "uS", "µS", "microsiemens"}},
	{"mS/cm", ConductivityKind, Metric, 1000, 1, 0, []string{"mS", "millisiemens"}},
	{"S/m", ConductivityKind, Metric, 10000, 1, 0, nil},

	{"× CMC", MultipleKind, Metric, 1, 1, 0, []string{"x CMC", "xCMC", "×CMC", "CMC", "×", "x", "times CMC", "times the CMC"}},
	{"%", FractionKind, Metric, 1, 100, 0, []string{"percent", "per cent"}},

	{"L/h", FlowKind, Metric, 1, 1, 0, []string{"l/h", "L per hour", "litres per hour", "liters per hour"}},
	{"L/min", FlowKind, Metric, 60, 1, 0, []string{"l/min", "L per minute", "litres per minute"}},

	{"h", TimeKind, Metric, 1, 1, 0, []string{"hr", "hrs", "hour", "hours"}},
	{"min", TimeKind, Metric, 1, 60, 0, []string{"minute", "minutes"}},

	{"%/K", PerKelvinKind, Metric, 1, 1, 0, []string{"%/°C", "% per K", "% per °C", "%"}},

	{"Pa", PressureKind, Metric, 1, 1, 0, []string{"pascal", "pascals"}},
	{"hPa", PressureKind, Metric, 100, 1, 0, []string{"mbar", "millibar", "millibars"}},
	{"kPa", PressureKind, Metric, 1000, 1, 0, nil},

	{"m²", AreaKind, Metric, 1, 1, 0, []string{"m2", "sq m", "square metre", "square metres"}},
	{"cm²", AreaKind, Metric, 1, 10000, 0, []string{"cm2", "sq cm", "square centimetre", "square centimetres"}},

	{"m/s", SpeedKind, Metric, 1, 1, 0, []string{"metres per second", "m per s"}},
	{"g/h", LossKind, Metric, 1, 1, 0, nil},
	{"g/m³", VapourKind, Metric, 1, 1, 0, nil},
	{"g/kg", MoistureKind, Metric, 1, 1, 0, nil},
}

// Named returns the unit whose symbol is exactly s. The empty symbol is the
// plain number.
func Named(s string) (Unit, bool) {
	if s == "" {
		return Unit{}, true
	}
	for _, u := range table {
		if u.Symbol == s {
			return u, true
		}
	}
	return Unit{}, false
}

// Base returns a reading of x in u as a number in the kind's own unit.
func (u Unit) Base(x float64) float64 {
	if u.div == 0 {
		return x
	}
	return float64((x-u.zero)*u.mul) / u.div
}

// Of returns a number in the kind's own unit as a reading in u.
func (u Unit) Of(base float64) float64 {
	if u.div == 0 {
		return base
	}
	return float64(base*u.div)/u.mul + u.zero
}

// Width returns the size of a difference of x in u, in the kind's own unit: it
// differs from Base where zero is not zero.
func (u Unit) Width(x float64) float64 {
	u.zero = 0
	return u.Base(x)
}

// called reports whether people write u as name, in any case of letters. Case
// never tells two units of one kind apart here.
func (u Unit) called(name string) bool {
	if strings.EqualFold(u.Symbol, name) {
		return true
	}
	for _, a := range u.also {
		if strings.EqualFold(a, name) {
			return true
		}
	}
	return false
}
