package reckoning

import (
	"math"
	"strings"

	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

// Run reckons. in is an object with a member for each input, which is either
// {"value": "12,5", "unit": "L"} or the bare value, a number or a text, in the
// input's own unit; a text may carry its unit itself. It returns a result, or at
// least one problem.
func Run(name string, in jsontext.Value) (Result, []Problem) {
	s, figures, problems := worked(name, in)
	if len(problems) > 0 {
		return Result{}, problems
	}
	return s.result(figures), nil
}

// One reckons as [Run] does and returns one figure alone, without the account of
// it, for those who need many; false where the answer does not hold it.
func One(name string, in jsontext.Value, figure string) (x float64, ok bool, problems []Problem) {
	s, figures, problems := worked(name, in)
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
func worked(name string, in jsontext.Value) (*sheet, []figure, []Problem) {
	s, problems := fill(name, in)
	if len(problems) > 0 {
		return s, nil, problems
	}
	figures, p := s.r.figures(s)
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

// fill reads a form and checks all that shows before a figure is computed.
func fill(name string, in jsontext.Value) (*sheet, []Problem) {
	r, ok := Find(name)
	if !ok {
		return nil, []Problem{{Value: name, Say: "There is no reckoning of this name. There are: " + namesOf(all) + "."}}
	}
	s := read(r, in)
	if len(s.problems) == 0 && r.prepare != nil {
		r.prepare(s)
	}
	return s, s.problems
}

// Answer is the door for all who speak JSON. It appends the result of [Run], or
// {"problems":[...]}, and reports whether it was a result.
func Answer(dst []byte, name string, in jsontext.Value) ([]byte, bool) {
	result, problems := Run(name, in)
	if len(problems) > 0 {
		return AppendProblems(dst, problems), false
	}
	return AppendResult(dst, result), true
}

// result puts the figures and the account of them together.
func (s *sheet) result(figures []figure) Result {
	// Empty and not nil: readers get lists.
	out := Result{Values: []Value{}, Unknown: []Unknown{}, Working: []Working{}, Cautions: []Caution{}, Sources: s.r.Sources}
	for _, f := range figures {
		out.Values = append(out.Values, s.value(f))
	}
	if given := s.notUsed(); len(given) > 0 {
		out.work("Given and not used, since it does not bear on what was chosen: "+strings.Join(given, ", ")+".", "", "", "")
	}
	if taken := s.defaults(); len(taken) > 0 {
		out.work("Not given, so taken as usual: "+strings.Join(taken, ", ")+".", "", "", orElse(s.r.usual, practice.Name))
	}
	for i := range s.answers {
		s.answers[i].convert(&out)
	}
	for _, f := range figures {
		if f.rangeless {
			out.work(s.r.spec(f.name).Title+": no range is given, since at the edge of the ± it cannot be reckoned.", "", "", "")
		}
	}
	s.r.explain(s, &out)
	return out
}

// convert accounts for an input that was given in another unit of its kind.
func (a *answer) convert(out *Result) {
	own, ok := unit.Named(a.in.Unit)
	if !a.asked || !a.known || !ok || a.u.Kind != own.Kind || a.u.Symbol == a.in.Unit || a.in.Of != "" {
		return
	}
	put := unit.Text(a.x, 6) + " " + a.u.Symbol + " = " + own.Write(a.base, 5)
	if a.in.Kind == Series {
		put = listed(a.u, a.series) + " = " + listed(own, a.series)
	}
	out.work(a.in.Title+" in "+a.in.Unit+".", "", put, definitions.Name)
}

// listed writes the numbers of a series in one unit.
func listed(u unit.Unit, series []float64) string {
	s := ""
	for i, x := range series {
		if i > 0 {
			s += "; "
		}
		s += unit.Text(u.Of(x), 5)
	}
	return s + " " + u.Symbol
}

//go:noinline
func (r *Result) work(say, formula, put, source string) {
	r.Working = append(r.Working, Working{say, formula, put, source})
}

//go:noinline
func (r *Result) people(say string, from Source) {
	r.Cautions = append(r.Cautions, Caution{People, say, from.Name})
}

//go:noinline
func (r *Result) object(say string, from Source) {
	r.Cautions = append(r.Cautions, Caution{Object, say, from.Name})
}

//go:noinline
func (r *Result) unknown(name, title, say string) {
	r.Unknown = append(r.Unknown, Unknown{name, title, say})
}

// value returns the figure that a result holds, in its own unit.
//
//go:noinline
func (r *Result) value(name string) (float64, bool) {
	for _, v := range r.Values {
		if v.Name == name {
			return v.Value, true
		}
	}
	return 0, false
}

// unsound is the last guard: whatever the inputs were, no figure leaves here that
// is not a finite number, and of at least nought unless it is a temperature. The
// ranges keep it from being needed, and the fuzz test holds them to it.
func (s *sheet) unsound(figures []figure) *Problem {
	for _, f := range figures {
		below := s.r.spec(f.name).kind == unit.TemperatureKind
		for _, x := range []float64{f.base(), f.low(), f.high()} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 && !below {
				return &Problem{Say: "These inputs together give no sensible answer (" + f.name + ")."}
			}
		}
	}
	return nil
}

func namesOf(rs []*Reckoning) string {
	var names []string
	for _, r := range rs {
		names = append(names, r.Name)
	}
	return strings.Join(names, ", ")
}
