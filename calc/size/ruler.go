package size

import (
	"math"

	"sinkside/calc/unit"
)

// Ruler is what lengths are written by.
type Ruler struct {
	unit   unit.Unit
	places int // behind the point
	more   int // places than millimetres need
}

// RulerIn returns a ruler in inches or in millimetres: what tables, lists of cuts and
// workings are written by.
func RulerIn(inches bool) Ruler {
	if inches {
		return RulerFor("in")
	}
	return RulerFor("mm")
}

// RulerFor returns a ruler in the unit that was typed, inches for feet. All are read
// closer than anybody cuts, so that sums come out: to hundredths of a millimetre, which
// layouts are made in, and to thousandths of an inch, in which its eighths are whole.
func RulerFor(symbol string) Ruler {
	more := 0
	switch symbol {
	case "cm":
		more = 1
	case "m":
		more = 3
	case "in", "ft":
		symbol, more = "in", 1
	default:
		symbol = "mm"
	}
	u, _ := unit.Named(symbol)
	return Ruler{u, 2 + more, more}
}

// Coarse is the same ruler to tenths of a millimetre or hundredths of an inch: as
// close as marks are set by hand.
func (r Ruler) Coarse() Ruler { return Ruler{r.unit, r.places - 1, r.more} }

// round rounds by f to the ruler's places. A nought has no sign.
func (r Ruler) round(mm float64, f func(float64) float64) float64 {
	scale := math.Pow10(r.places)
	return f(r.unit.Of(mm)*scale)/scale + 0
}

// written is enough for ten kilometres in hundredths of a millimetre; what is rounded
// has no more.
const written = 9

// At writes a length without its unit, which a column or a title has.
func (r Ruler) At(mm float64) string { return unit.Text(r.round(mm, math.Round), written) }

// Of writes a length.
func (r Ruler) Of(mm float64) string { return r.At(mm) + " " + r.unit.Symbol }

// AtLeast writes a length rounded up, so that what is asked for is enough. A
// thousandth of a step, which nobody measures, does not make it one step more.
func (r Ruler) AtLeast(mm float64) string {
	return unit.Text(r.round(mm, func(x float64) float64 { return math.Ceil(x - 1e-3) }), written) + " " + r.unit.Symbol
}

// Both writes a length, with the millimetres behind it where they are not its unit.
func (r Ruler) Both(mm float64) string { return r.and(r.Of(mm), r.metric().Of(mm)) }

// metric is the ruler in millimetres that is as close.
func (r Ruler) metric() Ruler {
	m := RulerFor("mm")
	m.places = r.places - r.more
	return m
}

// Size writes a width and a height.
func (r Ruler) Size(w, h float64) string { return r.At(w) + " × " + r.Of(h) }

// BothSize writes a width and a height, with the millimetres behind them as [Ruler.Both]
// does.
func (r Ruler) BothSize(w, h float64) string {
	return r.and(r.Size(w, h), r.metric().Size(w, h))
}

func (r Ruler) and(own, metric string) string {
	if r.unit.Symbol == "mm" {
		return own
	}
	return own + " (" + metric + ")"
}

// String is the symbol of its unit.
func (r Ruler) String() string { return r.unit.Symbol }
