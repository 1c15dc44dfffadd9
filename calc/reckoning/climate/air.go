// Package climate accounts for reckonings with the air: its state, drying in it,
// mould, and humidities that are kept in a box.
package climate

import (
	"sinkside/calc/air"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// What is known of the air: its temperature and one of these, or two of these.
const (
	byHumidity = "humidity"
	byDewPoint = "dew_point"
	byWetBulb  = "wet_bulb"

	humidityAndDew = "humidity_dew_point"
	humidityAndWet = "humidity_wet_bulb"
	dewAndWet      = "dew_point_wet_bulb"
)

// Sources of moist air.
var (
	saturation   = reckoning.Source{Name: "saturation pressure", Where: "Hyland and Wexler's form with the constants of ASHRAE Handbook, Fundamentals 2017, chapter 1. Held against the table of the CRC Handbook 1992–93, 0 to 50 °C: within 0.1 %.", Mark: reckoning.Memory}
	psychrometry = reckoning.Source{Name: "psychrometrics", Where: "ASHRAE Handbook, Fundamentals 2017, chapter 1: humidity ratio 0.621945 × pv ÷ (P - pv) and the equation of the wet bulb. Held against its printed example.", Mark: reckoning.Memory}
	dampAir      = reckoning.Source{Name: "damp", Where: "S. Michalski, Canadian Conservation Institute, Incorrect Relative Humidity: damp is above 75 % RH.", Mark: reckoning.Read}
)

const family = "Air and drying"

// damp is the relative humidity above which air is damp.
const damp unit.Fraction = 0.75

var celsiusUnits = []string{"°C", "°F"}

// airTemperature and humidityOf are asked for wherever air is.
func airTemperature() reckoning.Input {
	return reckoning.Input{Name: "temperature", Title: "Temperature of the air", Kind: reckoning.KindQuantity, Unit: "°C", Units: celsiusUnits, Min: float64(air.Coldest), Max: float64(air.Warmest)}
}

func humidityOf() reckoning.Input {
	return reckoning.Input{Name: "humidity", Title: "Relative humidity", Kind: reckoning.KindQuantity, Unit: "%", Units: []string{"%"}, Min: air.Driest.Percent(), Max: 100}
}

// Air reckons the state of moist air.
func Air() *reckoning.Reckoning {
	temperature, humidity := airTemperature(), humidityOf()
	temperature = temperature.If("known", byHumidity, byDewPoint, byWetBulb)
	humidity = humidity.If("known", byHumidity, humidityAndDew, humidityAndWet)
	other := func(name, title string, is ...string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "°C", Units: celsiusUnits, Min: -60, Max: float64(air.Warmest), When: "known", Is: is}
	}
	dew, wet := other(byDewPoint, "Dew point", byDewPoint, humidityAndDew, dewAndWet), other(byWetBulb, "Wet bulb", byWetBulb, humidityAndWet, dewAndWet)
	surface := reckoning.Input{Name: "surface", Title: "Coldest surface near by", Kind: reckoning.KindQuantity, Unit: "°C", Units: celsiusUnits, Min: -40, Max: 100, Optional: true,
		Help: "A window, a wall, a pipe, glass: whatever might get wet."}
	return (&reckoning.Reckoning{
		Name: "air", Title: "Air of the room", Asks: "Where does this air condense, and how cold does a wet surface get in it?", Family: family,
		Example: `{"known":"humidity","temperature":"68 °F","temperature_pm":1,"humidity":80,"humidity_pm":3,"pressure":"99,5 kPa","surface":12}`,
		Inputs: []reckoning.Input{
			{Name: "known", Title: "What is known of the air", Kind: reckoning.KindChoice, Default: byHumidity,
				Choices: reckoning.Choices(byHumidity, "temperature and relative humidity", byDewPoint, "temperature and dew point", byWetBulb, "temperature and wet bulb",
					humidityAndDew, "relative humidity and dew point", humidityAndWet, "relative humidity and wet bulb", dewAndWet, "dew point and wet bulb")},
			temperature, humidity, dew, wet,
			{Name: "pressure", Title: "Pressure of the air", Kind: reckoning.KindQuantity, Unit: "hPa", Units: []string{"hPa", "kPa"}, Min: float64(air.Lowest) / 100, Max: float64(air.Highest) / 100, Default: "1013.25", Optional: true,
				Help: "At the place, not brought to sea level. It matters little."},
			surface,
			reckoning.PlusMinus(&temperature), reckoning.PlusMinus(&humidity), reckoning.PlusMinus(&dew), reckoning.PlusMinus(&wet), reckoning.PlusMinus(&surface),
		},
		Results: []reckoning.ResultSpec{
			{Name: "dew_point", Title: "Dew point", Unit: "°C"},
			{Name: "wet_bulb", Title: "Wet bulb", Unit: "°C"},
			{Name: "humidity", Title: "Relative humidity", Unit: "%"},
			{Name: "vapour_pressure", Title: "Vapour pressure", Unit: "Pa"},
			{Name: "humidity_ratio", Title: "Humidity ratio, to dry air", Unit: "g/kg"},
			{Name: "absolute_humidity", Title: "Absolute humidity", Unit: "g/m³"},
			{Name: "dry_bulb", Title: "Temperature of the air", Unit: "°C"},
			{Name: "enthalpy", Title: "Enthalpy, for a kilogram of dry air", Unit: "kJ/kg"},
			{Name: "specific_volume", Title: "Volume, for a kilogram of dry air", Unit: "m³/kg"},
			{Name: "surface", Title: "Coldest surface near by", Unit: "°C"},
		},
		Sources: reckoning.From(&saturation, &psychrometry, &dampAir, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Figures: airFigures, Explain: explainAir,
	}).Ready()
}

func stateOf(s *reckoning.Sheet) (air.State, *reckoning.Problem) {
	t, whole := unit.Temperature(s.Base("temperature")), air.Pressure(s.Base("pressure"))
	rh, dew, wet := unit.Fraction(s.Base("humidity")), unit.Temperature(s.Base(byDewPoint)), unit.Temperature(s.Base(byWetBulb))
	state, err := air.State{}, error(nil)
	switch s.Choice("known") {
	case byDewPoint:
		state, err = air.ByDewPoint(t, dew, whole)
	case byWetBulb:
		state, err = air.ByWetBulb(t, wet, whole)
	case humidityAndDew:
		state, err = air.ByHumidityAndDewPoint(rh, dew, whole)
	case humidityAndWet:
		state, err = air.ByHumidityAndWetBulb(rh, wet, whole)
	case dewAndWet:
		state, err = air.ByDewPointAndWetBulb(dew, wet, whole)
	default:
		state = air.ByHumidity(t, rh, whole)
	}
	if err != nil {
		return state, contradiction(s, err)
	}
	return state, nil
}

func airFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	a, p := stateOf(s)
	if p != nil {
		return nil, p
	}
	var out reckoning.Figures
	// What is given is answered as it was given, to the last bit.
	own := func(name string, x float64) {
		if s.Has(name) {
			x = s.Base(name)
		}
		out.Add(name, x)
	}
	own(byDewPoint, a.DewPoint().Celsius())
	own(byWetBulb, a.WetBulb().Celsius())
	own(byHumidity, float64(a.Humidity()))
	out.Add("vapour_pressure", float64(a.Vapour))
	out.Add("humidity_ratio", a.Ratio()*1000)
	// A warmer litre of air is thinner and, at one humidity, holds more: two
	// factors that go opposite ways.
	thin := 1 / (a.DryBulb.Celsius() + kelvin)
	out.Product("absolute_humidity", a.Absolute()/thin, thin)
	if !s.Has("temperature") {
		out.Add("dry_bulb", a.DryBulb.Celsius())
	}
	out.Add("enthalpy", a.Enthalpy())
	out.Add("specific_volume", a.Volume())
	if s.Has("surface_pm") { // its range decides whether it gets wet
		out.Add("surface", s.Base("surface"))
	}
	return out, nil
}

