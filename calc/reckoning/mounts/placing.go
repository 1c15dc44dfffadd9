package mounts

import (
	"strconv"

	"sinkside/calc/mount"
	"sinkside/calc/outline"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Placing reckons where a textile that is not square lies on its board.
func Placing() *reckoning.Reckoning {
	side := func(i int, title string) reckoning.Input {
		return length(outline.Names[i], title+" "+outline.Names[i], 10, 10000)
	}
	return (&reckoning.Reckoning{
		Name: "placing", Title: "Placing marks on the board", Asks: "Where on the board do the corners and sides of this uneven textile lie?", Family: family,
		Inputs: []reckoning.Input{
			side(0, "Side").Note("Corners go round: A upper left, B upper right, C lower right, D lower left."), side(1, "Side"), side(2, "Side"), side(3, "Side"), side(4, "Diagonal"), side(5, "Diagonal"),
			length("width", "Width of the board", 20, 12000), length("height", "Height of the board", 20, 12000), length("spacing", "Marks along the sides every", 5, 2000).Usually("100"),
		},
		Results: []reckoning.ResultSpec{{Name: "room", Title: "Least margin", Unit: "mm"}, {Name: "worst", Title: "A measure is off from the outline by up to", Unit: "mm"}},
		Sources: reckoning.From(&sums, &plane, &reckoning.OurChoice, &reckoning.CommonPractice), Usual: reckoning.OurChoice.Name,
		Example: `{"AB":"300","BC":"402","CD":"306","DA":"400","AC":"501","BD":"505","width":"380","height":"480","spacing":"100"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			f, corners, p := placed(s)
			if p != nil {
				return nil, p
			}
			room := mount.Room(corners, s.Base("width"), s.Base("height"))
			if room < 0 {
				return nil, s.Cannot("width", "", "the textile reaches over the edge of this board, in width or in height, by "+s.InWords(unit.LengthKind, -room)+".")
			}
			var out reckoning.Figures
			out.Add("room", room)
			out.Add("worst", f.Worst)
			return out, nil
		},
		Explain: explainPlacing,
	}).Ready()
}

var plane = reckoning.Source{Name: "plane geometry", Where: "Corners from six lengths by least squares; turned so that upper and lower side lean alike, one each way, and centred.", Mark: reckoning.Computed}

// placed is the outline and its corners on the board.
func placed(s *reckoning.Sheet) (f outline.Fitted, corners [4]mount.Point, p *reckoning.Problem) {
	var m outline.Measures
	for i, name := range outline.Names {
		m[i] = s.Base(name)
	}
	f, err := outline.Fit(m)
	if err != nil {
		if gap, found := outline.Widest(m); found {
			return f, corners, s.Cannot(outline.Names[gap.Longest], "up to "+s.InWords(unit.LengthKind, gap.Most), "the six measures make no outline. "+gap.String())
		}
		return f, corners, &reckoning.Problem{Say: "These six measures make no outline: " + err.Error() + "."}
	}
	for i, c := range f.Corners {
		corners[i] = mount.Point{X: c.X, Y: c.Y}
	}
	return f, mount.Placed(corners, s.Base("width"), s.Base("height")), nil
}

func explainPlacing(s *reckoning.Sheet, out *reckoning.Result) {
	f, corners, _ := placed(s)
	width, height := s.Base("width"), s.Base("height")
	r := rulerOf(s, "AB")
	row := func(t *reckoning.Table, name string, p mount.Point) {
		t.Row(name, r.at(p.X), r.at(p.Y), r.at(width-p.X), r.at(height-p.Y))
	}
	table := out.Table("Corners, "+r.String()+" from the edges of the board", "Corner", "Left", "Top", "Right", "Bottom")
	for i, p := range corners {
		row(table, string("ABCD"[i]), p)
	}
	along := out.Table("Along the sides, "+r.String()+" from the edges of the board", "Mark", "Left", "Top", "Right", "Bottom")
	pic := out.Picture("On the board", unit.Length(width), unit.Length(height))
	var shape []float64
	for i, p := range corners {
		shape = append(shape, p.X, p.Y)
		next := corners[(i+1)%4]
		for k, q := range mount.Between(p, next, s.Base("spacing")) {
			row(along, outline.Names[i]+" "+strconv.Itoa(k+1), q)
		}
	}
	pic.Shape("", true, shape...)
	for i, p := range corners {
		pic.Shape(string("ABCD"[i]), false, p.X, p.Y, p.X, p.Y)
	}
	out.Work("The outline that fits the six measures best, which it misses by no more than "+mm(f.Worst)+".", "least Σ (measured - fitted)²", "angles "+angles(f), plane.Name)
	out.Work("Turned so that upper and lower side lean by as much, one each way, and centred by the room that it takes.", "", "least margin "+mm(mount.Room(corners, width, height)), plane.Name)
	if limit := 3 * max(s.Base("AC"), s.Base("BD")) / 1000; f.Worst > limit {
		out.Object("The measures disagree by more than 3 mm in a metre: one is misread, or it does not lie flat. Measure again before anything is marked.", reckoning.CommonPractice)
	}
	out.Object("Mark with threads or pins in the cover cloth, nothing that stays. Lay the textile to the marks without pulling it square: what is uneven stays uneven.", reckoning.CommonPractice)
	out.Object("What looks straight to the eye can matter more than what is centred: look from where it will be seen, before the first stitch.", reckoning.CommonPractice)
}

func angles(f outline.Fitted) string {
	say := ""
	for i, a := range f.Angles() {
		if i > 0 {
			say += ", "
		}
		say += string("ABCD"[i]) + " " + unit.Text(a, 4) + "°"
	}
	return say
}
