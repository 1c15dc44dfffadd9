package climate

import (
	"math"
	"strconv"

	"sinkside/calc/air"
	"sinkside/calc/drying"
	"sinkside/calc/reckoning"
	"sinkside/calc/rinse"
	"sinkside/calc/unit"
)

// Sources of drying.
var (
	poolSource  = reckoning.Source{Name: "pool equation", Where: "(0.089 + 0.0782 v)(pw - pa) ÷ Y in kg/s for a square metre, kPa and kJ/kg: ASHRAE Handbook, HVAC Applications. Its form in mmHg and an abstract with that in inches were read.", Mark: reckoning.Memory}
	ratioSource = reckoning.Source{Name: "equation by humidity ratios", Where: "(25 + 19 v)(xs - x) in kg/h for a square metre: an engineering site, as quoted with its worked example in a forum, physicsforums.com 242677.", Mark: reckoning.Read}
	offSource   = reckoning.Source{Name: "how far off", Where: "Undisturbed pools lost about 74 % of what the pool equation gives: ASHRAE Transactions 104 (1998), abstract. From it ±30 % is taken on both sides.", Mark: reckoning.Read}
	wetSource   = reckoning.Source{Name: "wet-bulb surface", Where: "A wet textile dries at the wet-bulb temperature while its surface is wet, and slower afterwards: a drying guide, heat-tech.biz.", Mark: reckoning.Read}
	mouldSource = reckoning.Source{Name: "drying in time", Where: "US Environmental Protection Agency, A Brief Guide to Mold, Moisture, and Your Home: dry wet materials within 24 to 48 hours.", Mark: reckoning.Read}
	tideSource  = reckoning.Source{Name: "tide lines", Where: "Journal of the American Institute for Conservation 22: brown lines form where soil and products of cellulose reach the drying edge; dry faster, or cover so that they end in the cover.", Mark: reckoning.Read}
)

// mostMinutes is beyond what a time to dry means anything: two weeks.
const mostMinutes = 20160