const kelvin = 273.15

// absolute is the vapour in a cubic metre of air at the pressure of the standard
// atmosphere, g.
func absolute(t unit.Temperature, rh unit.Fraction) float64 {
	return air.ByHumidity(t, rh, air.Standard).Absolute()
}

func explainAir(s *reckoning.Sheet, out *reckoning.Result) {
	a, _ := stateOf(s)
	t, dew, ps := a.DryBulb, a.DewPoint(), air.Saturation(a.DryBulb)
	pascal := func(p air.Pressure) string { return reckoning.InUnit("Pa", float64(p)) }
	percent, pv, ratio := unit.Text(a.Humidity().Percent(), 4)+" %", pascal(a.Vapour), reckoning.InUnit("g/kg", a.Ratio()*1000)
	const wetBulb = "W = ((2501 - 2.326 Tw) × Ws(Tw) - 1.006 (T - Tw)) ÷ (2501 + 1.86 T - 4.186 Tw)"
	known := s.Choice("known")
	switch known {
	case humidityAndDew, humidityAndWet, dewAndWet:
		out.Work("Temperature of the air: searched for until the equations below give both readings.", "RH = pv ÷ ps(T); ps(dew point) = pv; "+wetBulb, "T = "+reckoning.Celsius(t)+": "+percent+", pv "+pv+", W "+ratio, psychrometry.Name)
	case byHumidity:
		out.Work("Vapour pressure, from the saturation pressure at the temperature of the air.", "pv = RH × ps(T)", percent+" × "+pascal(ps)+" = "+pv, saturation.Name)
	case byDewPoint:
		out.Work("Vapour pressure: the saturation pressure at the dew point. Its share of that of the air is the humidity.", "pv = ps(dew point); RH = pv ÷ ps(T)", pv+" ÷ "+pascal(ps)+" = "+percent, saturation.Name)
	default:
		out.Work("Humidity ratio from the wet bulb, and from it vapour pressure and humidity.", wetBulb+"; pv = P × W ÷ (0.621945 + W)", ratio+"; "+pv+" ÷ "+pascal(ps)+" = "+percent, psychrometry.Name)
	}
	out.Work("Enthalpy and volume, for a kilogram of dry air.", "h = 1.006 T + W (2501 + 1.86 T); v = 0.287042 (T + 273.15)(1 + 1.607858 W) ÷ P",
		reckoning.InUnit("kJ/kg", a.Enthalpy())+"; "+reckoning.InUnit("m³/kg", a.Volume()), psychrometry.Name)
	if known != byDewPoint {
		out.Work("Dew point: where the saturation pressure, over water, is the vapour pressure.", "ps(dew point) = pv", "ps("+reckoning.Celsius(dew)+") = "+pv, saturation.Name)
	}
	if known != byWetBulb {
		out.Work("Humidity ratio.", "W = 0.621945 × pv ÷ (P - pv)", "0.621945 × "+pv+" ÷ ("+unit.Text(float64(a.Whole), 6)+" Pa - "+pv+") = "+ratio, psychrometry.Name)
		out.Work("Wet bulb: what a wet surface cools to in moving air.", wetBulb, "Tw = "+reckoning.Celsius(a.WetBulb()), psychrometry.Name)
	}
	out.Work("Absolute humidity, as an ideal gas.", "2.16679 × pv ÷ (T + 273.15)", "2.16679 × "+pv+" ÷ ("+unit.Text(t.Celsius(), 4)+" + 273.15) = "+reckoning.InUnit("g/m³", a.Absolute()), psychrometry.Name)
	wet := "Whatever is at or below the dew point of " + s.Degrees(dew) + " gets wet: look at cold walls, windows and pipes before anything is laid near them."
	if s.Has("surface") {
		wet = condenses(s, out, dew)
	}
	out.Object(wet, saturation)
	if s.Has(byWetBulb) {
		out.Object("A wet bulb reads right in moving air alone, some 3 m/s, with a clean wet wick: in still air it reads too warm, and the air seems damper than it is.", reckoning.CommonPractice)
	}
	if dew < 0 {
		out.Object("Below 0 °C frost forms, at a temperature about a tenth nearer to 0 °C than this dew point.", reckoning.Arithmetic)
	}
	dampCaution(s, out, a)
}

// dampCaution warns of air in which nothing dries well and mould grows.
func dampCaution(s *reckoning.Sheet, out *reckoning.Result, a air.State) {
	_, most, _ := out.Range("humidity")
	if a.Humidity() <= damp && most > damp.Percent()*(1+1e-9) {
		out.Object("Within its ± the air may be damp: up to "+unit.Text(most, 3)+" % RH, and above 75 % mould grows in weeks.", dampAir)
	}
	if a.Humidity() > damp {
		out.Object("The air is damp: "+unit.Text(a.Humidity().Percent(), 3)+" % RH, above 75 %. Mould grows in weeks, on wet things sooner. Dry the air first, or move more of it through.", dampAir)
	}
}
