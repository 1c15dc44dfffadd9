package mounts

import (
	"math"
	"strconv"

	"sinkside/calc/mount"
	"sinkside/calc/outline"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
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
			length("error", "A measure may be off by", 0.1, 100).Usually("1").Note("On a soft textile rather 2 mm than 1."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "room", Title: "Least margin", Unit: "mm", Signed: true},
			{Name: "mark", Title: "A corner may lie off its mark by up to", Unit: "mm", Digits: 2},
			{Name: "worst", Title: "The outline misses a measure by up to", Unit: "mm", Digits: 2},
		},
		Sources: reckoning.From(&sums, &plane, &measured.Agreement, &reckoning.OurChoice, &reckoning.CommonPractice), Usual: reckoning.OurChoice.Name,
		Example: `{"AB":"300","BC":"402","CD":"306","DA":"400","AC":"501","BD":"505","width":"380","height":"480","spacing":"100"}`,
		Prepare: preparePlacing, Figures: placingFigures, Explain: explainPlacing,
	}).Ready()
}

// near is how near two lengths are one to a person, mm: a board as large as its textile
// takes it, whatever rounding made of the diagonals.
const near = 0.01

// mostMarks is how many marks along the sides are listed.
const mostMarks = 400

// preparePlacing refuses what makes no outline, a board that is too small, each way by
// its own field, and more marks than anybody sets.
func preparePlacing(s *reckoning.Sheet) {
	if measured.CheckError(s); !s.Sound() {
		return
	}
	m := measured.Six(s)
	f, err := outline.Fit(m)
	if err != nil {
		return // said with the figures
	}
	wide, high := mount.Needs(onBoard(s, f))
	tooSmall := func(name string, needs float64) {
		if short := needs - s.Base(name); short > near {
			r := measured.TypedRuler(s, name)
			say := "the textile, as it lies, takes " + r.Coarse().Both(needs) + ", and this board has " + r.Both(s.Base(name)) + "."
			if disagree(s) {
				say += " But the six measures of the textile do not agree: see to them first."
			}
			s.Beyond(name, "at least "+r.Coarse().AtLeast(needs), say)
		}
	}
	tooSmall("width", wide)
	tooSmall("height", high)
	if n := int((m[0] + m[1] + m[2] + m[3]) / s.Base("spacing")); n > mostMarks {
		s.Fault("spacing", "that would be "+strconv.Itoa(n)+" marks, and "+strconv.Itoa(mostMarks)+" at most are listed.")
	}
}

func placingFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	m := measured.Six(s)
	f, err := outline.Fit(m)
	if err != nil {
		return nil, measured.NoOutline(s, m)
	}
	corners := onBoard(s, f)
	room := max(mount.Room(corners, s.Base("width"), s.Base("height")), 0)
	off := placingErrors(s, m, corners)
	var out reckoning.Figures
	out.Between("room", room, room-off.room, room+off.room)
	out.Add("mark", off.corner)
	out.Add("worst", f.Worst)
	return out, nil
}

var plane = reckoning.Source{Name: "plane geometry", Where: "Corners from six lengths by least squares; turned so that upper and lower side lean alike, one each way, and centred.", Mark: reckoning.Computed}

// placed is the outline and its corners on the board.
func placed(s *reckoning.Sheet) (outline.Fitted, [4]mount.Point) {
	f, _ := outline.Fit(measured.Six(s))
	return f, onBoard(s, f)
}

func onBoard(s *reckoning.Sheet, f outline.Fitted) (corners [4]mount.Point) {
	for i, c := range f.Corners {
		corners[i] = mount.Point{X: c.X, Y: c.Y}
	}
	return mount.Placed(corners, s.Base("width"), s.Base("height"))
}

// unsure is what the least margin and the corners may be off by, mm.
type unsure struct{ room, corner float64 }

// placingErrors is what errors of reading come to when each of the six is off the worst
// way, to the first order.
func placingErrors(s *reckoning.Sheet, m outline.Measures, was [4]mount.Point) unsure {
	var corner [4]float64
	wide, high := 0.0, 0.0
	for i := range m {
		by, w, h := moves(s, m, i, was)
		for k := range corner {
			corner[k] += by[k]
		}
		wide, high = wide+w, high+h
	}
	// A margin is half of what the board has left.
	return unsure{max(wide, high) / 2 * s.Base("error"), max(corner[0], corner[1], corner[2], corner[3]) * s.Base("error")}
}

