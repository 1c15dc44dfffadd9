package solution

import (
	"errors"
	"strconv"
	"strings"

	"sinkside/calc/unit"
)

// What is wrong with a formula.
var (
	// ErrFormula happens when a text cannot be read as a chemical formula.
	ErrFormula = errors.New("no chemical formula such as Na2CO3·10H2O")
	// ErrElement happens when a formula names an element that is not listed
	// here, often because a small and a capital letter were mixed up.
	ErrElement = errors.New("an element that is not listed here")
)

// weights are standard atomic weights, in g/mol. The first nine are the
// conventional values used throughout (Commission on Isotopic Abundances and
// Atomic Weights 2021: values and intervals read; H, C, N, O, S as single values
// from memory). The others are from memory of the same table.
var weights = [...]struct {
	symbol string
	weight float64
}{
	{"H", 1.008}, {"C", 12.011}, {"N", 14.007}, {"O", 15.999}, {"Na", 22.98976928}, {"S", 32.06}, {"Ca", 40.078}, {"P", 30.973761998}, {"K", 39.0983},
	{"Li", 6.94}, {"B", 10.81}, {"F", 18.998}, {"Mg", 24.305}, {"Al", 26.982}, {"Si", 28.085}, {"Cl", 35.45}, {"Ti", 47.867}, {"Cr", 51.996},
	{"Mn", 54.938}, {"Fe", 55.845}, {"Cu", 63.546}, {"Zn", 65.38}, {"Br", 79.904}, {"Sn", 118.71}, {"I", 126.90}, {"Ba", 137.33}, {"Ce", 140.12},
}

// read is how many of the weights, from the first, were read in the table.
const read = 9

// FromMemory reports whether a formula names an element whose weight stands here from
// memory of the table.
func FromMemory(formula string) bool {
	for i, c := range formula {
		if c < 'A' || c > 'Z' {
			continue
		}
		n := i + 1
		for n < len(formula) && formula[n] >= 'a' && formula[n] <= 'z' {
			n++
		}
		for _, w := range weights[read:] {
			if w.symbol == formula[i:n] {
				return true
			}
		}
	}
	return false
}

// MostFormula is the longest formula that is read, in bytes.
const MostFormula = 60

// Water is the molar mass of water, from its formula.
const Water unit.MolarMass = 2*1.008 + 15.999

// MolarMassOf reads a formula and adds its atomic weights up: elements with
// counts, groups in round brackets, and water of crystallisation behind a dot
// (·, . or *), which may be a half: Na2CO3·10H2O, CaSO4·0.5H2O, (NH4)2HC6H5O7.
// Counts go up to 999. It is right to about ±0.02 g/mol for the substances of a
// conservation studio; older tables differ by as much.
func MolarMassOf(formula string) (unit.MolarMass, error) {
	text := strings.NewReplacer(" ", "", "•", "·", "*", "·", "[", "(", "]", ")").Replace(formula)
	text = plainDigits(text)
	if text == "" || len(text) > MostFormula {
		return 0, ErrFormula
	}
	f := formulaText{rest: text}
	total, err := f.part()
	if err != nil {
		return 0, err
	}
	for f.dot() {
		times := f.coefficient()
		part, err := f.part()
		if err != nil {
			return 0, err
		}
		total += float64(times * part)
	}
	if f.rest != "" || total <= 0 {
		return 0, ErrFormula
	}
	return unit.MolarMass(total), nil
}

// plainDigits writes the small digits of printed formulas as plain ones.
func plainDigits(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '₀' && r <= '₉' {
			return '0' + r - '₀'
		}
		return r
	}, s)
}

// formulaText is what is left to read of a formula.
type formulaText struct{ rest string }

// dot takes the mark between parts off the front.
func (f *formulaText) dot() bool {
	for _, mark := range []string{"·", "."} {
		if rest, ok := strings.CutPrefix(f.rest, mark); ok {
			f.rest = rest
			return true
		}
	}
	return false
}

// coefficient takes a number in front of a part off, 1 where there is none. It
// may have a decimal point, as the 0.5 of plaster has.
func (f *formulaText) coefficient() float64 {
	n := 0
	for n < len(f.rest) && (f.rest[n] >= '0' && f.rest[n] <= '9' || f.rest[n] == '.' && n > 0) {
		n++
	}
	x, err := strconv.ParseFloat(f.rest[:n], 64)
	if err != nil || n > 4 {
		return 1 // what is left then fails to be an element
	}
	f.rest = f.rest[n:]
	return x
}

// part reads elements and groups up to a dot, a closing bracket or the end.
func (f *formulaText) part() (float64, error) {
	total, any := 0.0, false
	for f.rest != "" && f.rest[0] != ')' && f.rest[0] != '.' && !strings.HasPrefix(f.rest, "·") {
		one, err := f.item()
		if err != nil {
			return 0, err
		}
		n, err := f.count()
		if err != nil {
			return 0, err
		}
		total += float64(one * n)
		any = true
	}
	if !any {
		return 0, ErrFormula
	}
	return total, nil
}

// item reads one element or one group in brackets.
func (f *formulaText) item() (float64, error) {
	if f.rest[0] == '(' {
		f.rest = f.rest[1:]
		one, err := f.part()
		if err != nil {
			return 0, err
		}
		if f.rest == "" || f.rest[0] != ')' {
			return 0, ErrFormula
		}
		f.rest = f.rest[1:]
		return one, nil
	}
	return f.element()
}

func (f *formulaText) element() (float64, error) {
	if f.rest[0] < 'A' || f.rest[0] > 'Z' {
		return 0, ErrFormula
	}
	n := 1
	for n < len(f.rest) && f.rest[n] >= 'a' && f.rest[n] <= 'z' {
		n++
	}
	symbol := f.rest[:n]
	f.rest = f.rest[n:]
	for _, w := range weights {
		if w.symbol == symbol {
			return w.weight, nil
		}
	}
	return 0, ErrElement
}

// count reads the number behind an element or group, 1 where there is none.
func (f *formulaText) count() (float64, error) {
	n := 0
	for n < len(f.rest) && f.rest[n] >= '0' && f.rest[n] <= '9' {
		n++
	}
	if n == 0 {
		return 1, nil
	}
	x, err := strconv.Atoi(f.rest[:n])
	if err != nil || n > 3 || x == 0 {
		return 0, ErrFormula
	}
	f.rest = f.rest[n:]
	return float64(x), nil
}
