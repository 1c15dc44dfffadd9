package reckoning

import (
	"sinkside/calc/air"
	"sinkside/calc/unit"
)

// What is known of the air beside its temperature.
const (
	byHumidity = "humidity"
	byDewPoint = "dew_point"
	byWetBulb  = "wet_bulb"
)

// Sources of moist air.
var (
	saturation   = Source{"saturation pressure", "Hyland and Wexler's form with the constants of ASHRAE Handbook, Fundamentals 2017, chapter 1. Held against the table of the CRC Handbook 1992–93, 0 to 50 °C: within 0.1 %.", Memory}
	psychrometry = Source{"psychrometrics", "ASHRAE Handbook, Fundamentals 2017, chapter 1: humidity ratio 0.621945 × pv ÷ (P - pv) and the equation of the wet bulb. Held against its printed example.", Memory}
	dampAir      = Source{"damp", "S. Michalski, Canadian Conservation Institute, Incorrect Relative Humidity: damp is above 75 % RH.", Read}
)

// damp is the relative humidity above which air is damp.
const damp unit.Fraction = 0.75

var celsiusUnits = []string{"°C", "°F"}

// airTemperature and humidityOf are asked for wherever air is.
func airTemperature() Input {
	return Input{Name: "temperature", Title: "Temperature of the air", Kind: Quantity, Unit: "°C", Units: celsiusUnits, Min: float64(air.Coldest), Max: float64(air.Warmest)}
}

func humidityOf() Input {
	return Input{Name: "humidity", Title: "Relative humidity", Kind: Quantity, Unit: "%", Units: []string{"%"}, Min: air.Driest.Percent(), Max: 100}
}

func airReckoning() *Reckoning {
	temperature, humidity := airTemperature(), humidityOf()
	humidity.When, humidity.Is = "known", []string{byHumidity}
	other := func(name, title string) Input {
		return Input{Name: name, Title: title, Kind: Quantity, Unit: "°C", Units: celsiusUnits, Min: -60, Max: float64(air.Warmest), When: "known", Is: []string{name}}
	}
	dew, wet := other(byDewPoint, "Dew point"), other(byWetBulb, "Wet bulb")
	surface := Input{Name: "surface", Title: "Coldest surface near by", Kind: Quantity, Unit: "°C", Units: celsiusUnits, Min: -40, Max: 100, Optional: true,
		Help: "A window, a wall, a pipe, glass: whatever might get wet."}
	return (&Reckoning{
		Name: "air", Title: "Air of the room", Asks: "Where does this air condense, and how cold does a wet surface get in it?",
		Inputs: []Input{
			{Name: "known", Title: "Known beside the temperature", Kind: OneOf, Default: byHumidity,
				Choices: []Choice{{byHumidity, "relative humidity"}, {byDewPoint, "dew point"}, {byWetBulb, "wet bulb"}}},
			temperature, humidity, dew, wet,
			{Name: "pressure", Title: "Pressure of the air", Kind: Quantity, Unit: "hPa", Units: []string{"hPa", "kPa"}, Min: float64(air.Lowest) / 100, Max: float64(air.Highest) / 100, Default: "1013.25", Optional: true,
				Help: "At the place, not brought to sea level. It matters little."},
			surface,
			plusMinus(&temperature), plusMinus(&humidity),
		},
		Results: []ResultSpec{
			{Name: "dew_point", Title: "Dew point", Unit: "°C"},
			{Name: "wet_bulb", Title: "Wet bulb", Unit: "°C"},
			{Name: "humidity", Title: "Relative humidity", Unit: "%"},
			{Name: "vapour_pressure", Title: "Vapour pressure", Unit: "Pa"},
			{Name: "humidity_ratio", Title: "Humidity ratio, to dry air", Unit: "g/kg"},
			{Name: "absolute_humidity", Title: "Absolute humidity", Unit: "g/m³"},
		},
		Sources: from(&saturation, &psychrometry, &dampAir, &definitions, &practice, &arithmetic),
		figures: airFigures, explain: explainAir,
	}).setUp()
}

func (s *sheet) air() (air.State, *Problem) {
	t, whole, known := unit.Temperature(s.base("temperature")), air.Pressure(s.base("pressure")), s.choice("known")
	state, err := air.State{}, error(nil)
	switch known {
	case byDewPoint:
		state, err = air.ByDewPoint(t, unit.Temperature(s.base(known)), whole)
	case byWetBulb:
		state, err = air.ByWetBulb(t, unit.Temperature(s.base(known)), whole)
	default:
		state = air.ByHumidity(t, unit.Fraction(s.base("humidity")), whole)
	}
	if err != nil {
		return state, s.cannot(known, "", err.Error()+".")
	}
	return state, nil
}

