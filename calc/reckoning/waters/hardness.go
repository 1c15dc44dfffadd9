package waters

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
	"sinkside/calc/water"
)

// Ways to know a hardness.
const (
	byScale = "scale"
	byIons  = "ions"
)

// hardnessFigures lists the scales: the name of a figure and its unit.
var hardnessFigures = [...]struct{ name, title, unit string }{
	{"mg", "As calcium carbonate", "mg/L CaCO3"}, {"mmol", "As an amount", "mmol/L CaCO3"}, {"dh", "German degrees", "°dH"},
	{"fh", "French degrees", "°fH"}, {"e", "English degrees", "°e"}, {"gpg", "Grains in a US gallon", "gpg"},
}

// Hardness reckons a hardness in all scales.
func Hardness() *reckoning.Reckoning {
	value := reckoning.Quantity("hardness", "Hardness", "mg/L CaCO3", 0, 5000).If("from", byScale).Note("As the report or the test strip gives it.")
	calcium := reckoning.Quantity("calcium", "Calcium", "mg/L", 0, 2000).In("mg/L").Also("mmol/L", 0, 50).If("from", byIons)
	magnesium := reckoning.Quantity("magnesium", "Magnesium", "mg/L", 0, 2000).In("mg/L").Also("mmol/L", 0, 50).If("from", byIons).Usually("0")
	results := make([]reckoning.ResultSpec, 0, len(hardnessFigures))
	for _, f := range hardnessFigures {
		results = append(results, reckoning.ResultSpec{Name: f.name, Title: f.title, Unit: f.unit})
	}
	return (&reckoning.Reckoning{
		Name: "hardness", Title: "Hardness of water", Asks: "How hard is this water, in the scale that I know?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("from", "What is known", byScale, "a hardness in some scale", byIons, "calcium and magnesium"),
			value, calcium, magnesium,
			reckoning.PlusMinus(&value), reckoning.PlusMinus(&calcium), reckoning.PlusMinus(&magnesium),
		},
		Results: results,
		Sources: reckoning.From(&hardnessScales, &hardnessIons, &hardnessWords, &reckoning.Definitions, &reckoning.CommonPractice),
		Example: `{"from":"ions","calcium":"131,6","calcium_pm":"2","magnesium":"0"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			for _, f := range hardnessFigures {
				out.Add(f.name, float64(hardnessOf(s)))
			}
			return out, nil
		},
		Explain: explainHardness,
	}).Ready()
}

func hardnessOf(s *reckoning.Sheet) water.Hardness {
	if s.Choice("from") == byScale {
		return water.Hardness(s.Base("hardness"))
	}
	return water.FromIons(ionOf(s, "calcium", water.CalciumMass), ionOf(s, "magnesium", water.MagnesiumMass))
}

// ionOf returns how much of a metal is in a litre.
func ionOf(s *reckoning.Sheet, name string, m unit.MolarMass) unit.Molarity {
	if s.Kind(name) == unit.MolarityKind {
		return unit.Molarity(s.Base(name))
	}
	return unit.Concentration(s.Base(name)).Molarity(m)
}

func explainHardness(s *reckoning.Sheet, out *reckoning.Result) {
	h := hardnessOf(s)
	if s.Choice("from") == byIons {
		put := func(name string, m unit.MolarMass) string {
			return text("mmol/L", float64(ionOf(s, name, m)), 4)
		}
		out.Work("Every mole of calcium or magnesium counts as one of calcium carbonate.", "mg/L CaCO3 = (Ca + Mg) × 100.086 mg/mmol",
			"("+put("calcium", water.CalciumMass)+" + "+put("magnesium", water.MagnesiumMass)+") × 100.086 = "+text("mg/L CaCO3", float64(h), 4), hardnessIons.Name)
	}
	for _, f := range hardnessFigures[1:] {
		u, _ := unit.Named(f.unit)
		out.Work(f.title+".", f.unit+" = mg/L CaCO3 ÷ "+unit.Text(u.Base(1), 6), text("mg/L CaCO3", float64(h), 4)+" = "+u.Write(float64(h), 4), hardnessScales.Name)
	}
	out.Verdict("survey", "In words, by a geological survey", h.Word(water.Survey))
	out.Verdict("association", "In words, by a trade association", h.Word(water.Association))
	out.Object("The words are drawn otherwise elsewhere, 50, 150 and 300 mg/L for one: give the figure with its scale.", hardnessWords)
	out.Object("Soap and many anionic detergents lose part of themselves to hard water and leave scum on the fibre.", reckoning.CommonPractice)
	if s.Choice("from") == byIons && s.Base("magnesium") == 0 {
		out.Object("Without magnesium the hardness comes out too low for most waters.", reckoning.CommonPractice)
	}
}
