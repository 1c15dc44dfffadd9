package reckoning

import (
	"sinkside/calc/tray"
	"sinkside/calc/unit"
)

// Shapes of a tray.
const (
	shapeRectangular = "rectangular"
	shapeSloped      = "sloped"
	shapeRound       = "round"
)

func trayReckoning() *Reckoning {
	length := func(name, title string, least, most float64, shapes []string, help string) Input {
		return Input{Name: name, Title: title, Kind: Quantity, Unit: "cm", Units: []string{"cm", "mm", "m", "in", "ft"}, Min: least, Max: most, When: "shape", Is: shapes, Help: help}
	}
	square := []string{shapeRectangular, shapeSloped}
	return (&Reckoning{
		Name: "tray", Title: "What a tray holds", Asks: "How many litres fill this tray, and what do they weigh?",
		Inputs: []Input{
			{Name: "shape", Title: "The tray is", Kind: OneOf, Default: shapeRectangular,
				Choices: []Choice{{shapeRectangular, "rectangular, level"}, {shapeSloped, "rectangular, deeper at one end"}, {shapeRound, "round, level"}}},
			length("length", "Length inside", 1, 1500, square, "In the water, half-way down where the walls lean. Sloped, with one end dry: how far the water reaches."),
			length("width", "Width inside", 1, 1500, square, "In the water, half-way down where the walls lean."),
			length("diameter", "Diameter inside", 1, 1500, []string{shapeRound}, "In the water, half-way down where the walls lean."),
			length("depth", "Depth of the water", 0.1, 150, []string{shapeRectangular, shapeRound}, "Of the water, not of the tray."),
			length("shallow", "Depth at the shallow end", 0, 150, []string{shapeSloped}, "0 where the water runs out before the end."),
			length("deep", "Depth at the deep end", 0.1, 150, []string{shapeSloped}, ""),
			{Name: "temperature", Title: "Water temperature", Kind: Quantity, Unit: "°C", Units: []string{"°C", "°F"}, Min: 0, Max: 40, Default: "20", Optional: true,
				Help: "It changes the mass by less than one per cent."},
			{Name: "tray_mass", Title: "Mass of the empty tray", Kind: Quantity, Unit: "kg", Units: []string{"kg", "g", "lb", "oz"}, Min: 0.01, Max: 2000, Optional: true},
			{Name: "measure_pm", Title: "± each measure", Kind: Quantity, Unit: "mm", Units: []string{"mm", "cm", "in"}, Min: 0, Max: 200, Optional: true,
				Help: "How far off each of your measures may be. A depth of 0 stays 0."},
		},
		Results: []ResultSpec{
			{Name: "litres", Title: "The tray holds", Unit: "L"},
			{Name: "water_mass", Title: "Its water weighs", Unit: "kg"},
			{Name: "filled_mass", Title: "Filled, it weighs", Unit: "kg"},
		},
		Sources: from(&geometry, &slopeNote, &density, &definitions, &practice, &arithmetic),
		prepare: prepareTray, figures: trayFigures, explain: explainTray,
	}).setUp()
}

// prepareTray spreads one ± over all measures of length.
func prepareTray(s *sheet) {
	if !s.has("measure_pm") {
		return
	}
	for _, name := range []string{"length", "width", "diameter", "depth", "shallow", "deep"} {
		if of := s.find(name); s.has(name) && of.base > 0 {
			s.widen(s.find("measure_pm"), of, s.base("measure_pm"))
		}
	}
}

func trayLength(s *sheet, name string) unit.Length { return unit.Length(s.base(name)) }

// trayVolume returns what the tray holds and the depth of its deepest place.
func trayVolume(s *sheet) (unit.Volume, unit.Length) {
	switch s.choice("shape") {
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

func trayFigures(s *sheet) ([]figure, *Problem) {
	water, err := tray.WaterDensity(unit.Temperature(s.base("temperature")))
	if err != nil {
		return nil, &Problem{Field: "temperature", Value: s.find("temperature").text, Unit: "°C", Allowed: "0 to 40 °C", Say: err.Error()}
	}
	v, _ := trayVolume(s)
	mass := v.At(water)
	out := []figure{fig("litres", v.Litres()), fig("water_mass", mass.Grams())}
	if s.has("tray_mass") {
		out = append(out, fig("filled_mass", s.base("tray_mass")+mass.Grams()))
	}
	return out, nil
}

func explainTray(s *sheet, out *Result) {
	water, _ := tray.WaterDensity(unit.Temperature(s.base("temperature")))
	v, deepest := trayVolume(s)
	mass := v.At(water)
	s.workVolume(out, v)
	out.work("Mass of the water.", "mass = volume × density",
		volume(v)+" × "+unit.Text(float64(water), 5)+" kg/L at "+unit.Text(s.base("temperature"), 3)+" °C = "+weight(mass), density.Name)
	if filled, ok := out.value("filled_mass"); ok {
		out.work("With the tray.", "filled = tray + water", weight(unit.Mass(s.base("tray_mass")))+" + "+weight(mass)+" = "+inUnit("kg", filled*1000), arithmetic.Name)
	}
	// A square metre one millimetre deep is one litre.
	onEach := (unit.Volume(deepest.Millimetres()) * unit.Litre).At(water)
	out.work("What each square metre under the deepest place carries.", "load = depth × density",
		inUnit("cm", deepest.Millimetres())+" × "+unit.Text(float64(water), 5)+" kg/L = "+weight(onEach)+" on a square metre", arithmetic.Name)
	s.trayCautions(out, v, mass)
}

func (s *sheet) workVolume(out *Result, v unit.Volume) {
	cm := func(name string) string { return inUnit("cm", s.base(name)) }
	switch s.choice("shape") {
	case shapeSloped:
		out.work("Litres, with the mean of the two depths.", "volume = length × width × (shallow + deep) ÷ 2",
			cm("length")+" × "+cm("width")+" × ("+cm("shallow")+" + "+cm("deep")+") ÷ 2 = "+volume(v), slopeNote.Name)
	case shapeRound:
		out.work("Litres.", "volume = π × diameter² ÷ 4 × depth", "π × ("+cm("diameter")+")² ÷ 4 × "+cm("depth")+" = "+volume(v), geometry.Name)
	default:
		out.work("Litres.", "volume = length × width × depth", cm("length")+" × "+cm("width")+" × "+cm("depth")+" = "+volume(v), geometry.Name)
	}
}

func (s *sheet) trayCautions(out *Result, v unit.Volume, mass unit.Mass) {
	heavy := mass
	if s.has("tray_mass") {
		heavy += unit.Mass(s.base("tray_mass"))
	}
	out.people("Never lift, carry or tip a filled tray: this one comes to "+s.weight(heavy)+", and its water shifts as it moves. Fill it where it stands, and empty it by drain, siphon or pump.", practice)
	out.people("Before filling, be sure that the table and the floor carry "+s.weight(heavy)+" and the people around it.", practice)
	out.people("Keep leads and chargers away from the water, and the floor dry.", practice)
	out.object("The object and its support take up room: with them in the tray, less than "+s.litres(v)+" brings the water to this height.", practice)
	if s.choice("shape") == shapeSloped {
		out.object("At the shallow end the object must still be covered.", slopeNote)
	}
}