func airFigures(s *sheet) ([]figure, *Problem) {
	a, p := s.air()
	if p != nil {
		return nil, p
	}
	var out figures
	// What is given is answered as it was given, to the last bit.
	own := func(name string, x float64) {
		if s.has(name) {
			x = s.base(name)
		}
		out.add(name, x)
	}
	own(byDewPoint, a.DewPoint().Celsius())
	own(byWetBulb, a.WetBulb().Celsius())
	own(byHumidity, float64(a.Humidity()))
	out.add("vapour_pressure", float64(a.Vapour))
	out.add("humidity_ratio", a.Ratio()*1000)
	// A warmer litre of air is thinner and, at one humidity, holds more: two
	// factors that go opposite ways.
	thin := 1 / (a.DryBulb.Celsius() + kelvin)
	out = append(out, fig("absolute_humidity", a.Absolute()/thin, thin))
	return out, nil
}

const kelvin = 273.15

func explainAir(s *sheet, out *Result) {
	a, _ := s.air()
	t, dew, ps := a.DryBulb, a.DewPoint(), air.Saturation(a.DryBulb)
	pascal := func(p air.Pressure) string { return inUnit("Pa", float64(p)) }
	percent, pv, ratio := unit.Text(a.Humidity().Percent(), 4)+" %", pascal(a.Vapour), inUnit("g/kg", a.Ratio()*1000)
	const wetBulb = "W = ((2501 - 2.326 Tw) × Ws(Tw) - 1.006 (T - Tw)) ÷ (2501 + 1.86 T - 4.186 Tw)"
	known := s.choice("known")
	switch known {
	case byHumidity:
		out.work("Vapour pressure, from the saturation pressure at the temperature of the air.", "pv = RH × ps(T)", percent+" × "+pascal(ps)+" = "+pv, saturation.Name)
	case byDewPoint:
		out.work("Vapour pressure: the saturation pressure at the dew point. Its share of that of the air is the humidity.", "pv = ps(dew point); RH = pv ÷ ps(T)", pv+" ÷ "+pascal(ps)+" = "+percent, saturation.Name)
	default:
		out.work("Humidity ratio from the wet bulb, and from it vapour pressure and humidity.", wetBulb+"; pv = P × W ÷ (0.621945 + W)", ratio+"; "+pv+" ÷ "+pascal(ps)+" = "+percent, psychrometry.Name)
	}
	if known != byDewPoint {
		out.work("Dew point: where the saturation pressure, over water, is the vapour pressure.", "ps(dew point) = pv", "ps("+celsius(dew)+") = "+pv, saturation.Name)
	}
	if known != byWetBulb {
		out.work("Humidity ratio.", "W = 0.621945 × pv ÷ (P - pv)", "0.621945 × "+pv+" ÷ ("+unit.Text(float64(a.Whole), 6)+" Pa - "+pv+") = "+ratio, psychrometry.Name)
		out.work("Wet bulb: what a wet surface cools to in moving air.", wetBulb, "Tw = "+celsius(a.WetBulb()), psychrometry.Name)
	}
	out.work("Absolute humidity, as an ideal gas.", "2.16679 × pv ÷ (T + 273.15)", "2.16679 × "+pv+" ÷ ("+unit.Text(t.Celsius(), 4)+" + 273.15) = "+inUnit("g/m³", a.Absolute()), psychrometry.Name)
	wet := "Whatever is at or below the dew point of " + celsius(dew) + " gets wet: look at cold walls, windows and pipes before anything is laid near them."
	if s.has("surface") {
		if at := unit.Temperature(s.base("surface")); at <= dew {
			wet = "The surface at " + celsius(at) + " is at or below the dew point of " + celsius(dew) + ": water condenses on it. Keep the object away from it."
		} else {
			wet = "The surface at " + celsius(at) + " stays dry, by " + unit.Text(float64(at-dew), 2) + " °C. Air that gets damper by drying work may still reach it."
		}
	}
	out.object(wet, saturation)
	if dew < 0 {
		out.object("Below 0 °C frost forms, at a temperature about a tenth nearer to 0 °C than this dew point.", arithmetic)
	}
	s.dampCaution(out, a)
}

// dampCaution warns of air in which nothing dries well and mould grows.
func (s *sheet) dampCaution(out *Result, a air.State) {
	if a.Humidity() > damp {
		out.object("The air is damp: "+unit.Text(a.Humidity().Percent(), 3)+" % RH, above 75 %. Mould grows in weeks, on wet things sooner. Dry the air first, or move more of it through.", dampAir)
	}
}

//go:noinline
func celsius(t unit.Temperature) string { return inUnit("°C", t.Celsius()) }
