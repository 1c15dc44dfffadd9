package waters

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const family = "Water"

// Sources of the reckonings of water.
var (
	hardnessScales = reckoning.Source{Name: "scales of hardness", Where: "1 °dH = 10 mg CaO in a litre, 1 °fH = 10 mg CaCO3, 1 °e a grain of CaCO3 in an imperial gallon, 1 gpg one in a US gallon (conversion tables of makers, support.hach.com answer 1000710). In mg/L CaCO3: 17.848, 10, 14.254, 17.118. One widely read page swaps °dH and °fH.", Mark: reckoning.Read}
	hardnessIons   = reckoning.Source{Name: "hardness from ions", Where: "mg/L CaCO3 = 2.497 × Ca + 4.118 × Mg, from atomic weights (that of magnesium, 24.305, from memory). A page prints 2.497 and 4.115 (wiktel.com).", Mark: reckoning.Computed}
	hardnessWords  = reckoning.Source{Name: "words for hardness", Where: "Two scales in one table, adapted from the United States Geological Survey and a trade association: 60, 120, 180 mg/L CaCO3, and 17.1 as well (h2odistributors.com, hard water map).", Mark: reckoning.Read}
	chelation      = reckoning.Source{Name: "one to one", Where: "EDTA and citrate hold one calcium or magnesium ion a molecule; at equal amounts EDTA in alkaline water nearly all, citrate a part. Textbook chemistry.", Mark: reckoning.Memory}
	chelatedIron   = reckoning.Source{Name: "chelators on textiles", Where: "Iron stains were treated with 5 % EDTA, and with ammonium citrate (conservators' lists, 2004 and 2005): the same agents take metal out of mordants.", Mark: reckoning.Read}
	equalHeat      = reckoning.Source{Name: "equal heat", Where: "T = (V1 T1 + V2 T2) ÷ (V1 + V2), and hot share = (target - cold) ÷ (hot - cold): two worked examples, univerkov.com and sarthaks.com 1800992.", Mark: reckoning.Read}
	isoGrades      = reckoning.Source{Name: "ISO 3696", Where: "ISO 3696:1987: grade 1 to 0.1, grade 2 to 1.0, grade 3 to 5.0 µS/cm at 25 °C (profinor.no). pH of grade 3: 5.0 to 7.0 there, 5.0 to 7.5 at gamma3ecologia.com and, from memory, in the standard.", Mark: reckoning.Read}
	astmTypes      = reckoning.Source{Name: "ASTM D1193", Where: "D1193-99: type I to 0.056, II to 1.0, III to 0.25, IV to 5.0 µS/cm at 25 °C; at least 18, 1.0, 4.0, 0.2 MΩ·cm; type IV pH 5.0 to 8.0 (the publisher's page).", Mark: reckoning.Read}
	airWater       = reckoning.Source{Name: "water in air", Where: "Water that has taken up carbon dioxide from the air conducts 1.10 µS/cm at 25 °C: CRC Handbook, p. 5-73.", Mark: reckoning.Read}
	twoReadings    = reckoning.Source{Name: "coefficient of two readings", Where: "α = (κ1 - κ2) ÷ ((T1 - T2) × κ1), κ1 the reading nearest to the reference temperature: manual of the hand-held meter G 7500.", Mark: reckoning.Read}
)

// byBattery is the caution where a meter is held beside water.
func byBattery(out *reckoning.Result) {
	out.People("A meter near water runs from its battery, and hands that reach for it are dry.", reckoning.CommonPractice)
}

// volumeInput declares a volume in litres.
func volumeInput(name, title string, min, max float64) reckoning.Input {
	return reckoning.Quantity(name, title, "L", min, max)
}

// text writes a quantity of the kind's own unit in one unit.
func text(symbol string, base float64, figures int) string {
	u, _ := unit.Named(symbol)
	return u.Write(base, figures)
}
