// Package meter reckons with the instruments of a wash day: what a pH electrode
// shows of its buffers, what the constant of a conductivity cell is, and on which
// calibration a reading stands.
package meter

import (
	"errors"

	"sinkside/calc/unit"
)

// ErrOutside says that a table does not reach to a temperature. Nothing is
// carried on beyond a table here.
var ErrOutside = errors.New("the table of this standard does not reach to this temperature")

// table is a quantity at a rising row of temperatures, °C.
type table struct {
	at, is []float64
}

// straight returns the value between its two neighbours, in proportion.
func (t table) straight(at unit.Temperature) (float64, error) {
	i, err := t.below(at)
	if err != nil {
		return 0, err
	}
	share := (at.Celsius() - t.at[i]) / (t.at[i+1] - t.at[i])
	return t.is[i] + float64(share*(t.is[i+1]-t.is[i])), nil
}

// below returns the place of the last row at or below a temperature, at most the
// last but one.
func (t table) below(at unit.Temperature) (int, error) {
	last := len(t.at) - 1
	if !(at.Celsius() >= t.at[0] && at.Celsius() <= t.at[last]) {
		return 0, ErrOutside
	}
	i := 0
	for i < last-1 && t.at[i+1] <= at.Celsius() {
		i++
	}
	return i, nil
}

// curved returns the value on the cubic through the four rows around it, for
// tables whose rows are too far apart for a straight line.
func (t table) curved(at unit.Temperature) (float64, error) {
	i, err := t.below(at)
	if err != nil {
		return 0, err
	}
	from := min(max(i-1, 0), len(t.at)-4)
	sum := 0.0
	for j := from; j < from+4; j++ {
		term := t.is[j]
		for k := from; k < from+4; k++ {
			if k != j {
				term *= (at.Celsius() - t.at[k]) / (t.at[j] - t.at[k])
			}
		}
		sum += term
	}
	return sum, nil
}
