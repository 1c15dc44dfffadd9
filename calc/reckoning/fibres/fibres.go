// Package fibres accounts for reckonings with the moisture of fibres.
package fibres

import (
	"sinkside/calc/moisture"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const family = "Fibre moisture"

var (
	textbook    = reckoning.Source{Name: "regain and content", Where: "Regain = 100 × water ÷ dry mass, content = 100 × water ÷ whole mass, dry at 105 ± 3 °C: polytechnichub.com; textilecalculation.blogspot.com, whose printed contents do not follow from its regains.", Mark: reckoning.Read}
	astm        = reckoning.Source{Name: "ASTM D1909", Where: "D1909-13 by way of table 10 of Bioresources and Bioprocessing 7 (2020), doi 10.1186/s40643-020-00339-1: cotton, flax, hemp, jute, silk, wool. A trade convention, not a measured equilibrium (D1909-04, 4.1).", Mark: reckoning.Read}
	astmRest    = reckoning.Source{Name: "regains from memory", Where: "By ASTM D1909 those of ramie, 7.6 raw and 7.8 scoured, viscose, nylon, polyester, acetate and acrylic; and what the last five hold at 65 % and 20 °C.", Mark: reckoning.Memory}
	eu          = reckoning.Source{Name: "EU 1007/2011", Where: "Annex IX, agreed allowances, from memory; wool 18.25 combed, 17.00 carded; nylon 6.25, filament 5.75; cotton 8.50, mercerised 10.50.", Mark: reckoning.Memory}
	seen        = reckoning.Source{Name: "measured regains", Where: "Morton and Hearle 2008, at 65 % RH and 20 °C, by way of the same table 10: cotton, flax, hemp, jute, silk, wool.", Mark: reckoning.Read}
	house       = reckoning.Source{Name: "conditioning house", Where: "16 to 17 % for wool is common: polytechnichub.com 17, textilecalculation 16.", Mark: reckoning.Read}
	sorption    = reckoning.Source{Name: "sorption points", Where: "ASHRAE Handbook, HVAC Applications, Regain of hygroscopic materials, at 24 °C, from memory; ±1.5.", Mark: reckoning.Memory}
	hysteresis  = reckoning.Source{Name: "hysteresis", Where: "Morton and Hearle, Physical Properties of Textile Fibres, 7.4.1: the curve of drying lies above that of taking up; still apart at 100 %.", Mark: reckoning.Read}
	atmospheres = reckoning.Source{Name: "ISO 139", Where: "ISO 139:2005, overview: 20.0 ± 2.0 °C and 65.0 ± 4.0 % RH; by agreement 23.0 ± 2.0 °C and 50.0 ± 4.0 % RH.", Mark: reckoning.Read}
)

// Conventions that a regain may follow.
const (
	byASTM  = "astm"
	byEU    = "eu"
	byHouse = "house"
	byOwn   = "own"
)

// Regain reckons regain, content and the masses that go with them.
func Regain() *reckoning.Reckoning {
	var names []string
	for _, c := range moisture.Conventions {
		names = append(names, c.Fibre, c.Fibre)
	}
	mass := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "g", 0.001, 200000).If("known", name)
	}
	percent := func(name, title string, most float64) reckoning.Input {
		return reckoning.Quantity(name, title, "%", 0, most).In("%")
	}
	conditioned, dry := mass("conditioned", "Mass as it is").If("known", "conditioned", "both", "conditioned_content"), mass("dry", "Dry mass").If("known", "dry", "dry_regain", "both").Note("Oven-dry, at 105 °C. Never an object: a sample of the cloth.")
	regain, content := percent("regain", "Regain now", 400).If("known", "conditioned", "dry_regain").Note("Of the dry mass."), percent("content", "Moisture content now", 95).If("known", "content", "conditioned_content").Note("Of the whole mass.")
	return (&reckoning.Reckoning{
		Name: "regain", Title: "Regain, content and commercial mass", Asks: "How much of this mass is water, and what does it weigh dry or by the trade?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("known", "What is known", "conditioned", "mass as it is, and its regain", "dry", "dry mass", "dry_regain", "dry mass, and the regain", "both", "mass as it is, and oven-dry", "content", "moisture content", "conditioned_content", "mass as it is, and its moisture content"),
			conditioned, dry, regain, content,
			reckoning.Choose("convention", "Commercial mass by", byASTM, "ASTM D1909", byEU, "EU 1007/2011, Annex IX (from memory)", byHouse, "a conditioning house, wool 16 to 17 %", byOwn, "a figure of your own"),
			reckoning.Choose("fibre", "Fibre", names...).If("convention", byASTM, byEU),
			percent("own", "Regain agreed", 100).If("convention", byOwn),
			reckoning.PlusMinus(&conditioned), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&regain), reckoning.PlusMinus(&content),
		},
		Results: []reckoning.ResultSpec{
			{Name: "regain", Title: "Regain", Unit: "%"}, {Name: "content", Title: "Moisture content", Unit: "%"}, {Name: "dry_mass", Title: "Dry mass", Unit: "g"}, {Name: "conditioned_mass", Title: "Mass as it is", Unit: "g"}, {Name: "water", Title: "Water in it", Unit: "g"},
			{Name: "agreed", Title: "Regain of the convention", Unit: "%"}, {Name: "commercial", Title: "Commercial mass by that convention", Unit: "g"},
		},
		Sources: reckoning.From(&textbook, &astm, &astmRest, &seen, &eu, &house, &reckoning.CommonPractice),
		Example: `{"known":"both","conditioned":"10","dry":"7","convention":"astm","fibre":"flax"}`,
		Figures: regainFigures, Explain: explainRegain,
	}).Ready()
}

