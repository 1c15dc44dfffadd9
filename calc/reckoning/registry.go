// Package reckoning is the one list of everything that can be reckoned here:
// what a reckoning asks for and within which limits, what it answers, how it
// came to the answer, what to beware of and where the knowledge comes from.
//
// Three doors open on it: the phone, whose forms are drawn from [List.Append];
// the command line; and HTTP. All three call [List.Answer], JSON in and JSON out, so
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
// This package is the machinery. To add a reckoning: put the arithmetic with its
// tests into a package of its own under calc, write a file in the package of its
// family under calc/reckoning that declares the inputs, the figures and the
// account of them, and add it to the list in calc/reckoning/library. Whoever
// needs a few alone makes a [List] of those, and carries no others.
package reckoning

import "sinkside/calc/unit"

// Kinds of input.
const (
	KindQuantity = "quantity" // a number in one of Units
	KindNumber   = "number"   // a plain number
	KindChoice   = "choice"   // one of Choices
	KindSeries   = "series"   // numbers in one of Units, in order, as one text: "802; 202; 52"
	KindText     = "text"     // a name that a person gives, at most [MostText] characters
	KindRows     = "rows"     // a table: up to MaxRows rows of Columns, as an array of objects
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
	Columns  []Input  `json:"columns"`  // of a table; none of them a table itself
	MaxRows  int      `json:"max_rows"` // of a table
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

	Signed bool `json:"-"` // may be below nought; temperatures always may
	Digits int  `json:"-"` // significant figures that people are shown; 3 where it is 0

	kind unit.Kind
}

// Reckoning is one calculation: named inputs to figures.
type Reckoning struct {
	Name    string       `json:"name"`
	Title   string       `json:"title"`
	Asks    string       `json:"asks"`    // what a person wants to know
	Family  string       `json:"family"`  // what it is listed under
	Example string       `json:"example"` // a full form, as JSON: shows what is meant, and is what tests ask
	Inputs  []Input      `json:"inputs"`
	Sources []Source     `json:"sources"`
	Results []ResultSpec `json:"results"`

	// Prepare checks what no single input shows and spreads what is uncertain;
	// it may be nil. Figures computes; it may be nil where all answers are in
	// words. Both are called again for every corner of the ranges. Explain
	// accounts for the figures at their middle.
	Prepare func(*Sheet)                     `json:"-"`
	Figures func(*Sheet) (Figures, *Problem) `json:"-"`
	Explain func(*Sheet, *Result)            `json:"-"`

	Usual string `json:"-"` // the Name of the source of what is taken as usual; empty for common practice
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

// Verdict is an answer in words: a grade, a class, what does not agree.
type Verdict struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	Say   string `json:"say"`
}

// Table is an answer of several lines, such as a list of pieces to cut.
type Table struct {
	Title   string     `json:"title"`
	Columns []string   `json:"columns"`
	Rows    [][]string `json:"rows"` // each as long as Columns
}

// Picture is an answer to scale: an outline, a cutting layout.
type Picture struct {
	Title  string  `json:"title"`
	Width  float64 `json:"width"` // mm, as is Height: the frame, from the upper left
	Height float64 `json:"height"`
	Size   string  `json:"size"` // both for people, in their units
	Shapes []Shape `json:"shapes"`
}

// Shape is one line of a picture.
type Shape struct {
	Label  string    `json:"label"`
	Closed bool      `json:"closed"`
	Points []float64 `json:"points"` // x and y by turns, mm, y downwards
}

// Result is the answer of one reckoning.
type Result struct {
	Values   []Value   `json:"values"`
	Verdicts []Verdict `json:"verdicts"`
	Tables   []Table   `json:"tables"`
	Pictures []Picture `json:"pictures"`
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

// List is some of the reckonings, in the order in which a person is shown them.
type List []*Reckoning

// Find returns the reckoning of that name.
func (l List) Find(name string) (*Reckoning, bool) {
	for _, r := range l {
		if r.Name == name {
			return r, true
		}
	}
	return nil, false
}
