package meter

import "sinkside/calc/unit"

// Buffer is a pH buffer whose value is known by temperature.
type Buffer struct {
	Name, Title string
	values      table
}

var (
	toFifty  = []float64{0, 10, 20, 25, 30, 40, 50}
	toThirty = []float64{0, 10, 20, 25, 30}
)

// Buffers are two published sets, ±0.02. The first four are the standard ones of
// JIS Z 8802 (table reprinted by a maker of pH meters, "Reference solution",
// read); the last three the technical ones commonly sold in America (instrument
// manual MI 611-211, table 7, read). The two sets must not be taken for one
// another: 6.86 and 7.00 differ by what 8 mV make.
var Buffers = []Buffer{
	{"t4", "4.00, technical", table{toFifty, []float64{4.00, 4.00, 4.00, 4.00, 4.01, 4.03, 4.06}}},
	{"t7", "7.00, technical", table{toFifty, []float64{7.12, 7.06, 7.02, 7.00, 6.99, 6.98, 6.97}}},
	{"t10", "10.01, technical", table{toFifty, []float64{10.32, 10.18, 10.06, 10.01, 9.97, 9.89, 9.83}}},
	{"phthalate", "4.01, phthalate", table{toFifty, []float64{4.01, 4.00, 4.00, 4.01, 4.01, 4.03, 4.06}}},
	{"phosphate", "6.86, phosphate 1:1", table{toFifty, []float64{6.98, 6.92, 6.88, 6.86, 6.85, 6.84, 6.83}}},
	{"borax", "9.18, borax", table{toFifty, []float64{9.46, 9.33, 9.22, 9.18, 9.14, 9.07, 9.01}}},
	{"carbonate", "10.02, carbonate", table{toThirty, []float64{10.32, 10.18, 10.07, 10.02, 9.97}}},
}

// BufferNamed returns the buffer of that name.
func BufferNamed(name string) (Buffer, bool) {
	for _, b := range Buffers {
		if b.Name == name {
			return b, true
		}
	}
	return Buffer{}, false
}

// PH returns the pH of the buffer at a temperature, between the rows of its table
// in proportion; [ErrOutside] beyond them.
func (b Buffer) PH(at unit.Temperature) (float64, error) { return b.values.straight(at) }

// Warmest is where the buffer's table ends.
func (b Buffer) Warmest() unit.Temperature {
	return unit.Temperature(b.values.at[len(b.values.at)-1])
}
