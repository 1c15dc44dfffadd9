package reckoning

import "sinkside/calc/unit"

// The makers below spare a declaration what follows from its unit. What they
// return can be changed further by the methods of Input, each of which returns a
// changed copy.

// Quantity declares an input in the unit symbol, which min and max are in too.
// All units of its kind may be chosen.
func Quantity(name, title, symbol string, min, max float64) Input {
	return Input{Name: name, Title: title, Kind: KindQuantity, Unit: symbol, Units: kin(symbol), Min: min, Max: max}
}

// Number declares a plain number.
func Number(name, title string, min, max float64) Input {
	return Input{Name: name, Title: title, Kind: KindNumber, Min: min, Max: max}
}

// Count declares a whole number.
func Count(name, title string, min, max float64) Input {
	in := Number(name, title, min, max)
	in.Whole = true
	return in
}

// Series declares numbers in order; symbol is empty for plain ones.
func Series(name, title, symbol string, min, max float64) Input {
	in := Quantity(name, title, symbol, min, max)
	in.Kind = KindSeries
	return in
}

// Text declares a name that a person gives.
func Text(name, title string) Input { return Input{Name: name, Title: title, Kind: KindText} }

// Choose declares a choice: values and their titles by turns, the usual one
// first.
func Choose(name, title string, pairs ...string) Input {
	return Input{Name: name, Title: title, Kind: KindChoice, Default: pairs[0], Choices: Choices(pairs...)}
}

// Choices lists values and their titles by turns.
func Choices(pairs ...string) []Choice {
	var out []Choice
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, Choice{pairs[i], pairs[i+1]})
	}
	return out
}

// Rows declares a table of up to most rows.
func Rows(name, title string, most int, columns ...Input) Input {
	return Input{Name: name, Title: title, Kind: KindRows, MaxRows: most, Columns: columns}
}

// kin lists the units of the kind of a unit, that one first.
func kin(symbol string) []string {
	out := []string{symbol}
	for _, s := range unit.Of(mustUnit(symbol).Kind) {
		if s != symbol {
			out = append(out, s)
		}
	}
	return out
}

// If asks the input only where the choice named when is one of is.
func (in Input) If(when string, is ...string) Input {
	in.When, in.Is = when, is
	return in
}

// Usually takes a value, in the input's own unit, where none is given.
func (in Input) Usually(value string) Input {
	in.Default, in.Optional = value, in.Kind != KindChoice
	return in
}

// Maybe allows the input to be left empty.
func (in Input) Maybe() Input {
	in.Optional = true
	return in
}

// Note adds a sentence of help.
func (in Input) Note(help string) Input {
	in.Help = help
	return in
}

// In offers these units alone.
func (in Input) In(symbols ...string) Input {
	in.Units = symbols
	return in
}

// Also offers a unit of another kind as well, with its own range.
func (in Input) Also(symbol string, min, max float64) Input {
	in.Units = append(append([]string{}, in.Units...), symbol)
	in.Ranges = append(append([]Range{}, in.Ranges...), Range{symbol, min, max})
	return in
}
