// Package reckoning is the one list of everything that can be reckoned here:
// what a reckoning asks for and within which limits, what it answers, how it
// came to the answer, what to beware of and where the knowledge comes from.
//
// Three doors open on it: the phone, whose forms are drawn from [AppendList];
// the command line; and HTTP. All three call [Answer], JSON in and JSON out, so
// they cannot differ.
//
// Promises to whoever asks:
//
//   - A number is refused with its field, its unit and the allowed range, never
//     bent into the range, and never answered with NaN or an infinity.
//   - What cannot be known from the inputs is listed as unknown, with the input
//     that would tell, and never made up.
//   - Where inputs carry a ±, every figure carries the range that follows.
//   - Each step of the working shows formula, numbers and source, so that a
//     person can defend the result without this program.
//
// What accounts call hundreds of times, such as has and work, is kept from being
// inlined: that made the browser's core larger by a twentieth.
//
// To add a reckoning: put the arithmetic with its tests into a package of its
// own under calc, then write a file here that declares the inputs, the figures
// and the account of them, and add it to [All].
package reckoning

import "sinkside/calc/unit"

// Kinds of input.
const (
	Quantity = "quantity" // a number in one of Units
	Number   = "number"   // a plain number
	OneOf    = "choice"   // one of Choices
	Series   = "series"   // numbers in one of Units, in order, as one text: "802; 202; 52"
)

// Input is one thing that a reckoning asks for: one field of its form.
type Input struct {
	Name     string   `json:"name"`
	Title    string   `json:"title"`
	Kind     string   `json:"kind"`
	Unit     string   `json:"unit"`     // the unit of Min, Max and Default, and of a number that comes without one
	Units    []string `json:"units"`    // those a person may choose from
	Min      float64  `json:"min"`      // in Unit
	Max      float64  `json:"max"`      // in Unit
	Ranges   []Range  `json:"ranges"`   // the range in each of Units
	Whole    bool     `json:"whole"`    // whole numbers only
	Of       string   `json:"of"`       // the input whose ± this is, in the unit of that input; else empty
	When     string   `json:"when"`     // the choice on which it depends whether this is asked; else empty
	Is       []string `json:"is"`       // the values of When with which it is asked
	Default  string   `json:"default"`  // taken where nothing is given, and then said in the working
	Optional bool     `json:"optional"` // may be left empty
	Choices  []Choice `json:"choices"`
	Help     string   `json:"help"`

	units []unit.Unit
}

// Range is what an input may be in one of its units.
type Range struct {
	Unit string  `json:"unit"`
	Min  float64 `json:"min"`
	Max  float64 `json:"max"`
}

// Choice is one value of an input of kind choice.
type Choice struct {
	Value string `json:"value"`
	Title string `json:"title"`
}

// Marks of a source, weakest claim last.
const (
	Read     = "read"     // the passage was read
	Memory   = "memory"   // from memory of the source, which was not open
	Practice = "practice" // common practice, no source
	Computed = "computed" // follows from the formula named
	Ours     = "ours"     // chosen for this program; no source was found
)

// Source is where a fact comes from and how well it is known.
type Source struct {
	Name  string `json:"name"`
	Where string `json:"where"`
	Mark  string `json:"mark"`
}

// ResultSpec announces one figure that a reckoning may answer with.
type ResultSpec struct {
	_ [0]func() // equal to nothing: each list of them would bring a comparison into the browser's core

	Name  string `json:"name"`
	Title string `json:"title"`
	Unit  string `json:"unit"` // the unit of Value.Value

	kind unit.Kind
}

// Reckoning is one calculation: named inputs to figures.
type Reckoning struct {
	Name    string       `json:"name"`
	Title   string       `json:"title"`
	Asks    string       `json:"asks"` // what a person wants to know
	Inputs  []Input      `json:"inputs"`
	Sources []Source     `json:"sources"`
	Results []ResultSpec `json:"results"`

	// prepare checks what no single input shows and spreads what is uncertain;
	// it may be nil. figures computes, and is called again for every corner of
	// the ranges. explain accounts for the figures at their middle.
	prepare func(*sheet)
	figures func(*sheet) ([]figure, *Problem)
	explain func(*sheet, *Result)

	usual string // the Name of the source of what is taken as usual; empty for common practice
}

// Value is one figure of a result.
type Value struct {
	Name  string   `json:"name"`
	Title string   `json:"title"`
	Value float64  `json:"value"` // in Unit, unrounded
	Unit  string   `json:"unit"`
	Low   *float64 `json:"low"` // in Unit; null where nothing that it rests on carries a ±
	High  *float64 `json:"high"`
	Shown string   `json:"shown"` // rounded for people, in their units as well
}

// Working is one step of the way to a result.
type Working struct {
	Say     string `json:"say"`
	Formula string `json:"formula"`
	Put     string `json:"put"`    // the formula with its numbers
	Source  string `json:"source"` // the Name of a Source; empty where none is needed
}

// Whom a caution is about. Those about people come first.
const (
	People = "people"
	Object = "object"
)

// Caution is what to beware of with these inputs.
type Caution struct {
	About  string `json:"about"`
	Say    string `json:"say"`
	Source string `json:"source"` // the Name of a Source
}

// Unknown is a figure that the inputs do not give, and what would.
type Unknown struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	Say   string `json:"say"`
}

// Result is the answer of one reckoning.
type Result struct {
	Values   []Value   `json:"values"`
	Unknown  []Unknown `json:"unknown"`
	Working  []Working `json:"working"`
	Cautions []Caution `json:"cautions"`
	Sources  []Source  `json:"sources"`
}

// Problem says what is wrong with one field, to the person who filled it in.
type Problem struct {
	Field   string `json:"field"`   // the Name of an input; empty where none is at fault
	Value   string `json:"value"`   // as it was given
	Unit    string `json:"unit"`    // the unit it was taken in
	Allowed string `json:"allowed"` // "0.01 to 5000 L"; empty where no range is at stake
	Say     string `json:"say"`
}

var all = []*Reckoning{solutionReckoning(), trayReckoning(), waterPlanReckoning(), conductivityReckoning(), rinseReckoning(), rinseEndReckoning(), airReckoning(), dryingReckoning()}

// All returns every reckoning, in the order in which a list shows them. Callers
// must not change them.
func All() []*Reckoning { return all }

// Find returns the reckoning of that name.
func Find(name string) (*Reckoning, bool) {
	for _, r := range all {
		if r.Name == name {
			return r, true
		}
	}
	return nil, false
}
