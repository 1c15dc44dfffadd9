package reckoning

import (
	"strings"

	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

// problem notes what is wrong, once for each field: the first sentence about it
// is the one that helps.
func (s *sheet) problem(p Problem) {
	for _, q := range s.problems {
		if q.Field == p.Field {
			return
		}
	}
	s.problems = append(s.problems, p)
}

// fault notes what is wrong with an answer.
func (s *sheet) fault(a *answer, say string) {
	s.problem(Problem{Field: a.in.Name, Value: a.text, Unit: a.unitGiven(), Allowed: a.allowed(), Say: a.in.Title + ": " + say})
}

// outside notes that an answer lies outside its range.
func (s *sheet) outside(a *answer, r Range) {
	given := strings.TrimSpace(unit.Text(a.x, 8) + " " + a.u.Symbol)
	s.problem(Problem{Field: a.in.Name, Value: a.text, Unit: a.u.Symbol, Allowed: r.String(),
		Say: a.in.Title + ": " + given + " is not within " + r.String() + "."})
}

// cannot says why an answer, right in itself, gives no figures together with the
// others.
func (s *sheet) cannot(name, allowed, say string) *Problem {
	a := s.find(name)
	return &Problem{Field: name, Value: a.text, Unit: a.unitGiven(), Allowed: allowed, Say: a.in.Title + ": " + say}
}

// missing notes that an input is needed.
//
//go:noinline
func (s *sheet) missing(name, say string) { s.fault(s.find(name), say) }

// unitGiven returns the unit in which an answer is to be understood.
func (a *answer) unitGiven() string {
	if a.u.Symbol != "" || a.unit == "" {
		return orElse(a.u.Symbol, a.in.Unit)
	}
	return a.unit
}

// allowed says the range of an input in the unit that was named, where it has
// one.
func (a *answer) allowed() string {
	if a.in.Kind == OneOf || a.in.Max == 0 || a.in.Of != "" {
		return ""
	}
	for _, r := range a.in.Ranges {
		if r.Unit == a.unitGiven() {
			return r.String()
		}
	}
	return a.in.rangeFor(unit.Unit{}).String()
}

// find returns the answer to the input of that name; nil where there is none.
func (s *sheet) find(name string) *answer {
	for i := range s.answers {
		if s.answers[i].in.Name == name {
			return &s.answers[i]
		}
	}
	return nil
}

func (s *sheet) names() string {
	var names []string
	for _, in := range s.r.Inputs {
		names = append(names, in.Name)
	}
	return strings.Join(names, ", ")
}

// has reports whether an input bears on this form and is known.
//
//go:noinline
func (s *sheet) has(name string) bool {
	a := s.find(name)
	return a.asked && a.known
}

// base returns a quantity in its kind's own unit, at the place in its range
// where the figures are being computed; 0 where it is not known.
//
//go:noinline
func (s *sheet) base(name string) float64 { return s.find(name).at }

//go:noinline
func (s *sheet) kind(name string) unit.Kind { return s.find(name).u.Kind }

//go:noinline
func (s *sheet) choice(name string) string { return s.find(name).choice }

// series returns the numbers of a series in their kind's own unit; nil where
// they are not known.
//
//go:noinline
func (s *sheet) series(name string) []float64 { return s.find(name).series }

// system returns the families of units that the person used.
func (s *sheet) system() unit.System {
	var sys unit.System
	for i := range s.answers {
		if s.answers[i].given && s.answers[i].known {
			sys |= s.answers[i].u.System
		}
	}
	// One who has said which gallon has said it for the inches too.
	for i := range s.answers {
		if a := &s.answers[i]; a.given && a.known && (a.u.System == unit.US || a.u.System == unit.Imperial) {
			return a.u.System
		}
	}
	return sys
}

// notUsed says which answers were given and do not bear on the choices made.
func (s *sheet) notUsed() []string {
	var out []string
	for i := range s.answers {
		if a := &s.answers[i]; a.given && !a.asked {
			out = append(out, a.in.Title)
		}
	}
	return out
}

// defaults says which answers were taken by default.
func (s *sheet) defaults() []string {
	var out []string
	for i := range s.answers {
		if a := &s.answers[i]; a.asked && a.known && !a.given && a.in.Kind != OneOf {
			out = append(out, a.in.Title+" "+a.u.Write(a.base, 6))
		}
	}
	return out
}

// plain cuts a raw JSON value to what an error message can bear.
func plain(v jsontext.Value) string {
	const most = 40
	if len(v) > most {
		return strings.ToValidUTF8(string(v[:most]), "") + "…"
	}
	return string(v)
}

func choicesOf(in *Input) string {
	var names []string
	for _, c := range in.Choices {
		names = append(names, c.Value)
	}
	return strings.Join(names, ", ")
}

func blank(s string) bool { return strings.TrimSpace(s) == "" }

func orElse(s, other string) string {
	if s == "" {
		return other
	}
	return s
}
