package mounts

import (
	"sinkside/calc/mount"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/unit"
)

// Slope reckons what a sloped display asks of the textile.
func Slope() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "slope", Title: "A sloped display", Asks: "How much of its weight hangs in the cloth on a sloped board?", Family: family,
		Inputs:  withPlusMinus([]reckoning.Input{reckoning.Quantity("mass", "Mass of the textile", "g", 0.1, 200000), reckoning.Quantity("angle", "Slope from the level", "°", 0, 90), length("edge", "Width that bears it", 10, 20000).Maybe()}, "mass", "angle", "edge"),
		Results: []reckoning.ResultSpec{{Name: "share", Title: "Share along the board", Unit: "%"}, {Name: "along", Title: "Load along the board", Unit: "g"}, {Name: "on_width", Title: "Load on a metre of width", Unit: "g"}},
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
			if s.Has("edge") {
				out.Work("Load on a metre of width.", "load ÷ width", reckoning.Weight(unit.Mass(s.Base("mass")*share))+" ÷ "+measured.Ruler(s, "edge").Both(s.Base("edge"))+" = "+reckoning.Weight(unit.Mass(s.Base("mass")*share/s.Base("edge")*1000))+" on a metre", reckoning.Arithmetic.Name)
			} else {
				out.NotKnown("on_width", s.Title("on_width"), "Not known without the width that bears it.")
			}
			out.Object("A cloth with tooth lies by friction up to some slope: stitches and friction share what hangs. How much this cloth bears is for its conservator to say.", leaning)
		},
	}).Ready()
}
