// Package light reckons with exposure to light: doses, what they do to the blue
// wools that colours are compared with, and what limits leave over. Illuminance is
// in lux, doses are in million lux hours (Mlx·h), times in hours.
package light

import "math"

// Dose returns the dose of an illuminance over so many hours.
func Dose(lux, hours float64) float64 { return lux * hours / 1e6 }

// Flashes returns the dose of so many flashes of so many lux seconds each (E.
// Hagan, Canadian Conservation Institute, background note, read).
func Flashes(luxSeconds, flashes float64) float64 { return luxSeconds * flashes / 3.6e9 }

// Wool is one of the eight blue wools: the doses to a just noticeable fade.
type Wool struct{ WithUV, WithoutUV float64 }

// Wools holds blue wool 1 to 8. From memory of the Canadian Conservation
// Institute's page on light, table 3, and of CIE 157:2004; some copies give 1100
// for the last. Good to a factor of 1.5.
var Wools = [8]Wool{{0.22, 0.3}, {0.6, 1}, {1.5, 3}, {3.5, 10}, {8, 30}, {20, 100}, {50, 300}, {120, 1000}}

// Uncertain is the factor that the doses of Wools may be off by, either way.
const Uncertain = 1.5

// Fade returns the dose to a just noticeable fade of blue wool n, 1 to 8.
func Fade(n int, uv bool) float64 {
	if uv {
		return Wools[n-1].WithUV
	}
	return Wools[n-1].WithoutUV
}

// Class is a class of response to light with what is published as its limits.
type Class struct {
	Name string
	Lux  float64 // at most
	Year float64 // lux hours a year, at most
}

// CIE157 are the classes of CIE 157:2004, from memory; irresponsive materials have
// no limit.
var CIE157 = [3]Class{{"high", 50, 15000}, {"medium", 50, 150000}, {"low", 200, 600000}}

// Published is a yearly limit that somebody published, for what it names.
type Published struct {
	By    string
	For   string
	Lux   float64 // 0: not given
	Year  float64 // lux hours
	Known string  // how it is known
}

// Limits are published yearly limits, which do not agree with each other.
var Limits = []Published{
	{"CIE 157:2004", "high responsivity", 50, 15000, "from memory"},
	{"CIE 157:2004", "medium responsivity", 50, 150000, "from memory"},
	{"CIE 157:2004", "low responsivity", 200, 600000, "from memory"},
	{"summaries of CIE 157, several", "most sensitive, textiles included", 50, 150000, "read; takes the figure of the middle class"},
	{"National Gallery, London, data file", "medium, naming textiles and dyed leather", 0, 150000, "read"},
	{"National Gallery, London, data file", "low", 150, 600000, "read"},
	{"Science Museum of Minnesota", "very sensitive", 50, 12000, "read"},
	{"Science Museum of Minnesota", "sensitive", 150, 100000, "read"},
	{"a guideline, quoted at second hand", "sensitive works, ideal", 50, 50000, "read"},
}

// Allowed returns the hours that a yearly limit leaves at an illuminance.
func Allowed(year, lux float64) float64 { return year / lux }

// Ultraviolet returns the irradiance in mW/m² of light of so many lux with so many
// microwatts to the lumen.
func Ultraviolet(lux, share float64) float64 { return lux * share / 1000 }

// MonthsShown returns for how many months of a year something may be on display so
// that a dose is reached after so many years; monthly is the dose of a month on
// display. At most 12.
func MonthsShown(dose, years, monthly float64) float64 {
	return math.Min(dose/years/monthly, 12)
}
