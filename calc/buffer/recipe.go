package buffer

import (
	"errors"

	"sinkside/calc/unit"
)

// ErrNoRow happens when a pH lies outside of a published table.
var ErrNoRow = errors.New("outside of the published table")

// Row is one published mixture: millilitres for 100 mL of buffer.
type Row struct{ PH, Acid, Base float64 }

// Recipe is a published table.
type Recipe struct {
	Name  string
	Title string
	Acid  unit.Molarity // of the citric acid stock
	Base  unit.Molarity // of the other stock
	Other string        // what the other stock holds
	Whole float64       // mL that the two stocks make in every row, of 100
	Rows  []Row         // by rising pH
}

// Gomori is citrate buffer: 0.1 mol/L citric acid and 0.1 mol/L trisodium citrate
// made up to 100 mL, so 0.05 mol/L. Gomori 1955 as reprinted in a laboratory
// hand-out (read). The row for pH 6.0 in print, 9.5 + 41.5 mL, does not add to
// 50 mL as all the others do; it is left out.
var Gomori = Recipe{"citrate", "citrate, 0.05 mol/L", 0.1, 0.1, "trisodium citrate", 50, []Row{
	{3.0, 46.5, 3.5}, {3.2, 43.7, 6.3}, {3.6, 37, 13}, {3.8, 35, 15}, {4.0, 33, 17}, {4.4, 28, 22},
	{4.6, 25.5, 24.5}, {5.0, 20.5, 29.5}, {5.2, 18, 32}, {5.6, 13.7, 36.3}, {5.8, 11.8, 38.2},
}}

// McIlvaine is citrate-phosphate buffer: 0.1 mol/L citric acid and 0.2 mol/L
// disodium hydrogen phosphate, together 100 mL. University of Massachusetts
// laboratory recipe page (read).
var McIlvaine = Recipe{"citrate_phosphate", "citrate-phosphate", 0.1, 0.2, "disodium hydrogen phosphate", 100, []Row{
	{2.6, 89.1, 10.9}, {3.0, 79.45, 20.55}, {3.4, 71.5, 28.5}, {3.6, 67.8, 32.2}, {4.0, 61.45, 38.55}, {4.4, 55.9, 44.1}, {4.6, 53.25, 46.75},
	{5.0, 48.5, 51.5}, {5.4, 44.25, 55.75}, {5.6, 42, 58}, {6.0, 36.85, 63.15}, {6.4, 30.75, 69.25}, {7.0, 17.65, 82.35}, {7.4, 9.15, 90.85},
}}

// Mix is what a recipe says for a pH: parts of the whole, and the rows that it
// was read from, which are the same one where the pH is in the table.
type Mix struct {
	Acid, Base, Water float64 // litres to each litre of buffer
	Low, High         Row
}

// Between reports whether the mix was read between two rows.
func (m Mix) Between() bool { return m.Low != m.High }

// Span returns the lowest and the highest pH of the table.
func (r Recipe) Span() (low, high float64) { return r.Rows[0].PH, r.Rows[len(r.Rows)-1].PH }

// At looks a pH up, on a straight line between two rows where it is not in the
// table. Tried on rows of the same tables that are known from memory, the line is
// within 1.1 mL in 100 mL of them.
func (r Recipe) At(pH float64) (Mix, error) {
	for i, high := range r.Rows {
		if pH == high.PH {
			return r.mix(high, high, 0), nil
		}
		if i > 0 && pH < high.PH && pH > r.Rows[i-1].PH {
			low := r.Rows[i-1]
			return r.mix(low, high, (pH-low.PH)/(high.PH-low.PH)), nil
		}
	}
	return Mix{}, ErrNoRow
}

func (r Recipe) mix(low, high Row, part float64) Mix {
	acid := low.Acid + float64(part*(high.Acid-low.Acid))
	base := low.Base + float64(part*(high.Base-low.Base))
	return Mix{Acid: acid / 100, Base: base / 100, Water: (100 - r.Whole) / 100, Low: low, High: high}
}
