// Package lighting accounts for reckonings with light: doses, fading, limits and
// how long a thing may be shown.
package lighting

import (
	"sinkside/calc/light"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

const family = "Light"

var (
	hagan    = reckoning.Source{Name: "light dose", Where: "E. Hagan, Canadian Conservation Institute, background note: dose = E × h × n × t, a flash d ÷ 3.6 × 10⁹; one just noticeable difference is about ΔE 1.6, step 4 of the grey scale.", Mark: reckoning.Read}
	bluewool = reckoning.Source{Name: "blue wools", Where: "Doses to a just noticeable fade: Canadian Conservation Institute, Light, ultraviolet and infrared, table 3, and CIE 157:2004. Only the text around the table was read. Good to a factor of 1.5.", Mark: reckoning.Memory}
	cie157   = reckoning.Source{Name: "CIE 157:2004", Where: "Control of damage to museum objects by optical radiation: high, medium and low responsivity.", Mark: reckoning.Memory}
	limits   = reckoning.Source{Name: "other published limits", Where: "National Gallery, London, data file; Science Museum of Minnesota; a guideline quoted at cgccomics.com; summaries of CIE 157 that give the middle class's figure for the most sensitive.", Mark: reckoning.Read}
	levels   = reckoning.Source{Name: "levels of light", Where: "Sheet of recommended light levels, scribd 511525039: sensitive, textiles among them, 50 lx; less sensitive 150 lx; least 300 lx.", Mark: reckoning.Read}
	display  = reckoning.Source{Name: "time on display", Where: "Sheet of recommended light levels, scribd 511525039: sensitive items no more than three months at a time. George Washington University, Textile Museum: four months a year.", Mark: reckoning.Read}
	uvlevel  = reckoning.Source{Name: "ultraviolet", Where: "Recommended light levels, scribd 511525039: ideally 0 to 10 µW/lm, at most 75; the 75 came from what a tungsten lamp gives and old meters could read (Conservation DistList 2001/1474).", Mark: reckoning.Read}
)

func lux() reckoning.Input {
	return reckoning.Quantity("lux", "Illuminance", "lx", 0.1, 100000)
}

// off is how far an input may be off.
func off(of reckoning.Input) reckoning.Input { return reckoning.PlusMinus(&of) }

func perDay() reckoning.Input {
	return reckoning.Quantity("day", "Lit in a day", "h", 0, 24).In("h", "min")
}

func perYear() reckoning.Input { return reckoning.Number("days", "Days in a year", 0, 366) }

// yearly is the dose of a year, Mlx·h.
func yearly(s *reckoning.Sheet) float64 {
	return light.Dose(s.Base("lux"), s.Base("day")*s.Base("days"))
}

func lx(x float64) string   { return reckoning.InUnit("lx", x) }
func mlxh(x float64) string { return reckoning.InUnit("Mlx·h", x) }

// wools offers the eight blue wools.
func wools() reckoning.Input {
	pairs := []string{"4", "blue wool 4"}
	for _, n := range []string{"1", "2", "3", "5", "6", "7", "8"} {
		pairs = append(pairs, n, "blue wool "+n)
	}
	return reckoning.Choose("wool", "Its colours fade like", pairs...).Note("1 to 3 count as high, 4 to 6 as medium, 7 and 8 as low sensitivity. Of an unknown dye nobody knows: take the lower.")
}

func ultraviolet() reckoning.Input {
	return reckoning.Choose("uv", "The light", "without", "has its ultraviolet filtered out", "with", "has ultraviolet in it, as daylight behind glass")
}

// fades is the dose to a just noticeable fade by the form.
func fades(s *reckoning.Sheet) float64 {
	return light.Fade(int(s.Choice("wool")[0]-'0'), s.Choice("uv") == "with")
}

func workFade(s *reckoning.Sheet, out *reckoning.Result) {
	out.Work("Dose to a just noticeable fade, about ΔE 1.6, of blue wool "+s.Choice("wool")+", from memory of the published table; the range is the factor of 1.5 that the table is good to, with what the light may be off by.", "", mlxh(fades(s)), bluewool.Name)
	if s.Choice("wool") == "8" && s.Choice("uv") == "without" {
		out.Work("For blue wool 8 some copies of the table give 1100 Mlx·h; the range holds both.", "", "", bluewool.Name)
	}
}

func fadeCautions(out *reckoning.Result) {
	out.Object("A blue wool stands for dyes that fade as it does. A dye that was not tested, or mixed, or on another fibre, may fade sooner; fading cannot be undone.", bluewool)
	out.Object("What has faded already fades more slowly than what was kept in the dark: the inside of a seam may still be as new.", reckoning.CommonPractice)
}

func years(x float64) string { return unit.Text(x, 3) + " years" }
