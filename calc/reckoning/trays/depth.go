package trays

import (
	"math"

	"sinkside/calc/moisture"
	"sinkside/calc/reckoning"
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

const family = "Trays and loads"

// Depth reckons how deep so many litres stand, or how many cover an object.
func Depth() *reckoning.Reckoning {
	inside := func(name, title string, shapes ...string) reckoning.Input {
		return reckoning.Quantity(name, title, "cm", 1, 1500).If("shape", shapes...)
	}
	length := inside("length", "Length inside", shapeRectangular, shapeSloped)
	width := inside("width", "Width inside", shapeRectangular, shapeSloped)
	diameter := inside("diameter", "Diameter inside", shapeRound)
	return (&reckoning.Reckoning{
		Name: "depth", Title: "Depth of the water", Asks: "How deep does this water stand, or how much covers the object?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("shape", "The tray is", shapeRectangular, "rectangular, level", shapeSloped, "rectangular, deeper at one end", shapeRound, "round, level"), length, width, diameter,
			reckoning.Quantity("fall", "Deeper at one end by", "cm", 0.1, 100).If("shape", shapeSloped),
			reckoning.Quantity("litres", "Water", "L", 0.05, 5000).Maybe(),
			reckoning.Quantity("thick", "Object and support are thick", "cm", 0.05, 100).Maybe().Note("As they lie wet in the tray."),
			reckoning.Quantity("cover", "Water above them", "cm", 0, 100).Usually("2").Note("So that nothing floats up and folds can be moved."),
			reckoning.PlusMinus(&length), reckoning.PlusMinus(&width), reckoning.PlusMinus(&diameter),
		},
		Results: []reckoning.ResultSpec{{Name: "depth", Title: "It stands deep; sloped, at the shallow end", Unit: "cm"}, {Name: "deep", Title: "At the deep end", Unit: "cm"}, {Name: "reach", Title: "From the deep end the water reaches", Unit: "cm"}, {Name: "needed_depth", Title: "To cover the object", Unit: "cm"}, {Name: "covering", Title: "Water to cover it, at most", Unit: "L"}},
		Sources: reckoning.From(&geometry, &slopeNote, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"shape":"rectangular","length":"90","width":"60","litres":"40","thick":"1.5","cover":"3","length_pm":"0.5"}`,
		Prepare: func(s *reckoning.Sheet) {
			if !s.Has("litres") && !s.Has("thick") {
				s.Missing("litres", "give the water, or how thick the object is.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			floor := floorOf(s)
			if s.Has("litres") {
				if s.Choice("shape") == shapeSloped {
					shallow, deep, reach := sloped(s)
					out.Add("depth", float64(shallow))
					out.Add("deep", float64(deep))
					out.Add("reach", float64(reach))
				} else {
					out.Add("depth", s.Base("litres")*1e6/floor)
				}
			}
			if s.Has("thick") {
				deep := s.Base("thick") + s.Base("cover")
				out.Add("needed_depth", deep)
				out.Add("covering", (deep+s.Base("fall")/2)*floor/1e6)
			}
			return out, nil
		},
		Explain: explainDepth, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

// sloped is how the water of the form stands in a sloped tray.
func sloped(s *reckoning.Sheet) (shallow, deep, reach unit.Length) {
	return tray.SlopedDepths(unit.Length(s.Base("length")), unit.Length(s.Base("width")), unit.Length(s.Base("fall")), unit.Volume(s.Base("litres")))
}

// floorOf is the tray's floor, mm².
func floorOf(s *reckoning.Sheet) float64 {
	if s.Choice("shape") == shapeRound {
		d := s.Base("diameter")
		return math.Pi / 4 * d * d
	}
	return s.Base("length") * s.Base("width")
}

func explainDepth(s *reckoning.Sheet, out *reckoning.Result) {
	floor := floorOf(s)
	cm := func(x float64) string { return reckoning.InUnit("cm", x) }
	area := reckoning.InUnit("m²", floor/1e6)
	switch {
	case s.Has("litres") && s.Choice("shape") == shapeSloped:
		shallow, deep, reach := sloped(s)
		out.Work("Depth at both ends, with nothing in the tray.", "mean = litres ÷ floor; less and more by half of what it is deeper", reckoning.Volume(unit.Volume(s.Base("litres")))+" ÷ "+area+": "+cm(float64(shallow))+" and "+cm(float64(deep)), slopeNote.Name)
		if shallow == 0 {
			out.Object("The water does not reach the shallow end: it covers "+cm(float64(reach))+" from the deep one.", slopeNote)
		}
	case s.Has("litres"):
		out.Work("Depth, with nothing in the tray.", "depth = litres ÷ floor", reckoning.Volume(unit.Volume(s.Base("litres")))+" ÷ "+area+" = "+cm(s.Base("litres")*1e6/floor), geometry.Name)
	default:
		out.NotKnown("depth", s.Title("depth"), "Not known without the water.")
	}
	if s.Has("thick") {
		deep := s.Base("thick") + s.Base("cover")
		out.Work("To cover the object, as if it took up no room itself.", "(thick + above) × floor; sloped, and half of what it is deeper", "("+cm(s.Base("thick"))+" + "+cm(s.Base("cover"))+") × "+area+": "+reckoning.Volume(unit.Volume((deep+s.Base("fall")/2)*floor/1e6)), geometry.Name)
	} else {
		out.NotKnown("covering", s.Title("covering"), "Not known without the thickness of object and support.")
	}
	out.People("Do not lift, carry or tip a filled tray: fill and drain it where it stands.", reckoning.CommonPractice)
	out.Object("With object and support in it the water stands higher than this: fill to the mark, not to the litre.", reckoning.CommonPractice)
}

// Ratio reckons the liquor ratio.
func Ratio() *reckoning.Reckoning {
	dry := reckoning.Quantity("dry_mass", "Dry mass of the textile", "g", 0.1, 200000)
	return (&reckoning.Reckoning{
		Name: "liquor_ratio", Title: "Liquor ratio", Asks: "How much liquor is there for this textile?", Family: family,
		Inputs: []reckoning.Input{
			dry, reckoning.Quantity("litres", "Liquor", "L", 0.01, 5000).Maybe(), reckoning.Number("wanted", "Ratio wanted, 1 to", 1, 10000).Maybe().Note("50 means fifty litres to the kilogram."), reckoning.PlusMinus(&dry),
		},
		Results: []reckoning.ResultSpec{{Name: "ratio", Title: "Liquor ratio, 1 to"}, {Name: "litres", Title: "Liquor for the ratio wanted", Unit: "L"}},
		Sources: reckoning.From(&fastness, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"dry_mass":"400 g","litres":"24","wanted":"50"}`,
		Prepare: func(s *reckoning.Sheet) {
			if !s.Has("litres") && !s.Has("wanted") {
				s.Missing("litres", "give the liquor, or the ratio wanted.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			kg := s.Base("dry_mass") / 1000
			var out reckoning.Figures
			if s.Has("litres") {
				out.Add("ratio", s.Base("litres")/kg)
			}
			if s.Has("wanted") {
				out.Add("litres", s.Base("wanted")*kg)
			}
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			mass := reckoning.Weight(unit.Mass(s.Base("dry_mass")))
			if x, ok := out.Value("ratio"); ok {
				out.Work("Litres for each kilogram, a litre of liquor weighing about a kilogram.", "ratio = litres ÷ dry mass", reckoning.Volume(unit.Volume(s.Base("litres")))+" ÷ "+mass+" = 1 : "+unit.Text(x, 3), reckoning.Arithmetic.Name)
			}
			if x, ok := out.Value("litres"); ok {
				out.Work("Liquor for the ratio wanted.", "litres = ratio × dry mass", unit.Text(s.Base("wanted"), 4)+" × "+mass+" = "+reckoning.Volume(unit.Volume(x)), reckoning.Arithmetic.Name)
			}
			out.Object("1 to 50 is that of a laboratory test for wash fastness, not a rule for washing: an object needs at least what covers it and lets it be moved.", fastness)
		},
	}).Ready()
}

// WetMass reckons what a wet textile weighs.
func WetMass() *reckoning.Reckoning {
	dry := reckoning.Quantity("dry_mass", "Dry mass of the textile", "g", 0.1, 200000)
	trial := func(name, title string) reckoning.Input {
		return reckoning.Quantity(name, title, "g", 0.1, 200000).If("by", "trial")
	}
	share := reckoning.Quantity("pick_up", "Pick-up", "%", 1, 2000).In("%").If("by", "measured", "guess")
	return (&reckoning.Reckoning{
		Name: "wet_mass", Title: "What it weighs wet", Asks: "How heavy is it when it comes out of the water?", Family: family,
		Inputs: []reckoning.Input{
			dry, reckoning.Choose("by", "Water taken up", "trial", "from a trial on a like piece", "measured", "a pick-up that was measured", "guess", "a guess"),
			trial("trial_dry", "Trial piece, dry"), trial("trial_wet", "Trial piece, wet and drained"), share.Note("Water held, in per cent of the dry mass."),
			reckoning.Quantity("support", "Support and netting, wet", "kg", 0.001, 500).Maybe(), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&share),
		},
		Results: []reckoning.ResultSpec{{Name: "pick_up", Title: "Pick-up", Unit: "%"}, {Name: "water", Title: "Water in it", Unit: "g"}, {Name: "wet_mass", Title: "The textile, wet", Unit: "g"}, {Name: "load", Title: "With its support", Unit: "g"}},
		Sources: reckoning.From(&reckoning.PickUpRule, &drained, &centrifuge, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"dry_mass":"400 g","by":"trial","trial_dry":"12","trial_wet":"31","support":"1.2"}`,
		Prepare: func(s *reckoning.Sheet) {
			if s.Choice("by") == "trial" && s.Base("trial_wet") <= s.Base("trial_dry") {
				s.Beyond("trial_wet", "above "+s.Weight(unit.Mass(s.Base("trial_dry"))), "it is not above the dry mass of the trial piece.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			p, dry := pickUp(s), s.Base("dry_mass")
			out.Add("pick_up", p)
			out.Add("water", dry*p)
			out.Add("wet_mass", dry*(1+p))
			if s.Has("support") {
				out.Add("load", dry*(1+p)+s.Base("support"))
			}
			return out, nil
		},
		Explain: explainWetMass,
	}).Ready()
}

func pickUp(s *reckoning.Sheet) float64 {
	if s.Choice("by") == "trial" {
		return (s.Base("trial_wet") - s.Base("trial_dry")) / s.Base("trial_dry")
	}
	return s.Base("pick_up")
}

func explainWetMass(s *reckoning.Sheet, out *reckoning.Result) {
	p, dry := pickUp(s), unit.Mass(s.Base("dry_mass"))
	g := func(name string) string { return reckoning.InUnit("g", s.Base(name)) }
	switch s.Choice("by") {
	case "trial":
		out.Work("Pick-up of the trial piece.", "(wet - dry) ÷ dry", "("+g("trial_wet")+" - "+g("trial_dry")+") ÷ "+g("trial_dry")+" = "+reckoning.InUnit("%", p), reckoning.PickUpRule.Name)
	case "guess":
		table := out.Table("Published, after a centrifuge; a drained textile holds more", "Fibre", "Pick-up")
		for _, c := range moisture.Centrifuged {
			table.Row(c.Fibre, unit.Text(c.Held-moisture.CentrifugedOff, 3)+" to "+unit.Text(c.Held+moisture.CentrifugedOff, 3)+" %")
		}
		out.Object("The figures after a centrifuge are from memory, with low confidence.", centrifuge)
		out.Verdict("guess", "Rests on", "a guess of "+reckoning.InUnit("%", p)+". Weigh a like piece wet, or the object itself when it comes out, and put that in its place.")
	}
	wet := dry + unit.Mass(dry.Grams()*p)
	out.Work("Wet mass.", "wet = dry × (1 + pick-up)", reckoning.Weight(dry)+" × (1 + "+reckoning.InUnit("%", p)+") = "+reckoning.Weight(wet), reckoning.PickUpRule.Name)
	if s.Has("support") {
		out.Work("With its support.", "wet + support", reckoning.Weight(wet+unit.Mass(s.Base("support"))), reckoning.Arithmetic.Name)
	} else {
		out.NotKnown("load", s.Title("load"), "Not known without the support; it holds water too.")
	}
	out.People("Lift it on its support, level, after the water has run off, with enough people; local rules for lifting come first.", reckoning.CommonPractice)
	out.Object("Straight from the bath it holds more than after draining. The added water pulls at weak cloth: never by its edges.", drained)
	out.Object("How much stays after draining is a matter of how the cloth is made, not of its fibre alone: a figure of another cloth is a guess.", drained)
}
