package reckoning

// From lists sources. A literal of a slice would copy each word by word and, in
// the browser's core, bring a comparison of every such list with it.
func From(sources ...*Source) []Source {
	out := make([]Source, 0, len(sources))
	for _, s := range sources {
		out = append(out, *s)
	}
	return out
}

// Sources that more than one reckoning leans on.
var (
	CommonPractice   = Source{"common practice", "What is commonly done; no source.", Practice}
	Definitions      = Source{"unit definitions", "Inch 25.4 mm, pound 453.59237 g, US gallon 231 cubic inches, imperial gallon 4.54609 L (NIST Special Publication 811, appendix B).", Memory}
	OurChoice        = Source{"our choice", "Chosen for this program, since no published figure was found. Change it where yours is better.", Ours}
	Arithmetic       = Source{"arithmetic", "Follows from the numbers above.", Computed}
	WaterDensity     = Source{"density of water", "Bettin and Spieweck's formula, printed in Density of Water, IP Standard Methods 1998, appendix G; 0 to 40 °C, ±0.006 kg/m³.", Read}
	PickUpRule       = Source{"wet pick-up", "Liquid held = dry mass × pick-up; what stays when it dries = pick-up × strength. An examination question in textile engineering, collegedunia.com: 80 % of a 6.0 % bath leaves 4.8 %.", Read}
	SaltCoefficients = Source{Name: "coefficients of salts", Where: "Manual PS9TK, p. 59: 900 µS/cm at 15 °C is 1082 at 25 °C with the coefficient of natural water, 1.68 %/K, and 1111 with that of potassium chloride, 1.90 %/K.", Mark: Read}
)
