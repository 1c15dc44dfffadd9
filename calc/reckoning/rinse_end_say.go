package reckoning

import (
	"strconv"
	"strings"

	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

// What may be proposed at the end of a rinse.
const (
	GoOn = "go_on"
	Stop = "stop"
	Look = "look" // the readings do not say: look first
)

func siemens(k float64) string { return inUnit("µS/cm", k) }

// roughly is for a sentence at the sink, where a meter's third figure is its last.
func roughly(k float64) string { return unit.Text(k, 3) + " µS/cm" }

// refused says why no rinses more are foretold; empty where they are.
func (s *sheet) refused(e rinse.Ending) string {
	switch e.Refusal {
	case rinse.Few:
		return "Fewer than two readings stand clear of the source by more than the meter's error, so there is no decay to go by."
	case rinse.Rose:
		return "The last reading lies above the one before. Something still feeds the water, such as dye or a fold that was not reached; or the meter wants checking."
	case rinse.Flat:
		return "The last two rinses differ by less than " + inUnit("%", s.base("flat")) + " or by less than the meter can tell, " + siemens(e.Excess) +
			" above the source. It may be dye, finish or size that leaves the textile, or detergent that the fibres hold. More of the same will hardly change it."
	case rinse.NoDecay:
		return "Each rinse leaves more than " + inUnit("%", rinse.SlowestRatio) + " of what stands above the source: that is hardly a decay."
	case rinse.Scattered:
		return "The readings scatter so much that no decay can be told from them."
	case rinse.Under:
		return below(e) + ", and no rinse gets purer than its water. Measure the rinse water again, as it is poured."
	case rinse.TooSlow:
		return "At this pace, and with this scatter, it may take more than " + strconv.Itoa(rinse.Most) + " rinses like the last."
	}
	return ""
}

// below says by how much the last reading lies below the source.
func below(e rinse.Ending) string {
	return "The last reading is " + roughly(-e.Excess) + " below the source"
}

// more says how many rinses more are foretold.
func more(e rinse.Ending) string {
	if e.MoreLow == e.MoreHigh {
		return count(e.MoreLow, "rinse") + " more"
	}
	return strconv.Itoa(e.MoreLow) + " to " + count(e.MoreHigh, "rinse") + " more"
}

// proposal says what the readings speak for. It decides nothing.
func (s *sheet) proposal(e rinse.Ending) (what, say string, reasons []string) {
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
	clear := s.signs(&reasons)
	switch {
	case e.Refusal == rinse.Under:
		what, say = Look, s.refused(e)
	case !e.Reached && (e.Refusal == rinse.Foretold || e.Refusal == rinse.Few):
		what, say = GoOn, "Go on rinsing."
		if e.Refusal == rinse.Foretold {
			say = "Go on rinsing: " + more(e) + " like the last, by the readings."
		}
	case !e.Reached:
		what, say = Look, "Look before the next rinse. "+s.refused(e)
	case s.choice("suds") == sudsSome:
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
func (s *sheet) signs(reasons *[]string) bool {
	clear := true
	add := func(good bool, say string) {
		clear = clear && good
		*reasons = append(*reasons, say)
	}
	switch s.choice("suds") {
	case sudsNone:
		add(true, "No suds; they are looked for since conductivity does not see non-ionic detergent.")
	case sudsSome:
		add(false, "Suds still show. They count: conductivity does not see non-ionic detergent.")
	default:
		add(false, "The suds check is missing: shake some of the rinse water in a clear jar, since conductivity does not see non-ionic detergent.")
	}
	switch by := s.base("ph_change"); {
	case !s.has("ph_change"):
		add(false, "The pH was not measured in both of the last two rinses.")
	case max(by, -by) <= s.base("ph_steady"):
		add(true, "pH steady.")
	default:
		add(false, "pH still moves, by "+unit.Text(max(by, -by), 2)+" since the rinse before.")
	}
	switch {
	case !s.has("colour"):
		add(false, "The colour of the rinse water was not judged.")
	case s.base("colour") == 0:
		add(true, "No colour.")
	default:
		add(false, "Colour "+unit.Text(s.base("colour"), 1)+" in the rinse water: look for what bleeds.")
	}
	return clear
}

func explainRinseEnd(s *sheet, out *Result) {
	e, source := s.ending(), s.base("source")
	times, above := s.base("near_times"), s.base("near_above")
	out.work("What counts as near the source, whichever is more.", "near = times × source, at most source + "+siemens(rinse.MostByTimes)+", or source + above",
		unit.Text(times, 4)+" × "+siemens(source)+"; "+siemens(source)+" + "+siemens(above)+"; so "+siemens(e.Near), ours.Name)
	over, left := append([]float64{}, s.series("readings")...), ""
	for i := range over {
		over[i] -= source
		if !e.Used[i] {
			left += " Reading " + strconv.Itoa(i+1) + " is within the meter's error of it and left out of the fit."
		}
	}
	out.work("What stands above the source."+left, "excess = κ - source", listed(mustUnit("µS/cm"), over), arithmetic.Name)
	s.workFit(out, e)
	if e.Mixing > 0 {
		litres := s.series("litres")
		kept, fresh := unit.Volume(s.base("kept")), unit.Volume(litres[len(litres)-1])
		out.work("What the last rinse would leave if the water mixed completely and the fibres held nothing.", "f = kept ÷ (kept + fresh)",
			volume(kept)+" ÷ ("+volume(kept)+" + "+volume(fresh)+") = "+share(unit.Fraction(e.Mixing)), batch.Name)
	}
	_, say, reasons := s.proposal(e)
	out.work(say+" "+strings.Join(reasons, " "), "", "", practice.Name)
	s.rinseEndCautions(out, e)
}

func (s *sheet) workFit(out *Result, e rinse.Ending) {
	if e.Fit {
		step := "the rinse's number"
		if e.Mixing > 0 {
			step = "rinses like the last, ln(1 + fresh ÷ kept) ÷ ln(1 + last fresh ÷ kept) for each"
		}
		out.work("A line through the logarithms, against "+step+".", "κ = source + excess × rⁿ",
			"r = "+unit.Text(e.Ratio, 4)+", excess at the first reading "+siemens(e.Start), decay.Name)
	}
	if say := s.refused(e); say != "" {
		out.unknown("more_low", s.r.spec("more_low").Title, say)
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
		source = ours.Name
	}
	out.work(say, "ln excess ± range of the line ≤ ln(near - source)", more(e), source)
	if e.Tails {
		out.work("The last rinse left more than "+unit.Text(rinse.Tailing, 2)+" times what the line says: the decay slows down, and the most is reckoned at the last pace.", "", "", ours.Name)
	}
}

// unlike is by how much rinses may differ in volume without a word.
const unlike = 1.1

func (s *sheet) rinseEndCautions(out *Result, e rinse.Ending) {
	out.people("A meter at the tray runs from its battery, and hands that reach for it are dry.", practice)
	out.object("The suds check is not optional: conductivity does not see non-ionic detergent, nor anything else that does not conduct.", notSeen)
	out.object("Stir before you read, and read where the textile lies: still water at the edge is purer than what the folds hold.", practice)
	out.object("All readings and the rinse water are to be brought to 25 °C in the same way.", saltSource)
	out.object("Every rinse adds to the immersion clock. Hold the whole of it against the shortest tested dwell.", practice)
	if e.Refusal == rinse.Flat {
		out.object("A level far above the source is a finding: test the water for what it is before going on or stopping. Levelling off alone was once seen after about an hour.", levelling)
	}
	if e.Fit && e.Mixing > 0 && e.Ratio > e.Mixing*rinse.Tailing {
		out.object("Each rinse leaves "+share(unit.Fraction(e.Ratio))+" where mixing alone would leave "+share(unit.Fraction(e.Mixing))+": the fibres hold something back, or the water is not stirred. Longer rinses may do more than more water.", adsorption)
	}
	if litres := s.fresh(); len(litres) > 1 && !s.has("kept") {
		low, high := litres[1], litres[1]
		for _, v := range litres[1:] {
			low, high = min(low, v), max(high, v)
		}
		if high > low*unlike {
			out.object("The rinses had unequal volumes and the liquid kept is not known, so they are counted as if they were alike.", batch)
		}
	}
}
