package rinsing

import (
	"math"
	"strconv"

	"sinkside/calc/reckoning"
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

var (
	stirred = reckoning.Source{Name: "overflowing tank", Where: "Well-mixed tank: what is left falls as e^(-water ÷ volume); textbook of chemical engineering.", Mark: reckoning.Memory}
	running = reckoning.Source{Name: "running rinses", Where: "10 Minutes to Better Rinsing and Rinsing with Less Water, poly-products.com: (D + Q) ÷ D. Counter-flow Q ≈ D (ratio^(1/n) + 1/n), remco.com an2. Industrial rinsing of sheet metal.", Mark: reckoning.Read}
)

// Flow compares still rinses with running ones.
func Flow() *reckoning.Reckoning {
	kept, tank := reckoning.Quantity("kept", "Liquid kept after draining", "L", 0.01, 500), reckoning.Quantity("tank", "Water in the tray", "L", 0.1, 5000).Note("With the object in it and full.")
	flow := reckoning.Quantity("flow", "Flow of the tap", "L/min", 0.01, 1000).Maybe()
	return (&reckoning.Reckoning{
		Name: "flow_rinse", Title: "Still or running water", Asks: "Does a running rinse take less water than still ones, and how much?", Family: family,
		Inputs: []reckoning.Input{
			kept, tank,
			reckoning.Quantity("target", "May be left", "%", 0.0001, 50).In("%").Note("Of what the textile held before the first rinse."),
			flow,
			reckoning.Count("tanks", "Trays in a row, counter-flow", 2, 6).Usually("2").Note("Fresh water into the last and over into the one before, the object moved the other way."),
			reckoning.PlusMinus(&kept), reckoning.PlusMinus(&tank), reckoning.PlusMinus(&flow),
		},
		Results: []reckoning.ResultSpec{
			{Name: "still_n", Title: "Still rinses"}, {Name: "still_water", Title: "Water for still rinses", Unit: "L"}, {Name: "over_water", Title: "Water running over one tray", Unit: "L"}, {Name: "over_minutes", Title: "Time for it", Unit: "min"},
			{Name: "counter_water", Title: "Water in counter-flow through the trays, for each object", Unit: "L"},
		},
		Sources: reckoning.From(&batch, &stirred, &running, &adsorption, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"kept":"1","tank":"12","target":"1","flow":"2","tanks":"2"}`,
		Figures: flowFigures, Explain: explainFlow, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

// notBelow is what is wrong where the textile would keep all the water; nil where
// it does not.
func notBelow(s *reckoning.Sheet) *reckoning.Problem {
	if s.Base("kept") < s.Base("tank") {
		return nil
	}
	tray := s.InAnswersUnit("kept", s.Base("tank"))
	return s.Cannot("kept", "below "+tray, s.InAnswersUnit("kept", s.Base("kept"))+" is not below the water in the tray, "+tray+".")
}

// still is the number of rinses in the tray, drained each time, and their water.
func still(s *reckoning.Sheet) (n int, water unit.Volume, ok bool) {
	kept, tank := unit.Volume(s.Base("kept")), unit.Volume(s.Base("tank"))
	n, ok = rinse.Needed(kept, tank-kept, unit.Fraction(s.Base("target")))
	return n, (tank - kept) * unit.Volume(n), ok
}

func counter(s *reckoning.Sheet) unit.Volume {
	return unit.Volume(s.Base("kept") * rinse.CounterFlow(1/s.Base("target"), int(math.Round(s.Base("tanks")))))
}

func flowFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if p := notBelow(s); p != nil {
		return nil, p
	}
	var out reckoning.Figures
	if n, _, ok := still(s); ok {
		out.Add("still_n", float64(n))
		// More kept means more rinses of less fresh water each.
		out.Product("still_water", float64(n), s.Base("tank")-s.Base("kept"))
	}
	over := rinse.OverflowFor(unit.Volume(s.Base("tank")), unit.Fraction(s.Base("target")))
	out.Add("over_water", over.Litres())
	if s.Has("flow") {
		out.Add("over_minutes", over.Litres()/s.Base("flow"))
	}
	out.Add("counter_water", counter(s).Litres())
	return out, nil
}

func explainFlow(s *reckoning.Sheet, out *reckoning.Result) {
	tank, target := unit.Volume(s.Base("tank")), unit.Fraction(s.Base("target"))
	kept := unit.Volume(s.Base("kept"))
	over := rinse.OverflowFor(tank, target)
	n, water, ok := still(s)
	if ok {
		out.Work("Still: the tray is drained, all but what the textile keeps, and filled anew.", "f = (kept ÷ tray)ⁿ", strconv.Itoa(n)+" fills of "+reckoning.Volume(tank-kept)+": "+reckoning.Volume(water), batch.Name)
	} else {
		out.NotKnown("still_n", s.Title("still_n"), "More than "+strconv.Itoa(rinse.Most)+": press out more, or fill more.")
	}
	out.Work("Running over one tray that is well mixed. Nothing is drained.", "water = tray × ln(1 ÷ f)", reckoning.Volume(tank)+" × ln(1 ÷ "+reckoning.Share(target)+") = "+reckoning.Volume(over), stirred.Name)
	if s.Has("flow") {
		out.Work("Time for it.", "water ÷ flow", reckoning.Volume(over)+" ÷ "+reckoning.InUnit("L/min", s.Base("flow"))+" = "+reckoning.InUnit("min", over.Litres()/s.Base("flow")), reckoning.Arithmetic.Name)
	}
	tanks := strconv.Itoa(int(s.Base("tanks")))
	out.Work(tanks+" trays in a row, fresh water into the last and over into the one before, the object moved the other way; once it runs steadily, for each litre that is carried along.", "Q ≈ kept × ((1 ÷ f)^(1/n) + 1/n)", reckoning.Volume(counter(s)), running.Name)
	low, high, _ := out.Range("still_water")
	overLow, overHigh, _ := out.Range("over_water")
	switch {
	case ok && low < overHigh && high > overLow && (low < high || overLow < overHigh):
		out.Verdict("less", "Less water", "Within the ± neither is sure to take less: still rinses "+s.Litres(water)+", running over one tray "+s.Litres(over)+".")
	case ok && water < over:
		out.Verdict("less", "Less water", "Still rinses take less than running over one tray: "+s.Litres(water)+" against "+s.Litres(over)+".")
	case ok:
		out.Verdict("less", "Less water", "Running over one tray takes no more than still rinses: "+s.Litres(over)+" against "+s.Litres(water)+".")
	default:
		out.Verdict("less", "Less water", "Still rinses in this tray do not get there within "+strconv.Itoa(rinse.Most)+".")
	}
	out.People("A running tap is not left alone: floods reach sockets and floors below.", reckoning.CommonPractice)
	out.Object("Mixing is taken to be complete. Water that runs past, folds that it does not reach and fibres that hold on make all three slower; the counter-flow figure comes from sheet metal.", adsorption)
	out.Object("A stream moves and strains: for fragile pieces still water is kinder.", reckoning.CommonPractice)
}