// heavierDry is what is wrong where a textile would weigh more dry than as it is;
// nil where it does not.
func heavierDry(s *reckoning.Sheet) *reckoning.Problem {
	if s.Choice("known") != "both" || s.Base("dry") <= s.Base("conditioned") {
		return nil
	}
	return s.Limits("dry", 0, s.Base("conditioned"), "is above the mass as it is, "+s.InAnswersUnit("dry", s.Base("conditioned")))
}

// found is what a form says: regain in per cent, and the dry mass; 0 where that is
// not known.
func found(s *reckoning.Sheet) (regain float64, dry unit.Mass) {
	mass := unit.Mass(s.Base("conditioned"))
	switch s.Choice("known") {
	case "conditioned":
		regain = s.Base("regain") * 100
		return regain, moisture.Dry(mass, regain)
	case "both":
		dry = unit.Mass(s.Base("dry"))
		return moisture.RegainOf(mass, dry), dry
	case "dry":
		return 0, unit.Mass(s.Base("dry"))
	case "dry_regain":
		return s.Base("regain") * 100, unit.Mass(s.Base("dry"))
	case "conditioned_content":
		regain = moisture.Regain(s.Base("content") * 100)
		return regain, moisture.Dry(mass, regain)
	}
	return moisture.Regain(s.Base("content") * 100), 0
}

// agreed is the regain of the convention that was chosen, per cent.
func agreed(s *reckoning.Sheet) float64 {
	switch s.Choice("convention") {
	case byHouse:
		return 17
	case byOwn:
		return s.Base("own") * 100
	}
	for _, c := range moisture.Conventions {
		if c.Fibre == s.Choice("fibre") {
			if s.Choice("convention") == byEU {
				return c.EU
			}
			return c.ASTM
		}
	}
	return 0
}

func regainFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if p := heavierDry(s); p != nil {
		return nil, p
	}
	regain, dry := found(s)
	var out reckoning.Figures
	if s.Choice("known") != "dry" {
		out.Add("regain", regain/100)
		out.Add("content", moisture.Content(regain)/100)
	}
	if dry > 0 {
		out.Add("dry_mass", dry.Grams())
		if s.Choice("known") == "dry_regain" {
			out.Add("conditioned_mass", moisture.At(dry, regain).Grams())
		}
		if s.Choice("known") != "dry" {
			out.Add("water", dry.Grams()*regain/100)
		}
		low, high := agreedRange(s)
		out.Between("commercial", moisture.At(dry, agreed(s)).Grams(), moisture.At(dry, low).Grams(), moisture.At(dry, high).Grams())
	}
	low, high := agreedRange(s)
	out.Between("agreed", agreed(s)/100, low/100, high/100)
	return out, nil
}

// agreedRange is within what the regain of the convention is published, per cent.
func agreedRange(s *reckoning.Sheet) (low, high float64) {
	switch {
	case s.Choice("convention") == byHouse:
		return 16, 17
	case s.Choice("convention") == byEU && s.Choice("fibre") == "wool":
		return 17, 18.25 // carded, combed
	case s.Choice("convention") == byEU && s.Choice("fibre") == "nylon":
		return 5.75, 6.25 // filament, staple
	case s.Choice("convention") == byASTM && s.Choice("fibre") == "ramie":
		return 7.6, 7.8 // raw, scoured
	}
	return agreed(s), agreed(s)
}

