package mounts

import (
	"strconv"

	"sinkside/calc/mount"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Mass reckons what a mount weighs from its layers.
func Mass() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "mount_mass", Title: "What the mount weighs", Asks: "How heavy is the whole, with textile, board, padding and frame?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Rows("layers", "Layers and parts", 30,
				reckoning.Text("name", "Name"), reckoning.Choose("by", "Known by", "area", "mass per area", "volume", "thickness and density", "mass", "its mass"),
				length("width", "Width", 1, 20000).If("by", "area", "volume"), length("height", "Height", 1, 20000).If("by", "area", "volume"),
				reckoning.Quantity("per_area", "Mass per area", "g/m²", 1, 100000).If("by", "area"), length("thick", "Thickness", 0.01, 500).If("by", "volume"), reckoning.Quantity("density", "Density", "g/mL", 0.005, 20).If("by", "volume").Note("Glass 2.5, acrylic sheet 1.19: handbook values."),
				reckoning.Quantity("mass", "Mass", "g", 0.1, 500000).If("by", "mass"),
			),
		},
		Results: []reckoning.ResultSpec{{Name: "mass", Title: "All together", Unit: "g"}},
		Sources: reckoning.From(&sums, &handbook, &reckoning.CommonPractice),
		Example: `{"layers":[{"name":"board","by":"area","width":"380","height":"480","per_area":"1.2 kg/m²"},{"name":"cover cloth","by":"area","width":"480","height":"580","per_area":"180"},{"name":"glass","by":"volume","width":"400","height":"500","thick":"3","density":"2.5"},{"name":"frame","by":"mass","mass":"1.4 kg"}]}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			sum := 0.0
			for _, r := range s.Rows("layers") {
				sum += layerMass(r)
			}
			var out reckoning.Figures
			out.Add("mass", sum)
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			table := out.Table("Layer by layer", "Part", "Mass")
			sum := 0.0
			for _, r := range s.Rows("layers") {
				table.Row(r.Words("name"), s.Weight(unit.Mass(layerMass(r))))
				sum += layerMass(r)
			}
			out.Work("Each by its area and mass per area, or its volume and density; then all together.", "Σ width × height × mass per area", reckoning.Weight(unit.Mass(sum)), sums.Name)
			out.People("Lifting it is another question: size, grip and glass count as well as mass. Glass is carried upright, with gloves, never over the head.", reckoning.CommonPractice)
			out.Object("Weigh the finished piece before it is hung: glue, hems and screws are in no list.", reckoning.CommonPractice)
		},
	}).Ready()
}

func layerMass(r *reckoning.Sheet) float64 {
	if r.Choice("by") == "mass" {
		return r.Base("mass")
	}
	return mount.Layer{Width: r.Base("width"), Height: r.Base("height"), PerArea: r.Base("per_area"), Thickness: r.Base("thick"), Density: r.Base("density")}.Mass()
}

// Frame reckons rebate, glazing and what hangs.
func Frame() *reckoning.Reckoning {
	layer := func(name, title string) reckoning.Input { return length(name, title, 0, 200).Usually("0") }
	return (&reckoning.Reckoning{
		Name: "frame", Title: "Frame, glazing and hanging", Asks: "How deep is the rebate, what does the glazing weigh, and what must each fixing bear?", Family: family,
		Inputs: []reckoning.Input{
			length("width", "Width of the mount", 20, 10000), length("height", "Height of the mount", 20, 10000), length("play", "Play at each edge", 0, 20).Usually("2"),
			length("mount", "Mount with its padding", 0.5, 200), layer("textile", "Textile"), layer("spacer", "Spacer, so that nothing touches the glazing"), layer("back", "Back board"),
			reckoning.Choose("glazing", "Glazing", "none", "none", "glass", "glass", "acrylic", "acrylic sheet", "other", "of another density"),
			length("glass", "Thickness of the glazing", 0.5, 20).If("glazing", "glass", "acrylic", "other"), reckoning.Quantity("density", "Density of the glazing", "g/mL", 0.5, 5).If("glazing", "other"),
			reckoning.Quantity("rest", "Mass of all but the glazing", "kg", 0.01, 500), reckoning.Number("factor", "Safety factor", 1, 20).Note("Yours or your engineer's to choose; 4 and more is common for what hangs over people."),
			reckoning.Count("fixings", "Fixings in the wall", 1, 20).Usually("2"),
		},
		Results: []reckoning.ResultSpec{
			{Name: "depth", Title: "Rebate, depth", Unit: "mm"}, {Name: "opening_width", Title: "Rebate, width", Unit: "mm"}, {Name: "opening_height", Title: "Rebate, height", Unit: "mm"},
			{Name: "glazing_mass", Title: "Glazing", Unit: "g"}, {Name: "mass", Title: "All that hangs", Unit: "g"}, {Name: "each", Title: "Each fixing must bear", Unit: "kg"}, {Name: "force", Title: "As a force", Unit: "N"},
		},
		Sources: reckoning.From(&sums, &handbook, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic), Usual: reckoning.OurChoice.Name,
		Example: `{"width":"380","height":"480","mount":"10","textile":"1","spacer":"6","back":"4","glazing":"acrylic","glass":"3","rest":"2.6","factor":"4","fixings":"2"}`,
		Figures: frameFigures, Explain: explainFrame,
	}).Ready()
}

// glazing is the mass of the glazing, g, and its thickness, mm.
func glazing(s *reckoning.Sheet) (mass, thick float64) {
	density := s.Base("density")
	switch s.Choice("glazing") {
	case "none":
		return 0, 0
	case "glass":
		density = mount.Glass
	case "acrylic":
		density = mount.Acrylic
	}
	return mount.Layer{Width: s.Base("width"), Height: s.Base("height"), Thickness: s.Base("glass"), Density: density}.Mass(), s.Base("glass")
}

func rebate(s *reckoning.Sheet) float64 {
	_, thick := glazing(s)
	return s.Base("mount") + s.Base("textile") + s.Base("spacer") + s.Base("back") + thick
}

const gravity = 9.80665 // m/s², by definition

func frameFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	mass, thick := glazing(s)
	all := mass + s.Base("rest")
	each := mount.Hanging(all, s.Base("factor"), int(s.Base("fixings")))
	var out reckoning.Figures
	out.Add("depth", rebate(s))
	out.Add("opening_width", s.Base("width")+2*s.Base("play"))
	out.Add("opening_height", s.Base("height")+2*s.Base("play"))
	if thick > 0 {
		out.Add("glazing_mass", mass)
	}
	out.Add("mass", all)
	out.Add("each", each)
	out.Add("force", each/1000*gravity)
	return out, nil
}

func explainFrame(s *reckoning.Sheet, out *reckoning.Result) {
	mass, thick := glazing(s)
	all := mass + s.Base("rest")
	each := mount.Hanging(all, s.Base("factor"), int(s.Base("fixings")))
	kg := func(g float64) string { return reckoning.InUnit("kg", g) }
	out.Work("Depth of the rebate.", "mount + textile + spacer + glazing + back", mm(s.Base("mount"))+" + "+mm(s.Base("textile"))+" + "+mm(s.Base("spacer"))+" + "+mm(thick)+" + "+mm(s.Base("back"))+" = "+mm(rebate(s)), sums.Name)
	if thick > 0 {
		out.Work("Glazing, as large as the mount.", "width × height × thickness × density", kg(mass), handbook.Name)
	} else {
		out.NotKnown("glazing_mass", s.Title("glazing_mass"), "There is none.")
	}
	say, formula := "What each fixing must bear, so that with one of them gone the others hold all of it.", "mass × factor ÷ (fixings - 1)"
	if s.Base("fixings") < 2 {
		say, formula = "What the one fixing must bear.", "mass × factor"
	}
	put := kg(all) + " × " + unit.Text(s.Base("factor"), 3)
	if others := int(s.Base("fixings")) - 1; others > 0 {
		put += " ÷ " + strconv.Itoa(others)
	}
	out.Work(say, formula, put+" = "+kg(each)+", "+reckoning.InUnit("N", each/1000*gravity), reckoning.Arithmetic.Name)
	out.People("What a wall and its fixings bear is for somebody qualified to say, by the wall that is there. Nothing hangs over people, beds or ways out on a guess.", reckoning.CommonPractice)
	if s.Base("fixings") < 2 {
		out.People("One fixing has no other to take over when it fails: two are usual at the least.", reckoning.CommonPractice)
	}
	if s.Choice("glazing") == "glass" {
		out.People("Glass cuts: gloves, edges taken off, carried upright by two where it is large, taped for the road.", reckoning.CommonPractice)
	}
	if thick > 0 && s.Base("spacer") == 0 {
		out.Object("Without a spacer the glazing touches the textile: damp condenses there, and pile or paint sticks.", reckoning.CommonPractice)
	}
	if s.Choice("glazing") == "acrylic" {
		out.Object("Acrylic sheet draws dust and loose fibres by its charge: not over powdering or pile that comes off.", reckoning.CommonPractice)
	}
	out.Object("Leave air behind the frame, off an outside wall.", reckoning.CommonPractice)
}

// Slope reckons what a sloped display asks of the textile.
func Slope() *reckoning.Reckoning {
	mass := reckoning.Quantity("mass", "Mass of the textile", "g", 0.1, 200000)
	return (&reckoning.Reckoning{
		Name: "slope", Title: "A sloped display", Asks: "How much of its weight hangs in the cloth on a sloped board?", Family: family,
		Inputs:  []reckoning.Input{mass, reckoning.Quantity("angle", "Slope from the level", "°", 0, 90), length("edge", "Width that bears it", 10, 20000).Maybe(), reckoning.PlusMinus(&mass)},
		Results: []reckoning.ResultSpec{{Name: "share", Title: "Share along the board", Unit: "%"}, {Name: "along", Title: "That is as much as", Unit: "g"}, {Name: "on_width", Title: "On a metre of width", Unit: "g"}},
		Sources: reckoning.From(&leaning, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"mass":"620 g","angle":"30","edge":"120 cm"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			share := mount.InPlane(s.Base("angle"))
			var out reckoning.Figures
			out.Add("share", share)
			out.Add("along", s.Base("mass")*share)
			if s.Has("edge") {
				out.Add("on_width", s.Base("mass")*share/s.Base("edge")*1000)
			}
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			share := mount.InPlane(s.Base("angle"))
			table := out.Table("At other slopes", "Slope", "Share")
			for _, a := range []float64{10, 15, 20, 30, 45, 60, 75, 90} {
				table.Row(unit.Text(a, 2)+"°", reckoning.InUnit("%", mount.InPlane(a)))
			}
			out.Work("The part of the weight that pulls along the board.", "mass × sin(slope)", reckoning.Weight(unit.Mass(s.Base("mass")))+" × "+unit.Text(share, 3)+" = "+reckoning.Weight(unit.Mass(s.Base("mass")*share)), leaning.Name)
			out.Object("A cloth with tooth lies by friction up to some slope: stitches and friction share what hangs. How much this cloth bears is for its conservator to say.", leaning)
		},
	}).Ready()
}
