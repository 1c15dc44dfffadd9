package lighting

import (
	"sinkside/calc/light"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// Fade reckons when a fade is just noticed.
func Fade() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "fade", Title: "Until a fade is noticed", Asks: "How long until these colours fade so that one notices?", Family: family,
		Inputs: []reckoning.Input{wools(), ultraviolet(), lux(), perDay(), perYear(), off(lux()), off(perDay()), off(perYear())},
		Results: []reckoning.ResultSpec{
			{Name: "dose", Title: "Dose to a just noticeable fade", Unit: "Mlx·h"}, {Name: "hours", Title: "Hours at this light", Unit: "h"}, {Name: "years", Title: "Years of this use"},
		},
		Sources: reckoning.From(&bluewool, &hagan, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"wool":"3","uv":"without","lux":"50","day":"10","days":"300"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			dose := fades(s)
			spread := func(name string, x float64) { out.Between(name, x, x/light.Uncertain, x*light.Uncertain) }
			spread("dose", dose)
			spread("hours", dose*1e6/s.Base("lux"))
			if y := yearly(s); y > 0 && dose/y < 1e6 {
				spread("years", dose/y)
			}
			return out, nil
		},
		Explain: func(s *reckoning.Sheet, out *reckoning.Result) {
			workFade(s, out)
			dose := fades(s)
			out.Work("Hours of this light.", "dose ÷ lux", mlxh(dose)+" ÷ "+lx(s.Base("lux"))+" = "+reckoning.InUnit("h", dose*1e6/s.Base("lux")), reckoning.Arithmetic.Name)
			if y := yearly(s); y > 0 && dose/y < 1e6 {
				out.Work("Years of this use.", "dose ÷ dose of a year", mlxh(dose)+" ÷ "+mlxh(y)+" = "+years(dose/y), hagan.Name)
			} else {
				out.NotKnown("years", s.Title("years"), "It is hardly lit at all: longer than anybody can say.")
			}
			fadeCautions(out)
		},
	}).Ready()
}

