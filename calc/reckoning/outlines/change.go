package outlines

import (
	"math"
	"strconv"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// Change reckons how a textile changed in warp and weft.
func Change() *reckoning.Reckoning {
	lengths := func(name, title string) reckoning.Input {
		return reckoning.Series(name, title, "mm", 5, 20000).In("mm", "cm", "m", "in")
	}
	return (&reckoning.Reckoning{
		Name: "size_change", Title: "Change in warp, weft and area", Asks: "Did it shrink or stretch, and is that more than my reading error?", Family: family,
		Inputs: []reckoning.Input{
			lengths("warp_before", "Warp before").Note("One or several marks: 349; 351; 350."), lengths("warp_after", "Warp after"),
			lengths("weft_before", "Weft before").Maybe(), lengths("weft_after", "Weft after").Maybe(),
			reckoning.Quantity("error", "A measure may be off by", "mm", 0.05, 50).In("mm", "cm", "in").Usually("0.5").Note("Each reading, before as after."),
		},
		Results: []reckoning.ResultSpec{
			{Name: "warp", Title: "Warp", Unit: "% change", Signed: true}, {Name: "weft", Title: "Weft", Unit: "% change", Signed: true}, {Name: "area", Title: "Area", Unit: "% change", Signed: true},
		},
		Sources: reckoning.From(&dimensions, &dryFirst, &reckoning.OurChoice, &reckoning.Definitions, &reckoning.Arithmetic),
		Example: `{"warp_before":"349; 351; 350","warp_after":"340; 342; 341","weft_before":"500","weft_after":"497,5","error":"0.5"}`,
		Prepare: prepareChange, Figures: changeFigures, Explain: explainChange, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func prepareChange(s *reckoning.Sheet) {
	for _, way := range []string{"warp", "weft"} {
		before, after := s.Series(way+"_before"), s.Series(way+"_after")
		if len(before) != len(after) {
			s.Fault(way+"_after", "there are "+reckoning.Counted(len(after), "measure")+" after and "+reckoning.Counted(len(before), "measure")+" before. Give the same marks both times.")
		}
		for _, x := range append(append([]float64{}, before...), after...) {
			if s.Base("error") >= x/2 {
				s.Fault("error", "it is half of the "+measured.TypedRuler(s, way+"_before").Both(x)+" measured, or more, and so says nothing.")
			}
		}
	}
}

// way is one direction: its means, its change and between what that lies, in per cent.
type way struct {
	before, after     unit.Length
	change, low, high float64
}

// wayOf is one direction; false where it was not measured.
func wayOf(s *reckoning.Sheet, name string) (way, bool) {
	before, after := s.Series(name+"_before"), s.Series(name+"_after")
	if len(before) == 0 || len(after) == 0 {
		return way{}, false
	}
	w := way{before: meanOf(before), after: meanOf(after)}
	w.change = size.Change(w.before, w.after)
	w.low, w.high = size.ChangeRange(w.before, w.after, unit.Length(meanError(s, len(before))))
	return w, true
}

func meanOf(series []float64) unit.Length {
	lengths := make([]unit.Length, len(series))
	for i, x := range series {
		lengths[i] = unit.Length(x)
	}
	return size.Mean(lengths)
}

// meanError is what the mean of n readings may be off by: their errors average out by
// the root of their number.
func meanError(s *reckoning.Sheet, n int) float64 { return s.Base("error") / math.Sqrt(float64(n)) }

func changeFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	warp, _ := wayOf(s, "warp")
	out.Between("warp", warp.change, warp.low, warp.high)
	if weft, ok := wayOf(s, "weft"); ok {
		out.Between("weft", weft.change, weft.low, weft.high)
		// An area rises with both of its ways.
		out.Between("area", size.Area(warp.change, weft.change), size.Area(warp.low, weft.low), size.Area(warp.high, weft.high))
	}
	return out, nil
}

// hair is what rounding of the machine may make of nothing, in per cent.
const hair = 1e-9

func explainChange(s *reckoning.Sheet, out *reckoning.Result) {
	say := func(name, title string) {
		w, ok := wayOf(s, name)
		if !ok {
			out.NotKnown(name, s.Title(name), "Not measured.")
			return
		}
		words := "longer by more than the reading error."
		switch {
		case w.low <= hair && w.high >= -hair:
			words = "within the reading error: no change can be told."
		case w.change < 0:
			words = "shorter by more than the reading error."
		}
		out.Verdict(name+"_means", title, words)
		r := measured.Ruler(s, name+"_before")
		out.Work(title+".", "100 × (after - before) ÷ before", "100 × ("+r.Of(float64(w.after))+" - "+r.Of(float64(w.before))+") ÷ "+r.Of(float64(w.before))+" = "+unit.Text(w.change, 4)+" %", dimensions.Name)
		n := len(s.Series(name + "_before"))
		out.Work(title+", its range: both lengths off the worst way by the error of a reading"+byTheRoot(n)+".", "100 × ((after ± error) - (before ∓ error)) ÷ (before ∓ error)", "± "+about(s, name+"_before", meanError(s, n))+" each: "+unit.Text(w.low, 3)+" to "+unit.Text(w.high, 3)+" %", reckoning.Arithmetic.Name)
	}
	say("warp", "Warp")
	say("weft", "Weft")
	if area, ok := out.Value("area"); ok {
		out.Work("Area.", "(1 + warp)(1 + weft) - 1", unit.Text(area, 4)+" %", reckoning.Arithmetic.Name)
	} else {
		out.NotKnown("area", s.Title("area"), "Not known without both ways.")
	}
	if len(s.Series("warp_before")) > 1 {
		out.Object("Several marks make the reading error smaller, by the root of their number. They do not help against a tape that is wrong throughout: use the same one both times.", reckoning.Arithmetic)
	}
	out.Object("Measure the same marks with the same tool at the same humidity, a day after it is dry or later: a textile that is damper is another size.", dryFirst)
	warp, _ := wayOf(s, "warp")
	if weft, ok := wayOf(s, "weft"); warp.before < 350 || ok && weft.before < 350 {
		out.Object("The laboratory standard puts its marks at least 350 mm apart and 50 mm from the edge: over shorter ways the reading error counts for more.", dimensions)
	}
}

// byTheRoot says what makes the error of a mean of several readings smaller.
func byTheRoot(n int) string {
	if n == 1 {
		return ""
	}
	return ", by the root of their number, " + strconv.Itoa(n)
}
