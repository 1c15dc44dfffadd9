package meter

import (
	"errors"
	"math"
	"slices"

	"sinkside/calc/unit"
)

// Potential is an electrode's voltage in millivolts.
type Potential float64

// Theory returns by how many millivolts a perfect electrode falls for each pH, at
// a temperature: ln(10)·R·T/F, 59.16 at 25 °C. R and F are exact by definition of
// the units (from memory).
func Theory(at unit.Temperature) Potential {
	const gas, faraday, zero = 8.314462618, 96485.33212, 273.15
	return Potential(math.Ln10 * gas * 1000 / faraday * (at.Celsius() + zero))
}

// Ideal returns what a perfect electrode shows in a pH: 0 mV in 7.
func Ideal(ph float64, at unit.Temperature) Potential {
	return Potential(float64((7 - ph) * float64(Theory(at))))
}

// BufferError is how far off a buffer's tabled pH may be.
const BufferError = 0.02

// Point is one buffer as it was measured.
type Point struct {
	PH   float64
	Read Potential
}

// Why points make no calibration.
var (
	ErrPoints   = errors.New("two or three buffers make a calibration")
	ErrApart    = errors.New("the buffers lie too near to one another")
	ErrReadings = errors.New("the readings do not fall from the acid to the alkaline buffer as those of a pH electrode do")
)

// Apart is how far two buffers must lie from one another, in pH: nearer, a reading
// that is off by 1 mV moves the slope by more than 1.7 %.
const Apart = 1.0

// Calibration is the line, or for three buffers the two lines, that bring
// readings to pH.
type Calibration struct {
	At     unit.Temperature
	Points []Point   // by pH
	Slope  Potential // by how much it falls for each pH, on the straight line nearest to all
	Offset Potential // on that line, in pH 7
}

// Calibrate makes a calibration of two or three buffers read at one temperature.
// Between a tenth and twice the theoretical slope is taken; what lies outside is
// no pH electrode in these buffers.
func Calibrate(points []Point, at unit.Temperature) (Calibration, error) {
	if len(points) < 2 || len(points) > 3 {
		return Calibration{}, ErrPoints
	}
	c := Calibration{At: at, Points: slices.Clone(points)}
	slices.SortFunc(c.Points, func(a, b Point) int {
		if a.PH < b.PH {
			return -1
		}
		return 1
	})
	theory := Theory(at)
	for i, p := range c.Points[1:] {
		apart := p.PH - c.Points[i].PH
		if !(apart >= Apart-1e-9) {
			return Calibration{}, ErrApart
		}
		slope := (c.Points[i].Read - p.Read) / Potential(apart)
		if !(slope > theory/10 && slope < theory*2) {
			return Calibration{}, ErrReadings
		}
	}
	c.fit()
	return c, nil
}

// fit lays the line by least squares.
func (c *Calibration) fit() {
	n := float64(len(c.Points))
	var ph, read float64
	for _, p := range c.Points {
		ph += p.PH / n
		read += float64(p.Read) / n
	}
	var both, square float64
	for _, p := range c.Points {
		both += float64((p.PH - ph) * (float64(p.Read) - read))
		square += float64((p.PH - ph) * (p.PH - ph))
	}
	c.Slope = Potential(-both / square)
	c.Offset = Potential(read + float64(float64(c.Slope)*(ph-7)))
}

// Moved returns the calibrations that result when each buffer's pH, and each reading
// of one, is off by so much, up or down, in every combination. Off must leave the
// readings falling: see [Calibration.Nearest].
func (c Calibration) Moved(ph float64, read Potential) []Calibration {
	sign := func(corner, bit int) float64 { return float64(2*(corner>>bit&1) - 1) }
	n := len(c.Points)
	bits := n
	if read > 0 {
		bits = 2 * n
	}
	var out []Calibration
	for corner := range 1 << bits {
		moved := Calibration{At: c.At, Points: slices.Clone(c.Points)}
		for i := range moved.Points {
			moved.Points[i].PH += float64(sign(corner, i) * ph)
			if read > 0 {
				moved.Points[i].Read += Potential(float64(sign(corner, n+i) * float64(read)))
			}
		}
		moved.fit()
		out = append(out, moved)
	}
	return out
}

// Nearest returns by how much the readings of two neighbouring buffers differ where
// they lie nearest to one another.
func (c Calibration) Nearest() Potential {
	least := c.Points[0].Read - c.Points[1].Read
	for i := range c.Points[1:] {
		least = min(least, c.Points[i].Read-c.Points[i+1].Read)
	}
	return least
}

// Share returns the slope as a share of the theoretical one.
func (c Calibration) Share() float64 { return float64(c.Slope / Theory(c.At)) }

// Zero returns the pH in which the electrode shows 0 mV.
func (c Calibration) Zero() float64 { return 7 + float64(c.Offset/c.Slope) }

// PH returns the pH of a reading: on the line between its two buffers, and beyond
// the outermost on the line through the last two. A buffer's own reading gives
// that buffer.
func (c Calibration) PH(read Potential) float64 {
	i := 0
	if len(c.Points) == 3 && read < c.Points[1].Read {
		i = 1
	}
	a, b := c.Points[i], c.Points[i+1]
	return a.PH + float64(float64(a.Read-read)/float64(a.Read-b.Read)*(b.PH-a.PH))
}

// Within reports whether a pH lies between the outermost buffers, but for
// rounding.
func (c Calibration) Within(ph float64) bool {
	return ph >= c.Points[0].PH-1e-9 && ph <= c.Points[len(c.Points)-1].PH+1e-9
}

// State is what a slope or an offset says about an electrode.
type State int

// States, best first.
const (
	Good State = iota
	Worn
	Poor
	Failed
)

// SlopeState judges a slope, in per cent of the theoretical, rounded to a tenth:
// 95 to 105 probably works; 90 to 95 wants cleaning and fresh filling solution; 85
// to 90 full care before use; below 85 the meter takes it no more (manual
// 109118-1 of a bench pH meter, 3.4.2, read). Above 105 the manual says nothing:
// buffers, temperature or readings are likely wrong, and it is put down as poor.
func SlopeState(percent float64) State {
	switch tenth := math.Round(percent * 10); {
	case tenth < 850:
		return Failed
	case tenth < 900 || tenth > 1050:
		return Poor
	case tenth < 950:
		return Worn
	}
	return Good
}

// MostOffset is how far from 0 mV an electrode in good order may show in pH 7:
// outside of ±30 mV the bulb is coated and wants cleaning (sheet "How to calculate
// offset and slope", studylib.net 25392327, and two manuals of pH meters, read).
const MostOffset Potential = 30

// OffsetState judges an offset, rounded to a tenth of a millivolt.
func OffsetState(offset Potential) State {
	if math.Round(math.Abs(float64(offset))*10) > math.Round(float64(MostOffset)*10) {
		return Poor
	}
	return Good
}
