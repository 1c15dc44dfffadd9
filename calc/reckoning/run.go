package reckoning

import (
	"math"
	"strings"

	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

// Run reckons by the reckoning of that name. in is an object with a member for each input, which is either
// {"value": "12,5", "unit": "L"} or the bare value, a number or a text, in the
// input's own unit; a text may carry its unit itself. It returns a result, or at
// least one problem.
func (l List) Run(name string, in jsontext.Value) (Result, []Problem) {
	s, figures, problems := l.worked(name, in)
	if len(problems) > 0 {
		return Result{}, problems
	}
	return s.result(figures), nil
}

// One reckons as [List.Run] does and returns one figure alone, without the account of
// it, for those who need many; false where the answer does not hold it.
func (l List) One(name string, in jsontext.Value, figure string) (x float64, ok bool, problems []Problem) {
	s, figures, problems := l.worked(name, in)
	if len(problems) > 0 {
		return 0, false, problems
	}
	f, ok := figureNamed(figures, figure)
	if ok {
		x = s.value(f).Value
	}
	return x, ok, nil
}

// worked fills a form and works its figures out.
func (l List) worked(name string, in jsontext.Value) (*Sheet, Figures, []Problem) {
	r, ok := l.Find(name)
	if !ok {
		return nil, nil, []Problem{{Value: name, Say: "There is no reckoning of this name. There are: " + l.names() + "."}}
	}
	s, problems := r.Fill(in)
	if len(problems) > 0 || r.Figures == nil {
		return s, nil, problems
	}
	figures, p := r.Figures(s)
	if p == nil {
		p = s.spreadOver(figures)
	}
	if p == nil {
		p = s.unsound(figures)
	}
	if p != nil {
		return s, nil, []Problem{*p}
	}
	return s, figures, nil
}

// Fill reads a form and checks all that shows before a figure is computed.
func (r *Reckoning) Fill(in jsontext.Value) (*Sheet, []Problem) {
	s := read(r, in)
	if len(s.problems) == 0 && r.Prepare != nil {
		r.Prepare(s)
	}
	return s, s.problems
}

// Answer is the door for all who speak JSON. It appends the result of [List.Run], or
// {"problems":[...]}, and reports whether it was a result.
func (l List) Answer(dst []byte, name string, in jsontext.Value) ([]byte, bool) {
	result, problems := l.Run(name, in)
	if len(problems) > 0 {
		return AppendProblems(dst, problems), false
	}
	return AppendResult(dst, result), true
}

// result puts the figures and the account of them together.
func (s *Sheet) result(figures Figures) Result {
	// Empty and not nil: readers get lists.
	out := Result{Values: []Value{}, Verdicts: []Verdict{}, Tables: []Table{}, Pictures: []Picture{}, Unknown: []Unknown{}, Working: []Working{}, Cautions: []Caution{}, Sources: s.r.Sources}
	for _, f := range figures {
		out.Values = append(out.Values, s.value(f))
	}
	if given := s.notUsed(); len(given) > 0 {
		out.Work("Given and not used, since it does not bear on what was chosen: "+strings.Join(given, ", ")+".", "", "", "")
	}
	if taken := s.defaults(); len(taken) > 0 {
		out.Work("Not given, so taken as usual: "+strings.Join(taken, ", ")+".", "", "", orElse(s.r.Usual, CommonPractice.Name))
	}
	for i := range s.answers {
		if a := &s.answers[i]; a.chosen {
			out.Work(a.in.Title+": “"+a.text+"” was read as "+unit.Text(a.x, 8)+" "+a.u.Symbol+"; read the other way it would lie outside of its range.", "", "", "")
		}
		if a := &s.answers[i]; a.cut != "" {
			out.Work(a.in.Title+" cannot "+a.cut+", so its range ends there.", "", a.u.Write(a.low, 6)+" to "+a.u.Write(a.high, 6), "")
		}
		s.answers[i].convert(&out)
	}
	for _, f := range figures {
		if f.rangeless {
			out.Work(s.Title(f.name)+": no range is given, since at the edge of the ± it cannot be reckoned.", "", "", "")
		}
	}
	s.r.Explain(s, &out)
	for i := range out.Pictures {
		out.Pictures[i].Size = s.frame(&out.Pictures[i])
	}
	out.peopleFirst()
	return out
}

// peopleFirst puts the cautions about people before those about the object, each
// in the order in which they were said.
func (r *Result) peopleFirst() {
	sorted := make([]Caution, 0, len(r.Cautions))
	for _, about := range []string{People, Object} {
		for _, c := range r.Cautions {
			if c.About == about {
				sorted = append(sorted, c)
			}
		}
	}
	r.Cautions = sorted
}

// convert accounts for an input that was given in another unit of its kind.
func (a *answer) convert(out *Result) {
	own, ok := unit.Named(a.in.Unit)
	if !a.asked || !a.known || !ok || a.u.Kind != own.Kind || a.u.Symbol == a.in.Unit || a.in.Of != "" {
		return
	}
	put := unit.Text(a.x, 6) + " " + a.u.Symbol + " = " + own.Write(a.base, 5)
	if a.in.Kind == KindSeries {
		put = Listed(a.u.Symbol, a.series) + " = " + Listed(own.Symbol, a.series)
	}
	out.Work(a.in.Title+" in "+a.in.Unit+".", "", put, Definitions.Name)
}

// Listed writes the numbers of a series, given in the kind's own unit, in one unit.
func Listed(symbol string, series []float64) string {
	u := mustUnit(symbol)
	s := ""
	for i, x := range series {
		if i > 0 {
			s += "; "
		}
		s += unit.Text(u.Of(x), 5)
	}
	return s + " " + u.Symbol
}

// Work adds a step of the working. source is the Name of a Source, or empty.
//
//go:noinline
func (r *Result) Work(say, formula, put, source string) {
	r.Working = append(r.Working, Working{say, formula, put, source})
}

// People adds a caution about people.
//
//go:noinline
func (r *Result) People(say string, from Source) {
	r.Cautions = append(r.Cautions, Caution{People, say, from.Name})
}

// Object adds a caution about the object.
//
//go:noinline
func (r *Result) Object(say string, from Source) {
	r.Cautions = append(r.Cautions, Caution{Object, say, from.Name})
}

// NotKnown adds a figure that the inputs do not give, and says what would.
//
//go:noinline
func (r *Result) NotKnown(name, title, say string) {
	r.Unknown = append(r.Unknown, Unknown{name, title, say})
}

// Verdict adds an answer in words.
//
//go:noinline
func (r *Result) Verdict(name, title, say string) {
	r.Verdicts = append(r.Verdicts, Verdict{name, title, say})
}

// Table begins a table; its rows are added to what it returns, before the next
// table is begun.
func (r *Result) Table(title string, columns ...string) *Table {
	r.Tables = append(r.Tables, Table{Title: title, Columns: columns, Rows: [][]string{}})
	return &r.Tables[len(r.Tables)-1]
}

// Row adds a row: one text for each column.
func (t *Table) Row(cells ...string) { t.Rows = append(t.Rows, cells) }

// Value returns the figure that a result holds, in its own unit.
//
//go:noinline
func (r *Result) Value(name string) (float64, bool) {
	for _, v := range r.Values {
		if v.Name == name {
			return v.Value, true
		}
	}
	return 0, false
}

// Range returns the range of a figure in its own unit, or the figure twice where it has
// none; false where the result holds no such figure.
//
//go:noinline
func (r *Result) Range(name string) (low, high float64, ok bool) {
	for _, v := range r.Values {
		if v.Name == name {
			if v.Low != nil {
				return *v.Low, *v.High, true
			}
			return v.Value, v.Value, true
		}
	}
	return 0, 0, false
}

// unsound is the last guard: whatever the inputs were, no figure leaves here that
// is not a finite number, and of at least nought unless it may be below. The
// ranges keep it from being needed, and the fuzz test holds them to it.
func (s *Sheet) unsound(figures Figures) *Problem {
	for _, f := range figures {
		spec := s.r.spec(f.name)
		below := spec.Signed || spec.kind == unit.TemperatureKind
		for _, x := range []float64{f.base(), f.low(), f.high()} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 && !below {
				return &Problem{Say: "These inputs together give no sensible answer (" + f.name + ")."}
			}
		}
	}
	return nil
}

func (l List) names() string {
	var names []string
	for _, r := range l {
		names = append(names, r.Name)
	}
	return strings.Join(names, ", ")
}
