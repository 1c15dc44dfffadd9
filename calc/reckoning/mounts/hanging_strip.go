package mounts

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
)

// HangingStrip reckons strip and sleeve for hook-and-loop hanging.
func HangingStrip() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "hanging_strip", Title: "Strip and sleeve for hanging", Asks: "How long is the strip that it hangs from, and how wide its sleeve?", Family: family,
		Inputs: withPlusMinus([]reckoning.Input{
			length("edge", "Upper edge of the textile", 50, 20000), length("tape", "Width of the tape", 5, 200).Usually("50"),
			length("short", "Strip shorter than the edge by", 0, 500).Usually("20"), length("wider", "Sleeve wider than the tape, each side", 0, 100).Usually("5"),
		}, "edge", "tape"),
		Results: []reckoning.ResultSpec{{Name: "strip", Title: "Strip, length", Unit: "mm", Digits: 5}, {Name: "sleeve_width", Title: "Sleeve, width", Unit: "mm", Digits: 4}, {Name: "sleeve_length", Title: "Sleeve, length", Unit: "mm", Digits: 5}},
		Sources: reckoning.From(&hooks, &reckoning.CommonPractice), Usual: hooks.Name,
		Example: `{"edge":"96 cm","tape":"50"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			strip := s.Base("edge") - s.Base("short")
			if strip < 0.01 {
				return nil, s.Cannot("short", "less than "+measured.TypedRuler(s, "edge").Both(s.Base("edge")), "it leaves no strip on this edge.")
			}
			var out reckoning.Figures
			out.Add("strip", strip)
			out.Add("sleeve_width", s.Base("tape")+2*s.Base("wider"))
			out.Add("sleeve_length", strip+2*s.Base("wider"))
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			r := measured.Ruler(s, "edge")
			short, wider := s.Base("short"), s.Base("wider")
			strip := s.Base("edge") - short
			out.Work("The strip ends short of the edge, so that it does not show; 2 cm is published.", "edge - shorter by", r.Of(s.Base("edge"))+" - "+r.Of(short)+" = "+r.Both(strip), hooks.Name)
			out.Work("The sleeve is wider than the tape all round; 0.5 cm is published.", "tape + 2 × wider", r.Of(s.Base("tape"))+" + 2 × "+r.Of(wider)+" = "+r.Both(s.Base("tape")+2*wider), hooks.Name)
			out.Work("And as much longer than the strip.", "strip + 2 × wider", r.Of(strip)+" + 2 × "+r.Of(wider)+" = "+r.Both(strip+2*wider), hooks.Name)
			out.People("What hangs above people is fixed by somebody who is qualified for that wall.", reckoning.CommonPractice)
			out.Object("Hanging puts the whole weight on the upper edge: only for pieces that bear it, sewn through the lining or along warps that hold.", reckoning.CommonPractice)
		},
	}).Ready()
}
