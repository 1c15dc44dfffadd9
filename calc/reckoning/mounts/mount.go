package mounts

import (
	"sinkside/calc/mount"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Mount reckons the board and the cloths of a padded mount.
func Mount() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "mount", Title: "Board, padding and cloths", Asks: "How large are board, padding and cloths for this mount?", Family: family,
		Inputs: []reckoning.Input{
			length("width", "Width of the textile", 10, 10000), length("height", "Height of the textile", 10, 10000), length("margin", "Margin all round", 0, 1000).Usually("40").Note("A few centimetres are published."),
			length("board", "Thickness of the board", 0.5, 100), length("loft", "Loft of the padding, as it lies under the cloth", 0, 100).Usually("0").Note("Pressed down by the cloth, not as it comes."),
			length("turn", "Turn-over on the back", 5, 300).Usually("40"), length("inset", "Backing cloth short of the edge", 0, 100).Usually("5"), length("hem", "Hem of the backing cloth", 0, 50).Usually("10"),
			reckoning.Count("layers", "Boards on each other", 1, 6).Usually("1"),
		},
		Results: []reckoning.ResultSpec{
			{Name: "board_width", Title: "Board, width", Unit: "mm"}, {Name: "board_height", Title: "Board, height", Unit: "mm"},
			{Name: "all_round", Title: "Cover cloth larger than the board, each edge", Unit: "mm"}, {Name: "cover_width", Title: "Cover cloth, width", Unit: "mm"}, {Name: "cover_height", Title: "Cover cloth, height", Unit: "mm"},
			{Name: "thick", Title: "The mount is thick", Unit: "mm"},
		},
		Sources: reckoning.From(&flat, &sums, &reckoning.OurChoice, &reckoning.CommonPractice),
		Example: `{"width":"30 cm","height":"40 cm","margin":"40","board":"6","loft":"4","turn":"40"}`,
		Prepare: func(s *reckoning.Sheet) {
			if p := partsOf(s); 2*s.Base("inset") >= min(p.width, p.height) {
				s.Fault("inset", "it leaves no backing cloth on a board of "+size(p.width, p.height)+".")
			}
		},
		Figures: mountFigures, Explain: explainMount, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

// parts are the sizes of a mount, mm.
type parts struct{ width, height, thick, wrap float64 }

func partsOf(s *reckoning.Sheet) parts {
	p := parts{width: mount.Board(s.Base("width"), s.Base("margin")), height: mount.Board(s.Base("height"), s.Base("margin"))}
	boards := s.Base("board") * s.Base("layers")
	p.wrap = mount.Wrap(s.Base("loft"), boards, s.Base("turn"))
	p.thick = boards + s.Base("loft")
	return p
}

func mountFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	p := partsOf(s)
	var out reckoning.Figures
	out.Add("board_width", p.width)
	out.Add("board_height", p.height)
	out.Add("all_round", p.wrap)
	out.Add("cover_width", p.width+2*p.wrap)
	out.Add("cover_height", p.height+2*p.wrap)
	out.Add("thick", p.thick)
	return out, nil
}

func explainMount(s *reckoning.Sheet, out *reckoning.Result) {
	p := partsOf(s)
	r := rulerOf(s, "width")
	list := out.Table("To cut", "Piece", "Size", "How many", "Grain")
	list.Row("board", r.size(p.width, p.height), unit.Text(s.Base("layers"), 2), "as the board has it")
	if s.Base("loft") > 0 {
		list.Row("padding", r.size(p.width, p.height), "1", "free")
	}
	list.Row("cover cloth", r.size(p.width+2*p.wrap, p.height+2*p.wrap), "1", "along the height")
	back := 2 * (s.Base("hem") - s.Base("inset"))
	list.Row("backing cloth", r.size(p.width+back, p.height+back), "1", "along the height")
	out.Work("Board: the textile with its margin at both ends.", "textile + 2 × margin", mm(s.Base("width"))+" + 2 × "+mm(s.Base("margin"))+" = "+mm(p.width)+"; "+mm(p.height), flat.Name)
	out.Work("The cover cloth goes over the loft, over the edge of the board and on over its back.", "loft + boards + turn-over", mm(s.Base("loft"))+" + "+mm(s.Base("board")*s.Base("layers"))+" + "+mm(s.Base("turn"))+" = "+mm(p.wrap)+" at each edge", sums.Name)
	say := "5 cm all round is published for a small mount; this one has " + s.InWords(unit.LengthKind, p.wrap) + "."
	if p.wrap < 50 {
		say += " Less leaves little to hold while it is drawn even."
	}
	out.Verdict("published", "Beside what is published", say)
	blades(out)
	out.Object("Wash the cover cloth before it is cut, and test its colour: it lies against the textile for decades. Cut when it has shrunk, not before.", flat)
	out.Object("Keep tapes and glue clear of the textile; soiled or weak pieces are not mounted so.", flat)
}

// HangingStrip reckons strip and sleeve for hook-and-loop hanging.
func HangingStrip() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "hanging_strip", Title: "Strip and sleeve for hanging", Asks: "How long is the strip that it hangs from, and how wide its sleeve?", Family: family,
		Inputs: []reckoning.Input{
			length("edge", "Upper edge of the textile", 50, 20000), length("tape", "Width of the tape", 5, 200).Usually("50"),
			length("short", "Strip shorter than the edge by", 0, 500).Usually("20"), length("wider", "Sleeve wider than the tape, each side", 0, 100).Usually("5"),
		},
		Results: []reckoning.ResultSpec{{Name: "strip", Title: "Strip", Unit: "mm"}, {Name: "sleeve_width", Title: "Sleeve, width", Unit: "mm"}, {Name: "sleeve_length", Title: "Sleeve, length", Unit: "mm"}},
		Sources: reckoning.From(&hooks, &reckoning.CommonPractice), Usual: hooks.Name,
		Example: `{"edge":"96 cm","tape":"50"}`,
		Prepare: func(s *reckoning.Sheet) {
			if s.Base("short") >= s.Base("edge") {
				s.Fault("short", "it is not below the edge.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			strip := s.Base("edge") - s.Base("short")
			var out reckoning.Figures
			out.Add("strip", strip)
			out.Add("sleeve_width", s.Base("tape")+2*s.Base("wider"))
			out.Add("sleeve_length", strip+2*s.Base("wider"))
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			out.Work("The strip ends short of the edge, so that it does not show.", "edge - 2 cm", mm(s.Base("edge"))+" - "+mm(s.Base("short"))+" = "+mm(s.Base("edge")-s.Base("short")), hooks.Name)
			out.Work("The sleeve is wider than the tape all round.", "tape + 2 × 0.5 cm", mm(s.Base("tape"))+" + 2 × "+mm(s.Base("wider"))+" = "+mm(s.Base("tape")+2*s.Base("wider")), hooks.Name)
			out.People("What hangs above people is fixed by somebody who is qualified for that wall.", reckoning.CommonPractice)
			out.Object("Hanging puts the whole weight on the upper edge: only for pieces that bear it, sewn through the lining or along warps that hold.", reckoning.CommonPractice)
		},
	}).Ready()
}
