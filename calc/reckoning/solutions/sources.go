package solutions

import "sinkside/calc/reckoning"

// Sources of the solution.
var (
	dilution  = reckoning.Source{Name: "dilution algebra", Where: "C1·V1 = C2·V2 and % w/v = % w/w × density: textbook algebra. Held against published worked answers for 2 mol/L from a stock and for acids of 25, 36 and 38 % w/w.", Mark: reckoning.Memory}
	paste     = reckoning.Source{Name: "CCI Notes 13/9", Where: "Canadian Conservation Institute, CCI Notes 13/9, Anionic Detergent: a paste of 28 % w/w and 1.04 g/mL, 8 to 12 mL to the litre; CMC of sodium dodecyl sulfate 2.34 g/L.", Mark: reckoning.Read}
	cmcRange  = reckoning.Source{Name: "published strengths", Where: "2 to 10 × CMC, higher for heavy soil, and 5 × CMC in a study of which most makers could not supply the CMC: Journal of the American Institute for Conservation 43, read in part.", Mark: reckoning.Read}
	cmcSalt   = reckoning.Source{Name: "CMC and salt", Where: "Rosen, Surfactants and Interfacial Phenomena, 3rd edition, table 2-1: sodium dodecyl sulfate 8.2 mmol/L in pure water, 1.5 mmol/L with 0.1 mol/L of salt.", Mark: reckoning.Memory}
	aboutAcid = reckoning.Source{Name: "acid into water", Where: "American Association of Textile Chemists and Colorists, method 20, fibre analysis: acid is added to water.", Mark: reckoning.Read}
)
