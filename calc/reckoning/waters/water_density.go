package waters

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

// formulaError is how far off the formula of the density may be, kg/m³.
const formulaError = 0.006

// Density reckons the density of water.
func Density() *reckoning.Reckoning {
	volume := volumeInput("volume", "Water", 0.0001, 50000).Maybe()
	temperature := reckoning.Quantity("temperature", "Temperature", "°C", 0, 40).Usually("20")
	return (&reckoning.Reckoning{
		Name: "water_density", Title: "Density of water", Asks: "How much does this water weigh at its temperature?", Family: family,
		Inputs: []reckoning.Input{
			temperature, volume, reckoning.PlusMinus(&temperature), reckoning.PlusMinus(&volume),
		},
		Results: []reckoning.ResultSpec{{Name: "density", Title: "Density", Unit: "kg/m³"}, {Name: "mass", Title: "Mass", Unit: "kg"}},
		Sources: reckoning.From(&reckoning.WaterDensity, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"temperature":"25","volume":"10 L","volume_pm":"0.1"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			d, err := tray.WaterDensity(unit.Temperature(s.Base("temperature")))
			if err != nil {
				return nil, s.Cannot("temperature", "0 to 40 °C", err.Error()+".")
			}
			const off = unit.Density(formulaError) / 1000
			var out reckoning.Figures
			rising, falling := aroundDensest(unit.Temperature(s.Base("temperature")))
			if s.Has("temperature_pm") { // next to which the formula's own error is nothing
				out.Product("density", rising, falling)
			} else {
				out.Between("density", float64(d), float64(d-off), float64(d+off))
			}
			if s.Has("volume") {
				out.Product("mass", unit.Volume(s.Base("volume")).At(1).Grams(), rising, falling)
			}
			return out, nil
		},
		Explain: explainDensity,
	}).Ready()
}

// densest is where water is densest by the formula, °C.
const densest unit.Temperature = 3.983

// aroundDensest returns a density as two factors, of which one only rises and the
// other only falls with the temperature, so that a range across the densest holds it.
func aroundDensest(at unit.Temperature) (rising, falling float64) {
	low, _ := tray.WaterDensity(min(at, densest))
	high, _ := tray.WaterDensity(max(at, densest))
	most, _ := tray.WaterDensity(densest)
	return float64(low), float64(high / most)
}

func explainDensity(s *reckoning.Sheet, out *reckoning.Result) {
	d, _ := tray.WaterDensity(unit.Temperature(s.Base("temperature")))
	said := text("kg/m³", float64(d), 6)
	closer := said + " ± 0.006"
	if low, high, _ := out.Range("density"); s.Has("temperature_pm") && low < high {
		closer = said + ", " + unit.Text(low, 6) + " to " + unit.Text(high, 6) + " by the ± of the temperature"
	}
	out.Verdict("density_closer", "Density, closer", closer)
	out.Work("Density of clean water.", "ρ(t) by a fitted formula on the ITS-90 scale", "ρ("+text("°C", s.Base("temperature"), 4)+") = "+said, reckoning.WaterDensity.Name)
	if s.Has("volume") {
		v := unit.Volume(s.Base("volume"))
		out.Work("Mass.", "mass = volume × density", reckoning.Volume(v)+" × "+text("g/mL", float64(d), 6)+" = "+reckoning.Weight(v.At(d)), reckoning.Arithmetic.Name)
		if v.At(d) > heavy {
			out.People("Too much to carry at once: by hose, or in cans that one person can carry. Never carry a filled tray.", reckoning.CommonPractice)
		}
	} else {
		out.NotKnown("mass", s.Title("mass"), "Not known without a volume.")
	}
	out.Object("Clean water at the pressure of the air. What is dissolved adds to it: about 0.7 kg/m³ for a gram of salt in a litre.", reckoning.CommonPractice)
}

// heavy is from where on the mass is said to be too much for one can: our choice
// of when to speak, no limit for lifting.
const heavy = 15 * unit.Kilogram
