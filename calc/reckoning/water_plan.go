package reckoning

import (
	"strconv"

	"sinkside/calc/unit"
	"sinkside/calc/water"
)

var waterSum = Source{"water for a plan", "Water = (pre-soaks + washes + rinses) × bath + spare; hours = litres ÷ litres an hour; the stock is to last for the planned rinses and two more. Practice sheets.", Practice}

func waterPlanReckoning() *Reckoning {
	volumes := []string{"L", "mL", "US gal", "imp gal"}
	counted := func(name, title, usual string) Input {
		return Input{Name: name, Title: title, Kind: Number, Max: 50, Whole: true, Default: usual, Optional: true}
	}
	litres := func(name, title string, most float64) Input {
		return Input{Name: name, Title: title, Kind: Quantity, Unit: "L", Units: volumes, Min: 0.01, Max: most, Optional: true}
	}
	stock := litres("stock", "Water there", 50000)
	stock.Min = 0
	rate := Input{Name: "rate", Title: "It is made at", Kind: Quantity, Unit: "L/h", Units: []string{"L/h", "L/min"}, Min: 0.1, Max: 5000, Optional: true,
		Help: "Of the filter, the cartridge or the still: time a can once."}
	other := litres("other", "Other water", 5000)
	other.Help = "In all: for solutions, jars, sponges."
	return (&Reckoning{
		Name: "water_plan", Title: "Water for the day", Asks: "How much water does the plan take, and does it last?",
		Inputs: []Input{
			counted("presoaks", "Pre-soaks", ""), litres("presoak_litres", "Water of a pre-soak", 5000),
			counted("washes", "Washes", ""), litres("wash_litres", "Water of a wash", 5000),
			counted("rinses", "Rinses", ""), litres("rinse_litres", "Water of a rinse", 5000),
			counted("spare", "Spare rinses", strconv.Itoa(water.SpareRinses)),
			other, stock, rate,
			plusMinus(&stock), plusMinus(&rate),
		},
		Results: []ResultSpec{
			{Name: "total", Title: "Water in all, spare rinses counted", Unit: "L"},
			{Name: "planned", Title: "Of it for the plan", Unit: "L"},
			{Name: "short", Title: "Short by", Unit: "L"},
			{Name: "make_hours", Title: "Hours to make what is short", Unit: "h"},
			{Name: "total_hours", Title: "Hours to make all of it", Unit: "h"},
			{Name: "rinses_from_stock", Title: "Rinses that the water there gives", Unit: ""},
		},
		Sources: []Source{waterSum, definitions, practice, arithmetic},
		prepare: prepareWaterPlan, figures: waterPlanFigures, explain: explainWaterPlan,
	}).setUp()
}

// planned are the baths of a plan, by the names of their inputs.
var planned = [...]struct{ count, litres string }{{"presoaks", "presoak_litres"}, {"washes", "wash_litres"}, {"rinses", "rinse_litres"}}

func prepareWaterPlan(s *sheet) {
	for _, p := range planned {
		if s.base(p.count) > 0 && !s.has(p.litres) {
			s.missing(p.litres, "it is needed, since "+s.find(p.count).text+" are planned.")
		}
	}
	if len(s.problems) == 0 && planOf(s).Planned() == 0 {
		s.missing("rinses", "nothing is planned yet.")
	}
}

func planOf(s *sheet) water.Plan {
	n := func(name string) int { return int(s.base(name)) }
	v := func(name string) unit.Volume { return unit.Volume(s.base(name)) }
	p := water.Plan{Presoaks: n("presoaks"), Washes: n("washes"), Rinses: n("rinses"), Spare: n("spare"),
		Presoak: v("presoak_litres"), Wash: v("wash_litres"), Rinse: v("rinse_litres"), Other: v("other")}
	if p.Rinse == 0 {
		p.Spare = 0 // where nothing is rinsed, nothing is spared for it
	}
	return p
}

