package mounts

import (
	"strconv"

	"sinkside/calc/mount"
	"sinkside/calc/reckoning"
	"sinkside/calc/size"
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
				reckoning.Quantity("off", "Its mass may be off by", "%", 0, 90).In("%").Also("g", 0, 100000).Also("kg", 0, 100).Also("oz", 0, 3500).Also("lb", 0, 220).Maybe().Note("In % or as a mass: by the scales, or by how well thickness and density are known."),
			),
		},
		Results: []reckoning.ResultSpec{{Name: "mass", Title: "All together", Unit: "g"}},
		Sources: reckoning.From(&sums, &handbook, &reckoning.CommonPractice),
		Example: `{"layers":[{"name":"board","by":"area","width":"380","height":"480","per_area":"1.2 kg/m²","off":"5 %"},{"name":"cover cloth","by":"area","width":"480","height":"580","per_area":"180"},{"name":"glass","by":"volume","width":"400","height":"500","thick":"3","density":"2.5","off":"4 %"},{"name":"frame","by":"mass","mass":"1.4 kg","off":"5 g"}]}`,
		Prepare: func(s *reckoning.Sheet) {
			for i, r := range s.Rows("layers") {
				if layerOff(r) >= layerMass(r) {
					s.Fault("layers", "row "+strconv.Itoa(i+1)+", "+r.Words("name")+", may be off by "+r.Weight(unit.Mass(layerOff(r)))+", and weighs no more than "+r.Weight(unit.Mass(layerMass(r)))+".")
				}
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			sum, off := weighed(s)
			var out reckoning.Figures
			out.Between("mass", sum, sum-off, sum+off)
			return out, nil
		},
		Explain: explainMass,
	}).Ready()
}

// weighed is what all layers weigh together, and what that may be off by when each is
// off the same way, g.
func weighed(s *reckoning.Sheet) (sum, off float64) {
	for _, r := range s.Rows("layers") {
		sum += float64(layerMass(r))
		off += float64(layerOff(r))
	}
	return sum, off
}

// layerMass is what a row weighs, g.
func layerMass(r *reckoning.Sheet) float64 {
	if r.Choice("by") == "mass" {
		return r.Base("mass")
	}
	return mount.Layer{Width: r.Base("width"), Height: r.Base("height"), PerArea: r.Base("per_area"), Thickness: r.Base("thick"), Density: r.Base("density")}.Mass()
}

// layerOff is what a row may be off by, g; 0 where nothing is said of that.
func layerOff(r *reckoning.Sheet) float64 {
	switch {
	case !r.Has("off"):
		return 0
	case r.Kind("off") == unit.FractionKind:
		return layerMass(r) * r.Base("off")
	}
	return r.Base("off")
}

func explainMass(s *reckoning.Sheet, out *reckoning.Result) {
	table := out.Table("Layer by layer", "Part", "Reckoned from", "Mass")
	for _, r := range s.Rows("layers") {
		say := r.Weight(unit.Mass(layerMass(r)))
		if off := layerOff(r); off > 0 {
			say += " ± " + r.Weight(unit.Mass(off))
		}
		table.Row(r.Words("name"), madeOf(r), say)
	}
	sum, off := weighed(s)
	put := reckoning.Weight(unit.Mass(sum))
	if off > 0 {
		put += ", ± " + reckoning.Weight(unit.Mass(off)) + " when all are off the same way"
	}
	out.Work("Each by its area and mass per area, or its volume and density; then all together.", "Σ width × height × mass per area, or × thickness × density", put, sums.Name)
	out.People("Lifting it is another question: size, grip and glass count as well as mass. Glass is carried upright, with gloves, never over the head.", reckoning.CommonPractice)
	out.Object("Weigh the finished piece before it is hung: glue, hems and screws are in no list.", reckoning.CommonPractice)
}

// madeOf is what the mass of a row follows from.
func madeOf(r *reckoning.Sheet) string {
	if r.Choice("by") == "mass" {
		return "weighed"
	}
	ruler := size.RulerIn(r.Inches("width"))
	say := ruler.Size(r.Base("width"), r.Base("height")) + " × "
	if r.Choice("by") == "area" {
		return say + r.InWords(unit.ArealMassKind, r.Base("per_area"))
	}
	return say + size.RulerIn(r.Inches("thick")).Of(r.Base("thick")) + " × " + reckoning.InUnit("g/mL", r.Base("density"))
}