// Drying reckons how fast a textile dries.
func Drying() *reckoning.Reckoning {
	mass := func(name, title, help string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "g", Units: []string{"g", "kg", "oz", "lb"}, Min: 0.1, Max: 200000, Optional: true, Help: help}
	}
	water, dry, wet := mass("water", "Water held", "Leave empty to have it from the masses below."), mass("dry_mass", "Dry mass of the textile", "As weighed before washing, with the support if it is weighed with it."), mass("wet_mass", "Wet mass", "Now, weighed as the dry mass was.")
	temperature, humidity := airTemperature(), humidityOf()
	speed := reckoning.Input{Name: "air_speed", Title: "Speed of the air", Kind: reckoning.KindQuantity, Unit: "m/s", Units: []string{"m/s", "ft/min"}, Max: 5, Default: "0.1", Optional: true,
		Help: "Over the cloth: about 0.05 in a still room."}
	length := func(name, title string) reckoning.Input {
		return reckoning.Input{Name: name, Title: title, Kind: reckoning.KindQuantity, Unit: "cm", Units: []string{"cm", "mm", "m", "in", "ft"}, Min: 0.5, Max: 2000, Optional: true}
	}
	weighed := mass("weighed", "Weighings", "One for each time, always with the same support: 612; 590; 571.")
	weighed.Kind = reckoning.KindSeries
	return (&reckoning.Reckoning{
		Name: "drying", Title: "Time to dry", Asks: "How fast does it lose its water in this air, and how long at least until that is gone?", Family: family,
		Example: `{"dry_mass":"400 g","area":"0,25 m²","sides":"2","temperature":20,"humidity":78,"air_speed":"0,3","weighed_at":"0; 0.5; 1 h","weighed":"640; 628; 617","scale":0.5}`,
		Inputs: []reckoning.Input{
			water, dry, wet,
			{Name: "pick_up", Title: "Pick-up", Kind: reckoning.KindQuantity, Unit: "%", Units: []string{"%"}, Min: 1, Max: 2000, Optional: true, Help: "Water held, in per cent of the dry mass."},
			{Name: "area", Title: "Area of one side", Kind: reckoning.KindQuantity, Unit: "cm²", Units: []string{"cm²", "m²", "in²", "ft²"}, Min: 1, Max: 500000, Optional: true, Help: "Or leave empty and give width and height."},
			length("width", "Width"), length("height", "Height"),
			{Name: "sides", Title: "Sides in the air", Kind: reckoning.KindChoice, Default: "1", Choices: reckoning.Choices("1", "one: it lies on something", "2", "both: on a net or a line")},
			temperature, humidity, speed,
			{Name: "surface", Title: "Temperature of the wet surface", Kind: reckoning.KindQuantity, Unit: "°C", Units: celsiusUnits, Max: 60, Optional: true,
				Help: "Where it was measured. Otherwise the wet bulb is taken."},
			{Name: "weighed_at", Title: "Time since the start, of each weighing", Kind: reckoning.KindSeries, Unit: "min", Units: []string{"min", "h"}, Max: 20160, Optional: true, Help: "In their order: 0; 30; 60."},
			weighed,
			{Name: "scale", Title: "A weighing may be off by", Kind: reckoning.KindQuantity, Unit: "g", Units: []string{"g", "kg", "oz"}, Min: 0.01, Max: 1000, Optional: true, Help: "Taken as 1 g where it is empty, our choice. Often the last figure shown, twice over."},
			reckoning.PlusMinus(&water), reckoning.PlusMinus(&dry), reckoning.PlusMinus(&wet), reckoning.PlusMinus(&temperature), reckoning.PlusMinus(&humidity), reckoning.PlusMinus(&speed),
		},
		// A rate is given as what goes in an hour, a mass, so that who weighs in ounces
		// reads it in ounces.
		Results: []reckoning.ResultSpec{
			{Name: "rate_low", Title: "Water lost in an hour, at least", Unit: "g"},
			{Name: "rate_high", Title: "Water lost in an hour, at most", Unit: "g"},
			{Name: "minutes_low", Title: "Time at the steady rate, at least", Unit: "min"},
			{Name: "minutes_high", Title: "Time at the steady rate, at most", Unit: "min"},
			{Name: "water_left", Title: "Water still held", Unit: "g"},
			{Name: "wet_surface", Title: "Temperature of the wet surface", Unit: "°C"},
			{Name: "rate_pool", Title: "In an hour, by the pool equation", Unit: "g"},
			{Name: "rate_ratio", Title: "In an hour, by the equation with humidity ratios", Unit: "g"},
		},
		Sources: reckoning.From(&poolSource, &ratioSource, &offSource, &wetSource, &reckoning.PickUpRule, &saturation, &psychrometry, &mouldSource, &dampAir, &tideSource, &residues, &reckoning.OurChoice, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Prepare: prepareDrying, Figures: dryingFigures, Explain: explainDrying, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func prepareDrying(s *reckoning.Sheet) {
	switch {
	case !s.Has("area") && !(s.Has("width") && s.Has("height")):
		s.Missing("area", "it is needed, or width and height in its place.")
	case s.Has("area") && (s.Has("width") || s.Has("height")):
		s.Fault("area", "width or height is given as well. Leave one of the two empty.")
	}
	at, m := s.Series("weighed_at"), s.Series("weighed")
	if len(at) != len(m) {
		s.Beyond("weighed", asMany(len(at)), reckoning.Counted(len(m), "weighing")+" for "+reckoning.Counted(len(at), "time")+". Give one for each.")
		return
	}
	for i := 1; i < len(at); i++ {
		if at[i] <= at[i-1] {
			before := s.InAnswersUnit("weighed_at", at[i-1])
			s.Beyond("weighed_at", "above "+before, "entry "+strconv.Itoa(i+1)+" is not later than the one before it: "+s.InAnswersUnit("weighed_at", at[i])+" after "+before+".")
		}
	}
	switch {
	case len(m) > 0 && !s.Has("dry_mass"):
		s.Missing("dry_mass", "it is needed, since weighings are given.")
	case len(m) == 0 && !s.Has("water") && !(s.Has("dry_mass") && (s.Has("wet_mass") || s.Has("pick_up"))):
		s.Missing("water", "it is needed, or the dry mass with the wet mass or the pick-up in its place.")
	}
}

// notWet is what is wrong where the wet mass is not above the dry one; nil where it is.
func notWet(s *reckoning.Sheet) *reckoning.Problem {
	if !s.Has("wet_mass") || !s.Has("dry_mass") || s.Base("wet_mass") > s.Base("dry_mass") {
		return nil
	}
	dry := s.InAnswersUnit("wet_mass", s.Base("dry_mass"))
	return s.Cannot("wet_mass", "above "+dry, s.InAnswersUnit("wet_mass", s.Base("wet_mass"))+" is not above the dry mass of "+dry+".")
}

// condensing is what is wrong where the surface is so cold that water condenses on it;
// nil where none does.
func condensing(s *reckoning.Sheet) *reckoning.Problem {
	if !s.Has("surface") {
		return nil
	}
	dew := roomOf(s).DewPoint()
	if unit.Temperature(s.Base("surface")) > dew {
		return nil
	}
	return s.Limits("surface", dew.Celsius(), math.Inf(1), "is not above the dew point of "+s.Degrees(dew)+", so that water would condense on it")
}

// asMany says how many figures are wanted; empty where nobody knows.
func asMany(n int) string {
	if n == 0 {
		return ""
	}
	return reckoning.Counted(n, "figure")
}

// room is the air that it dries in, at the pressure of the standard atmosphere.
func roomOf(s *reckoning.Sheet) air.State {
	return air.ByHumidity(unit.Temperature(s.Base("temperature")), unit.Fraction(s.Base("humidity")), air.Standard)
}

// scale is what one weighing may be off; our own choice where it is not given.
func scaleOf(s *reckoning.Sheet) unit.Mass {
	if s.Has("scale") {
		return unit.Mass(s.Base("scale"))
	}
	return 1
}

// dries is all that is found about one drying.
type dries struct {
	air         air.State
	surface     unit.Temperature
	area        float64 // m², all sides
	pool, ratio drying.Flux
	reckoned    drying.Rate
	fitted      drying.Fitted
	refused     error // why the weighings, if any, correct nothing
	rate        drying.Rate
	left        float64 // g; below 0 where it is not known
}

func driesOf(s *reckoning.Sheet) dries {
	d := dries{air: roomOf(s), area: s.Base("area"), left: -1}
	if !s.Has("area") {
		d.area = s.Base("width") * s.Base("height") / 1e6
	}
	if s.Choice("sides") == "2" {
		d.area *= 2
	}
	d.surface = unit.Temperature(s.Base("surface"))
	if !s.Has("surface") {
		d.surface = d.air.WetBulb()
	}
	speed := s.Base("air_speed")
	d.pool, d.ratio = drying.Pool(d.air, d.surface, speed), drying.Ratio(d.air, d.surface, speed)
	d.reckoned = drying.From(d.pool, d.ratio, d.area)
	d.rate = d.reckoned
	dry, m := s.Base("dry_mass"), s.Series("weighed")
	switch {
	case len(m) > 0:
		d.fitted, d.refused = drying.Weighings{At: s.Series("weighed_at"), Masses: m, Dry: unit.Mass(dry), Scale: scaleOf(s)}.Fit(d.reckoned)
		if d.refused == nil {
			d.rate = d.fitted.Rate
		}
		if d.refused != drying.ErrBelowDry {
			d.left = max(m[len(m)-1]-dry, 0)
		}
	case s.Has("water"):
		d.left = s.Base("water")
	case s.Has("wet_mass"):
		d.left = s.Base("wet_mass") - dry
	default:
		d.left = rinse.PickUp(unit.Mass(dry), unit.Fraction(s.Base("pick_up"))).Grams()
	}
	return d
}

// corrected reports whether weighings took the place of the equations.
func (d *dries) corrected(s *reckoning.Sheet) bool {
	return len(s.Series("weighed")) > 0 && d.refused == nil
}

// hours returns the least and the most that the water takes at the steady rate,
// and false where that means nothing.
func (d *dries) hours() (low, high float64, ok bool) {
	if d.left < 0 || d.rate.Low <= 0 {
		return 0, 0, false
	}
	low, high = drying.Hours(unit.Mass(d.left), d.rate.High), drying.Hours(unit.Mass(d.left), d.rate.Low)
	return low, high, high*60 <= mostMinutes
}

func dryingFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	if p := notWet(s); p != nil {
		return nil, p
	}
	if p := condensing(s); p != nil {
		return nil, p
	}
	d := driesOf(s)
	grams := d.area * 1000
	var out reckoning.Figures
	out.Add("rate_low", d.rate.Low)
	out.Add("rate_high", d.rate.High)
	if low, high, ok := d.hours(); ok {
		out.Add("minutes_low", low)
		out.Add("minutes_high", high)
	}
	if d.left >= 0 {
		out.Add("water_left", d.left)
	}
	out.Add("wet_surface", d.surface.Celsius())
	out.Add("rate_pool", max(float64(d.pool), 0)*grams)
	out.Add("rate_ratio", max(float64(d.ratio), 0)*grams)
	return out, nil
}
