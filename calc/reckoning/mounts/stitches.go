package mounts

import (
	"math"
	"strconv"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/size"
	"sinkside/calc/stitch"
	"sinkside/calc/unit"
)

// Where stitches go.
const (
	alongEdge = "edge"
	overArea  = "area"
)

// mostStitches is how many are planned.
const mostStitches = 5000

// Stitches plans long and short stitches.
func Stitches() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "stitch_plan", Title: "Stitches that do not line up", Asks: "How long is each stitch, how many are there, and how much thread do they take?", Family: family,
		Inputs: withPlusMinus([]reckoning.Input{
			reckoning.Choose("where", "They go", alongEdge, "over an edge, from the mount into the textile", overArea, "in lines over a weak place, held down"),
			length("along", "Length of the edge, or height of the place", 5, 20000), length("spacing", "Spacing", 1, 200).Note("Of the stitches along the edge, or of the lines. For whip stitch 3 to 5 mm is published."),
			length("shortest", "Shortest stitch", 1, 200).If("where", alongEdge), length("longest", "Longest stitch", 2, 400).If("where", alongEdge),
			length("across", "Width of the weak place", 2, 2000).If("where", overArea), length("least", "Lines reach beyond it, at least", 1, 200).If("where", overArea).Usually("5"), length("most", "Lines reach beyond it, at most", 2, 400).If("where", overArea).Usually("15"),
			length("hold", "Small stitches hold a line every", 1, 200).If("where", overArea).Usually("5"), length("small", "A small stitch is wide", 0.2, 20).If("where", overArea).Usually("1"),
			reckoning.Quantity("allow", "More thread, for ends and handling", "%", 0, 300).In("%").Usually("25"), length("needle", "Length of thread in the needle", 100, 2000).Usually("400"),
		}, "along", "across"),
		Results: []reckoning.ResultSpec{{Name: "count", Title: "Stitches or lines"}, {Name: "held", Title: "Small stitches"}, {Name: "thread", Title: "Thread", Unit: "m"}, {Name: "needles", Title: "Needlefuls"}, {Name: "apart", Title: "Neighbouring ends stay apart by", Unit: "mm"}},
		Sources: reckoning.From(&uneven, &whip, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic), Usual: reckoning.OurChoice.Name,
		Example: `{"where":"edge","along":"300","spacing":"4","shortest":"3","longest":"9"}`,
		Prepare: prepareStitches, Figures: stitchFigures, Explain: explainStitches,
	}).Ready()
}

// ends are the names of the shortest and the longest of a form.
func ends(s *reckoning.Sheet) (shortest, longest string) {
	if s.Choice("where") == overArea {
		return "least", "most"
	}
	return "shortest", "longest"
}

func prepareStitches(s *reckoning.Sheet) {
	short, long := ends(s)
	if !stitch.Varies(s.Base(short), s.Base(long)) {
		s.Fault(long, stitch.ErrRange.Error()+".")
	}
	if n := stitch.Count(s.Base("along"), s.Base("spacing")); n > mostStitches {
		s.Fault("spacing", "that would be "+strconv.Itoa(n)+" stitches; plan it in parts of up to "+strconv.Itoa(mostStitches)+".")
	}
}

// plan is what a form comes to.
type plan struct {
	lengths []float64 // of each stitch, or of what each line reaches beyond on its left
	right   []float64 // of each line, on its right
	thread  float64   // mm, with what is allowed
	held    int
	apart   float64
}

func planOf(s *reckoning.Sheet) plan {
	short, long := ends(s)
	a, b := s.Base(short), s.Base(long)
	n := stitch.Count(s.Base("along"), s.Base("spacing"))
	var p plan
	p.lengths, _ = stitch.Lengths(n, a, b)
	p.apart = stitch.Apart(a, b)
	if s.Choice("where") == alongEdge {
		p.thread = stitch.Thread(p.lengths, s.Base("spacing"))
	} else {
		// The right ends follow the same rule from further on, so that neither side lines up.
		far, _ := stitch.Lengths(n+1, a, b)
		p.right = far[1:]
		lines := make([]float64, n)
		for i := range lines {
			lines[i] = p.lengths[i] + s.Base("across") + p.right[i]
		}
		p.thread, p.held = stitch.Laid(lines, s.Base("hold"), s.Base("small"))
	}
	p.thread *= 1 + s.Base("allow")
	return p
}

// needles is how many needlefuls the thread is.
func (p plan) needles(s *reckoning.Sheet) int {
	return int(math.Ceil(p.thread/s.Base("needle") - 1e-6))
}

func stitchFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	p := planOf(s)
	var out reckoning.Figures
	out.Add("count", float64(len(p.lengths)))
	if s.Choice("where") == overArea {
		out.Add("held", float64(p.held))
	}
	out.Add("thread", p.thread)
	out.Add("needles", float64(p.needles(s)))
	out.Add("apart", p.apart)
	return out, nil
}

// How many stitches a picture and a table hold.
const (
	mostShown  = 24
	mostListed = 200
)

// listed says which of all of a kind a table holds.
func listed(what string, listed, all int) string {
	if listed == all {
		return "The " + what
	}
	return "The first " + strconv.Itoa(listed) + " of " + strconv.Itoa(all) + " " + what
}

