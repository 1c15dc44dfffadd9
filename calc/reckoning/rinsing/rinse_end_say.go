package rinsing

import (
	"math"
	"strconv"
	"strings"

	"sinkside/calc/reckoning"
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

// What may be proposed at the end of a rinse.
const (
	GoOn = "go_on"
	Stop = "stop"
	Look = "look" // the readings do not say: look first
)

func siemens(k float64) string { return reckoning.InUnit("µS/cm", k) }

// roughly is for a sentence at the sink, where a meter's third figure is its last.
func roughly(k float64) string { return unit.Text(k, 3) + " µS/cm" }

// refused says why no rinses more are foretold; empty where they are.
func refusedOf(s *reckoning.Sheet, e rinse.Ending) string {
	switch e.Refusal {
	case rinse.Few:
		return "Fewer than two readings stand clear of the source by more than the meter's error, so there is no decay to go by."
	case rinse.Rose:
		return "The last reading lies above the one before. Something still feeds the water, such as dye or a fold that was not reached; or the meter wants checking."
	case rinse.Flat:
		return "The last two rinses differ by less than " + reckoning.InUnit("%", s.Base("flat")) + " or by less than the meter can tell, " + siemens(e.Excess) +
			" above the source. It may be dye, finish or size that leaves the textile, or detergent that the fibres hold. More of the same will hardly change it."
	case rinse.NoDecay:
		return "Each rinse leaves more than " + reckoning.InUnit("%", rinse.SlowestRatio) + " of what stands above the source: that is hardly a decay."
	case rinse.Scattered:
		return "The readings scatter so much that no decay can be told from them."
	case rinse.Under:
		return below(e) + ", and no rinse gets purer than its water. Beside that reading the rinse water, given as " + s.InAnswersUnit("source", s.Base("source")) + ", can be up to " +
			s.InAnswersUnit("source", mostSource(s, e)) + ", the meter's error allowed for. Measure the rinse water again, as it is poured."
	case rinse.TooSlow:
		return "At this pace, and with this scatter, it may take more than " + strconv.Itoa(rinse.Most) + " rinses like the last."
	}
	return ""
}

// below says by how much the last reading lies below the source.
func below(e rinse.Ending) string {
	return "The last reading is " + roughly(-e.Excess) + " below the source"
}

// mostSource is the most that the rinse water can have beside the last reading,
// rounded down to a tenth.
func mostSource(s *reckoning.Sheet, e rinse.Ending) float64 {
	last := s.Base("source") + e.Excess
	return math.Floor(max(last/(1-s.Base("meter")), last+s.Base("meter_least"))*10) / 10
}

// more says how many rinses more are foretold.
func more(e rinse.Ending) string {
	if e.MoreLow == e.MoreHigh {
		return reckoning.Counted(e.MoreLow, "rinse") + " more"
	}
	return strconv.Itoa(e.MoreLow) + " to " + reckoning.Counted(e.MoreHigh, "rinse") + " more"
}

// proposal says what the readings speak for. It decides nothing.
func proposalOf(s *reckoning.Sheet, e rinse.Ending) (what, say string, reasons []string) {
	level := "The last reading is " + roughly(e.Excess) + " above the source"
	switch {
	case e.Refusal == rinse.Under:
		level = below(e)
	case e.Excess < 0:
		level = "The last reading is that of the source, as far as the meter can tell"
	case e.Reached:
		level += ", near it"
	}
	reasons = append(reasons, level+"; near it is up to "+roughly(e.Near)+".")
	clear := signsOf(s, &reasons)
	switch {
	case e.Refusal == rinse.Under:
		what, say = Look, refusedOf(s, e)
	case !e.Reached && (e.Refusal == rinse.Foretold || e.Refusal == rinse.Few):
		what, say = GoOn, "Go on rinsing."
		if e.Refusal == rinse.Foretold {
			say = "Go on rinsing: " + more(e) + " like the last, by the readings."
		}
	case !e.Reached:
		what, say = Look, "Look before the next rinse. "+refusedOf(s, e)
	case s.Choice("suds") == sudsSome:
		what, say = GoOn, "Go on rinsing: suds still show, though the reading is near the source."
	case !e.Settled:
		what, say = GoOn, "Near the source for the first time: one rinse more shows whether it stays."
	case clear:
		what, say = Stop, "The readings speak for stopping. You decide."
	default:
		what, say = Look, "The readings are near the source. Before you stop, look at what is missing or does not fit."
	}
	return what, say, reasons
}

// signs adds what conductivity does not show, and reports whether all of it is
// known and speaks for stopping.
func signsOf(s *reckoning.Sheet, reasons *[]string) bool {
	clear := true
	add := func(good bool, say string) {
		clear = clear && good
		*reasons = append(*reasons, say)
	}
	switch s.Choice("suds") {
	case sudsNone:
		add(true, "No suds; they are looked for since conductivity does not see non-ionic detergent.")
	case sudsSome:
		add(false, "Suds still show. They count: conductivity does not see non-ionic detergent.")
	default:
		add(false, "The suds check is missing: shake some of the rinse water in a clear jar, since conductivity does not see non-ionic detergent.")
	}
	switch by := s.Base("ph_change"); {
	case !s.Has("ph_change"):
		add(false, "The pH was not measured in both of the last two rinses.")
	case max(by, -by) <= s.Base("ph_steady"):
		add(true, "pH steady.")
	default:
		add(false, "pH still moves, by "+unit.Text(max(by, -by), 2)+" since the rinse before.")
	}
	switch {
	case !s.Has("colour"):
		add(false, "The colour of the rinse water was not judged.")
	case s.Base("colour") == 0:
		add(true, "No colour.")
	default:
		add(false, "Colour "+unit.Text(s.Base("colour"), 1)+" in the rinse water: look for what bleeds.")
	}
	return clear
}

func explainRinseEnd(s *reckoning.Sheet, out *reckoning.Result) {
	e, source := endingOf(s), s.Base("source")
	times, above := s.Base("near_times"), s.Base("near_above")
	out.Work("What counts as near the source, whichever is more.", "near = times × source, at most source + "+siemens(rinse.MostByTimes)+", or source + above",
		unit.Text(times, 4)+" × "+siemens(source)+"; "+siemens(source)+" + "+siemens(above)+"; so "+siemens(e.Near), reckoning.OurChoice.Name)
	over, left := append([]float64{}, s.Series("readings")...), ""
	for i := range over {
		over[i] -= source
		if !e.Used[i] {
			left += " Reading " + strconv.Itoa(i+1) + " is within the meter's error of it and left out of the fit."
		}
	}
	out.Work("What stands above the source."+left, "excess = κ - source", reckoning.Listed("µS/cm", over), reckoning.Arithmetic.Name)
	workFit(s, out, e)
	if e.Mixing > 0 {
		litres := s.Series("litres")
		kept, fresh := unit.Volume(s.Base("kept")), unit.Volume(litres[len(litres)-1])
		out.Work("What the last rinse would leave if the water mixed completely and the fibres held nothing.", "f = kept ÷ (kept + fresh)",
			reckoning.Volume(kept)+" ÷ ("+reckoning.Volume(kept)+" + "+reckoning.Volume(fresh)+") = "+reckoning.Share(unit.Fraction(e.Mixing)), batch.Name)
	}
	_, say, reasons := proposalOf(s, e)
	out.Verdict("speaks", "What the readings speak for", say)
	out.Work(say+" "+strings.Join(reasons, " "), "", "", reckoning.CommonPractice.Name)
	rinseEndCautions(s, out, e)
}

func workFit(s *reckoning.Sheet, out *reckoning.Result, e rinse.Ending) {
	if e.Fit {
		step := "the rinse's number"
		if e.Mixing > 0 {
			step = "rinses like the last, ln(1 + fresh ÷ kept) ÷ ln(1 + last fresh ÷ kept) for each"
		}
		out.Work("A line through the logarithms, against "+step+".", "κ = source + excess × rⁿ",
			"r = "+unit.Text(e.Ratio, 4)+", excess at the first reading "+siemens(e.Start), decay.Name)
	}
	if say := refusedOf(s, e); say != "" {
		out.NotKnown("more_low", s.Title("more_low"), say)
		return
	}
	if e.Reached {
		return
	}
	used := 0
	for _, u := range e.Used {
		if u {
			used++
		}
	}
	say := "Until the reading is near the source, in nine of ten cases, if the rinses go on like the last."
	source := students.Name
	if used == 2 {
		say += " Two readings show no scatter of their own: the range is that of the least scatter and the meter, and may be too narrow."
		source = reckoning.OurChoice.Name
	}
	out.Work(say, "ln excess ± range of the line ≤ ln(near - source)", more(e), source)
	if e.Tails {
		out.Work("The last rinse left more than "+unit.Text(rinse.Tailing, 2)+" times what the line says: the decay slows down, and the most is reckoned at the last pace.", "", "", reckoning.OurChoice.Name)
	}
}

// unlike is by how much rinses may differ in volume without a word.
const unlike = 1.1

func rinseEndCautions(s *reckoning.Sheet, out *reckoning.Result, e rinse.Ending) {
	out.People("A meter at the tray runs from its battery, and hands that reach for it are dry.", reckoning.CommonPractice)
	out.Object("The suds check is not optional: conductivity does not see non-ionic detergent, nor anything else that does not conduct.", notSeen)
	out.Object("Stir before you read, and read where the textile lies: still water at the edge is purer than what the folds hold.", reckoning.CommonPractice)
	out.Object("All readings and the rinse water are to be brought to 25 °C in the same way.", reckoning.SaltCoefficients)
	out.Object("Every rinse adds to the immersion clock. Hold the whole of it against the shortest tested dwell.", reckoning.CommonPractice)
	if e.Refusal == rinse.Flat {
		out.Object("A level far above the source is a finding: test the water for what it is before going on or stopping. Levelling off alone was once seen after about an hour.", levelling)
	}
	if e.Fit && e.Mixing > 0 && e.Ratio > e.Mixing*rinse.Tailing {
		out.Object("Each rinse leaves "+reckoning.Share(unit.Fraction(e.Ratio))+" where mixing alone would leave "+reckoning.Share(unit.Fraction(e.Mixing))+": the fibres hold something back, or the water is not stirred. Longer rinses may do more than more water.", adsorption)
	}
	if litres := freshOf(s); len(litres) > 1 && !s.Has("kept") {
		low, high := litres[1], litres[1]
		for _, v := range litres[1:] {
			low, high = min(low, v), max(high, v)
		}
		if high > low*unlike {
			out.Object("The rinses had unequal volumes and the liquid kept is not known, so they are counted as if they were alike.", batch)
		}
	}
}