// moves is by how much the corners move, and how much more or less of the board is
// taken, for each millimetre by which one measure is off. Longer and shorter are both
// tried: where two corners reach equally far, only one of the two shows.
func moves(s *reckoning.Sheet, m outline.Measures, i int, was [4]mount.Point) (corner [4]float64, wide, high float64) {
	const step = 0.01 // mm
	w, h := mount.Needs(was)
	for _, way := range []float64{-step, step} {
		n := m
		n[i] += way
		f, err := outline.Fit(n)
		if err != nil {
			continue
		}
		is := onBoard(s, f)
		for k := range is {
			corner[k] = max(corner[k], math.Hypot(is[k].X-was[k].X, is[k].Y-was[k].Y)/step)
		}
		w2, h2 := mount.Needs(is)
		wide, high = max(wide, math.Abs(w2-w)/step), max(high, math.Abs(h2-h)/step)
	}
	return corner, wide, high
}

func explainPlacing(s *reckoning.Sheet, out *reckoning.Result) {
	f, corners := placed(s)
	width, height := s.Base("width"), s.Base("height")
	r := measured.Ruler(s, "AB").Coarse()
	row := func(t *reckoning.Table, name string, p mount.Point) {
		t.Row(name, r.At(p.X), r.At(p.Y), r.At(width-p.X), r.At(height-p.Y))
	}
	table := out.Table("Corners, "+r.String()+" from the edges of the board", "Corner", "Left", "Top", "Right", "Bottom")
	for i, p := range corners {
		row(table, string("ABCD"[i]), p)
	}
	along := out.Table("Along the sides, "+r.String()+" from the edges of the board", "Mark", "Left", "Top", "Right", "Bottom")
	for i, p := range corners {
		for k, q := range mount.Between(p, corners[(i+1)%4], s.Base("spacing")) {
			row(along, outline.Names[i]+" "+strconv.Itoa(k+1), q)
		}
	}
	drawPlaced(out, corners, width, height)
	room, _ := out.Value("room")
	low, high, _ := out.Range("room")
	roomOff := (high - low) / 2
	corner, _ := out.Value("mark")
	out.Work("The outline that fits the six measures best, which it misses by no more than "+r.Both(f.Worst)+".", "least Σ (measured - fitted)²", "angles "+measured.Angles(f), plane.Name)
	out.Work("Turned so that upper and lower side lean by as much, one each way, and centred by the room that it takes.", "", "least margin "+r.Both(room), plane.Name)
	out.Work("With every measure off by "+measured.Ruler(s, "AB").Both(s.Base("error"))+" the worst way.", "Σ of what each moves", "margin ± "+r.Both(roomOff)+"; a corner lies off its mark by up to "+r.Both(corner), plane.Name)
	if disagree(s) {
		out.Object("The measures disagree by more than errors of reading and 3 mm in a metre: one is misread, or it does not lie flat. Measure again before anything is marked; the outline from sides and diagonals tells which it may be.", measured.Agreement)
	}
	if roomOff > room {
		out.Object("With every measure off the worst way the textile would reach over the edge of this board: measure again, or take a larger one.", plane)
	}
	out.Object("Mark with threads or pins in the cover cloth, nothing that stays. Lay the textile to the marks without pulling it square: what is uneven stays uneven.", reckoning.CommonPractice)
	out.Object("What looks straight to the eye can matter more than what is centred: look from where it will be seen, before the first stitch.", reckoning.CommonPractice)
}

// disagree reports whether six measures disagree by more than errors of reading make of
// them, and more than a soft piece may.
func disagree(s *reckoning.Sheet) bool {
	m := measured.Six(s)
	by, may, ok := outline.Disagreement(m, s.Base("error"))
	return !ok || by > measured.MayDisagree(m, may)
}

func drawPlaced(out *reckoning.Result, corners [4]mount.Point, width, height float64) {
	pic := out.Picture("On the board", unit.Length(width), unit.Length(height))
	var shape []float64
	for i, p := range corners {
		// What reaches over the edge by less than anybody sees is drawn on it.
		corners[i] = mount.Point{X: min(max(p.X, 0), width), Y: min(max(p.Y, 0), height)}
		shape = append(shape, corners[i].X, corners[i].Y)
	}
	pic.Shape("", true, shape...)
	for i, p := range corners {
		pic.Shape(string("ABCD"[i]), false, p.X, p.Y, p.X, p.Y)
	}
}
