package climate

import (
	"math"
	"strconv"

	"sinkside/calc/air"
	"sinkside/calc/drying"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

func explainDrying(s *reckoning.Sheet, out *reckoning.Result) {
	d := driesOf(s)
	out.People("Water and electricity: fans, leads and sockets stand dry, out of splashes and off the floor, on a circuit with a residual-current device. Dry hands to switch.", reckoning.CommonPractice)
	oldResidues(out)
	restsOn(s, out, &d)
	workHeld(s, out, &d)
	if len(s.Series("weighed")) == 0 { // after weighings the others are of the start
		otherWater(s, out, &d)
	}
	workRates(s, out, &d)
	if len(s.Series("weighed")) > 0 {
		workWeighings(s, out, &d)
	}
	low, high, ok := d.hours()
	if ok {
		out.Work("Time at the steady rate. What follows is slower, so this is not when it is dry.", "time = water ÷ rate",
			reckoning.InUnit("g", d.left)+" ÷ "+between(d.rate)+" = "+unit.Text(low*60, 3)+" to "+unit.Text(high*60, 3)+" min", wetSource.Name)
	} else {
		say := "Not known without the water that it holds."
		if d.left >= 0 {
			say = "Too long to say, above two weeks: in this air it hardly dries."
		}
		out.NotKnown("minutes_low", s.Title("minutes_low"), say)
		out.NotKnown("minutes_high", s.Title("minutes_high"), say)
	}
	dryingCautions(s, out, &d, !ok || high > 24)
}

// What the rate rests on: the names of the answers in words.
const (
	ByWeighings = "by_weighings"
	ByEquations = "by_equations"
)

// restsOn says whether weighings took the place of the equations.
func restsOn(s *reckoning.Sheet, out *reckoning.Result, d *dries) {
	const title = "The rate rests on"
	switch {
	case d.corrected(s):
		out.Verdict(ByWeighings, title, "The weighings: they have corrected what the equations give.")
	case d.refused != nil:
		out.Verdict(ByEquations, title, "The equations: the weighings do not correct them, since "+d.refused.Error()+".")
	default:
		out.Verdict(ByEquations, title, "The equations, which are for pools. Weigh it as it dries, and it is corrected.")
	}
}

func between(r drying.Rate) string {
	return "(" + unit.Text(r.Low, 3) + " to " + unit.Text(r.High, 3) + " g/h)"
}

func workHeld(s *reckoning.Sheet, out *reckoning.Result, d *dries) {
	g := func(name string) string { return reckoning.InUnit("g", s.Base(name)) }
	m := s.Series("weighed")
	switch {
	case d.left < 0:
		out.NotKnown("water_left", s.Title("water_left"), "Not known: "+d.refused.Error()+".")
	case len(m) > 0:
		out.Work("Water still held, from the last weighing.", "water = last mass - dry mass", reckoning.InUnit("g", m[len(m)-1])+" - "+g("dry_mass")+" = "+reckoning.InUnit("g", d.left), reckoning.Arithmetic.Name)
	case s.Has("water"):
	case s.Has("wet_mass"):
		out.Work("Water held.", "water = wet mass - dry mass", g("wet_mass")+" - "+g("dry_mass")+" = "+reckoning.InUnit("g", d.left), reckoning.Arithmetic.Name)
	default:
		out.Work("Water held.", "water = dry mass × pick-up", g("dry_mass")+" × "+unit.Text(unit.Fraction(s.Base("pick_up")).Percent(), 4)+" % = "+reckoning.InUnit("g", d.left), reckoning.PickUpRule.Name)
	}
}

// otherWater says what else was given of the water held and is not reckoned with, and
// by how much it differs.
func otherWater(s *reckoning.Sheet, out *reckoning.Result, d *dries) {
	used := false
	other := func(name string, grams float64) {
		switch {
		case !s.Has(name):
		case !used:
			used = true
		case d.left >= 0 && math.Abs(grams-d.left) > 0.01*d.left:
			out.Object(s.Asked(name)+" would have it hold "+reckoning.InUnit("g", grams)+", and "+reckoning.InUnit("g", d.left)+" is reckoned with, from what goes before it. One of the two is wrong: look at both.", reckoning.Arithmetic)
		}
	}
	other("water", s.Base("water"))
	if s.Has("dry_mass") {
		other("wet_mass", s.Base("wet_mass")-s.Base("dry_mass"))
		other("pick_up", float64(s.Base("dry_mass")*s.Base("pick_up")))
	}
}

// workRates shows both equations and what is made of them.
func workRates(s *reckoning.Sheet, out *reckoning.Result, d *dries) {
	if s.Has("surface") {
		out.Work("Both equations take the temperature of the water at its surface: as measured.", "", reckoning.Celsius(d.surface), wetSource.Name)
	} else {
		out.Work("Both equations take the temperature of the water at its surface, which is not that of the air: a wet cloth cools to the wet bulb.", "", "wet bulb "+reckoning.Celsius(d.surface), wetSource.Name)
	}
	v, area := unit.Text(s.Base("air_speed"), 4), unit.Text(d.area, 4)+" m²"
	kPa := func(p air.Pressure) string { return unit.Text(float64(p)/1000, 4) }
	out.Work("By the pool equation, on all sides in the air.", "rate = A × (0.089 + 0.0782 v) × (pw - pa) ÷ Y",
		area+" × (0.089 + 0.0782 × "+v+") × ("+kPa(air.Saturation(d.surface))+" - "+kPa(d.air.Vapour)+") kPa ÷ "+strconv.Itoa(drying.LatentHeat)+" kJ/kg = "+reckoning.InUnit("g/h", float64(d.pool)*d.area*1000), poolSource.Name)
	out.Work("By humidity ratios, at 1013.25 hPa.", "rate = A × (25 + 19 v) × (xs - x)",
		area+" × (25 + 19 × "+v+") × ("+unit.Text(air.Ratio(air.Saturation(d.surface), d.air.Whole), 4)+" - "+unit.Text(d.air.Ratio(), 4)+") kg/h = "+reckoning.InUnit("g/h", float64(d.ratio)*d.area*1000), ratioSource.Name)
	out.Work("A range: from the lower less 30 % to the higher and 30 %. Both were made for pools, and no cloth keeps to them closer.", "0.7 × lower to 1.3 × higher", between(d.reckoned), offSource.Name)
}

// WeighingsUnused begins the caution that says why weighings correct nothing.
const WeighingsUnused = "The weighings do not correct the rate: "

// workWeighings says what the weighings show, or why nothing.
func workWeighings(s *reckoning.Sheet, out *reckoning.Result, d *dries) {
	if d.refused != nil {
		out.Object(WeighingsUnused+d.refused.Error()+".", reckoning.OurChoice)
		return
	}
	out.Work("The weighings go before the equations. A straight line through them, by least squares; off by what each weighing may be and by how far they lie from the line, and by 10 % at least.",
		"rate = slope ± 2 × (scale + furthest) ÷ time", reckoning.InUnit("g/h", d.fitted.Fit)+", scale "+reckoning.InUnit("g", scaleOf(s).Grams())+", "+between(d.fitted.Rate), reckoning.OurChoice.Name)
	switch {
	case d.fitted.Slowing:
		out.Object("The last weighing shows it slowing: the steady part ends, and the rest takes longer than these minutes.", wetSource)
	case d.fitted.High < d.reckoned.Low:
		out.Object("It loses less than this air could take. Parts may be dry already, covered, or in stiller air.", reckoning.OurChoice)
	case d.fitted.Low > d.reckoned.High:
		out.Object("It loses more than this air should take: drops, blotting or a heat near by. Weigh again.", reckoning.OurChoice)
	}
}

func dryingCautions(s *reckoning.Sheet, out *reckoning.Result, d *dries, long bool) {
	out.Object("Not dry by this alone: the falling-rate period adds time. Check seams, hems and thick places by touch, weight or humidity.", wetSource)
	if long {
		out.Object("This may take above 24 hours. Dry within 24 to 48 hours, or mould starts: more air, drier air, both sides, fresh blotters.", mouldSource)
	} else {
		out.Object("Dry within 24 to 48 hours of wetting, or mould starts. The time in the baths counts.", mouldSource)
	}
	dampCaution(s, out, d.air)
	out.Object("Tide lines form where soil reaches the drying edge. Cover edges, or dry evenly and fast, and keep one part from drying before the next.", tideSource)
	if !s.Has("surface") {
		out.Object("Sun, lamps or a warm support make the surface warmer than the wet bulb: it then dries faster, and a bleeding dye moves more.", reckoning.CommonPractice)
	}
}
