package reckoning

import (
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

func rinseReckoning() *Reckoning {
	volumes := []string{"L", "mL", "US gal", "imp gal", "US fl oz", "imp fl oz"}
	kept := Input{Name: "kept", Title: "Liquid kept after draining", Kind: Quantity, Unit: "L", Units: volumes, Min: 0.001, Max: 500, Optional: true,
		Help: "What the textile and its support still hold. Weigh wet and dry: a kilogram is about a litre. Or leave empty and give dry mass and pick-up."}
	pickUp := Input{Name: "pick_up", Title: "Pick-up", Kind: Quantity, Unit: "%", Units: []string{"%"}, Min: 5, Max: 2000, Optional: true,
		Help: "Liquid held, in per cent of the dry mass, set by trial on something alike. 120 is a linen that holds 1.2 times its mass."}
	fresh := Input{Name: "fresh", Title: "Fresh water for each rinse", Kind: Quantity, Unit: "L", Units: volumes, Min: 0.01, Max: 5000, Optional: true,
		Help: "Only the fresh water, without what the textile kept. Leave empty to divide the stock of water evenly."}
	return (&Reckoning{
		Name: "rinse", Title: "What is left after rinsing", Asks: "What remains after so many rinses, how many does it take, and how is the water best divided?",
		Inputs: []Input{
			kept,
			{Name: "dry_mass", Title: "Dry mass of the textile", Kind: Quantity, Unit: "g", Units: []string{"g", "kg", "oz", "lb"}, Min: 0.1, Max: 200000, Optional: true},
			pickUp, fresh,
			{Name: "n", Title: "Number of rinses", Kind: Number, Min: 1, Max: rinse.Most, Whole: true, Optional: true},
			{Name: "target", Title: "May be left", Kind: Quantity, Unit: "%", Units: []string{"%"}, Min: 0.0001, Max: 99, Optional: true,
				Help: "Of what the textile held before the first rinse. Gives the number of rinses it takes."},
			{Name: "start", Title: "Strength before rinsing", Kind: Quantity, Unit: "g/L", Units: []string{"g/L", "mg/L", "% w/v"}, Min: 0.0001, Max: 500, Optional: true,
				Help: "Of the bath that the textile comes from."},
			{Name: "water", Title: "Stock of rinse water", Kind: Quantity, Unit: "L", Units: volumes, Min: 0.01, Max: 50000, Optional: true},
			{Name: "least", Title: "Least water that covers the object", Kind: Quantity, Unit: "L", Units: volumes, Min: 0.01, Max: 5000, Optional: true,
				Help: "With the stock of water, gives the best way to divide it."},
			plusMinus(&kept), plusMinus(&pickUp), plusMinus(&fresh),
		},
		Results: []ResultSpec{
			{Name: "left", Title: "Left of what was there", Unit: "%"},
			{Name: "left_strength", Title: "Strength of the liquid still kept", Unit: "g/L"},
			{Name: "residue", Title: "Dries into the textile", Unit: "g"},
			{Name: "residue_share", Title: "Dries in, of the dry mass", Unit: "%"},
			{Name: "total_water", Title: "Fresh water in all", Unit: "L"},
			{Name: "single_left", Title: "Left, had it all gone into one rinse", Unit: "%"},
			{Name: "needed", Title: "Rinses that reach what may be left", Unit: ""},
			{Name: "needed_water", Title: "Fresh water for them", Unit: "L"},
			{Name: "best_n", Title: "Best number of rinses from the stock", Unit: ""},
			{Name: "best_portion", Title: "Fresh water for each of them", Unit: "L"},
			{Name: "best_left", Title: "Left after them", Unit: "%"},
			{Name: "portion", Title: "Fresh water for each rinse, divided evenly", Unit: "L"},
			{Name: "kept_volume", Title: "Liquid kept, from the pick-up", Unit: "L"},
		},
		Sources: from(&batch, &splitting, &adsorption, &pickUpRule, &definitions, &practice, &arithmetic),
		prepare: prepareRinse, figures: rinseFigures, explain: explainRinse,
	}).setUp()
}

func prepareRinse(s *sheet) {
	byPickUp := s.has("dry_mass") && s.has("pick_up")
	switch {
	case s.has("kept") && s.has("pick_up"):
		s.fault(s.find("pick_up"), "the liquid kept is given already. Leave one of the two empty.")
	case !s.has("kept") && !byPickUp:
		s.missing("kept", "it is needed, or dry mass and pick-up in its place.")
	case byPickUp:
		r := s.find("kept").in.rangeFor(unit.Unit{})
		if v := keptOf(s); !r.holds(v.Litres()) {
			s.problem(Problem{Field: "pick_up", Value: s.find("pick_up").text, Unit: "%", Allowed: r.String() + " of liquid kept",
				Say: "Pick-up: with this dry mass it comes to " + volume(v) + " of liquid kept, which is not within " + r.String() + "."})
		}
	}
	if !s.has("fresh") && !s.has("water") {
		s.missing("fresh", "the water for each rinse is needed, or the stock of water to divide.")
	}
	if !s.has("n") && !s.has("target") && !(s.has("water") && s.has("least")) {
		s.missing("n", "give a number of rinses, or what may be left, or a stock of water and the least that covers the object.")
	}
	if !s.has("fresh") && s.has("water") && !s.has("n") && !s.has("least") {
		s.missing("n", "to divide the stock of water, give the number of rinses or the least that covers the object.")
	}
	if s.has("water") && s.has("least") && s.base("water") < s.base("least") {
		s.fault(s.find("water"), "the stock does not cover the object once.")
	}
}

// gramPerMillilitre stands for the density of a dilute bath: the pick-up is not
// known closely enough for more.
const gramPerMillilitre unit.Density = 1

func keptOf(s *sheet) unit.Volume {
	if s.has("kept") {
		return unit.Volume(s.base("kept"))
	}
	return rinse.PickUp(unit.Mass(s.base("dry_mass")), unit.Fraction(s.base("pick_up"))).Over(gramPerMillilitre)
}

// pickUpOf returns the pick-up, given or from the liquid kept; 0 where the dry
// mass is not known.
func pickUpOf(s *sheet) unit.Fraction {
	if !s.has("dry_mass") {
		return 0
	}
	return unit.Fraction(float64(keptOf(s).At(gramPerMillilitre)) / s.base("dry_mass"))
}

// portionOf returns the fresh water of one rinse: as given, or the stock divided
// evenly; 0 where neither is known.
func portionOf(s *sheet) unit.Volume {
	switch {
	case s.has("fresh"):
		return unit.Volume(s.base("fresh"))
	case s.has("water") && s.has("n"):
		return unit.Volume(s.base("water") / s.base("n"))
	case s.has("water") && s.has("least"):
		return unit.Volume(s.base("water")) / unit.Volume(bestOf(s))
	}
	return 0
}

func bestOf(s *sheet) int {
	return rinse.Portions(unit.Volume(s.base("water")), unit.Volume(s.base("least")))
}

func rinseFigures(s *sheet) ([]figure, *Problem) {
	kept, portion := keptOf(s), portionOf(s)
	var out []figure
	add := func(name string, factors ...float64) { out = append(out, fig(name, factors...)) }
	if s.has("n") {
		out = append(out, afterN(s, kept, portion)...)
	}
	if s.has("target") {
		if n, ok := rinse.Needed(kept, portion, unit.Fraction(s.base("target"))); ok {
			add("needed", float64(n))
			add("needed_water", float64(n), portion.Litres())
		}
	}
	if s.has("water") && s.has("least") {
		n, water := bestOf(s), unit.Volume(s.base("water"))
		add("best_n", float64(n))
		add("best_portion", water.Litres()/float64(n))
		add("best_left", float64(rinse.Split(kept, water, n)))
	}
	if s.has("n") && !s.has("fresh") {
		add("portion", portion.Litres())
	}
	if !s.has("kept") {
		add("kept_volume", kept.Litres())
	}
	return out, nil
}

// afterN returns what the planned number of rinses leaves.
func afterN(s *sheet, kept, portion unit.Volume) []figure {
	n := int(s.base("n"))
	left := rinse.After(kept, portion, n)
	total := portion * unit.Volume(n)
	out := []figure{fig("left", float64(left))}
	if s.has("start") {
		c := unit.Concentration(s.base("start") * float64(left))
		out = append(out, fig("left_strength", c.GramsPerLitre()), fig("residue", c.In(kept).Grams()))
		if p := pickUpOf(s); p > 0 {
			out = append(out, fig("residue_share", float64(rinse.AddOn(p, c.Share(gramPerMillilitre)))))
		}
	}
	out = append(out, fig("total_water", total.Litres()))
	if n > 1 {
		out = append(out, fig("single_left", float64(rinse.Left(kept, total))))
	}
	return out
}
