package rinsing

import (
	"sinkside/calc/reckoning"
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

// Rinse reckons what rinses leave.
func Rinse() *reckoning.Reckoning {
	volumes := []string{"L", "mL", "US gal", "imp gal", "US fl oz", "imp fl oz"}
	kept := reckoning.Input{Name: "kept", Title: "Liquid kept after draining", Kind: reckoning.KindQuantity, Unit: "L", Units: volumes, Min: 0.001, Max: 500, Optional: true,
		Help: "What the textile and its support still hold. Weigh wet and dry: a kilogram is about a litre. Or leave empty and give dry mass and pick-up."}
	pickUp := reckoning.Input{Name: "pick_up", Title: "Pick-up", Kind: reckoning.KindQuantity, Unit: "%", Units: []string{"%"}, Min: 5, Max: 2000, Optional: true,
		Help: "Liquid held, in per cent of the dry mass, set by trial on something alike. 120 is a linen that holds 1.2 times its mass."}
	fresh := reckoning.Input{Name: "fresh", Title: "Fresh water for each rinse", Kind: reckoning.KindQuantity, Unit: "L", Units: volumes, Min: 0.01, Max: 5000, Optional: true,
		Help: "Only the fresh water, without what the textile kept. Leave empty to divide the stock of water evenly."}
	dry := reckoning.Input{Name: "dry_mass", Title: "Dry mass of the textile", Kind: reckoning.KindQuantity, Unit: "g", Units: []string{"g", "kg", "oz", "lb"}, Min: 0.1, Max: 200000, Optional: true}
	start := reckoning.Input{Name: "start", Title: "Strength before rinsing", Kind: reckoning.KindQuantity, Unit: "g/L", Units: []string{"g/L", "mg/L", "% w/v"}, Min: 0.0001, Max: 500, Optional: true,
		Help: "Of the bath that the textile comes from."}
	return (&reckoning.Reckoning{
		Name: "rinse", Title: "What is left after rinsing", Asks: "What remains after so many rinses, how many does it take, and how is the water best divided?", Family: family,
		Example: `{"dry_mass":400,"pick_up":120,"pick_up_pm":30,"fresh":10,"fresh_pm":0.5,"n":4,"target":"0.1","start":"2.34","water":"12 US gal","least":8}`,
		Inputs: []reckoning.Input{
			kept,
			dry, pickUp, fresh,
			{Name: "n", Title: "Number of rinses", Kind: reckoning.KindNumber, Min: 1, Max: rinse.Most, Whole: true, Optional: true},
			{Name: "target", Title: "May be left", Kind: reckoning.KindQuantity, Unit: "%", Units: []string{"%"}, Min: 0.0001, Max: 99, Optional: true,
				Help: "Of what the textile held before the first rinse. Gives the number of rinses it takes."},
			start,
			{Name: "water", Title: "Stock of rinse water", Kind: reckoning.KindQuantity, Unit: "L", Units: volumes, Min: 0.01, Max: 50000, Optional: true},
			{Name: "least", Title: "Least water that covers the object", Kind: reckoning.KindQuantity, Unit: "L", Units: volumes, Min: 0.01, Max: 5000, Optional: true,
				Help: "With the stock of water, gives the best way to divide it."},
			reckoning.PlusMinus(&kept), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&pickUp), reckoning.PlusMinus(&fresh), reckoning.PlusMinus(&start),
		},
		Results: []reckoning.ResultSpec{
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
		Sources: reckoning.From(&batch, &splitting, &adsorption, &reckoning.PickUpRule, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Prepare: prepareRinse, Figures: rinseFigures, Explain: explainRinse,
	}).Ready()
}

func prepareRinse(s *reckoning.Sheet) {
	byPickUp := s.Has("dry_mass") && s.Has("pick_up")
	switch {
	case s.Has("kept") && s.Has("pick_up"):
		s.Fault("pick_up", "the liquid kept is given already. Leave one of the two empty.")
	case !s.Has("kept") && !byPickUp:
		s.Missing("kept", "it is needed, or dry mass and pick-up in its place.")
	case byPickUp:
		r := s.Allowed("kept")
		if v := keptOf(s); !r.Holds(v.Litres()) {
			s.Beyond("pick_up", r.String()+" of liquid kept", "with this dry mass it comes to "+reckoning.Volume(v)+" of liquid kept, which is not within "+r.String()+".")
		}
	}
	if !s.Has("fresh") && !s.Has("water") {
		s.Missing("fresh", "the water for each rinse is needed, or the stock of water to divide.")
	}
	if !s.Has("n") && !s.Has("target") && !(s.Has("water") && s.Has("least")) {
		s.Missing("n", "give a number of rinses, or what may be left, or a stock of water and the least that covers the object.")
	}
	if !s.Has("fresh") && s.Has("water") && !s.Has("n") && !s.Has("least") {
		s.Missing("n", "to divide the stock of water, give the number of rinses or the least that covers the object.")
	}
}

func keptOf(s *reckoning.Sheet) unit.Volume {
	if s.Has("kept") {
		return unit.Volume(s.Base("kept"))
	}
	return rinse.PickUp(unit.Mass(s.Base("dry_mass")), unit.Fraction(s.Base("pick_up"))).Over(unit.GramPerMillilitre)
}

// pickUpOf returns the pick-up, given or from the liquid kept; 0 where the dry
// mass is not known.
func pickUpOf(s *reckoning.Sheet) unit.Fraction {
	if !s.Has("dry_mass") {
		return 0
	}
	return unit.Fraction(float64(keptOf(s).At(unit.GramPerMillilitre)) / s.Base("dry_mass"))
}

// portionOf returns the fresh water of one rinse: as given, or the stock divided
// evenly; 0 where neither is known.
func portionOf(s *reckoning.Sheet) unit.Volume {
	switch {
	case s.Has("fresh"):
		return unit.Volume(s.Base("fresh"))
	case s.Has("water") && s.Has("n"):
		return unit.Volume(s.Base("water") / s.Base("n"))
	case s.Has("water") && s.Has("least"):
		return unit.Volume(s.Base("water")) / unit.Volume(bestOf(s))
	}
	return 0
}

func bestOf(s *reckoning.Sheet) int {
	return rinse.Portions(unit.Volume(s.Base("water")), unit.Volume(s.Base("least")))
}

func rinseFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if s.Has("water") && s.Has("least") {
		if p := tooLittle(s); p != nil {
			return nil, p
		}
	}
	kept, portion := keptOf(s), portionOf(s)
	var out reckoning.Figures
	add := func(name string, factors ...float64) { out = append(out, reckoning.Fig(name, factors...)) }
	if s.Has("n") {
		out = append(out, afterN(s, kept, portion)...)
	}
	if s.Has("target") {
		if n, ok := rinse.Needed(kept, portion, unit.Fraction(s.Base("target"))); ok {
			add("needed", float64(n))
			add("needed_water", float64(n), portion.Litres())
		}
	}
	if s.Has("water") && s.Has("least") {
		n, water := bestOf(s), unit.Volume(s.Base("water"))
		add("best_n", float64(n))
		add("best_portion", water.Litres()/float64(n))
		add("best_left", float64(rinse.Split(kept, water, n)))
	}
	if s.Has("n") && !s.Has("fresh") {
		add("portion", portion.Litres())
	}
	if !s.Has("kept") {
		add("kept_volume", kept.Litres())
	}
	return out, nil
}

// afterN returns what the planned number of rinses leaves.
func afterN(s *reckoning.Sheet, kept, portion unit.Volume) reckoning.Figures {
	n := int(s.Base("n"))
	left := rinse.After(kept, portion, n)
	total := portion * unit.Volume(n)
	out := reckoning.Figures{reckoning.Fig("left", float64(left))}
	if s.Has("start") {
		c := unit.Concentration(s.Base("start") * float64(left))
		out = append(out, reckoning.Fig("left_strength", c.GramsPerLitre()), reckoning.Fig("residue", c.In(kept).Grams()))
		if p := pickUpOf(s); p > 0 {
			out = append(out, reckoning.Fig("residue_share", float64(rinse.AddOn(p, c.Share(unit.GramPerMillilitre)))))
		}
	}
	out = append(out, reckoning.Fig("total_water", total.Litres()))
	if n > 1 {
		out = append(out, reckoning.Fig("single_left", float64(rinse.Left(kept, total))))
	}
	return out
}
