package waters

import (
	"strings"

	"sinkside/calc/reckoning"
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
	linearSource = reckoning.Source{Name: "linear correction", Where: "κ25 = κ ÷ (1 + α × (T - 25)) and “about 2.0 %/K is most common”: manual of the hand-held meter G 7500, 6.5.2. Ordinary water 2.2 %/K: manual dTRANS CR 02, chapter 16.", Mark: reckoning.Read}
	ppmSource    = reckoning.Source{Name: "ppm of a meter", Where: "1413 µS/cm counted as 702.1 ppm NaCl and 744.7 ppm KCl, as calibration solutions are commonly labelled.", Mark: reckoning.Memory}
	isoSource    = reckoning.Source{Name: "ISO 7888", Where: "Table of factors for natural water, 0 to 35.9 °C, about 60 to 1000 µS/cm, reprinted in the manual of the instrument C.A 10141, annex 1.", Mark: reckoning.Read}
)

// Conductivity reckons a reading at 25 °C.
func Conductivity() *reckoning.Reckoning {
	reading := reckoning.Input{Name: "value", Title: "Reading", Kind: reckoning.KindQuantity, Unit: "µS/cm", Units: unit.Of(unit.ConductivityKind), Max: water.MostConductive}
	temp := reckoning.Input{Name: "temp", Title: "Temperature of the water", Kind: reckoning.KindQuantity, Unit: "°C", Units: []string{"°C", "°F"}, Max: 60,
		When: "way", Is: []string{wayLinear, wayISO}, Help: "Of the water at the moment of the reading."}
	coefficient := reckoning.Input{Name: "coefficient", Title: "Change by the kelvin", Kind: reckoning.KindQuantity, Unit: "%/K", Units: []string{"%/K"}, Min: 0.5, Max: 3, Default: "2", Optional: true,
		When: "way", Is: []string{wayLinear}, Help: "2.0 is what most meters take; 1.9 for potassium chloride, 2.1 for table salt. Keep to one for a whole treatment."}
	return (&reckoning.Reckoning{
		Name: "conductivity", Title: "Conductivity at 25 °C", Asks: "What would this reading be at 25\u00a0°C, so that readings can be compared?", Family: "Water",
		Example: `{"value":{"value":"0,9","unit":"mS/cm"},"value_pm":"0.02","temp":"59 °F","temp_pm":1,"way":"linear","coefficient":"1,68","coefficient_pm":0.2}`,
		Inputs: []reckoning.Input{
			{Name: "way", Title: "Brought to 25 °C", Kind: reckoning.KindChoice, Default: wayLinear,
				Choices: reckoning.Choices(wayLinear, "with one coefficient", wayISO, "as natural water, ISO 7888", wayCompensated, "by the meter already")},
			reading, temp, coefficient,
			reckoning.PlusMinus(&reading), reckoning.PlusMinus(&temp), reckoning.PlusMinus(&coefficient),
		},
		Results: []reckoning.ResultSpec{{Name: "k25", Title: "At 25 °C", Unit: "µS/cm"}},
		Sources: reckoning.From(&linearSource, &isoSource, &ppmSource, &reckoning.SaltCoefficients, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Figures: conductivityFigures, Explain: explainConductivity,
	}).Ready()
}

func conductivityFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	k, at := water.Conductivity(s.Base("value")), unit.Temperature(s.Base("temp"))
	switch s.Choice("way") {
	case wayLinear:
		k = water.Linear(k, at, water.Coefficient(s.Base("coefficient")))
	case wayISO:
		const instead = ". Correct it with one coefficient instead."
		k25, err := water.ISO7888(k, at)
		switch err {
		case water.ErrISOTemperature:
			return nil, s.Cannot("temp", "0 to 35.9 °C", err.Error()+instead)
		case water.ErrISOWater:
			return nil, s.Cannot("value", "60 to 1000 µS/cm", err.Error()+instead)
		}
		k = k25
	}
	return reckoning.Figures{reckoning.Fig("k25", float64(k))}, nil
}

func explainConductivity(s *reckoning.Sheet, out *reckoning.Result) {
	k, at := s.Base("value"), unit.Temperature(s.Base("temp"))
	k25, _ := out.Value("k25")
	out.People("A meter at the tray runs from its battery, and hands that reach for it are dry.", reckoning.CommonPractice)
	gives := " = " + reckoning.InUnit("µS/cm", k25)
	switch s.Choice("way") {
	case wayLinear:
		a := s.Base("coefficient")
		out.Work("Brought to 25 °C with one coefficient.", "κ25 = κ ÷ (1 + α × (T - 25))",
			reckoning.InUnit("µS/cm", k)+" ÷ (1 + "+unit.Text(a, 4)+" % × ("+unit.Text(at.Celsius(), 4)+" - 25))"+gives, linearSource.Name)
		off := at.Celsius() - 25
		if off < -10 || off > 10 {
			out.Object("More than 10 °C away from 25 °C the result rests on the coefficient: 0.2 %/K more or less moves it by about "+unit.Text(max(off, -off)*0.2/(1+a/100*off), 2)+" %.", reckoning.SaltCoefficients)
		}
	case wayISO:
		f, _ := water.ISOFactor(at)
		out.Work("Brought to 25 °C as natural water, between whole degrees of the table in proportion.", "κ25 = κ × f25(T)",
			reckoning.InUnit("µS/cm", k)+" × "+unit.Text(f, 4)+gives, isoSource.Name)
		out.Object("The table was made for natural water. Once detergent or another salt is in it, one coefficient does as well.", reckoning.CommonPractice)
	default:
		out.Work("The meter has brought it to 25 °C itself: it stays as it was read and is not corrected again.", "κ25 = κ", "", reckoning.Arithmetic.Name)
		out.Object("Make sure that the meter does correct, and to 25 °C: some show the reading as it is, some correct to 20 °C.", reckoning.CommonPractice)
	}
	out.Object("Compare only readings that were brought to 25 °C in the same way. How water changes by the kelvin depends on what is dissolved in it.", reckoning.SaltCoefficients)
	if inPPM(out) {
		out.Object("A reading in ppm is a conductivity times the meter's own factor. Here ppm as NaCl is taken as 702.1, and as KCl as 744.7, for 1413 µS/cm; a meter of another factor reads otherwise, so better switch it to µS/cm.", ppmSource)
	}
	out.Object("Conductivity sees salts and ionic detergent. It does not see non-ionic detergent, dirt or most dye.", reckoning.CommonPractice)
}

// inPPM reports whether a reading was converted from ppm on the way.
func inPPM(out *reckoning.Result) bool {
	for _, w := range out.Working {
		if strings.Contains(w.Put, " ppm ") {
			return true
		}
	}
	return false
}
