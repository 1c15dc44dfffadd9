package water

// Resistivity is a resistivity in megohm centimetres.
type Resistivity float64

// Resistivity returns the same as a resistivity: 1 MΩ·cm is 1 µS/cm.
func (k Conductivity) Resistivity() Resistivity { return Resistivity(1 / float64(k)) }

// Conductivity returns the same as a conductivity.
func (r Resistivity) Conductivity() Conductivity { return Conductivity(1 / float64(r)) }

// Pure is what water of nothing else conducts at 25 °C, µS/cm, about (from
// memory). A reading below it is the meter's.
const Pure Conductivity = 0.055

// InAir is what pure water conducts at 25 °C once it has taken up what carbon
// dioxide the air gives it, µS/cm (CRC Handbook p. 5-73, read).
const InAir Conductivity = 1.10

// Grade is one grade of laboratory water: the greatest conductivity at 25 °C, and
// the range of pH where the standard gives one (HighPH above 0).
type Grade struct {
	Name          string
	Most          Conductivity
	LowPH, HighPH float64
}

// ISO lists the grades of ISO 3696:1987, purest first (table reprinted at
// profinor.no, read). That reprint gives 5.0 to 7.0 as the pH of grade 3; another
// (gamma3ecologia.com, read) and the standard (from memory) 5.0 to 7.5.
var ISO = []Grade{{"grade 1", 0.1, 0, 0}, {"grade 2", 1.0, 0, 0}, {"grade 3", 5.0, 5.0, 7.5}}

// ASTM lists the types of ASTM D1193-99 by conductivity, purest first (table on
// the publisher's page, read): type III is purer by it than type II, whose other
// limits are the stricter ones.
var ASTM = []Grade{{"type I", 0.056, 0, 0}, {"type III", 0.25, 0, 0}, {"type II", 1.0, 0, 0}, {"type IV", 5.0, 5.0, 8.0}}

// TypeI is the least resistivity of ASTM type I as printed, MΩ·cm: 0.056 µS/cm is
// 17.86, so that the two limits of that type differ by a hair.
const TypeI Resistivity = 18

// Meets reports whether a conductivity at 25 °C lies within the grade. What only
// rounding is over the limit is within.
func (g Grade) Meets(k Conductivity) bool { return k <= g.Most*(1+1e-9) }

// MeetsPH reports whether a pH lies within the grade, as any does where the
// standard gives no range.
func (g Grade) MeetsPH(ph float64) bool {
	return g.HighPH == 0 || ph >= g.LowPH-1e-9 && ph <= g.HighPH+1e-9
}

// Reached returns the grades whose conductivity is met, purest first.
func Reached(grades []Grade, k Conductivity) []Grade {
	for i, g := range grades {
		if g.Meets(k) {
			return grades[i:]
		}
	}
	return nil
}
