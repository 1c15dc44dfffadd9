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
		Sources: from(&waterSum, &definitions, &practice, &arithmetic),
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
	short := water.Short(stock, p.Total())
	var out figures
	out.add("total", p.Total().Litres())
	out.add("planned", p.Planned().Litres())
	if s.has("stock") {
		out.add("short", short.Litres())
		if p.Rinse > 0 {
			out.add("rinses_from_stock", float64(p.RinsesFrom(stock)))
		}
	}
	if s.has("rate") {
		if s.has("stock") {
			out.add("make_hours", rate.Hours(short))
		}
		out.add("total_hours", rate.Hours(p.Total()))
	}
	return out, nil
}

func explainWaterPlan(s *sheet, out *Result) {
	p := planOf(s)
	put := ""
	add := func(n float64, what string, v unit.Volume) {
		if n > 0 && v > 0 {
			put += " + " + unit.Text(n, 3) + what + volume(v)
		}
	}
	for _, b := range planned {
		add(s.base(b.count), " × ", unit.Volume(s.base(b.litres)))
	}
	add(float64(p.Spare), " spare × ", p.Rinse)
	add(1, " × ", p.Other)
	out.work("Water in all.", "total = baths × litres + spare rinses + other", put[len(" + "):]+" = "+volume(p.Total()), waterSum.Name)
	out.people("It comes to "+s.weight(p.Total().At(gramPerMillilitre))+" to bring, and as much to drain: by hose, or in cans that one person can carry.", practice)
	if s.has("stock") {
		s.workStock(out, p, unit.Volume(s.base("stock")))
	} else {
		out.unknown("short", s.r.spec("short").Title, "Not known without the water that is there.")
	}
	out.object("Let the water stand in the room beforehand, so that all baths have one temperature.", practice)
	out.object("Measure pH and conductivity of the water on the day: a cartridge that runs out makes bad water at its usual pace.", practice)
}

// workStock holds the water there against the plan.
func (s *sheet) workStock(out *Result, p water.Plan, stock unit.Volume) {
	put := volume(p.Total()) + " - " + volume(stock)
	short := water.Short(stock, p.Total())
	if short > 0 {
		put += " = " + volume(short)
	}
	if h, ok := out.value("make_hours"); ok {
		put += "; ÷ " + inUnit("L/h", s.base("rate")) + " = " + inUnit("h", h)
	} else if short > 0 {
		out.unknown("make_hours", s.r.spec("make_hours").Title, "Not known without the pace at which it is made.")
	}
	rinses := p.RinsesFrom(stock)
	lasts, warning := "It lasts for the plan.", ""
	switch {
	case stock < p.BeforeRinses() && p.Rinses > 0:
		lasts, warning = "It runs out before the first rinse.", "Do not begin: the water there runs out before the first rinse, with the object wet."
	case stock < p.Planned():
		lasts, warning = "It runs out before the plan is done.", "The water there runs out before the plan is done. Make more before the object gets wet."
	case p.Spare > 0 && rinses < p.Rinses+p.Spare:
		lasts += " Spare rinses that it gives: " + strconv.Itoa(rinses-p.Rinses) + " of " + strconv.Itoa(p.Spare) + "."
		warning = "The water there lasts for the plan but not for all spare rinses. Readings, not the plan, decide when rinsing ends."
	case p.Spare > 0:
		lasts = "It lasts for the plan and all spare rinses."
	}
	out.work("Held against the water there. "+lasts, "short = total - stock; hours = short ÷ litres an hour", put, waterSum.Name)
	if warning != "" {
		out.object(warning, waterSum)
	}
}
