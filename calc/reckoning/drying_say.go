package reckoning

import (
	"strconv"

	"sinkside/calc/air"
	"sinkside/calc/drying"
	"sinkside/calc/unit"
)

func explainDrying(s *sheet, out *Result) {
	d := s.dries()
	out.people("Water and electricity: fans, leads and sockets stand dry, out of splashes and off the floor, on a circuit with a residual-current device. Dry hands to switch.", practice)
	s.workHeld(out, &d)
	s.workRates(out, &d)
	if len(s.series("weighed")) > 0 {
		s.workWeighings(out, &d)
	}
	low, high, ok := d.hours()
	if ok {
		out.work("Time at the steady rate. What follows is slower, so this is not when it is dry.", "time = water ÷ rate",
			inUnit("g", d.left)+" ÷ "+between(d.rate)+" = "+unit.Text(low*60, 3)+" to "+unit.Text(high*60, 3)+" min", wetSource.Name)
	} else {
		say := "Not known without the water that it holds."
		if d.left >= 0 {
			say = "Too long to say, above two weeks: in this air it hardly dries."
		}
		out.unknown("minutes_low", s.r.spec("minutes_low").Title, say)
		out.unknown("minutes_high", s.r.spec("minutes_high").Title, say)
	}
	s.dryingCautions(out, &d, !ok || high > 24)
}

func between(r drying.Rate) string {
	return "(" + unit.Text(r.Low, 3) + " to " + unit.Text(r.High, 3) + " g/h)"
}

func (s *sheet) workHeld(out *Result, d *dries) {
	g := func(name string) string { return inUnit("g", s.base(name)) }
	m := s.series("weighed")
	switch {
	case d.left < 0:
		out.unknown("water_left", s.r.spec("water_left").Title, "Not known: "+d.refused.Error()+".")
	case len(m) > 0:
		out.work("Water still held, from the last weighing.", "water = last mass - dry mass", inUnit("g", m[len(m)-1])+" - "+g("dry_mass")+" = "+inUnit("g", d.left), arithmetic.Name)
	case s.has("water"):
	case s.has("wet_mass"):
		out.work("Water held.", "water = wet mass - dry mass", g("wet_mass")+" - "+g("dry_mass")+" = "+inUnit("g", d.left), arithmetic.Name)
	default:
		out.work("Water held.", "water = dry mass × pick-up", g("dry_mass")+" × "+unit.Text(unit.Fraction(s.base("pick_up")).Percent(), 4)+" % = "+inUnit("g", d.left), pickUpRule.Name)
	}
}

// workRates shows both equations and what is made of them.
func (s *sheet) workRates(out *Result, d *dries) {
	if s.has("surface") {
		out.work("Both equations take the temperature of the water at its surface: as measured.", "", celsius(d.surface), wetSource.Name)
	} else {
		out.work("Both equations take the temperature of the water at its surface, which is not that of the air: a wet cloth cools to the wet bulb.", "", "wet bulb "+celsius(d.surface), wetSource.Name)
	}
	v, area := unit.Text(s.base("air_speed"), 4), unit.Text(d.area, 4)+" m²"
	kPa := func(p air.Pressure) string { return unit.Text(float64(p)/1000, 4) }
	out.work("By the pool equation, on all sides in the air.", "rate = A × (0.089 + 0.0782 v) × (pw - pa) ÷ Y",
		area+" × (0.089 + 0.0782 × "+v+") × ("+kPa(air.Saturation(d.surface))+" - "+kPa(d.air.Vapour)+") kPa ÷ "+strconv.Itoa(drying.LatentHeat)+" kJ/kg = "+inUnit("g/h", float64(d.pool)*d.area*1000), poolSource.Name)
	out.work("By humidity ratios, at 1013.25 hPa.", "rate = A × (25 + 19 v) × (xs - x)",
		area+" × (25 + 19 × "+v+") × ("+unit.Text(air.Ratio(air.Saturation(d.surface), d.air.Whole), 4)+" - "+unit.Text(d.air.Ratio(), 4)+") kg/h = "+inUnit("g/h", float64(d.ratio)*d.area*1000), ratioSource.Name)
	out.work("A range: from the lower less 30 % to the higher and 30 %. Both were made for pools, and no cloth keeps to them closer.", "0.7 × lower to 1.3 × higher", between(d.reckoned), offSource.Name)
}

// WeighingsUnused begins the caution that says why weighings correct nothing.
const WeighingsUnused = "The weighings do not correct the rate: "

// workWeighings says what the weighings show, or why nothing.
func (s *sheet) workWeighings(out *Result, d *dries) {
	if d.refused != nil {
		out.object(WeighingsUnused+d.refused.Error()+".", ours)
		return
	}
	out.work("The weighings go before the equations. A straight line through them, by least squares; off by what each weighing may be and by how far they lie from the line, and by 10 % at least.",
		"rate = slope ± 2 × (scale + furthest) ÷ time", inUnit("g/h", d.fitted.Fit)+", scale "+inUnit("g", s.scale().Grams())+", "+between(d.fitted.Rate), ours.Name)
	switch {
	case d.fitted.Slowing:
		out.object("The last weighing shows it slowing: the steady part ends, and the rest takes longer than these minutes.", wetSource)
	case d.fitted.High < d.reckoned.Low:
		out.object("It loses less than this air could take. Parts may be dry already, covered, or in stiller air.", ours)
	case d.fitted.Low > d.reckoned.High:
		out.object("It loses more than this air should take: drops, blotting or a heat near by. Weigh again.", ours)
	}
}

func (s *sheet) dryingCautions(out *Result, d *dries, long bool) {
	out.object("Not dry by this alone: the falling-rate period adds time. Check seams, hems and thick places by touch, weight or humidity.", wetSource)
	if long {
		out.object("This may take above 24 hours. Dry within 24 to 48 hours, or mould starts: more air, drier air, both sides, fresh blotters.", mouldSource)
	} else {
		out.object("Dry within 24 to 48 hours of wetting, or mould starts. The time in the baths counts.", mouldSource)
	}
	s.dampCaution(out, d.air)
	out.object("Tide lines form where soil reaches the drying edge. Cover edges, or dry evenly and fast, and keep one part from drying before the next.", tideSource)
	if !s.has("surface") {
		out.object("Sun, lamps or a warm support make the surface warmer than the wet bulb: it then dries faster, and a bleeding dye moves more.", practice)
	}
}
