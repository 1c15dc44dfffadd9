package rinsing

import (
	"sinkside/calc/reckoning"
	"strconv"
	"strings"

	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

func explainRinse(s *reckoning.Sheet, out *reckoning.Result) {
	kept, portion := keptOf(s), portionOf(s)
	if !s.Has("kept") {
		out.Work("Liquid kept, at a gram to the millilitre.", "kept = dry mass × pick-up",
			reckoning.Weight(unit.Mass(s.Base("dry_mass")))+" × "+reckoning.InUnit("%", s.Base("pick_up"))+" = "+reckoning.Volume(kept), reckoning.PickUpRule.Name)
	}
	if _, ok := out.Value("portion"); ok {
		out.Work("The stock of water, divided evenly. No uneven division of it leaves less.", "fresh = stock ÷ n",
			reckoning.Volume(unit.Volume(s.Base("water")))+" ÷ "+unit.Text(s.Base("n"), 3)+" = "+reckoning.Volume(portion), splitting.Name)
	}
	out.Work("What one rinse leaves.", "f = kept ÷ (kept + fresh)",
		reckoning.Volume(kept)+" ÷ ("+reckoning.Volume(kept)+" + "+reckoning.Volume(portion)+") = "+reckoning.Share(rinse.After(kept, portion, 1)), batch.Name)
	if s.Has("n") {
		workRinses(s, out, kept, portion)
	}
	if s.Has("target") {
		workNeeded(s, out, kept, portion)
	}
	if s.Has("water") && s.Has("least") {
		workBest(s, out, kept)
	}
	rinseCautions(s, out, kept, portion)
}

// workRinses follows the liquid from rinse to rinse.
func workRinses(s *reckoning.Sheet, out *reckoning.Result, kept, portion unit.Volume) {
	n := int(s.Base("n"))
	if n > 1 {
		out.Work("What "+reckoning.Counted(n, "rinse")+" leave, one after the other.", "left = fⁿ", rinseByRinse(kept, portion, n), batch.Name)
	}
	if s.Has("start") {
		left := rinse.After(kept, portion, n)
		c := unit.Concentration(s.Base("start") * float64(left))
		out.Work("Strength of the liquid still kept, and what dries in if it dries there.", "strength = start × left; residue = strength × kept",
			reckoning.Grams(unit.Concentration(s.Base("start")))+" × "+reckoning.Share(left)+" = "+trace(c)+"; × "+reckoning.Volume(kept)+" = "+traceMass(c.In(kept)), reckoning.PickUpRule.Name)
	}
	if single, ok := out.Value("single_left"); ok {
		total := portion * unit.Volume(n)
		out.Work("The same water in one rinse would leave more; in ever more portions never less than the limit.", "f = kept ÷ (kept + all); limit = e^(-all ÷ kept)",
			"one rinse of "+reckoning.Volume(total)+" leaves "+reckoning.Share(unit.Fraction(single/100))+"; limit "+reckoning.Share(rinse.Limit(kept, total)), splitting.Name)
	}
}

// rinseByRinse writes what each rinse leaves, in one line that can still be
// read: the later ones are left out where there are many or nothing is left.
func rinseByRinse(kept, portion unit.Volume, n int) string {
	const most = 8
	steps := []string{"100 %"}
	for i := 1; i <= n; i++ {
		f := rinse.After(kept, portion, i)
		if i < n && (i > most || f < reckoning.Least) {
			steps, i = append(steps, "…"), n
			f = rinse.After(kept, portion, n)
		}
		steps = append(steps, reckoning.Share(f))
	}
	return strings.Join(steps, " → ")
}

// trace and traceMass write what may be too little to mean anything.
func trace(c unit.Concentration) string {
	if c < reckoning.Least {
		return "less than " + reckoning.Grams(reckoning.Least)
	}
	return reckoning.Grams(c)
}

func traceMass(m unit.Mass) string {
	if m < reckoning.Least {
		return "less than " + reckoning.Weight(reckoning.Least)
	}
	return reckoning.Weight(m)
}

func workNeeded(s *reckoning.Sheet, out *reckoning.Result, kept, portion unit.Volume) {
	target := unit.Fraction(s.Base("target"))
	if _, ok := out.Value("needed"); !ok {
		out.NotKnown("needed", s.Title("needed"), "More than "+strconv.Itoa(rinse.Most)+" rinses: use more fresh water for each, or press out more of what is kept.")
		return
	}
	n, _ := rinse.Needed(kept, portion, target)
	out.Work("Rinses until no more than "+reckoning.Share(target)+" is left, made whole.", "n = ln(may be left) ÷ ln f",
		unit.Text(rinse.NeededReal(kept, portion, target), 4)+", so "+strconv.Itoa(n), batch.Name)
}

func workBest(s *reckoning.Sheet, out *reckoning.Result, kept unit.Volume) {
	n, water := bestOf(s), unit.Volume(s.Base("water"))
	out.Work("As many rinses as the stock gives, each covering the object: splitting further never leaves more.", "n = stock ÷ least, rounded down",
		reckoning.Volume(water)+" ÷ "+reckoning.Volume(unit.Volume(s.Base("least")))+" gives "+reckoning.Counted(n, "rinse")+" of "+reckoning.Volume(water/unit.Volume(n))+"; left "+reckoning.Share(rinse.Split(kept, water, n)), splitting.Name)
	if n == rinse.Most {
		out.Work("More than "+strconv.Itoa(rinse.Most)+" rinses are not reckoned with.", "", "", "")
	}
}

// spare is how many rinses beyond the plan the stock should still give: common
// reckoning.CommonPractice.
const spare = 2

func rinseCautions(s *reckoning.Sheet, out *reckoning.Result, kept, portion unit.Volume) {
	total := portion
	if s.Has("n") {
		total = portion * unit.Volume(s.Base("n"))
	}
	out.People("The fresh water alone comes to "+s.Weight(total.At(unit.GramPerMillilitre))+": bring it by hose or in cans that one person can carry, and keep the floor dry.", reckoning.CommonPractice)
	wet := s.Weight(kept.At(unit.GramPerMillilitre)) + " of liquid, besides its own mass and its support"
	if s.Has("dry_mass") {
		wet = s.Weight(unit.Mass(s.Base("dry_mass"))+kept.At(unit.GramPerMillilitre)) + ", without its support"
	}
	out.People("The wet textile comes to "+wet+". Lift it on the support, two people.", reckoning.CommonPractice)
	out.Object("This is the best that can happen: it takes the water to mix completely and the fibres to hold on to nothing. Real textiles hold surfactant back and rinse more slowly.", adsorption)
	out.Object("Let readings decide when to stop: conductivity near that of the fresh water, pH steady, no colour, no suds. Conductivity does not see non-ionic surfactants.", reckoning.CommonPractice)
	out.Object("Every rinse adds to the immersion clock. Hold the whole of it against the shortest tested dwell.", reckoning.CommonPractice)
	supplyCautions(s, out, portion)
}

// supplyCautions warn where the stock of water, or the plan, does not suffice.
func supplyCautions(s *reckoning.Sheet, out *reckoning.Result, portion unit.Volume) {
	n := int(s.Base("n"))
	if s.Has("fresh") && s.Has("water") && s.Has("n") {
		stock := unit.Volume(s.Base("water"))
		switch {
		case stock < portion*unit.Volume(n):
			out.Object("The stock of "+s.Litres(stock)+" runs out before "+reckoning.Counted(n, "rinse")+" of "+s.Litres(portion)+" are done.", reckoning.Arithmetic)
		case stock < portion*unit.Volume(n+spare):
			out.Object("The stock of "+s.Litres(stock)+" leaves less than two spare rinses beyond the plan.", reckoning.CommonPractice)
		}
	}
	if needed, ok := out.Value("needed"); ok && s.Has("n") && float64(n) < needed {
		out.Object("The "+reckoning.Counted(n, "rinse")+" planned do not reach what may be left: it takes "+reckoning.Counted(int(needed), "rinse")+".", batch)
	}
	if s.Has("least") && portion < unit.Volume(s.Base("least")) {
		out.Object("A rinse of "+s.Litres(portion)+" is less than the least that covers the object.", reckoning.CommonPractice)
	}
}
