package rinsing

import "sinkside/calc/reckoning"

// Sources of the rinse.
var (
	batch      = reckoning.Source{Name: "batch rinsing", Where: "The share left after one rinse is kept ÷ (kept + fresh), and multiplies: repeated extraction, two teaching pages; a weighed example in The Power of Dilution, mikefay.info (696 g of water, 40.2 g kept, 5.78 % left).", Mark: reckoning.Read}
	splitting  = reckoning.Source{Name: "splitting", Where: "Burgot and Burgot, Crosscurrent extraction, abstract: several portions of the solvent do more than one of the same volume.", Mark: reckoning.Read}
	adsorption = reckoning.Source{Name: "adsorption", Where: "Á. Tímár-Balázsy, Wet cleaning of historical textiles: surfactants and other wash bath additives, Reviews in Conservation, abstract: rinsing depends on the adsorption of the surfactant.", Mark: reckoning.Read}
)