func waterPlanFigures(s *sheet) ([]figure, *Problem) {
	p, stock, rate := planOf(s), unit.Volume(s.base("stock")), water.Flow(s.base("rate"))
	out := []figure{fig("total", p.Total().Litres()), fig("planned", p.Planned().Litres())}
	if s.has("stock") {
		short := water.Short(stock, p.Total())
		out = append(out, fig("short", short.Litres()))
		if s.has("rate") {
			out = append(out, fig("make_hours", rate.Hours(short)))
		}
		if p.Rinse > 0 {
			out = append(out, fig("rinses_from_stock", float64(p.RinsesFrom(stock))))
		}
	}
	if s.has("rate") {
		out = append(out, fig("total_hours", rate.Hours(p.Total())))
	}
	return out, nil
}

func explainWaterPlan(s *sheet, out *Result) {
	p, stock := planOf(s), unit.Volume(s.base("stock"))
	put := ""
	for _, b := range planned {
		if n := s.base(b.count); n > 0 {
			put += unit.Text(n, 3) + " × " + volume(unit.Volume(s.base(b.litres))) + " + "
		}
	}
	if p.Spare > 0 {
		put += strconv.Itoa(p.Spare) + " spare × " + volume(p.Rinse) + " + "
	}
	if p.Other > 0 {
		put += volume(p.Other) + " + "
	}
	out.work("Water in all.", "total = baths × litres + spare rinses + other", put[:len(put)-len(" + ")]+" = "+volume(p.Total()), waterSum.Name)
	out.people("It comes to "+s.weight(p.Total().At(gramPerMillilitre))+" to bring, and as much to drain: by hose, or in cans that one person can carry.", practice)
	s.workStock(out, p, stock)
	out.object("Let the water stand in the room beforehand, so that all baths have one temperature.", practice)
	out.object("Measure pH and conductivity of the water on the day: a cartridge that runs out makes bad water at its usual pace.", practice)
}

// workStock holds the water there against the plan.
func (s *sheet) workStock(out *Result, p water.Plan, stock unit.Volume) {
	title := func(name string) string { return s.r.spec(name).Title }
	if !s.has("stock") {
		out.unknown("short", title("short"), "Not known without the water that is there.")
		return
	}
	short := water.Short(stock, p.Total())
	so := ", so nothing is short"
	if short > 0 {
		so = " = " + volume(short)
	}
	out.work("Held against the water there.", "short = total - stock", volume(p.Total())+" - "+volume(stock)+so, arithmetic.Name)
	switch {
	case short > 0 && !s.has("rate"):
		out.unknown("make_hours", title("make_hours"), "Not known without the pace at which it is made.")
	case short > 0:
		h, _ := out.value("make_hours")
		out.work("Time to make what is short.", "hours = short ÷ litres an hour", volume(short)+" ÷ "+inUnit("L/h", s.base("rate"))+" = "+inUnit("h", h), waterSum.Name)
	}
	lasts := "It lasts for the plan."
	if p.Spare > 0 {
		lasts = "It lasts for the plan and " + count(p.Spare, "spare rinse") + "."
	}
	switch enough := stock >= p.Planned(); {
	case !enough && p.Rinses == 0:
		lasts = "It runs out before the plan is done."
		out.object("The water there runs out before the plan is done. Make more before the object gets wet.", waterSum)
	case stock < p.BeforeRinses():
		lasts = "It runs out before the first rinse."
		out.object("Do not begin: the water there runs out before the first rinse, with the object wet.", waterSum)
	case !enough:
		lasts = "It gives " + count(p.RinsesFrom(stock), "rinse") + " of " + strconv.Itoa(p.Rinses) + "."
		out.object("The water there runs out before the planned rinses are done. Make more before the object gets wet.", waterSum)
	case short > 0:
		lasts = "It lasts for the plan, and for " + count(p.RinsesFrom(stock)-p.Rinses, "spare rinse") + " of " + strconv.Itoa(p.Spare) + "."
		out.object("The water there lasts for the plan but not for "+count(p.Spare, "spare rinse")+" more. Readings, not the plan, decide when rinsing ends.", waterSum)
	}
	out.work(lasts, "", "", waterSum.Name)
}
