package gels

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Adhesives made with warm water.
const (
	pasteStarch = "starch"
	pasteGlue   = "glue"
)

// Paste is the reckoning of starch paste by volume, and of animal glue by mass.
func Paste() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "paste", Title: "Starch paste or animal glue", Asks: "How much water goes with this much starch or glue?",
		Family: "Gels and poultices",
		Inputs: []reckoning.Input{
			reckoning.Choose("kind", "I make", pasteStarch, "starch paste, by volume", pasteGlue, "animal glue or gelatin, by mass"),
			reckoning.Quantity("starch", "Dry starch", "mL", 1, 10000).If("kind", pasteStarch).Note("As measured, not pressed down."),
			reckoning.Number("parts", "Parts of water to one of starch", 1, 20).If("kind", pasteStarch).Usually("5").Note("By volume. Common practice is 4 to 6."),
			reckoning.Quantity("glue", "Dry glue or gelatin", "g", 0.01, 10000).If("kind", pasteGlue),
			reckoning.Quantity("glue_strength", "Strength wanted", "% w/w", 0.1, 50).In("% w/w").If("kind", pasteGlue).Note("Dry glue in the whole. No published strength is known here."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "water", Title: "Water to measure", Unit: "mL"},
			{Name: "water_mass", Title: "Water to weigh", Unit: "g"},
			{Name: "total_mass", Title: "Together", Unit: "g"},
		},
		Sources: reckoning.From(&starchFacts, &glueFacts, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"kind":"starch","starch":"50 mL","parts":"5"}`,
		Figures: pasteFigures, Explain: explainPaste,
	}).Ready()
}

func pasteFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	if s.Choice("kind") == pasteStarch {
		out.Add("water", s.Base("starch")*s.Base("parts"))
		return out, nil
	}
	total := s.Base("glue") / s.Base("glue_strength")
	out.Add("water_mass", total-s.Base("glue"))
	out.Add("total_mass", total)
	return out, nil
}

func explainPaste(s *reckoning.Sheet, out *reckoning.Result) {
	out.People("Hot paste and hot glue scald. Read the safety data sheet of any preservative that you add, and follow local rules.", reckoning.CommonPractice)
	if s.Choice("kind") == pasteStarch {
		dry := unit.Volume(s.Base("starch"))
		water, _ := out.Value("water")
		out.Work("Water by volume.", "water = starch × parts", reckoning.Volume(dry)+" × "+unit.Text(s.Base("parts"), 4)+" = "+unit.Text(water, 4)+" mL", reckoning.CommonPractice.Name)
		out.Work("What 4 to 6 parts would be.", "", reckoning.Volume(4*dry)+" to "+reckoning.Volume(6*dry), reckoning.CommonPractice.Name)
		out.Object("Most starches gelatinise only above 55 °C: cook it until it is translucent, and go on stirring.", starchFacts)
		if p := s.Base("parts"); p < 4 || p > 6 {
			out.Object("This is outside of the usual 4 to 6 parts of water.", reckoning.CommonPractice)
		}
		return
	}
	glue, strength := unit.Mass(s.Base("glue")), s.Base("glue_strength")
	total := unit.Mass(float64(glue) / strength)
	out.Work("Glue and water together.", "total = glue ÷ strength", reckoning.Weight(glue)+" ÷ "+reckoning.InUnit("% w/w", strength)+" = "+reckoning.Weight(total), reckoning.Arithmetic.Name)
	out.Work("Water.", "water = total - glue", reckoning.Weight(total)+" - "+reckoning.Weight(glue)+" = "+reckoning.Weight(total-glue), reckoning.Arithmetic.Name)
	out.Object("Swell it cold first. Gelatin melts at about 30 to 34 °C, swollen hide glue at 60 °C.", glueFacts)
	out.Object("Keep it below about 65 °C: hotter, it loses its strength.", reckoning.CommonPractice)
}
