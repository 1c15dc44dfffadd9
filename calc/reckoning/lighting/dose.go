package lighting

import (
	"sinkside/calc/light"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Dose reckons the dose of light.
func Dose() *reckoning.Reckoning {
	e := lux()
	return (&reckoning.Reckoning{
		Name: "light_dose", Title: "Dose of light", Asks: "How much light does it get in a year, and over the years?", Family: family,
		Inputs: []reckoning.Input{
			e, perDay(), perYear(), reckoning.Number("years", "Years", 0.001, 1000).Usually("1"),
			reckoning.Number("flash", "A flash, lux seconds", 0, 1e6).Maybe().Note("At the object. About 1000 for a camera near by."), reckoning.Number("flashes", "Flashes in a day", 0, 100000).Maybe(),
			off(e), off(perDay()), off(perYear()),
		},
		Results: []reckoning.ResultSpec{
			{Name: "in_a_day", Title: "In a day", Unit: "lx·h"}, {Name: "in_a_year", Title: "In a year", Unit: "lx·h"}, {Name: "dose", Title: "Over the years", Unit: "Mlx·h"}, {Name: "by_flashes", Title: "Of it by flashes", Unit: "lx·h"},
		},
		Sources: reckoning.From(&hagan, &reckoning.OurChoice, &reckoning.Definitions, &reckoning.CommonPractice),
		Example: `{"lux":"50","lux_pm":"5","day":"8","days":"312","years":"78","flash":"1000","flashes":"20"}`,
		Prepare: func(s *reckoning.Sheet) {
			if s.Has("flash") != s.Has("flashes") {
				name := "flash"
				if s.Has("flash") {
					name = "flashes"
				}
				s.Missing(name, "it is needed with the other of the flashes.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			flashes := light.Flashes(s.Base("flash"), s.Base("flashes")*s.Base("days"))
			var out reckoning.Figures
			out.Add("in_a_day", light.Dose(s.Base("lux"), s.Base("day"))+light.Flashes(s.Base("flash"), s.Base("flashes")))
			out.Add("in_a_year", yearly(s)+flashes)
			out.Add("dose", (yearly(s)+flashes)*s.Base("years"))
			if s.Has("flash") {
				out.Add("by_flashes", flashes*s.Base("years"))
			}
			return out, nil
		},
		Explain: explainDose, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func explainDose(s *reckoning.Sheet, out *reckoning.Result) {
	n := func(name string) string { return unit.Text(s.Base(name), 5) }
	flashes := light.Flashes(s.Base("flash"), s.Base("flashes")*s.Base("days"))
	out.Work("Dose of a year.", "E × h × n ÷ 10⁶", lx(s.Base("lux"))+" × "+reckoning.InUnit("h", s.Base("day"))+" × "+n("days")+" = "+mlxh(yearly(s)), hagan.Name)
	if s.Has("flash") {
		out.Work("Flashes of a year.", "d × F × n ÷ (3.6 × 10⁹)", n("flash")+" × "+n("flashes")+" × "+n("days")+" = "+reckoning.InUnit("lx·h", flashes), hagan.Name)
	}
	out.Work("Over the years.", "dose of a year × years", mlxh(yearly(s)+flashes)+" × "+n("years")+" = "+mlxh((yearly(s)+flashes)*s.Base("years")), hagan.Name)
	out.Object("Measured at the object, facing as it faces, with what daylight adds over the year: a reading on one afternoon is not the year's.", reckoning.CommonPractice)
	out.Object("Half the light for twice the time is the same dose, and fades as much.", hagan)
}

// Ultraviolet reckons the ultraviolet in a light.
func Ultraviolet() *reckoning.Reckoning {
	e, share := lux(), reckoning.Quantity("share", "Ultraviolet in it", "µW/lm", 0, 5000)
	return (&reckoning.Reckoning{
		Name: "ultraviolet", Title: "Ultraviolet in the light", Asks: "How much ultraviolet falls on it, and is that within what is published?", Family: family,
		Inputs:  []reckoning.Input{e, share, reckoning.PlusMinus(&e), reckoning.PlusMinus(&share)},
		Results: []reckoning.ResultSpec{{Name: "irradiance", Title: "Ultraviolet falling on it", Unit: "mW/m²"}, {Name: "share", Title: "Ultraviolet in it", Unit: "µW/lm"}},
		Sources: reckoning.From(&uvlevel, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"lux":"50","share":"75"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			out.Add("irradiance", light.Ultraviolet(s.Base("lux"), s.Base("share")))
			if s.Has("share_pm") { // its range decides what it is beside the rules
				out.Add("share", s.Base("share"))
			}
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			share := s.Base("share")
			out.Work("A lux is a lumen on a square metre.", "lux × µW/lm", lx(s.Base("lux"))+" × "+reckoning.InUnit("µW/lm", share)+" = "+reckoning.InUnit("mW/m²", light.Ultraviolet(s.Base("lux"), share)), reckoning.Arithmetic.Name)
			low, high := share, share
			if least, most, ok := out.Range("share"); ok {
				low, high = least, most
			}
			say := besideRules(share)
			if other := besideRules(high); other != say {
				say += " At the upper end of its ±: " + other
			}
			if other := besideRules(low); other != besideRules(share) {
				say += " At the lower end of its ±: " + other
			}
			out.Verdict("level", "Beside what is published", say)
			out.People("Lamps with much ultraviolet hurt eyes and skin: do not look into them, and follow the lamp's own instructions.", reckoning.CommonPractice)
			out.Object("Filters age: measure again. Light without any ultraviolet fades too.", reckoning.CommonPractice)
		},
	}).Ready()
}

// besideRules sets a share of ultraviolet in µW/lm beside the two published rules.
func besideRules(share float64) string {
	switch {
	case share > 75:
		return "Above 75 µW/lm, the most of the older rule: filter it."
	case share > 10:
		return "Not above 75 µW/lm, the older rule, but above 10, the newer aim. The two are not the same; the 75 was what a tungsten lamp gives."
	}
	return "Within 0 to 10 µW/lm, the newer published aim."
}
