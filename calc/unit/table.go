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
	HardnessKind
	ResistivityKind
	PotentialKind
	IlluminanceKind
	LightDoseKind
	UltravioletKind
	IrradianceKind
	ArealMassKind
	AngleKind
	PerLengthKind
	VolumeShareKind
	AmountKind
	ForceKind
	EnthalpyKind
	SpecificVolumeKind
	ChangeKind
)

var kindNames = [...]string{"a plain number", "a volume", "a mass", "a length", "a temperature", "a share by mass",
	"a mass in a volume", "an amount in a volume", "a density", "a molar mass", "a conductivity", "a multiple of the CMC",
	"a volume in an hour", "a time", "a change by the kelvin",
	"a pressure", "an area", "a speed", "a mass in an hour", "a mass in a volume of air", "a mass of vapour in dry air",
	"a hardness", "a resistivity", "a voltage", "an illuminance", "a dose of light", "a share of ultraviolet", "an irradiance", "a mass on an area", "an angle",
	"a number on a length", "a share by volume", "an amount", "a force", "a heat in dry air", "a volume of dry air", "a change"}

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
	{"m³", VolumeKind, Metric, 1000, 1, 0, []string{"m3", "cubic metre", "cubic metres"}},
	{"ft³", VolumeKind, InchPound, 28.316846592, 1, 0, []string{"ft3", "cu ft", "cubic foot", "cubic feet"}},
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
	{"ppm NaCl", ConductivityKind, Metric, 1413, 702.1, 0, []string{"ppm as NaCl", "mg/L NaCl"}},
	{"ppm KCl", ConductivityKind, Metric, 1413, 744.7, 0, []string{"ppm as KCl", "mg/L KCl"}},

	{"× CMC", MultipleKind, Metric, 1, 1, 0, []string{"x CMC", "xCMC", "×CMC", "CMC", "×", "x", "times CMC", "times the CMC"}},
	{"%", FractionKind, Metric, 1, 100, 0, []string{"percent", "per cent"}},

	{"L/h", FlowKind, Metric, 1, 1, 0, []string{"l/h", "L per hour", "litres per hour", "liters per hour"}},
	{"L/min", FlowKind, Metric, 60, 1, 0, []string{"l/min", "L per minute", "litres per minute"}},
	{"mL/min", FlowKind, Metric, 60, 1000, 0, []string{"ml/min"}},
	{"US gal/h", FlowKind, US, float64(USGallon), 1, 0, []string{"gph", "gal/h"}},

	{"h", TimeKind, Metric, 1, 1, 0, []string{"hr", "hrs", "hour", "hours"}},
	{"min", TimeKind, Metric, 1, 60, 0, []string{"minute", "minutes"}},
	{"s", TimeKind, Metric, 1, 3600, 0, []string{"sec", "second", "seconds"}},
	{"days", TimeKind, Metric, 24, 1, 0, []string{"d", "day"}},
	{"weeks", TimeKind, Metric, 168, 1, 0, []string{"week", "wk"}},
	{"months", TimeKind, Metric, 730.5, 1, 0, []string{"month"}},
	{"years", TimeKind, Metric, 8766, 1, 0, []string{"y", "yr", "year", "a"}},

	{"%/K", PerKelvinKind, Metric, 1, 1, 0, []string{"%/°C", "% per K", "% per °C", "%"}},

	{"Pa", PressureKind, Metric, 1, 1, 0, []string{"pascal", "pascals"}},
	{"hPa", PressureKind, Metric, 100, 1, 0, []string{"mbar", "millibar", "millibars"}},
	{"kPa", PressureKind, Metric, 1000, 1, 0, nil},

	{"m²", AreaKind, Metric, 1, 1, 0, []string{"m2", "sq m", "square metre", "square metres"}},
	{"cm²", AreaKind, Metric, 1, 10000, 0, []string{"cm2", "sq cm", "square centimetre", "square centimetres"}},
	{"mm²", AreaKind, Metric, 1, 1000000, 0, []string{"mm2", "sq mm"}},
	{"in²", AreaKind, InchPound, float64(Inch * Inch), 1000000, 0, []string{"in2", "sq in", "square inch", "square inches"}},
	{"ft²", AreaKind, InchPound, float64(Foot * Foot), 1000000, 0, []string{"ft2", "sq ft", "square foot", "square feet"}},

	{"m/s", SpeedKind, Metric, 1, 1, 0, []string{"metres per second", "m per s"}},
	{"ft/min", SpeedKind, InchPound, float64(Foot), 60000, 0, []string{"fpm", "feet per minute"}},
	{"g/h", LossKind, Metric, 1, 1, 0, nil},
	{"g/m³", VapourKind, Metric, 1, 1, 0, nil},
	{"g/kg", MoistureKind, Metric, 1, 1, 0, nil},

	{"mg/L CaCO3", HardnessKind, Metric, 1, 1, 0, []string{"mg/L", "mg/l", "ppm", "ppm CaCO3", "mg/L CaCO₃", "mg/L as CaCO3"}},
	{"mmol/L CaCO3", HardnessKind, Metric, 100.086, 1, 0, []string{"mmol/L", "mmol/l", "mmol/L CaCO₃"}},
	{"°dH", HardnessKind, Metric, 17.8480, 1, 0, []string{"dH", "dGH", "German degrees"}},
	{"°fH", HardnessKind, Metric, 10, 1, 0, []string{"fH", "French degrees"}},
	{"°e", HardnessKind, Imperial, float64(grain), float64(ImperialGallon), 0, []string{"e", "°Clark", "Clark", "English degrees"}},
	{"gpg", HardnessKind, US, float64(grain), float64(USGallon), 0, []string{"grains per gallon", "gr/gal"}},

	{"MΩ·cm", ResistivityKind, Metric, 1, 1, 0, []string{"MOhm cm", "MΩcm", "MΩ cm", "megohm cm", "Mohm·cm"}},
	{"mV", PotentialKind, Metric, 1, 1, 0, []string{"millivolt", "millivolts"}},

	{"lx", IlluminanceKind, Metric, 1, 1, 0, []string{"lux"}},
	{"fc", IlluminanceKind, InchPound, 1000000, float64(Foot * Foot), 0, []string{"footcandle", "footcandles", "foot-candle", "foot-candles", "ft-c"}},
	{"Mlx·h", LightDoseKind, Metric, 1, 1, 0, []string{"Mlxh", "Mlx h", "megalux hours", "Mlux·h"}},
	{"klx·h", LightDoseKind, Metric, 1, 1000, 0, []string{"klxh", "klx h", "kilolux hours"}},
	{"lx·h", LightDoseKind, Metric, 1, 1000000, 0, []string{"lxh", "lx h", "lux hours", "lux·h"}},
	{"µW/lm", UltravioletKind, Metric, 1, 1, 0, []string{"uW/lm", "microwatts per lumen"}},
	{"mW/m²", IrradianceKind, Metric, 1, 1, 0, []string{"mW/m2"}},
	{"W/m²", IrradianceKind, Metric, 1000, 1, 0, []string{"W/m2"}},
	{"µW/cm²", IrradianceKind, Metric, 10, 1, 0, []string{"uW/cm2", "µW/cm2"}},

	{"g/m²", ArealMassKind, Metric, 1, 1, 0, []string{"g/m2", "gsm"}},
	{"kg/m²", ArealMassKind, Metric, 1000, 1, 0, []string{"kg/m2"}},
	{"oz/yd²", ArealMassKind, InchPound, float64(Ounce) * 1000000, float64(Foot * Foot * 9), 0, []string{"oz/yd2", "oz/sq yd", "oz per square yard"}},
	{"°", AngleKind, Metric, 1, 1, 0, []string{"deg", "degrees", "degree"}},
	{"/cm", PerLengthKind, Metric, 1, 1, 0, []string{"per cm", "1/cm"}},
	{"/in", PerLengthKind, InchPound, 10, float64(Inch), 0, []string{"per in", "per inch", "1/in"}},
	{"% v/v", VolumeShareKind, Metric, 1, 100, 0, []string{"%", "%v/v", "% (v/v)", "percent", "per cent", "vol%"}},
	{"mol", AmountKind, Metric, 1, 1, 0, []string{"moles"}},
	{"mmol", AmountKind, Metric, 1, 1000, 0, []string{"millimoles"}},
	{"N", ForceKind, Metric, 1, 1, 0, []string{"newton", "newtons"}},
	{"kJ/kg", EnthalpyKind, Metric, 1, 1, 0, nil},
	{"m³/kg", SpecificVolumeKind, Metric, 1, 1, 0, []string{"m3/kg"}},
	{"% change", ChangeKind, Metric, 1, 1, 0, []string{"%", "percent", "per cent"}},
}

// grain is 64.79891 mg, the 7000th part of a pound: what two scales of hardness
// count.
const grain = 1000 * Pound / 7000

// Of lists the symbols of all units of a kind, its own first.
func Of(k Kind) []string {
	var out []string
	for _, u := range table {
		if u.Kind == k {
			out = append(out, u.Symbol)
		}
	}
	return out
}

// Own returns the first unit of a kind.
func Own(k Kind) Unit {
	for _, u := range table {
		if u.Kind == k {
			return u
		}
	}
	return Unit{}
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
