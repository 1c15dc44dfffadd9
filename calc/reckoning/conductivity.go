package reckoning

import (
	"sinkside/calc/unit"
	"sinkside/calc/water"
)

// Ways to bring a conductivity to 25 °C.
const (
	wayLinear      = "linear"
	wayISO         = "iso7888"
	wayCompensated = "compensated"
)

// Sources of the conductivity.
var (
	linearSource = Source{"linear correction", "κ25 = κ ÷ (1 + α × (T - 25)) and “about 2.0 %/K is most common”: manual of the hand-held meter G 7500, 6.5.2. Ordinary water 2.2 %/K: manual dTRANS CR 02, chapter 16.", Read}
	isoSource    = Source{"ISO 7888", "Table of factors for natural water, 0 to 35.9 °C, about 60 to 1000 µS/cm, reprinted in the manual of the instrument C.A 10141, annex 1.", Read}
	saltSource   = Source{"coefficients of salts", "Manual PS9TK, p. 59: 900 µS/cm at 15 °C is 1082 at 25 °C with the coefficient of natural water, 1.68 %/K, and 1111 with that of potassium chloride, 1.90 %/K.", Read}
)

// mostConductive is the greatest reading that is taken, µS/cm: ten times a strong
// salt solution's would be a slip.
const mostConductive = 200000

var conductivityUnits = []string{"µS/cm", "mS/cm"}

func conductivityReckoning() *Reckoning {
	reading := Input{Name: "value", Title: "Reading", Kind: Quantity, Unit: "µS/cm", Units: conductivityUnits, Max: mostConductive}
	temp := Input{Name: "temp", Title: "Temperature of the water", Kind: Quantity, Unit: "°C", Units: []string{"°C", "°F"}, Max: 60,
		When: "way", Is: []string{wayLinear, wayISO}, Help: "Of the water at the moment of the reading."}
	coefficient := Input{Name: "coefficient", Title: "Change by the kelvin", Kind: Quantity, Unit: "%/K", Units: []string{"%/K"}, Min: 0.5, Max: 3, Default: "2", Optional: true,
		When: "way", Is: []string{wayLinear}, Help: "2.0 is what most meters take; 1.9 for potassium chloride, 2.1 for table salt. Keep to one for a whole treatment."}
	return (&Reckoning{
		Name: "conductivity", Title: "Conductivity at 25 °C", Asks: "What would this reading be at 25\u00a0°C, so that readings can be compared?",
		Inputs: []Input{
			{Name: "way", Title: "Brought to 25 °C", Kind: OneOf, Default: wayLinear,
				Choices: []Choice{{wayLinear, "with one coefficient"}, {wayISO, "as natural water, ISO 7888"}, {wayCompensated, "by the meter already"}}},
			reading, temp, coefficient,
			plusMinus(&reading), plusMinus(&temp), plusMinus(&coefficient),
		},
		Results: []ResultSpec{{Name: "k25", Title: "At 25 °C", Unit: "µS/cm"}},
		Sources: from(&linearSource, &isoSource, &saltSource, &definitions, &practice, &arithmetic),
		figures: conductivityFigures, explain: explainConductivity,
	}).setUp()
}

func conductivityFigures(s *sheet) ([]figure, *Problem) {
	k, at := water.Conductivity(s.base("value")), unit.Temperature(s.base("temp"))
	switch s.choice("way") {
	case wayLinear:
		k = water.Linear(k, at, water.Coefficient(s.base("coefficient")))
	case wayISO:
		const instead = ". Correct it with one coefficient instead."
		k25, err := water.ISO7888(k, at)
		switch err {
		case water.ErrISOTemperature:
			return nil, s.cannot("temp", "0 to 35.9 °C", err.Error()+instead)
		case water.ErrISOWater:
			return nil, s.cannot("value", "60 to 1000 µS/cm", err.Error()+instead)
		}
		k = k25
	}
	return []figure{fig("k25", float64(k))}, nil
}

func explainConductivity(s *sheet, out *Result) {
	k, at := s.base("value"), unit.Temperature(s.base("temp"))
	k25, _ := out.value("k25")
	gives := " = " + inUnit("µS/cm", k25)
	switch s.choice("way") {
	case wayLinear:
		a := s.base("coefficient")
		out.work("Brought to 25 °C with one coefficient.", "κ25 = κ ÷ (1 + α × (T - 25))",
			inUnit("µS/cm", k)+" ÷ (1 + "+unit.Text(a, 4)+" % × ("+unit.Text(at.Celsius(), 4)+" - 25))"+gives, linearSource.Name)
		off := at.Celsius() - 25
		if off < -10 || off > 10 {
			out.object("More than 10 °C away from 25 °C the result rests on the coefficient: 0.2 %/K more or less moves it by about "+unit.Text(max(off, -off)*0.2/(1+a/100*off), 2)+" %.", saltSource)
		}
	case wayISO:
		f, _ := water.ISOFactor(at)
		out.work("Brought to 25 °C as natural water, between whole degrees of the table in proportion.", "κ25 = κ × f25(T)",
			inUnit("µS/cm", k)+" × "+unit.Text(f, 4)+gives, isoSource.Name)
		out.object("The table was made for natural water. Once detergent or another salt is in it, one coefficient does as well.", practice)
	default:
		out.work("The meter has brought it to 25 °C itself: it stays as it was read and is not corrected again.", "κ25 = κ", "", arithmetic.Name)
		out.object("Make sure that the meter does correct, and to 25 °C: some show the reading as it is, some correct to 20 °C.", practice)
	}
	out.object("Compare only readings that were brought to 25 °C in the same way. How water changes by the kelvin depends on what is dissolved in it.", saltSource)
	out.object("Conductivity sees salts and ionic detergent. It does not see non-ionic detergent, dirt or most dye.", practice)
}
