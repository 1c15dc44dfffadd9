// Package salts gives the relative humidity over saturated solutions of salts in a
// closed space, and how long a chamber takes to get there. Temperatures are in °C,
// humidities in per cent.
package salts

import (
	"errors"
	"math"
)

// Salt is a salt with what is published of the air over its saturated solution.
type Salt struct {
	Name    string
	Formula string
	At      [3]float64 // %RH at 5, 20 and 25 °C after Greenspan; 0 where not given
	A, B    float64    // RH = A × e^(B ÷ T) after Wexler; A 0 where not given
	Caution string     // the hazard that is special to it; empty for none
	Note    string     // what else it asks for; empty for nothing
}

// All lists the salts from dry to damp. Greenspan 1977, Journal of Research of the
// NBS 81A, 89-96, as reprinted by T. Padfield, padfield.org (read, ±0.5); the other
// form from Wexler, Constant humidity solutions, CRC Handbook 15-33 (read, ±2 %).
var All = []Salt{
	{"lithium chloride", "LiCl·H2O", [3]float64{11.3, 11.3, 11.3}, 14.53, -75, "harmful when swallowed, irritates", ""},
	{"magnesium chloride", "MgCl2·6H2O", [3]float64{33.6, 33.1, 32.8}, 29.26, 34, "", ""},
	{"potassium carbonate", "K2CO3", [3]float64{43.1, 43.2, 43.2}, 0, 0, "alkaline, irritates skin and eyes", ""},
	{"magnesium nitrate", "Mg(NO3)2·6H2O", [3]float64{}, 25.28, 220, "an oxidiser: away from paper, cloth and solvents", ""},
	{"sodium bromide", "NaBr·2H2O", [3]float64{63.5, 59.1, 57.6}, 20.49, 308, "", ""},
	{"sodium chloride", "NaCl", [3]float64{75.7, 75.7, 75.3}, 69.2, 25, "", ""},
	{"ammonium sulfate", "(NH4)2SO4", [3]float64{}, 62.06, 79, "may give off ammonia", ""},
	{"potassium chloride", "KCl", [3]float64{87.7, 85.1, 84.3}, 49.38, 159, "", ""},
	{"potassium nitrate", "KNO3", [3]float64{}, 43.22, 225, "an oxidiser: away from paper, cloth and solvents", ""},
	{"potassium sulfate", "K2SO4", [3]float64{98.5, 97.6, 97.3}, 86.75, 34, "", "near 98 % the room must keep its temperature"},
}

// Lowest and Highest are the temperatures that the figures are published for.
const (
	Lowest  = 5.0
	Highest = 25.0
)

// ErrNone is returned where a salt has no figure of the kind asked for.
var ErrNone = errors.New("no published figure of this salt here")

// Greenspan returns the humidity over a salt at a temperature from Lowest to
// Highest, straight between the published points.
func (s Salt) Greenspan(t float64) (float64, error) {
	if s.At[1] == 0 || !(t >= Lowest && t <= Highest) {
		return 0, ErrNone
	}
	at := [3]float64{5, 20, 25}
	i := 0
	if t > at[1] {
		i = 1
	}
	share := (t - at[i]) / (at[i+1] - at[i])
	return s.At[i] + float64(share*(s.At[i+1]-s.At[i])), nil
}

// Wexler returns the humidity by the fitted form, good to ±2 % of itself.
func (s Salt) Wexler(t float64) (float64, error) {
	if s.A == 0 {
		return 0, ErrNone
	}
	return s.A * math.Exp(s.B/(t+273.15)), nil
}

// Humidity returns the best figure of the two: Greenspan's where he has one.
func (s Salt) Humidity(t float64) float64 {
	if rh, err := s.Greenspan(t); err == nil {
		return rh
	}
	rh, _ := s.Wexler(t)
	return rh
}

// Around returns the places in All of the salts whose humidities lie next below
// and next above a wanted one at a temperature; -1 where there is none.
func Around(want, t float64) (below, above int) {
	below, above = -1, -1
	for i, s := range All {
		rh := s.Humidity(t)
		if rh <= want && (below < 0 || rh > All[below].Humidity(t)) {
			below = i
		}
		if rh >= want && (above < 0 || rh < All[above].Humidity(t)) {
			above = i
		}
	}
	return below, above
}

// Hours returns after how many hours a well-mixed chamber is within near of its
// target humidity, when it starts at start and exchange of its air (or of its
// moisture with the solution) is so many times an hour. First order: what is left
// of the difference falls by e for each exchange. 0 where it is there already.
func Hours(start, target, near, exchange float64) float64 {
	off := math.Abs(target - start)
	if off <= near {
		return 0
	}
	return math.Log(off/near) / exchange
}