func explainStitches(s *reckoning.Sheet, out *reckoning.Result) {
	p := planOf(s)
	short, long := ends(s)
	all := len(p.lengths)
	shown, rows := min(all, mostShown), min(all, mostListed)
	r := measured.Ruler(s, "along")
	in := ", " + r.String()
	if s.Choice("where") == alongEdge {
		table := out.Table(listed("stitches", rows, all)+", in the order of sewing", "Stitch", "At"+in, "Length"+in)
		for i, l := range p.lengths[:rows] {
			table.Row(strconv.Itoa(i+1), r.At(float64(i)*s.Base("spacing")), r.At(l))
		}
	} else {
		table := out.Table(listed("lines", rows, all), "Line", "At"+in, "Beyond on the left"+in, "Beyond on the right"+in)
		for i, l := range p.lengths[:rows] {
			table.Row(strconv.Itoa(i+1), r.At(float64(i)*s.Base("spacing")), r.At(l), r.At(p.right[i]))
		}
	}
	drawStitches(s, out, p, shown)
	out.Work("How many: one at both ends of the length.", "length ÷ spacing, and one", r.Of(s.Base("along"))+" ÷ "+r.Of(s.Base("spacing"))+": "+strconv.Itoa(len(p.lengths)), reckoning.Arithmetic.Name)
	out.Work("Each end moves on by 0.618 of the range and begins anew at its end; rounded to half a millimetre. Neighbours stay apart.", "0.382 × (longest - shortest) - 0.5 mm", "0.382 × ("+r.Of(s.Base(long))+" - "+r.Of(s.Base(short))+") - "+r.Of(stitch.Step)+" = "+r.Both(p.apart)+" at least", uneven.Name)
	workThread(s, out, p, r)
	spacing, published := s.Base("spacing"), "3 to 5 mm"
	if s.Inches("spacing") {
		published += " (about 1/8 to 3/16 in)"
	}
	say := "Within the " + published + " published for whip stitch."
	if spacing < 3-0.01 || spacing > 5+0.01 {
		say = "Outside of the " + published + " published for whip stitch; you decide by the cloth."
	}
	if s.Choice("where") == alongEdge {
		out.Verdict("spacing", "Spacing", say)
	}
	out.People("Needles and pins are counted before and after.", reckoning.CommonPractice)
	out.Object("Through existing holes where there are any; few, relaxed, never drawn tight. A stitch that holds harder than the cloth cuts it.", whip)
	out.Object("A thread weaker than the textile breaks first, as it should.", reckoning.CommonPractice)
}

// workThread accounts for the thread and what it is cut into.
func workThread(s *reckoning.Sheet, out *reckoning.Result, p plan, r size.Ruler) {
	allow := 1 + s.Base("allow")
	how, sum := "over the face, and aslant behind to the next", "Σ (length + √(length² + spacing²))"
	if s.Choice("where") == overArea {
		how, sum = "the lines, and for each small stitch twice its width over and under", "(Σ lines + stitches × 2 × width)"
		out.Work("Small stitches: on each line one at both ends and every "+r.Both(s.Base("hold"))+" between.", "Σ (line ÷ hold, and one)", strconv.Itoa(p.held)+" on "+reckoning.Counted(len(p.lengths), "line"), reckoning.Arithmetic.Name)
	}
	out.Work("Thread: "+how+", with what is allowed for ends.", sum+" × (1 + allowance)", threadOf(r, p.thread/allow)+" × "+unit.Text(allow, 4)+" = "+threadOf(r, p.thread), reckoning.Arithmetic.Name)
	out.Work("Needlefuls, the last one begun counted whole.", "thread ÷ needleful", threadOf(r, p.thread)+" ÷ "+r.Both(s.Base("needle"))+": "+strconv.Itoa(p.needles(s)), reckoning.Arithmetic.Name)
}

// threadOf writes a length of thread: in metres, in feet before them for inches.
func threadOf(r size.Ruler, mm float64) string {
	m := reckoning.InUnit("m", mm)
	if r.String() == "mm" {
		return m
	}
	return reckoning.InUnit("ft", mm) + " (" + m + ")"
}

func drawStitches(s *reckoning.Sheet, out *reckoning.Result, p plan, shown int) {
	high := float64(shown) * s.Base("spacing")
	if s.Choice("where") == alongEdge {
		most := 0.0
		for _, l := range p.lengths[:shown] {
			most = max(most, l)
		}
		pic := out.Picture("The first stitches, the edge at the left", unit.Length(most), unit.Length(high))
		for i, l := range p.lengths[:shown] {
			y := (float64(i) + 0.5) * s.Base("spacing")
			pic.Shape("", false, 0, y, l, y)
		}
		return
	}
	far := s.Base("most") + stitch.Step
	wide := s.Base("across") + 2*far
	pic := out.Picture("The first lines over the weak place", unit.Length(wide), unit.Length(high))
	pic.Shape("", true, far, 0, far+s.Base("across"), 0, far+s.Base("across"), high, far, high)
	for i, l := range p.lengths[:shown] {
		y := (float64(i) + 0.5) * s.Base("spacing")
		pic.Shape("", false, far-l, y, far+s.Base("across")+p.right[i], y)
	}
}
