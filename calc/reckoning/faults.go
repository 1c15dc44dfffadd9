package reckoning

import (
	"strings"

	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

// problem notes what is wrong, once for each field: the first sentence about it
// is the one that helps.
func (s *Sheet) problem(p Problem) {
	for _, q := range s.problems {
		if q.Field == p.Field {
			return
		}
	}
	s.problems = append(s.problems, p)
}

// fault notes what is wrong with an answer.
func (s *Sheet) fault(a *answer, say string) {
	s.problem(Problem{Field: a.in.Name, Value: a.text, Unit: a.unitGiven(), Allowed: a.allowed(), Say: a.in.Title + ": " + say})
}

// outside notes that an answer lies outside its range.
func (s *Sheet) outside(a *answer, r Range) {
	given := strings.TrimSpace(unit.Text(a.x, 8) + " " + a.u.Symbol)
	s.problem(Problem{Field: a.in.Name, Value: a.text, Unit: a.u.Symbol, Allowed: r.String(),
		Say: a.in.Title + ": " + given + " is not within " + r.String() + "."})
}

// Cannot says why an answer, right in itself, gives no figures together with the
// others.
func (s *Sheet) Cannot(name, allowed, say string) *Problem {
	a := s.find(name)
	if allowed == "" {
		allowed = a.allowed()
	}
	return &Problem{Field: name, Value: a.text, Unit: a.unitGiven(), Allowed: allowed, Say: a.in.Title + ": " + say}
}

// Limits says that an answer, right in itself, lies outside of what the others allow:
// low to high in the kind's own unit, an infinity where they set no limit on that
// side. It names the value that is reckoned with, and what is left of the input's
// range in the unit of the answer, rounded inwards. say goes on after the value: "is
// above the wet bulb of 15 °C".
//
//go:noinline
func (s *Sheet) Limits(name string, low, high float64, say string) *Problem {
	a := s.find(name)
	r := a.in.rangeFor(a.u)
	if x := a.u.Of(low); x > r.Min {
		r.Min = inwards(x, 1)
	}
	if x := a.u.Of(high); x < r.Max {
		r.Max = inwards(x, -1)
	}
	if r.Min > r.Max { // so close together that rounding left nothing between
		r.Min, r.Max = a.u.Of(low), a.u.Of(high)
	}
	allowed := r.String()
	return &Problem{Field: name, Value: a.text, Unit: a.unitGiven(), Allowed: allowed,
		Say: a.in.Title + ": " + s.InAnswersUnit(name, a.at) + " " + say + ". Beside what else is given it can be " + allowed + "."}
}

// InAnswersUnit writes a quantity in the unit in which an answer was given.
//
//go:noinline
func (s *Sheet) InAnswersUnit(name string, base float64) string {
	return s.find(name).u.Write(base, 5)
}

// Fault notes what is wrong with an answer, right in itself, beside the others.
//
//go:noinline
func (s *Sheet) Fault(name, say string) { s.fault(s.find(name), say) }

// Beyond notes that an answer lies outside what the others allow.
//
//go:noinline
func (s *Sheet) Beyond(name, allowed, say string) { s.problem(*s.Cannot(name, allowed, say)) }

// Sound reports whether nothing has been found wrong so far.
//
//go:noinline
func (s *Sheet) Sound() bool { return len(s.problems) == 0 }

// Missing notes that an input is needed.
//
//go:noinline
func (s *Sheet) Missing(name, say string) { s.fault(s.find(name), say) }

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
	if a.in.Kind == KindChoice || a.in.Max == 0 || a.in.Of != "" {
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
func (s *Sheet) find(name string) *answer {
	for i := range s.answers {
		if s.answers[i].in.Name == name {
			return &s.answers[i]
		}
	}
	return nil
}

func (s *Sheet) names() string {
	var names []string
	for _, in := range s.r.Inputs {
		names = append(names, in.Name)
	}
	return strings.Join(names, ", ")
}

// Has reports whether an input bears on this form and is known.
//
//go:noinline
func (s *Sheet) Has(name string) bool {
	a := s.find(name)
	return a.asked && a.known
}

// Base returns a quantity in its kind's own unit, at the place in its range
// where the figures are being computed; 0 where it is not known.
//
//go:noinline
func (s *Sheet) Base(name string) float64 { return s.find(name).at }

// Kind returns what kind of quantity was given, where the input allows several.
//
//go:noinline
func (s *Sheet) Kind(name string) unit.Kind { return s.find(name).u.Kind }

// Choice returns the value that was chosen.
//
//go:noinline
func (s *Sheet) Choice(name string) string { return s.find(name).choice }

// Series returns the numbers of a series in their kind's own unit; nil where
// they are not known.
//
//go:noinline
func (s *Sheet) Series(name string) []float64 { return s.find(name).series }

// Words returns a text as it was typed, or a number as it was typed; empty where
// nothing was given.
//
//go:noinline
func (s *Sheet) Words(name string) string {
	if !s.Has(name) {
		return ""
	}
	return strings.TrimSpace(s.find(name).text)
}

// Asked returns the title of an input.
//
//go:noinline
func (s *Sheet) Asked(name string) string { return s.find(name).in.Title }

// Allowed returns the range of an input in its own unit.
//
//go:noinline
func (s *Sheet) Allowed(name string) Range { return s.find(name).in.rangeFor(unit.Unit{}) }

// Rows returns the rows of a table, each a form of its own; nil where there is
// none.
//
//go:noinline
func (s *Sheet) Rows(name string) []*Sheet { return s.find(name).rows }

// system returns the families of units that the person used, in tables too.
func (s *Sheet) system() unit.System {
	var sys, gallon unit.System
	for i := range s.answers {
		a := &s.answers[i]
		used := unit.System(0)
		for _, row := range a.rows {
			used |= row.system()
		}
		if a.given && a.known {
			used |= a.u.System
		}
		sys |= used
		if gallon == 0 && (used == unit.US || used == unit.Imperial) {
			gallon = used
		}
	}
	// One who has said which gallon has said it for the inches too.
	if gallon != 0 {
		return gallon
	}
	return sys
}

// Inches reports whether an answer was given in inches or feet, so that what is
// measured off beside it is read in inches as well.
//
//go:noinline
func (s *Sheet) Inches(name string) bool {
	a := s.find(name)
	return a.given && a.known && a.u.Kind == unit.LengthKind && a.u.System == unit.InchPound
}

// notUsed says which answers were given and do not bear on the choices made.
func (s *Sheet) notUsed() []string {
	var out []string
	for i := range s.answers {
		if a := &s.answers[i]; a.given && !a.asked {
			out = append(out, a.in.Title)
		}
	}
	return out
}

// defaults says which answers were taken by default.
func (s *Sheet) defaults() []string {
	var out []string
	for i := range s.answers {
		if a := &s.answers[i]; a.asked && a.known && !a.given && a.in.Kind != KindChoice && a.in.Kind != KindText && a.in.Kind != KindRows {
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
