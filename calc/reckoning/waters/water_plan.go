package waters

import (
	"sinkside/calc/reckoning"
	"strconv"

	"sinkside/calc/unit"
	"sinkside/calc/water"
)

var waterSum = reckoning.Source{Name: "water for a plan", Where: "Water = (pre-soaks + washes + rinses) × bath + spare; hours = litres ÷ litres an hour; the stock is to last for the planned rinses and two more. Practice sheets.", Mark: reckoning.Practice}

// Plan reckons the water for a plan.
func Plan() *reckoning.Reckoning {
	volumes := []string{"L", "mL", "US gal", "US fl oz", "imp gal", "imp fl oz"}
	counted := func(name, title, usual string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindNumber, Max: 50, Whole: true, Default: usual, Optional: true}
	}
	litres := func(name, title string, most float64) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "L", Units: volumes, Min: 0.01, Max: most, Optional: true}
	}
	stock := litres("stock", "Water there", 50000)
	stock.Min = 0
	rate := reckoning.Input{Name: "rate", Title: "Pace at which it is made", Kind: reckoning.KindQuantity, Unit: "L/h", Units: unit.Of(unit.FlowKind), Min: 0.1, Max: 5000, Optional: true,
		Help: "Of the filter, the cartridge or the still: time a can once."}
	other := litres("other", "Other water", 5000)
	other.Help = "In all: for solutions, jars, sponges."
	return (&reckoning.Reckoning{
		Name: "water_plan", Title: "Water for the day", Asks: "How much water does the plan take, and does it last?", Family: "Water",
		Example: `{"presoaks":1,"presoak_litres":"8","washes":2,"wash_litres":"2 imp gal","rinses":3,"rinse_litres":{"value":8000,"unit":"mL"},"other":2,"stock":30,"stock_pm":2,"rate":"0,2 L/min","rate_pm":"0.05"}`,
		Inputs: []reckoning.Input{
			counted("presoaks", "Pre-soaks", ""), litres("presoak_litres", "Water of a pre-soak", 5000),
			counted("washes", "Washes", ""), litres("wash_litres", "Water of a wash", 5000),
			counted("rinses", "Rinses", ""), litres("rinse_litres", "Water of a rinse", 5000),
			counted("spare", "Spare rinses", strconv.Itoa(water.SpareRinses)),
			other, stock, rate,
			reckoning.PlusMinus(&stock), reckoning.PlusMinus(&rate),
		},
		Results: []reckoning.ResultSpec{
			{Name: "total", Title: "Water in all, spare rinses counted", Unit: "L"},
			{Name: "planned", Title: "Of it for the plan", Unit: "L"},
			{Name: "short", Title: "Short by", Unit: "L"},
			{Name: "make_hours", Title: "Hours to make what is short", Unit: "h"},
			{Name: "total_hours", Title: "Hours to make all of it", Unit: "h"},
			{Name: "rinses_from_stock", Title: "Rinses that the water there gives", Unit: ""},
		},
		Sources: reckoning.From(&waterSum, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Prepare: prepareWaterPlan, Figures: waterPlanFigures, Explain: explainWaterPlan,
	}).Ready()
}

// planned are the baths of a plan, by the names of their inputs.
var planned = [...]struct{ count, litres string }{{"presoaks", "presoak_litres"}, {"washes", "wash_litres"}, {"rinses", "rinse_litres"}}

func prepareWaterPlan(s *reckoning.Sheet) {
	for _, p := range planned {
		if s.Base(p.count) > 0 && !s.Has(p.litres) {
			s.Missing(p.litres, "it is needed, since "+s.Words(p.count)+" are planned.")
		}
	}
	if s.Sound() && planOf(s).Planned() == 0 {
		s.Missing("rinses", "nothing is planned yet.")
	}
}

func planOf(s *reckoning.Sheet) water.Plan {
	n := func(name string) int { return int(s.Base(name)) }
	v := func(name string) unit.Volume { return unit.Volume(s.Base(name)) }
	p := water.Plan{Presoaks: n("presoaks"), Washes: n("washes"), Rinses: n("rinses"), Spare: n("spare"),
		Presoak: v("presoak_litres"), Wash: v("wash_litres"), Rinse: v("rinse_litres"), Other: v("other")}
	if p.Rinse == 0 {
		p.Spare = 0 // where nothing is rinsed, nothing is spared for it
	}
	return p
}

func waterPlanFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	p, stock, rate := planOf(s), unit.Volume(s.Base("stock")), water.Flow(s.Base("rate"))
	short := water.Short(stock, p.Total())
	var out reckoning.Figures
	out.Add("total", p.Total().Litres())
	out.Add("planned", p.Planned().Litres())
	if s.Has("stock") {
		out.Add("short", short.Litres())
		if p.Rinse > 0 {
			out.Add("rinses_from_stock", float64(p.RinsesFrom(stock)))
		}
	}
	if s.Has("rate") {
		if s.Has("stock") {
			out.Add("make_hours", rate.Hours(short))
		}
		out.Add("total_hours", rate.Hours(p.Total()))
	}
	return out, nil
}

func explainWaterPlan(s *reckoning.Sheet, out *reckoning.Result) {
	p := planOf(s)
	put := ""
	add := func(n float64, what string, v unit.Volume) {
		if n > 0 && v > 0 {
			put += " + " + unit.Text(n, 3) + what + reckoning.Volume(v)
		}
	}
	for _, b := range planned {
		add(s.Base(b.count), " × ", unit.Volume(s.Base(b.litres)))
	}
	add(float64(p.Spare), " spare × ", p.Rinse)
	add(1, " × ", p.Other)
	out.Work("Water in all.", "total = baths × litres + spare rinses + other", put[len(" + "):]+" = "+reckoning.Volume(p.Total()), waterSum.Name)
	out.People("It comes to "+s.Weight(p.Total().At(unit.GramPerMillilitre))+" to bring, and as much to drain: by hose, or in cans that one person can carry.", reckoning.CommonPractice)
	if s.Has("stock") {
		workStock(s, out, p, unit.Volume(s.Base("stock")))
	} else {
		out.NotKnown("short", s.Title("short"), "Not known without the water that is there.")
	}
	out.Object("Let the water stand in the room beforehand, so that all baths have one temperature.", reckoning.CommonPractice)
	out.Object("Measure pH and conductivity of the water on the day: a cartridge that runs out makes bad water at its usual pace.", reckoning.CommonPractice)
}

// workStock holds the water there against the plan.
func workStock(s *reckoning.Sheet, out *reckoning.Result, p water.Plan, stock unit.Volume) {
	put := reckoning.Volume(p.Total()) + " - " + reckoning.Volume(stock)
	short := water.Short(stock, p.Total())
	if short > 0 {
		put += " = " + reckoning.Volume(short)
	}
	if h, ok := out.Value("make_hours"); ok {
		put += "; ÷ " + reckoning.InUnit("L/h", s.Base("rate")) + " = " + reckoning.InUnit("h", h)
	} else if short > 0 {
		out.NotKnown("make_hours", s.Title("make_hours"), "Not known without the pace at which it is made.")
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
	out.Work("Held against the water there. "+lasts, "short = total - stock; hours = short ÷ litres an hour", put, waterSum.Name)
	if warning != "" {
		out.Object(warning, waterSum)
	}
}
