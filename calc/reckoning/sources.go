package reckoning

// from lists sources. A literal of a slice would copy each word by word and, in
// the browser's core, bring a comparison of every such list with it.
func from(sources ...*Source) []Source {
	out := make([]Source, 0, len(sources))
	for _, s := range sources {
		out = append(out, *s)
	}
	return out
}

// Sources that more than one reckoning leans on.
var (
	practice    = Source{"common practice", "What is commonly done; no source.", Practice}
	definitions = Source{"unit definitions", "Inch 25.4 mm, pound 453.59237 g, US gallon 231 cubic inches, imperial gallon 4.54609 L (NIST Special Publication 811, appendix B).", Memory}
	arithmetic  = Source{"arithmetic", "Follows from the numbers above.", Computed}
	density     = Source{"density of water", "Bettin and Spieweck's formula, printed in Density of Water, IP Standard Methods 1998, appendix G; 0 to 40 °C, ±0.006 kg/m³.", Read}
)

// Sources of the solution.
var (
	dilution  = Source{"dilution algebra", "C1·V1 = C2·V2 and % w/v = % w/w × density: textbook algebra. Held against published worked answers for 2 mol/L from a stock and for acids of 25, 36 and 38 % w/w.", Memory}
	paste     = Source{"CCI Notes 13/9", "Canadian Conservation Institute, CCI Notes 13/9, Anionic Detergent: a paste of 28 % w/w and 1.04 g/mL, 8 to 12 mL to the litre; CMC of sodium dodecyl sulfate 2.34 g/L.", Read}
	cmcRange  = Source{"published strengths", "2 to 10 × CMC, higher for heavy soil, and 5 × CMC in a study of which most makers could not supply the CMC: Journal of the American Institute for Conservation 43, read in part.", Read}
	cmcSalt   = Source{"CMC and salt", "Rosen, Surfactants and Interfacial Phenomena, 3rd edition, table 2-1: sodium dodecyl sulfate 8.2 mmol/L in pure water, 1.5 mmol/L with 0.1 mol/L of salt.", Memory}
	aboutAcid = Source{"acid into water", "American Association of Textile Chemists and Colorists, method 20, fibre analysis: acid is added to water.", Read}
)

// Sources of the tray.
var (
	geometry  = Source{"geometry", "Length × width × depth; practice sheets give it in centimetres ÷ 1000.", Computed}
	slopeNote = Source{"sloped trays", "American Institute for Conservation, textile specialty group: a sloped tray needs more depth at one end.", Read}
)

// Sources of the rinse.
var (
	batch      = Source{"batch rinsing", "The share left after one rinse is kept ÷ (kept + fresh), and multiplies: repeated extraction, two teaching pages; a weighed example in The Power of Dilution, mikefay.info (696 g of water, 40.2 g kept, 5.78 % left).", Read}
	splitting  = Source{"splitting", "Burgot and Burgot, Crosscurrent extraction, abstract: several portions of the solvent do more than one of the same volume.", Read}
	adsorption = Source{"adsorption", "Á. Tímár-Balázsy, Wet cleaning of historical textiles: surfactants and other wash bath additives, Reviews in Conservation, abstract: rinsing depends on the adsorption of the surfactant.", Read}
	pickUpRule = Source{"wet pick-up", "Liquid held = dry mass × pick-up; what stays when it dries = pick-up × strength. An examination question in textile engineering, collegedunia.com: 80 % of a 6.0 % bath leaves 4.8 %.", Read}
)
