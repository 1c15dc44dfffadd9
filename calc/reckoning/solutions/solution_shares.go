package solutions

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

// A bath is measured in litres. A strength by mass (w/w) therefore needs to know
// what a litre of the bath weighs, and one by volume (v/v) what a litre of the
// pure liquid does.

func bathDensity() reckoning.Input {
	return reckoning.Quantity("bath_density", "Density of the finished bath", "g/mL", 0.6, 2.5).Maybe().
		Note("Only needed for a strength of more than 2 % w/w: up to that, the bath is taken to weigh what water weighs.")
}

func pureDensity() reckoning.Input {
	return reckoning.Quantity("pure_density", "Density of the pure liquid", "g/mL", 0.6, 2.5).Maybe().
		Note("Only needed where something is given in % v/v: of the active liquid by itself, without water. Ethanol 0.789 g/mL at 20 °C.")
}

// thinByMass is the strength by mass up to which a bath weighs what water weighs.
const thinByMass = 2 * unit.Percent

// bathDensityOf returns what a bath weighs whose strength is by mass.
func bathDensityOf(s *reckoning.Sheet) unit.Density {
	if s.Has("bath_density") {
		return unit.Density(s.Base("bath_density"))
	}
	return water20()
}

// pureOf returns the density that a product is taken to have by those who take it
// for pure: that of the pure liquid where it bears on this form, else of a gram
// to the millilitre.
func pureOf(s *reckoning.Sheet) unit.Density {
	if s.Kind("target") == unit.VolumeShareKind || s.Kind("active") == unit.VolumeShareKind {
		return unit.Density(s.Base("pure_density"))
	}
	return unit.GramPerMillilitre
}

// waterAt is the temperature for which the water that makes up a solution is
// reckoned, as volumetric ware is marked for it.
const waterAt unit.Temperature = 20

// water20 returns the density of the water that makes up or thins.
func water20() unit.Density {
	d, err := tray.WaterDensity(waterAt)
	if err != nil {
		panic("solutions: " + err.Error()) // 20 °C lies in the range of the formula
	}
	return d
}

// workShares accounts for a strength by mass or by volume of a liquid.
func workShares(s *reckoning.Sheet, out *reckoning.Result, of string, strength unit.Concentration, bath unit.Density) {
	x := s.Base("target")
	switch s.Kind("target") {
	case unit.FractionKind:
		dense := reckoning.InUnit("g/mL", float64(bath))
		out.Work(of+"Strength in grams: a litre of the bath weighs what its density says.", "g/L = 10 × % w/w × density in g/mL", "10 × "+reckoning.InUnit("% w/w", x)+" × "+dense+" = "+reckoning.Grams(strength), dilution.Name)
	case unit.VolumeShareKind:
		out.Work(of+"Strength in grams.", "g/L = 10 × % v/v × density of the pure liquid", "10 × "+reckoning.InUnit("% v/v", x)+" × "+reckoning.InUnit("g/mL", s.Base("pure_density"))+" = "+reckoning.Grams(strength), dilution.Name)
	}
}

// workActive brings an active content that is an amount or a share by volume to
// grams.
func workActive(s *reckoning.Sheet, out *reckoning.Result, of string) {
	c, said := inGrams(s, "active"), strengthText(s.Kind("active"), s.Base("active"))
	switch s.Kind("active") {
	case unit.MolarityKind:
		out.Work(of+"Active content of the product in grams.", "g/L = mol/L × g/mol", said+" × "+reckoning.InUnit("g/mol", s.Base("molar_mass"))+" = "+reckoning.Grams(c), dilution.Name)
	case unit.VolumeShareKind:
		out.Work(of+"Active content of the product in grams.", "g/L = 10 × % v/v × density of the pure liquid", "10 × "+said+" × "+reckoning.InUnit("g/mL", s.Base("pure_density"))+" = "+reckoning.Grams(c), dilution.Name)
	}
}

// shareCautions are about shares by volume.
func shareCautions(s *reckoning.Sheet, out *reckoning.Result) {
	if s.Kind("target") == unit.VolumeShareKind || s.Kind("active") == unit.VolumeShareKind {
		out.Object("Alcohol and water take up less room together than apart, so the water is more than the difference. The mark decides.", shrinking)
	}
}
