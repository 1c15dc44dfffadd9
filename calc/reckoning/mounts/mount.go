package mounts

import (
	"sinkside/calc/mount"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// Mount reckons the board and the cloths of a padded mount.
func Mount() *reckoning.Reckoning {
	// Sums of what was measured are shown to the millimetre at any size.
	side := func(name, title string) reckoning.ResultSpec {
		return reckoning.ResultSpec{Name: name, Title: title, Unit: "mm", Digits: 5}
	}
	return (&reckoning.Reckoning{
		Name: "mount", Title: "Board, padding and cloths", Asks: "How large are board, padding and cloths for this mount?", Family: family,
		Inputs: withPlusMinus([]reckoning.Input{
			length("width", "Width of the textile", 10, 10000), length("height", "Height of the textile", 10, 10000),
			length("margin", "Margin all round", 0, 1000).Usually("40").Note("A few centimetres are published."),
			length("sides", "Margin left and right, where different", 0, 1000).Maybe(), length("below", "Margin below, where different", 0, 1000).Maybe(),
			length("board", "Thickness of the board", 0.5, 100), length("loft", "Loft of the padding, as it lies under the cloth", 0, 100).Usually("0").Note("Pressed down by the cloth, not as it comes."),
			length("turn", "Turn-over on the back", 5, 300).Usually("40"), length("inset", "Backing cloth short of the edge", 0, 100).Usually("5"), length("hem", "Hem of the backing cloth", 0, 50).Usually("10"),
			reckoning.Count("layers", "Boards on each other", 1, 6).Usually("1"),
		}, "width", "height", "board", "loft"),
		Results: []reckoning.ResultSpec{
			side("board_width", "Board, width"), side("board_height", "Board, height"),
			side("all_round", "Cover cloth larger than the board, each edge"), side("cover_width", "Cover cloth, width"), side("cover_height", "Cover cloth, height"),
			side("back_width", "Backing cloth, width"), side("back_height", "Backing cloth, height"),
			side("thick", "Mount, thickness"),
		},
		Sources: reckoning.From(&flat, &sums, &reckoning.OurChoice, &reckoning.CommonPractice),
		Example: `{"width":"30 cm","height":"40 cm","margin":"40","board":"6","loft":"4","turn":"40","width_pm":"0.2","height_pm":"0.2"}`,
		Figures: mountFigures, Explain: explainMount, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

// parts are the sizes of a mount, mm.
type parts struct {
	left, above, below      float64 // margins; the right one is as the left
	width, height           float64 // of the board
	boards, wrap            float64
	coverWidth, coverHeight float64
	backWidth, backHeight   float64
	thick                   float64
}

func partsOf(s *reckoning.Sheet) parts {
	p := parts{left: s.Base("margin"), above: s.Base("margin"), below: s.Base("margin")}
	if s.Has("sides") {
		p.left = s.Base("sides")
	}
	if s.Has("below") {
		p.below = s.Base("below")
	}
	p.width = mount.Board(s.Base("width"), p.left, p.left)
	p.height = mount.Board(s.Base("height"), p.above, p.below)
	p.boards = float64(s.Base("board") * s.Base("layers"))
	p.wrap = mount.Wrap(s.Base("loft"), p.boards, s.Base("turn"))
	p.coverWidth, p.coverHeight = p.width+2*p.wrap, p.height+2*p.wrap
	back := 2 * (s.Base("hem") - s.Base("inset"))
	p.backWidth, p.backHeight = p.width+back, p.height+back
	p.thick = p.boards + s.Base("loft")
	return p
}

func mountFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	p := partsOf(s)
	if 2*s.Base("inset") >= min(p.width, p.height) {
		return nil, s.Cannot("inset", "", "it leaves no backing cloth on a board of "+measured.TypedRuler(s, "width").BothSize(p.width, p.height)+".")
	}
	var out reckoning.Figures
	out.Add("board_width", p.width)
	out.Add("board_height", p.height)
	out.Add("all_round", p.wrap)
	out.Add("cover_width", p.coverWidth)
	out.Add("cover_height", p.coverHeight)
	out.Add("back_width", p.backWidth)
	out.Add("back_height", p.backHeight)
	out.Add("thick", p.thick)
	return out, nil
}

func explainMount(s *reckoning.Sheet, out *reckoning.Result) {
	p := partsOf(s)
	r := measured.Ruler(s, "width")
	list := out.Table("To cut", "Piece", "Size", "How many", "Grain")
	list.Row("board", r.Size(p.width, p.height), unit.Text(s.Base("layers"), 2), "as the board has it")
	if s.Base("loft") > 0 {
		list.Row("padding", r.Size(p.width, p.height), "1", "free")
	}
	list.Row("cover cloth", r.Size(p.coverWidth, p.coverHeight), "1", "along the height")
	list.Row("backing cloth", r.Size(p.backWidth, p.backHeight), "1", "along the height")
	workMount(s, out, p, r)
	say := "5 cm all round is published for a small mount; this one has " + r.Both(p.wrap) + "."
	if p.wrap < 50-0.01 {
		say += " Less leaves little to hold while it is drawn even."
	}
	out.Verdict("published", "Beside what is published", say)
	blades(out)
	out.Object("Wash the cover cloth before it is cut, and test its colour: it lies against the textile for decades. Cut when it has shrunk, not before.", flat)
	out.Object("Keep tapes and glue clear of the textile; soiled or weak pieces are not mounted so.", flat)
}

func workMount(s *reckoning.Sheet, out *reckoning.Result, p parts, r size.Ruler) {
	sum := func(is float64, of ...float64) string {
		say := ""
		for i, x := range of {
			if i > 0 {
				say += " + "
			}
			say += r.Of(x)
		}
		return say + " = " + r.Both(is)
	}
	out.Work("Board, width: the textile with its margins.", "textile + margin left + margin right", sum(p.width, s.Base("width"), p.left, p.left), flat.Name)
	out.Work("Board, height.", "textile + margin above + margin below", sum(p.height, s.Base("height"), p.above, p.below), flat.Name)
	out.Work("The cover cloth goes over the loft, over the edge of the board and on over its back.", "loft + boards + turn-over", sum(p.wrap, s.Base("loft"), p.boards, s.Base("turn"))+" at each edge", sums.Name)
	out.Work("Cover cloth.", "board + 2 × that", r.BothSize(p.coverWidth, p.coverHeight), sums.Name)
	out.Work("The backing cloth ends short of the edges and has a hem all round.", "board + 2 × (hem - short of the edge)", "2 × ("+r.Of(s.Base("hem"))+" - "+r.Of(s.Base("inset"))+") more than the board: "+r.BothSize(p.backWidth, p.backHeight), sums.Name)
	out.Work("Mount, thickness: without textile and cloths.", "boards + loft", sum(p.thick, p.boards, s.Base("loft")), sums.Name)
}
