// Package gels holds the reckonings of gels, poultices and pastes.
package gels

import (
	"sinkside/calc/gel"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// What is to be filled.
const (
	shapeSheet  = "sheet"
	shapeArea   = "area"
	shapeVolume = "volume"
)

// Additives that call for words of their own.
const (
	addNone    = "none"
	addCalcium = "calcium_acetate"
	addAgent   = "cleaning"
	addEnzyme  = "enzyme"
	addSolvent = "solvent"
)

// mostPoured is the most that is reckoned with in one go: beyond it a dimension
// was typed in the wrong unit.
const mostPoured unit.Volume = 200

// Gel is the reckoning of what a sheet of gel or a poultice takes.
func Gel() *reckoning.Reckoning {
	length := reckoning.Quantity("length", "Length of the sheet", "cm", 1, 500).If("shape", shapeSheet)
	width := reckoning.Quantity("width", "Width of the sheet", "cm", 1, 500).If("shape", shapeSheet)
	area := reckoning.Quantity("area", "Area to cover", "cm²", 1, 250000).If("shape", shapeArea)
	thick := reckoning.Quantity("thickness", "Thickness", "mm", 0.5, 50).If("shape", shapeSheet, shapeArea).Note("A published agarose sheet for a tapestry was 6 mm thick.")
	return (&reckoning.Reckoning{
		Name: "gel", Title: "A sheet of gel or a poultice", Asks: "How much gel do I have to make for this sheet or area, and what do I weigh for it?",
		Family: "Gels and poultices",
		Inputs: []reckoning.Input{
			reckoning.Choose("shape", "I want", shapeSheet, "a rectangular sheet", shapeArea, "an area of any shape covered", shapeVolume, "a volume"),
			length, width, area, thick,
			reckoning.Quantity("volume", "Volume", "mL", 1, 200000).If("shape", shapeVolume),
			reckoning.Count("sheets", "How many of them", 1, 100).Usually("1"),
			reckoning.Quantity("spare", "To spare", "%", 0, 200).In("%").Usually("10").Note("For what stays in the pot and is trimmed off."),
			reckoning.Choose("agent", "Made with", gel.Agar, "agar", gel.Agarose, "agarose", gel.LowGellan, "gellan, low acyl", gel.HighGellan, "gellan, high acyl",
				gel.CelluloseEt, "a cellulose ether, such as methyl cellulose", gel.OtherAgent, "something else"),
			reckoning.Quantity("strength", "Strength of the gel", "% w/v", 0.05, 30).Note("Dry agent in the water taken: 2 % w/v is 2 g to 100 mL."),
			reckoning.Choose("additive", "The water also holds", addNone, "nothing", addCalcium, "calcium acetate", addAgent, "a chelator, detergent or buffer salt", addEnzyme, "an enzyme", addSolvent, "a solvent"),
			reckoning.Quantity("additive_strength", "Strength of what it holds", "g/L", 0.001, 500).If("additive", addCalcium, addAgent, addEnzyme, addSolvent).Maybe().
				Note("In the same water. Calcium acetate in published gellan gels: 0.4 g/L."),
			reckoning.PlusMinus(&length), reckoning.PlusMinus(&width), reckoning.PlusMinus(&area), reckoning.PlusMinus(&thick),
		},
		Results: []reckoning.ResultSpec{
			{Name: "area", Title: "Area", Unit: "cm²"},
			{Name: "gel_volume", Title: "The gel itself", Unit: "mL"},
			{Name: "pour_volume", Title: "Water to take, with what is spare", Unit: "mL"},
			{Name: "agent_mass", Title: "Gelling agent to weigh", Unit: "g"},
			{Name: "additive_mass", Title: "Additive to weigh", Unit: "g"},
			{Name: "load", Title: "It presses with", Unit: "kg/m²"},
		},
		Sources: reckoning.From(&volumes, &perHundred, &rigidGels, &agarFacts, &agarTexture, &gellanFacts, &enzymeFacts, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"shape":"sheet","length":"40 cm","width":"30 cm","thickness":"6 mm","sheets":"1","spare":"0 %","agent":"gellan_low","strength":"2 % w/v","additive":"calcium_acetate","additive_strength":"0.4 g/L"}`,
		Prepare: prepareGel, Figures: gelFigures, Explain: explainGel,
	}).Ready()
}

func prepareGel(s *reckoning.Sheet) {
	if s.Choice("additive") != addNone && !s.Has("additive_strength") {
		s.Missing("additive_strength", "it is needed for what the water also holds.")
	}
	if s.Sound() && pourOf(s) > mostPoured {
		name, share := "thickness", float64(mostPoured/pourOf(s))
		most := reckoning.InUnit("mm", s.Base("thickness")*share)
		if s.Choice("shape") == shapeVolume {
			name, most = "volume", s.Litres(unit.Volume(s.Base("volume")*share))
		}
		s.Beyond(name, "up to "+most, "together this comes to "+reckoning.Volume(pourOf(s))+" of gel, more than the "+reckoning.Volume(mostPoured)+" reckoned with here. Is a length in another unit?")
	}
}

// areaOf returns what one sheet covers; 0 where a volume was asked for.
func areaOf(s *reckoning.Sheet) gel.Area {
	switch s.Choice("shape") {
	case shapeSheet:
		return gel.Sheet(unit.Length(s.Base("length")), unit.Length(s.Base("width")))
	case shapeArea:
		return gel.Area(s.Base("area"))
	}
	return 0
}

// gelOf returns the gel of all sheets, nothing to spare.
func gelOf(s *reckoning.Sheet) unit.Volume {
	one := unit.Volume(s.Base("volume"))
	if s.Choice("shape") != shapeVolume {
		one = gel.Volume(areaOf(s), unit.Length(s.Base("thickness")))
	}
	return one * unit.Volume(s.Base("sheets"))
}

func pourOf(s *reckoning.Sheet) unit.Volume {
	return gel.WithSpare(gelOf(s), unit.Fraction(s.Base("spare")))
}

func batchOf(s *reckoning.Sheet) gel.Batch {
	return gel.Make(pourOf(s), unit.Concentration(s.Base("strength")), unit.Concentration(s.Base("additive_strength")))
}

func gelFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	if a := areaOf(s); a > 0 {
		out.Add("area", float64(a)*s.Base("sheets"))
	}
	b := batchOf(s)
	out.Add("gel_volume", gelOf(s).Litres())
	out.Add("pour_volume", b.Volume.Litres())
	out.Add("agent_mass", b.Agent.Grams())
	if b.Additive > 0 {
		out.Add("additive_mass", b.Additive.Grams())
	}
	if s.Choice("shape") != shapeVolume {
		// A millimetre of water on a square metre is a litre, near a kilogram.
		out.Add("load", s.Base("thickness")*1000)
	}
	return out, nil
}