// Cap sets published yearly limits beside a use.
func Cap() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "light_cap", Title: "Yearly limits of light", Asks: "How many hours a year do the published limits allow at this light?", Family: family,
		Inputs: []reckoning.Input{
			lux(),
			reckoning.Quantity("own", "Limit that you set yourself", "lx·h", 1, 5e6).Maybe().Note("For a year. The published ones do not agree; you decide."),
			hoursLit(), off(lux()), off(hoursLit()),
		},
		Results: []reckoning.ResultSpec{
			{Name: "own_hours", Title: "Hours by your own limit", Unit: "h"}, {Name: "dose", Title: "This use, in a year", Unit: "lx·h"},
			{Name: "least", Title: "Hours by the strictest published limit", Unit: "h"}, {Name: "most", Title: "Hours by the loosest published limit", Unit: "h"},
		},
		Sources: reckoning.From(&cie157, &limits, &levels, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"lux":"50","own":"15000","hours":"1200"}`,
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			e := s.Base("lux")
			if s.Has("own") {
				out.Add("own_hours", light.Allowed(s.Base("own")*1e6, e))
			}
			if s.Has("hours") {
				out.Add("dose", light.Dose(e, s.Base("hours")))
			}
			least, most := light.Limits[0].Year, light.Limits[0].Year
			for _, l := range light.Limits {
				least, most = min(least, l.Year), max(most, l.Year)
			}
			out.Add("least", light.Allowed(least, e))
			out.Add("most", light.Allowed(most, e))
			return out, nil
		},
		Explain: explainCap,
	}).Ready()
}

func hoursLit() reckoning.Input {
	return reckoning.Quantity("hours", "Hours of light in a year", "h", 0, 8784).In("h", "min").Maybe()
}

func explainCap(s *reckoning.Sheet, out *reckoning.Result) {
	e := s.Base("lux")
	strict, loose := light.CIE157[0].Year, light.CIE157[1].Year // summaries give the second for the first class
	table := out.Table("Published limits, which do not agree", "By", "For", "At most", "In a year", "Hours at this light", "Known")
	for _, l := range light.Limits {
		at := "-"
		if l.Lux > 0 {
			at = lx(l.Lux)
		}
		table.Row(l.By, l.For, at, unit.Text(l.Year, 6)+" lx·h", unit.Text(light.Allowed(l.Year, e), 3), l.Known)
	}
	out.Work("Hours that a limit leaves.", "limit of a year ÷ lux", reckoning.InUnit("lx·h", strict/1e6)+" ÷ "+lx(e)+" = "+reckoning.InUnit("h", light.Allowed(strict, e)), reckoning.Arithmetic.Name)
	out.Verdict("conflict", "The conflict", "For the most sensitive class, textiles often among them, "+reckoning.InUnit("lx·h", strict/1e6)+" a year (CIE 157, from memory) stands against "+reckoning.InUnit("lx·h", loose/1e6)+" (several summaries, read, which give the figure of the middle class). They differ by ten. Nothing here chooses: set your own limit and say why in the record.")
	if s.Has("hours") && s.Has("own") {
		dose, own := light.Dose(e, s.Base("hours"))*1e6, s.Base("own")*1e6
		say, most := "This use stays within your limit.", dose
		if _, high, ok := out.Range("dose"); ok {
			most = high
		}
		switch {
		case dose > own*(1+1e-9):
			say = "This use goes beyond your limit, by " + unit.Text(dose-own, 3) + " lx·h a year."
		case most > own*(1+1e-9):
			say = "This use stays within your limit by the middle of the readings; within their ± it may go beyond, to " + unit.Text(most, 3) + " lx·h a year."
		}
		out.Verdict("own", "Your own limit", say)
	}
	over := ""
	for _, c := range light.CIE157 {
		if e > c.Lux*(1+1e-9) {
			if over != "" {
				over += ", "
			}
			over += lx(c.Lux) + " for " + c.Name + " responsivity"
		}
	}
	if over != "" {
		out.Object("At "+s.InWords(unit.IlluminanceKind, e)+" it is brighter than CIE 157 has it at the most, from memory, however short: "+over+".", cie157)
	}
	out.Work("As levels, and not as doses, others are published: 50 lx for textiles, 150 lx for the less sensitive, 300 lx for the least.", "", "", levels.Name)
	out.Object("A limit is a pace of damage that somebody accepted, not one below which nothing happens.", reckoning.CommonPractice)
}

// Rota reckons for how many months of a year something may be shown.
func Rota() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "rota", Title: "Months on display", Asks: "How many months a year may it be shown, so that a fade is not noticed for so many years?", Family: family,
		Inputs: []reckoning.Input{
			wools(), ultraviolet(), lux(), perDay(),
			daysOpen(),
			reckoning.Number("life", "Years until a fade may be noticed", 1, 1000),
			reckoning.Count("cycle", "Years to plan", 1, 20).Usually("5"), off(lux()), off(perDay()), off(daysOpen()),
		},
		Results: []reckoning.ResultSpec{
			{Name: "months", Title: "Months on display in a year"}, {Name: "month_dose", Title: "Dose of a month on display", Unit: "lx·h"}, {Name: "year_dose", Title: "Dose that a year may have", Unit: "lx·h"},
		},
		Sources: reckoning.From(&bluewool, &hagan, &display, &reckoning.OurChoice, &reckoning.Definitions, &reckoning.CommonPractice, &reckoning.Arithmetic),
		Example: `{"wool":"2","uv":"without","lux":"50","day":"8","days":"26","life":"100","cycle":"6"}`,
		Prepare: func(s *reckoning.Sheet) {
			if s.Base("day") <= 0 {
				s.Beyond("day", "above "+s.InAnswersUnit("day", 0), "it is not lit at all, so there is nothing to plan.")
			}
		},
		Figures: func(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
			var out reckoning.Figures
			month := light.Dose(s.Base("lux"), s.Base("day")*s.Base("days"))
			at := func(dose float64) float64 { return light.MonthsShown(dose, s.Base("life"), month) }
			dose := fades(s)
			out.Between("months", at(dose), at(dose/light.Uncertain), at(dose*light.Uncertain))
			out.Add("month_dose", month)
			out.Between("year_dose", dose/s.Base("life"), dose/light.Uncertain/s.Base("life"), dose*light.Uncertain/s.Base("life"))
			return out, nil
		},
		Explain: explainRota, Usual: reckoning.OurChoice.Name,
	}).Ready()
}

func daysOpen() reckoning.Input {
	return reckoning.Number("days", "Days open in a month", 1, 31).Usually("26")
}

func explainRota(s *reckoning.Sheet, out *reckoning.Result) {
	workFade(s, out)
	month, dose, life := light.Dose(s.Base("lux"), s.Base("day")*s.Base("days")), fades(s), s.Base("life")
	months := light.MonthsShown(dose, life, month)
	out.Work("What a year may have, so that the dose lasts.", "dose ÷ years", mlxh(dose)+" ÷ "+unit.Text(life, 4)+" = "+reckoning.InUnit("lx·h", dose/life), reckoning.Arithmetic.Name)
	out.Work("A month on display.", "lux × hours × days", lx(s.Base("lux"))+" × "+reckoning.InUnit("h", s.Base("day"))+" × "+unit.Text(s.Base("days"), 3)+" = "+reckoning.InUnit("lx·h", month), hagan.Name)
	out.Work("Months on display in a year, twelve at the most.", "dose of a year ÷ dose of a month", unit.Text(months, 3), reckoning.Arithmetic.Name)
	table := out.Table("A rota, by whole months", "Year", "Shown", "Rested", "Dose so far")
	shown, sum := 0.0, 0.0
	for y := 1; y <= int(s.Base("cycle")); y++ {
		// Whole months, as many as the years so far allow: what is not used is kept.
		whole := min(float64(int(months*float64(y)+1e-9))-shown, 12)
		shown += whole
		sum += whole * month
		table.Row(unit.Text(float64(y), 3), unit.Text(whole, 3), unit.Text(12-whole, 3), reckoning.InUnit("lx·h", sum))
	}
	if months > 4+1e-9 {
		out.Object("This is more than the published rules for display: no more than three months at a time, and four months a year. Of the rule and this plan the shorter is to be kept.", display)
	} else {
		out.Object("Published rules for display: no more than three months at a time; four months a year.", display)
	}
	fadeCautions(out)
}
