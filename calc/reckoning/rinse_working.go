package reckoning

import (
	"strconv"
	"strings"

	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

func explainRinse(s *sheet, out *Result) {
	kept, portion := keptOf(s), portionOf(s)
	if !s.has("kept") {
		out.work("Liquid kept, at a gram to the millilitre.", "kept = dry mass × pick-up",
			weight(unit.Mass(s.base("dry_mass")))+" × "+inUnit("%", s.base("pick_up"))+" = "+volume(kept), pickUpRule.Name)
	}
	if _, ok := out.value("portion"); ok {
		out.work("The stock of water, divided evenly. No uneven division of it leaves less.", "fresh = stock ÷ n",
			volume(unit.Volume(s.base("water")))+" ÷ "+unit.Text(s.base("n"), 3)+" = "+volume(portion), splitting.Name)
	}
	out.work("What one rinse leaves.", "f = kept ÷ (kept + fresh)",
		volume(kept)+" ÷ ("+volume(kept)+" + "+volume(portion)+") = "+share(rinse.After(kept, portion, 1)), batch.Name)
	if s.has("n") {
		s.workRinses(out, kept, portion)
	}
	if s.has("target") {
		s.workNeeded(out, kept, portion)
	}
	if s.has("water") && s.has("least") {
		s.workBest(out, kept)
	}
	s.rinseCautions(out, kept, portion)
}

// share writes a share for the working.
func share(f unit.Fraction) string {
	if f < least {
		return "less than " + inUnit("%", least)
	}
	return inUnit("%", float64(f))
}

// workRinses follows the liquid from rinse to rinse.
func (s *sheet) workRinses(out *Result, kept, portion unit.Volume) {
	n := int(s.base("n"))
	if n > 1 {
		out.work("What "+count(n, "rinse")+" leave, one after the other.", "left = fⁿ", rinseByRinse(kept, portion, n), batch.Name)
	}
	if s.has("start") {
		left := rinse.After(kept, portion, n)
		c := unit.Concentration(s.base("start") * float64(left))
		out.work("Strength of the liquid still kept, and what dries in if it dries there.", "strength = start × left; residue = strength × kept",
			grams(unit.Concentration(s.base("start")))+" × "+share(left)+" = "+trace(c)+"; × "+volume(kept)+" = "+traceMass(c.In(kept)), pickUpRule.Name)
	}
	if single, ok := out.value("single_left"); ok {
		total := portion * unit.Volume(n)
		out.work("The same water in one rinse would leave more; in ever more portions never less than the limit.", "f = kept ÷ (kept + all); limit = e^(-all ÷ kept)",
			"one rinse of "+volume(total)+" leaves "+share(unit.Fraction(single/100))+"; limit "+share(rinse.Limit(kept, total)), splitting.Name)
	}
}

// rinseByRinse writes what each rinse leaves, in one line that can still be
// read: the later ones are left out where there are many or nothing is left.
func rinseByRinse(kept, portion unit.Volume, n int) string {
	const most = 8
	steps := []string{"100 %"}
	for i := 1; i <= n; i++ {
		f := rinse.After(kept, portion, i)
		if i < n && (i > most || f < least) {
			steps, i = append(steps, "…"), n
			f = rinse.After(kept, portion, n)
		}
		steps = append(steps, share(f))
	}
	return strings.Join(steps, " → ")
}

// trace and traceMass write what may be too little to mean anything.
func trace(c unit.Concentration) string {
	if c < least {
		return "less than " + grams(least)
	}
	return grams(c)
}

func traceMass(m unit.Mass) string {
	if m < least {
		return "less than " + weight(least)
	}
	return weight(m)
}

func (s *sheet) workNeeded(out *Result, kept, portion unit.Volume) {
	target := unit.Fraction(s.base("target"))
	if _, ok := out.value("needed"); !ok {
		out.unknown("needed", s.r.spec("needed").Title, "More than "+strconv.Itoa(rinse.Most)+" rinses: use more fresh water for each, or press out more of what is kept.")
		return
	}
	n, _ := rinse.Needed(kept, portion, target)
	out.work("Rinses until no more than "+share(target)+" is left, made whole.", "n = ln(may be left) ÷ ln f",
		unit.Text(rinse.NeededReal(kept, portion, target), 4)+", so "+strconv.Itoa(n), batch.Name)
}

func (s *sheet) workBest(out *Result, kept unit.Volume) {
	n, water := bestOf(s), unit.Volume(s.base("water"))
	out.work("As many rinses as the stock gives, each covering the object: splitting further never leaves more.", "n = stock ÷ least, rounded down",
		volume(water)+" ÷ "+volume(unit.Volume(s.base("least")))+" gives "+count(n, "rinse")+" of "+volume(water/unit.Volume(n))+"; left "+share(rinse.Split(kept, water, n)), splitting.Name)
	if n == rinse.Most {
		out.work("More than "+strconv.Itoa(rinse.Most)+" rinses are not reckoned with.", "", "", "")
	}
}

// spare is how many rinses beyond the plan the stock should still give: common
// practice.
const spare = 2

func (s *sheet) rinseCautions(out *Result, kept, portion unit.Volume) {
	total := portion
	if s.has("n") {
		total = portion * unit.Volume(s.base("n"))
	}
	out.people("The fresh water alone comes to "+s.weight(total.At(gramPerMillilitre))+": bring it by hose or in cans that one person can carry, and keep the floor dry.", practice)
	wet := s.weight(kept.At(gramPerMillilitre)) + " of liquid, besides its own mass and its support"
	if s.has("dry_mass") {
		wet = s.weight(unit.Mass(s.base("dry_mass"))+kept.At(gramPerMillilitre)) + ", without its support"
	}
	out.people("The wet textile comes to "+wet+". Lift it on the support, two people.", practice)
	out.object("This is the best that can happen: it takes the water to mix completely and the fibres to hold on to nothing. Real textiles hold surfactant back and rinse more slowly.", adsorption)
	out.object("Let readings decide when to stop: conductivity near that of the fresh water, pH steady, no colour, no suds. Conductivity does not see non-ionic surfactants.", practice)
	out.object("Every rinse adds to the immersion clock. Hold the whole of it against the shortest tested dwell.", practice)
	s.supplyCautions(out, portion)
}

// supplyCautions warn where the stock of water, or the plan, does not suffice.
func (s *sheet) supplyCautions(out *Result, portion unit.Volume) {
	n := int(s.base("n"))
	if s.has("fresh") && s.has("water") && s.has("n") {
		stock := unit.Volume(s.base("water"))
		switch {
		case stock < portion*unit.Volume(n):
			out.object("The stock of "+s.litres(stock)+" runs out before "+count(n, "rinse")+" of "+s.litres(portion)+" are done.", arithmetic)
		case stock < portion*unit.Volume(n+spare):
			out.object("The stock of "+s.litres(stock)+" leaves less than two spare rinses beyond the plan.", practice)
		}
	}
	if needed, ok := out.value("needed"); ok && s.has("n") && float64(n) < needed {
		out.object("The "+count(n, "rinse")+" planned do not reach what may be left: it takes "+count(int(needed), "rinse")+".", batch)
	}
	if s.has("least") && portion < unit.Volume(s.base("least")) {
		out.object("A rinse of "+s.litres(portion)+" is less than the least that covers the object.", practice)
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}
