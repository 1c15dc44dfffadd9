package solutions

import (
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
)

func TestNoReadingWithinItsErrorLeavesTheRange(t *testing.T) {
	type off = map[string]float64
	in := reckoningtest.In
	reckoningtest.HoldBetween(t, Dilution(), form{"know": "total", "molar_mass": 36.46, "step": "1 mL", "amount": in(2, "L"), "stock": in(38, "% w/w"), "wanted": in(1, "mol/L"), "density": in(1.18, "g/mL")}, off{"amount": 0.5, "stock": 4, "density": 0.1})
	reckoningtest.HoldBetween(t, Dilution(), form{"know": "stock", "by": "mass", "amount": in(200, "g"), "stock": in(36, "% w/w"), "wanted": in(10, "% w/w"), "density": in(1.18, "g/mL")}, off{"amount": 20, "stock": 10, "density": 0.1})
	reckoningtest.HoldBetween(t, BathStrength(), form{"molar_mass": 288.378, "litres": in(40, "L"), "amount": in(320, "mL"), "active": in(28, "% w/w"), "density": in(1.04, "g/mL"), "cmc": in(2.34, "g/L")}, off{"litres": 2, "amount": 30, "active": 3, "density": 0.05, "cmc": 0.3})
	reckoningtest.HoldBetween(t, Strengths(), form{"molar_mass": 36.46, "pure_density": 1.3, "strength": in(30, "% w/v"), "density": in(1.1, "g/mL")}, off{"strength": 10, "density": 0.1})
	reckoningtest.HoldBetween(t, BufferPH(), form{"pair": "phosphate2", "base": in(200, "mmol"), "acid": in(150, "mmol"), "strong_base": in(8, "mmol"), "strong_acid": in(2, "mmol")}, off{"base": 150, "acid": 120, "strong_base": 3, "strong_acid": 1})
	reckoningtest.HoldBetween(t, BufferMix(), form{"citric_acid": 33, "hydrogen_phosphate": 60, "litres": in(1, "L")}, off{"litres": 0.4})
	reckoningtest.HoldBetween(t, CMCSalt(), form{"salt": "trisodium_citrate", "salt_strength": in(60, "mmol/L"), "strength": in(3, "g/L")}, off{"salt_strength": 60, "strength": 0.5})
	reckoningtest.HoldBetween(t, Several(), form{"ingredients": []form{{"name": "a", "form": "liquid", "target": "2 % v/v", "active": "96 % v/v", "pure_density": 0.789}, {"name": "b", "target": 3}}, "litres": in(20, "L")}, off{"litres": 5})
	reckoningtest.HoldBetween(t, Hydrate(), form{"asked_waters": 10, "have_waters": 0, "substance": "sodium_carbonate", "mass": in(10, "g")}, off{"mass": 2})
	reckoningtest.HoldBetween(t, SmallAmount(), form{"balance": 0.01, "litres": in(2, "L"), "target": in(0.02, "g/L")}, off{"litres": 1, "target": 0.01})
	reckoningtest.HoldBetween(t, BufferRecipe(), form{"ph": 4.3, "litres": in(2, "L")}, off{"litres": 1})
	reckoningtest.HoldBetween(t, Recipe(), form{"ingredients": []form{{"name": "a", "amount": 7}}, "made": in(2, "L"), "litres": in(10, "L")}, off{"made": 1, "litres": 4})
}
