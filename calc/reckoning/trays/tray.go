package trays

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

// Shapes of a tray.
const (
	shapeRectangular = "rectangular"
	shapeSloped      = "sloped"
	shapeRound       = "round"
)

// Tray reckons what a tray holds.
func Tray() *reckoning.Reckoning {
	length := func(name, title string, least, most float64, shapes []string, help string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "cm", Units: []string{"cm", "mm", "m", "in", "ft"}, Min: least, Max: most, When: "shape", Is: shapes, Help: help}
	}
	empty := reckoning.Input{Name: "tray_mass", Title: "Mass of the empty tray", Kind: reckoning.KindQuantity, Unit: "kg", Units: []string{"kg", "g", "lb", "oz"}, Min: 0.01, Max: 2000, Optional: true}
	square := []string{shapeRectangular, shapeSloped}
	return (&reckoning.Reckoning{
		Name: "tray", Title: "What a tray holds", Asks: "How many litres fill this tray, and what do they weigh?", Family: family,
		Example: `{"shape":"sloped","length":"90 cm","width":"24 in","shallow":"6","deep":"14","temperature":"77 °F","tray_mass":"6 kg","measure_pm":"5"}`,
		Inputs: []reckoning.Input{
			{Name: "shape", Title: "The tray is", Kind: reckoning.KindChoice, Default: shapeRectangular,
				Choices: reckoning.Choices(shapeRectangular, "rectangular, level", shapeSloped, "rectangular, deeper at one end", shapeRound, "round, level")},
			length("length", "Length inside", 1, 1500, square, "In the water, half-way down where the walls lean. Sloped, with one end dry: how far the water reaches."),
			length("width", "Width inside", 1, 1500, square, "In the water, half-way down where the walls lean."),
			length("diameter", "Diameter inside", 1, 1500, []string{shapeRound}, "In the water, half-way down where the walls lean."),
			length("depth", "Depth of the water", 0.1, 150, []string{shapeRectangular, shapeRound}, "Of the water, not of the tray."),
			length("shallow", "Depth at the shallow end", 0, 150, []string{shapeSloped}, "0 where the water runs out before the end."),
			length("deep", "Depth at the deep end", 0.1, 150, []string{shapeSloped}, ""),
			{Name: "temperature", Title: "Water temperature", Kind: reckoning.KindQuantity, Unit: "°C", Units: []string{"°C", "°F"}, Min: 0, Max: 40, Default: "20", Optional: true,
				Help: "It changes the mass by less than one per cent."},
			empty,
			{Name: "measure_pm", Title: "± each measure", Kind: reckoning.KindQuantity, Unit: "mm", Units: []string{"mm", "cm", "in"}, Min: 0, Max: 200, Optional: true,
				Help: "How far off each of your measures may be. A depth of 0 stays 0."},
			reckoning.PlusMinus(&empty),
		},
		Results: []reckoning.ResultSpec{
			{Name: "litres", Title: "The tray holds", Unit: "L"},
			{Name: "water_mass", Title: "Its water weighs", Unit: "kg"},
			{Name: "filled_mass", Title: "Filled, it weighs", Unit: "kg"},
		},
		Sources: reckoning.From(&geometry, &slopeNote, &reckoning.WaterDensity, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Prepare: prepareTray, Figures: trayFigures, Explain: explainTray,
	}).Ready()
}

// prepareTray spreads one ± over all measures of length.
func prepareTray(s *reckoning.Sheet) {
	if !s.Has("measure_pm") {
		return
	}
	for _, name := range []string{"length", "width", "diameter", "depth", "shallow", "deep"} {
		if s.Has(name) && s.Base(name) > 0 {
			s.Spread(name, "measure_pm")
		}
	}
}

func trayLength(s *reckoning.Sheet, name string) unit.Length { return unit.Length(s.Base(name)) }

// trayVolume returns what the tray holds and the depth of its deepest place.
func trayVolume(s *reckoning.Sheet) (unit.Volume, unit.Length) {
	switch s.Choice("shape") {
	case shapeSloped:
		shallow, deep := trayLength(s, "shallow"), trayLength(s, "deep")
		return tray.Sloped(trayLength(s, "length"), trayLength(s, "width"), shallow, deep), max(shallow, deep)
	case shapeRound:
		depth := trayLength(s, "depth")
		return tray.Round(trayLength(s, "diameter"), depth), depth
	}
	depth := trayLength(s, "depth")
	return tray.Rectangular(trayLength(s, "length"), trayLength(s, "width"), depth), depth
}

func trayFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	water, err := tray.WaterDensity(unit.Temperature(s.Base("temperature")))
	if err != nil {
		return nil, &reckoning.Problem{Field: "temperature", Value: s.Words("temperature"), Unit: "°C", Allowed: "0 to 40 °C", Say: err.Error()}
	}
	v, _ := trayVolume(s)
	mass := v.At(water)
	out := reckoning.Figures{reckoning.Fig("litres", v.Litres()), reckoning.Fig("water_mass", mass.Grams())}
	if s.Has("tray_mass") {
		out = append(out, reckoning.Fig("filled_mass", s.Base("tray_mass")+mass.Grams()))
	}
	return out, nil
}

func explainTray(s *reckoning.Sheet, out *reckoning.Result) {
	water, _ := tray.WaterDensity(unit.Temperature(s.Base("temperature")))
	v, deepest := trayVolume(s)
	mass := v.At(water)
	workVolume(s, out, v)
	out.Work("Mass of the water.", "mass = volume × density",
		reckoning.Volume(v)+" × "+unit.Text(float64(water), 5)+" kg/L at "+unit.Text(s.Base("temperature"), 3)+" °C = "+reckoning.Weight(mass), reckoning.WaterDensity.Name)
	if filled, ok := out.Value("filled_mass"); ok {
		out.Work("With the tray.", "filled = tray + water", reckoning.Weight(unit.Mass(s.Base("tray_mass")))+" + "+reckoning.Weight(mass)+" = "+reckoning.InUnit("kg", filled*1000), reckoning.Arithmetic.Name)
	}
	// A square metre one millimetre deep is one litre.
	onEach := (unit.Volume(deepest.Millimetres()) * unit.Litre).At(water)
	out.Work("What each square metre under the deepest place carries.", "load = depth × density",
		reckoning.InUnit("cm", deepest.Millimetres())+" × "+unit.Text(float64(water), 5)+" kg/L = "+reckoning.Weight(onEach)+" on a square metre", reckoning.Arithmetic.Name)
	trayCautions(s, out, v, mass)
}

func workVolume(s *reckoning.Sheet, out *reckoning.Result, v unit.Volume) {
	cm := func(name string) string { return reckoning.InUnit("cm", s.Base(name)) }
	switch s.Choice("shape") {
	case shapeSloped:
		out.Work("Litres, with the mean of the two depths.", "volume = length × width × (shallow + deep) ÷ 2",
			cm("length")+" × "+cm("width")+" × ("+cm("shallow")+" + "+cm("deep")+") ÷ 2 = "+reckoning.Volume(v), slopeNote.Name)
	case shapeRound:
		out.Work("Litres.", "volume = π × diameter² ÷ 4 × depth", "π × ("+cm("diameter")+")² ÷ 4 × "+cm("depth")+" = "+reckoning.Volume(v), geometry.Name)
	default:
		out.Work("Litres.", "volume = length × width × depth", cm("length")+" × "+cm("width")+" × "+cm("depth")+" = "+reckoning.Volume(v), geometry.Name)
	}
}

func trayCautions(s *reckoning.Sheet, out *reckoning.Result, v unit.Volume, mass unit.Mass) {
	heavy := mass
	if s.Has("tray_mass") {
		heavy += unit.Mass(s.Base("tray_mass"))
	}
	out.People("Never lift, carry or tip a filled tray: this one comes to "+s.Weight(heavy)+", and its water shifts as it moves. Fill it where it stands, and empty it by drain, siphon or pump.", reckoning.CommonPractice)
	out.People("Before filling, be sure that the table and the floor carry "+s.Weight(heavy)+" and the people around it.", reckoning.CommonPractice)
	out.People("Keep leads and chargers away from the water, and the floor dry.", reckoning.CommonPractice)
	out.Object("The object and its support take up room: with them in the tray, less than "+s.Litres(v)+" brings the water to this height.", reckoning.CommonPractice)
	if s.Choice("shape") == shapeSloped {
		out.Object("At the shallow end the object must still be covered.", slopeNote)
	}
}
