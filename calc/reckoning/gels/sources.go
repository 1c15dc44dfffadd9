package gels

import "sinkside/calc/reckoning"

// Where what is said about gels comes from.
var (
	volumes     = reckoning.Source{Name: "volume of a layer", Where: "Area × thickness: a square metre one millimetre thick is a litre, and weighs about a kilogram.", Mark: reckoning.Computed}
	perHundred  = reckoning.Source{Name: "per cent by volume", Where: "1 % w/v is 10 g to the litre, counted on the water taken, as the published gel recipes do.", Mark: reckoning.Memory}
	rigidGels   = reckoning.Source{Name: "agarose on textiles", Where: "Report of D. Goodin's talk, American Institute for Conservation, 45th annual meeting, 2017: 1 % as the usual gel, 3.4 % cast a quarter inch thick. Revista Conserva, 2024, abstract: 3 and 5 %.", Mark: reckoning.Read}
	agarFacts   = reckoning.Source{Name: "agar on stone", Where: "Sansonetti and others, 12th stone congress, 2012: 0.5 to 5 % in water, boiled, gels towards 35 °C.", Mark: reckoning.Read}
	agarTexture = reckoning.Source{Name: "how agar sets", Where: "Two encyclopaedic pages: sets at 32 to 45 °C, melts at 85 to 95 °C, gels well between pH 4.3 and 10.", Mark: reckoning.Read}
	gellanFacts = reckoning.Source{Name: "gellan on paper", Where: "National Research Institute for Cultural Properties, Tokyo, Conservation and Restoration of Western Paper, §5-1: 2 to 4 % low acyl with 0.4 g/L calcium acetate. C. Magee, American Institute for Conservation, 2019: high acyl gels at about 70 °C.", Mark: reckoning.Read}
	enzymeFacts = reckoning.Source{Name: "amylase for starch", Where: "H. Ahmed, TEXCONS list, March 2009: buffer of 20 mmol/L sodium phosphate with 6.7 mmol/L sodium chloride, pH 6.9; a trade page on what holds it back.", Mark: reckoning.Read}
	starchFacts = reckoning.Source{Name: "starch", Where: "An abstract on rheology: most starches gelatinise above 55 °C in water.", Mark: reckoning.Read}
	glueFacts   = reckoning.Source{Name: "animal glue", Where: "Gelatin turns from gel to sol at about 30 to 34 °C; swollen hide glue is melted at 140 °F, 60 °C (reprint of a trade handbook).", Mark: reckoning.Read}
)
