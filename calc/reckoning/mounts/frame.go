package mounts

import (
	"strconv"

	"sinkside/calc/mount"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/unit"
)

// Frame reckons rebate, glazing and what hangs.
func Frame() *reckoning.Reckoning {
	layer := func(name, title string) reckoning.Input { return length(name, title, 0, 200).Usually("0") }
	return (&reckoning.Reckoning{
		Name: "frame", Title: "Frame, glazing and hanging", Asks: "How deep is the rebate, what does the glazing weigh, and what must each fixing bear?", Family: family,
		Inputs: withPlusMinus([]reckoning.Input{
			length("width", "Width of the mount", 20, 10000), length("height", "Height of the mount", 20, 10000), length("play", "Play at each edge", 0, 20).Usually("2"),
			length("mount", "Board of the mount, thickness", 0.5, 200), layer("loft", "Padding on it, as it lies under the cloth"), layer("textile", "Textile, thickness"), layer("spacer", "Spacer, so that nothing touches the glazing"), layer("back", "Back board, thickness"),
			reckoning.Choose("glazing", "Glazing", "none", "none", "glass", "glass", "acrylic", "acrylic sheet", "other", "of another density"),
			length("glass", "Thickness of the glazing", 0.5, 20).If("glazing", "glass", "acrylic", "other"), reckoning.Quantity("density", "Density of the glazing", "g/mL", 0.5, 5).If("glazing", "other"),
			reckoning.Quantity("rest", "Mass of all but the glazing", "kg", 0.01, 500), reckoning.Number("factor", "Safety factor", 1, 20).Note("Yours or your engineer's to choose; 4 and more is common for what hangs over people."),
			reckoning.Count("fixings", "Fixings in the wall", 1, 20).Usually("2"),
		}, "width", "height", "mount", "loft", "textile", "glass", "rest"),
		Results: []reckoning.ResultSpec{
			{Name: "depth", Title: "Rebate, depth", Unit: "mm", Digits: 5}, {Name: "opening_width", Title: "Rebate, width", Unit: "mm", Digits: 5}, {Name: "opening_height", Title: "Rebate, height", Unit: "mm", Digits: 5},
			{Name: "glazing_mass", Title: "Glazing", Unit: "g"}, {Name: "mass", Title: "All that hangs", Unit: "g"}, {Name: "each", Title: "Each fixing must bear", Unit: "kg"}, {Name: "force", Title: "As a force", Unit: "N"},
		},
		Sources: reckoning.From(&sums, &handbook, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic), Usual: reckoning.OurChoice.Name,
		Example: `{"width":"380","height":"480","mount":"6","loft":"4","loft_pm":"1","textile":"1","spacer":"6","back":"4","glazing":"acrylic","glass":"3","rest":"2.6","factor":"4","fixings":"2"}`,
		Figures: frameFigures, Explain: explainFrame,
	}).Ready()
}

// pane is the glazing, as large as the mount; false where there is none.
func pane(s *reckoning.Sheet) (mount.Layer, bool) {
	density := s.Base("density")
	switch s.Choice("glazing") {
	case "none":
		return mount.Layer{}, false
	case "glass":
		density = mount.Glass
	case "acrylic":
		density = mount.Acrylic
	}
	return mount.Layer{Width: s.Base("width"), Height: s.Base("height"), Thickness: s.Base("glass"), Density: density}, true
}

// layers are what lies in the rebate one on the other, mm.
func layers(s *reckoning.Sheet) []float64 {
	glass, _ := pane(s)
	return []float64{s.Base("mount"), s.Base("loft"), s.Base("textile"), s.Base("spacer"), glass.Thickness, s.Base("back")}
}

func rebate(s *reckoning.Sheet) float64 {
	sum := 0.0
	for _, x := range layers(s) {
		sum += x
	}
	return sum
}

const gravity = 9.80665 // m/s², by definition

func frameFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	glass, glazed := pane(s)
	mass := glass.Mass()
	all := mass + s.Base("rest")
	each := mount.Hanging(all, s.Base("factor"), int(s.Base("fixings")))
	var out reckoning.Figures
	out.Add("depth", rebate(s))
	out.Add("opening_width", s.Base("width")+2*s.Base("play"))
	out.Add("opening_height", s.Base("height")+2*s.Base("play"))
	if glazed {
		out.Add("glazing_mass", mass)
	}
	out.Add("mass", all)
	out.Add("each", each)
	out.Add("force", each/1000*gravity)
	return out, nil
}

func explainFrame(s *reckoning.Sheet, out *reckoning.Result) {
	glass, glazed := pane(s)
	mass := glass.Mass()
	all := mass + s.Base("rest")
	each := mount.Hanging(all, s.Base("factor"), int(s.Base("fixings")))
	r := measured.Ruler(s, "width")
	kg := func(g float64) string { return reckoning.InUnit("kg", g) }
	deep := ""
	for i, x := range layers(s) {
		if i > 0 {
			deep += " + "
		}
		deep += r.Of(x)
	}
	out.Work("Depth of the rebate.", "board + padding + textile + spacer + glazing + back", deep+" = "+r.Both(rebate(s)), sums.Name)
	wide, high := s.Base("width")+2*s.Base("play"), s.Base("height")+2*s.Base("play")
	out.Work("Width and height of the rebate: the mount with its play at each edge.", "mount + 2 × play", r.Size(s.Base("width"), s.Base("height"))+" and 2 × "+r.Of(s.Base("play"))+": "+r.BothSize(wide, high), sums.Name)
	if glazed {
		from := handbook.Name
		if s.Choice("glazing") == "other" {
			from = sums.Name
		}
		out.Work("Glazing, as large as the mount.", "width × height × thickness × density", r.Size(glass.Width, glass.Height)+" × "+r.Of(glass.Thickness)+" × "+reckoning.InUnit("g/mL", glass.Density)+" = "+s.Weight(unit.Mass(mass)), from)
	} else {
		out.NotKnown("glazing_mass", s.Title("glazing_mass"), "There is none.")
	}
	out.Work("All that hangs.", "glazing + the rest", kg(mass)+" + "+kg(s.Base("rest"))+" = "+s.Weight(unit.Mass(all)), sums.Name)
	say, formula := "What each fixing must bear, so that with one of them gone the others hold all of it.", "mass × factor ÷ (fixings - 1)"
	if s.Base("fixings") < 2 {
		say, formula = "What the one fixing must bear.", "mass × factor"
	}
	put := kg(all) + " × " + unit.Text(s.Base("factor"), 3)
	if others := int(s.Base("fixings")) - 1; others > 0 {
		put += " ÷ " + strconv.Itoa(others)
	}
	out.Work(say, formula, put+" = "+s.Weight(unit.Mass(each))+", "+reckoning.InUnit("N", each/1000*gravity), reckoning.Arithmetic.Name)
	out.People("What a wall and its fixings bear is for somebody qualified to say, by the wall that is there. Nothing hangs over people, beds or ways out on a guess.", reckoning.CommonPractice)
	if s.Base("fixings") < 2 {
		out.People("One fixing has no other to take over when it fails: two are usual at the least.", reckoning.CommonPractice)
	}
	if s.Choice("glazing") == "glass" {
		out.People("Glass cuts: gloves, edges taken off, carried upright by two where it is large, taped for the road.", reckoning.CommonPractice)
	}
	if glazed && s.Base("spacer") == 0 {
		out.Object("Without a spacer the glazing touches the textile: damp condenses there, and pile or paint sticks.", reckoning.CommonPractice)
	}
	if s.Choice("glazing") == "acrylic" {
		out.Object("Acrylic sheet draws dust and loose fibres by its charge: not over powdering or pile that comes off.", reckoning.CommonPractice)
	}
	out.Object("Leave air behind the frame, off an outside wall.", reckoning.CommonPractice)
}