func explainRegain(s *reckoning.Sheet, out *reckoning.Result) {
	regain, dry := found(s)
	percent := func(x float64) string { return reckoning.InUnit("%", x/100) }
	switch s.Choice("known") {
	case "both":
		out.Work("Regain.", "R = 100 × (mass - dry) ÷ dry", reckoning.InUnit("g", s.Base("conditioned"))+" and "+reckoning.InUnit("g", s.Base("dry"))+": "+percent(regain), textbook.Name)
	case "conditioned":
		out.Work("Dry mass.", "dry = mass ÷ (1 + R ÷ 100)", reckoning.InUnit("g", s.Base("conditioned"))+" ÷ (1 + "+percent(regain)+") = "+reckoning.InUnit("g", dry.Grams()), textbook.Name)
	case "dry_regain":
		out.Work("Mass as it is.", "mass = dry × (1 + R ÷ 100)", reckoning.InUnit("g", s.Base("dry"))+" × (1 + "+percent(regain)+") = "+reckoning.InUnit("g", moisture.At(dry, regain).Grams()), textbook.Name)
	case "conditioned_content":
		out.Work("Dry mass.", "dry = mass × (1 - M ÷ 100)", reckoning.InUnit("g", s.Base("conditioned"))+" × (1 - "+percent(s.Base("content")*100)+") = "+reckoning.InUnit("g", dry.Grams()), textbook.Name)
		fallthrough
	case "content":
		out.Work("Regain from content.", "R = 100 M ÷ (100 - M)", percent(s.Base("content")*100)+" is a regain of "+percent(regain), textbook.Name)
	}
	if k := s.Choice("known"); k != "dry" && k != "content" && k != "conditioned_content" {
		out.Work("Content from regain.", "M = 100 R ÷ (100 + R)", percent(moisture.Content(regain)), textbook.Name)
	}
	how, named := conventionOf(s)
	of := ""
	if s.Choice("convention") == byASTM || s.Choice("convention") == byEU {
		of = ", " + s.Choice("fibre")
	}
	low, high := agreedRange(s)
	says := percent(agreed(s))
	if low < high {
		says = percent(low) + " to " + percent(high)
	}
	out.Verdict("convention", "The convention", "The agreed regain is "+how+of+": "+says+".")
	if dry > 0 {
		out.Work("Commercial mass "+how+".", "mass = dry × (1 + agreed regain)", reckoning.InUnit("g", dry.Grams())+" × (1 + "+percent(agreed(s))+") = "+reckoning.InUnit("g", moisture.At(dry, agreed(s)).Grams()), named)
	} else {
		out.NotKnown("dry_mass", s.Title("dry_mass"), "Not known without a mass.")
	}
	table := out.Table("Agreed regains, which are not one", "Fibre", "ASTM D1909", "EU 1007/2011", "Measured, 65 % and 20 °C")
	for _, c := range moisture.Conventions {
		star := ""
		if c.Known == reckoning.Memory {
			star = " (from memory)"
		}
		also := ""
		if c.Also != "" {
			also = ", " + c.Also
		}
		table.Row(c.Fibre, unit.Text(c.ASTM, 4)+star, unit.Text(c.EU, 4)+also+" (from memory)", c.Seen)
	}
	out.Work("The measured ones are what the fibres hold at 65 % and 20 °C, beside what the trade agreed on.", "", "", seen.Name)
	out.Object("A commercial regain is agreed between traders, not what this textile holds: write down by which convention a figure is.", astm)
	out.Object("Nothing of an object is dried in an oven to know this. A sample of like cloth is, or the regain is read off the air's humidity.", reckoning.CommonPractice)
}

// conventionOf says by which convention the agreed regain is, with how it is known,
// and its source.
func conventionOf(s *reckoning.Sheet) (how, source string) {
	switch s.Choice("convention") {
	case byEU:
		return "by EU 1007/2011, Annex IX, from memory", eu.Name
	case byHouse:
		return "by a conditioning house, for wool alone", house.Name
	case byOwn:
		return "by your own figure", ""
	}
	for _, c := range moisture.Conventions {
		if c.Fibre == s.Choice("fibre") && c.Known == reckoning.Memory {
			return "by ASTM D1909, from memory for this fibre", astmRest.Name
		}
	}
	return "by ASTM D1909", astm.Name
}
