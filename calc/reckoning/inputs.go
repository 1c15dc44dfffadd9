package reckoning

import (
	"math"
	"strconv"
	"strings"

	"sinkside/calc/unit"
)

// Ready resolves the units of all inputs and works out their ranges. A unit
// that does not exist is a fault of the program and stops it at its start.
func (r *Reckoning) Ready() *Reckoning {
	for i := range r.Inputs {
		r.Inputs[i].setUp()
	}
	for i := range r.Results {
		r.Results[i].kind = mustUnit(r.Results[i].Unit).Kind
	}
	// What the machinery itself says, of units that were converted and of what was
	// taken as usual, leans on these.
	for i := range r.Inputs {
		if len(r.Inputs[i].Units) > 1 {
			r.lean(&Definitions)
		}
		if r.Inputs[i].Default != "" && r.Usual == "" {
			r.lean(&CommonPractice)
		}
	}
	return r
}

// lean lists a source unless it is there.
func (r *Reckoning) lean(on *Source) {
	for i := range r.Sources {
		if r.Sources[i].Name == on.Name {
			return
		}
	}
	r.Sources = append(r.Sources, *on)
}

func (in *Input) setUp() {
	base := mustUnit(in.Unit)
	given := in.Ranges
	in.Ranges = make([]Range, 0, len(in.Units))
	for _, symbol := range in.Units {
		u := mustUnit(symbol)
		in.units = append(in.units, u)
		in.Ranges = append(in.Ranges, in.rangeIn(u, base, given))
	}
	if in.Kind == KindNumber && in.Of == "" {
		in.Ranges = append(in.Ranges, Range{"", in.Min, in.Max})
	}
	for i := range in.Columns {
		in.Columns[i].setUp()
	}
	// Empty and not nil: a form gets lists.
	in.Columns = append([]Input{}, in.Columns...)
	in.Units = append([]string{}, in.Units...)
	in.Is = append([]string{}, in.Is...)
	in.Choices = append([]Choice{}, in.Choices...)
}

func mustUnit(symbol string) unit.Unit {
	u, ok := unit.Named(symbol)
	if !ok {
		panic("reckoning: no unit " + symbol)
	}
	return u
}

// rangeIn returns the range of the input in u: as declared where it is declared,
// else that of the input's own unit, converted and rounded inwards, so that what
// an error tells people is exactly what is enforced.
func (in *Input) rangeIn(u, base unit.Unit, given []Range) Range {
	for _, r := range given {
		if r.Unit == u.Symbol {
			return r
		}
	}
	if u.Symbol == base.Symbol {
		return Range{u.Symbol, in.Min, in.Max}
	}
	if u.Kind != base.Kind {
		panic("reckoning: input " + in.Name + " declares no range in " + u.Symbol)
	}
	return Range{u.Symbol, inwards(u.Of(base.Base(in.Min)), 1), inwards(u.Of(base.Base(in.Max)), -1)}
}

// inwards rounds x to three significant figures, upwards for side 1 and
// downwards for side -1. A conversion that ends within a rounding error of a
// short number is that number.
func inwards(x float64, side int) float64 {
	const figures = 3
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', figures-1, 64), "e")
	near := parse(mantissa + "e" + exponent)
	if math.Abs(near-x) <= 1e-12*math.Abs(x) || (near > x) == (side > 0) {
		return near
	}
	// One more unit of the last figure, counted in whole units so as to end on
	// a short number again.
	units, _ := strconv.Atoi(strings.Replace(mantissa, ".", "", 1))
	power, _ := strconv.Atoi(exponent)
	if units == 100 && side < 0 { // below a power of ten the last figure is finer
		units, power = 1000, power-1
	}
	return parse(strconv.Itoa(units+side) + "e" + strconv.Itoa(power-figures+1))
}

func parse(s string) float64 {
	x, _ := strconv.ParseFloat(s, 64)
	return x
}

// rangeFor returns the range that holds for a number in u.
func (in *Input) rangeFor(u unit.Unit) Range {
	for _, r := range in.Ranges {
		if r.Unit == u.Symbol {
			return r
		}
	}
	return Range{in.Unit, in.Min, in.Max}
}

// String says the range for people.
func (r Range) String() string {
	s := unit.Text(r.Min, 6) + " to " + unit.Text(r.Max, 6)
	if r.Unit != "" {
		s += " " + r.Unit
	}
	return s
}

// Holds reports whether x lies in the range.
func (r Range) Holds(x float64) bool { return x >= r.Min && x <= r.Max }

// PlusMinus declares the ± field of another input. It is a plain number in the
// unit that the other is given in, so that a form has one unit for both.
//
//go:noinline
func PlusMinus(of *Input) Input {
	return Input{Name: of.Name + "_pm", Title: "± " + of.Title, Kind: KindNumber, Of: of.Name, Max: of.Max, Optional: true,
		Help: "How far off it may be, in the same unit. Leave empty for none."}
}
