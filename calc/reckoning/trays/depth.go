package trays

import (
	"math"

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
	fall := reckoning.Quantity("fall", "Deeper at one end by", "cm", 0.1, 100).If("shape", shapeSloped)
	litres := reckoning.Quantity("litres", "Water", "L", 0.05, 5000).Maybe()
	thick := reckoning.Quantity("thick", "Thickness of object and support", "cm", 0.05, 100).Maybe().Note("As they lie wet in the tray.")
	return (&reckoning.Reckoning{
		Name: "depth", Title: "Depth of the water", Asks: "How deep does this water stand, or how much covers the object?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("shape", "The tray is", shapeRectangular, "rectangular, level", shapeSloped, "rectangular, deeper at one end", shapeRound, "round, level"), length, width, diameter,
			fall, litres, thick,
			reckoning.Quantity("cover", "Water above them", "cm", 0, 100).Usually("2").Note("So that nothing floats up and folds can be moved."),
			reckoning.PlusMinus(&length), reckoning.PlusMinus(&width), reckoning.PlusMinus(&diameter),
			reckoning.PlusMinus(&fall), reckoning.PlusMinus(&litres), reckoning.PlusMinus(&thick),
		},
		Results: []reckoning.ResultSpec{{Name: "depth", Title: "Depth of the water; sloped, at the shallow end", Unit: "cm"}, {Name: "deep", Title: "At the deep end", Unit: "cm"}, {Name: "reach", Title: "From the deep end the water reaches", Unit: "cm"}, {Name: "needed_depth", Title: "To cover the object", Unit: "cm"}, {Name: "covering", Title: "Water to cover it, at most", Unit: "L"}},
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
	out.People("Keep leads and chargers away from the water, and the floor dry.", reckoning.CommonPractice)
	out.Object("With object and support in it the water stands higher than this: fill to the mark, not to the litre.", reckoning.CommonPractice)
}
