package outlines

import (
	"math"

	"sinkside/calc/reckoning"
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
		before, after := len(s.Series(way+"_before")), len(s.Series(way+"_after"))
		if before != after {
			s.Fault(way+"_after", "there are "+reckoning.Counted(after, "measure")+" after and "+reckoning.Counted(before, "measure")+" before. Give the same marks both times.")
		}
	}
}

// way is one direction: its means, its change and how far off that may be, in per
// cent; false where it was not measured.
type way struct {
	before, after unit.Length
	change, off   float64
}

func wayOf(s *reckoning.Sheet, name string) (way, bool) {
	mean := func(series []float64) unit.Length {
		lengths := make([]unit.Length, len(series))
		for i, x := range series {
			lengths[i] = unit.Length(x)
		}
		return size.Mean(lengths)
	}
	before, after := s.Series(name+"_before"), s.Series(name+"_after")
	if len(before) == 0 || len(after) == 0 {
		return way{}, false
	}
	w := way{before: mean(before), after: mean(after)}
	w.change = size.Change(w.before, w.after)
	// The errors of several readings average out by the root of their number.
	w.off = size.ChangeError(w.before, w.after, unit.Length(s.Base("error")/math.Sqrt(float64(len(before)))))
	return w, true
}

func changeFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	var out reckoning.Figures
	warp, _ := wayOf(s, "warp")
	out.Between("warp", warp.change, warp.change-warp.off, warp.change+warp.off)
	if weft, ok := wayOf(s, "weft"); ok {
		out.Between("weft", weft.change, weft.change-weft.off, weft.change+weft.off)
		area := size.Area(warp.change, weft.change)
		ends := []float64{}
		for _, x := range []float64{-1, 1} {
			for _, y := range []float64{-1, 1} {
				ends = append(ends, size.Area(warp.change+x*warp.off, weft.change+y*weft.off))
			}
		}
		out.Between("area", area, min(ends[0], ends[1], ends[2], ends[3]), max(ends[0], ends[1], ends[2], ends[3]))
	}
	return out, nil
}

func explainChange(s *reckoning.Sheet, out *reckoning.Result) {
	say := func(name, title string) {
		w, ok := wayOf(s, name)
		if !ok {
			out.NotKnown(name, s.Title(name), "Not measured.")
			return
		}
		words := "longer by more than the reading error."
		switch {
		case math.Abs(w.change) <= w.off:
			words = "within the reading error: no change can be told."
		case w.change < 0:
			words = "shorter by more than the reading error."
		}
		out.Verdict(name+"_means", title, words)
		out.Work(title+".", "100 × (after - before) ÷ before", "100 × ("+mm(float64(w.after))+" - "+mm(float64(w.before))+") ÷ "+mm(float64(w.before))+" = "+unit.Text(w.change, 4)+" %, ± "+unit.Text(w.off, 2), dimensions.Name)
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
	if w, _ := wayOf(s, "warp"); w.before < 350 {
		out.Object("The laboratory standard puts its marks at least 350 mm apart and 50 mm from the edge: over shorter ways the reading error counts for more.", dimensions)
	}
}
