package reckoning

import (
	"slices"
	"strconv"
	"strings"

	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

// Sheet is one filled-in form.
type Sheet struct {
	r        *Reckoning
	answers  []answer // one for each input, in their order
	problems []Problem
}

// answer is what was given for one input.
type answer struct {
	in    *Input
	text  string // as it was given, without a unit of its own member
	unit  string // the unit that was named beside it; empty where none was
	given bool   // something was given
	asked bool   // it bears on the choices made
	known bool   // given and right, or taken by default

	chosen bool // of two ways to read it the only one in its range was taken

	u         unit.Unit
	x         float64 // in u
	base      float64 // in the kind's own unit
	low, high float64 // the ends of its range, in the kind's own unit; base itself where it is certain
	cut       string  // which end of the range was taken where the quantity itself ends; empty for none
	at        float64 // where in that range the figures are being computed
	choice    string
	series    []float64      // of a series, in the kind's own unit
	raw       jsontext.Value // of a table, as it was given
	rows      []*Sheet       // of a table
}

// read fills a sheet from JSON: an object with a member for each input, which is
// {"value": "12,5", "unit": "L"}, or the value alone for the input's own unit.
func read(r *Reckoning, text []byte) *Sheet {
	s := &Sheet{r: r, answers: make([]answer, len(r.Inputs))}
	for i := range r.Inputs {
		s.answers[i] = answer{in: &r.Inputs[i]}
	}
	v, err := jsontext.Trim(text)
	if err == nil {
		err = jsontext.Members(v, s.take)
	}
	if err != nil {
		s.problem(Problem{Say: "These inputs cannot be read: " + err.Error() + "."})
		return s
	}
	s.settle()
	return s
}

// take notes one member of the JSON object. It never returns an error: what is
// wrong becomes a problem of its field.
func (s *Sheet) take(key string, v jsontext.Value) error {
	a := s.find(key)
	if a == nil {
		s.problem(Problem{Field: key, Value: plain(v), Say: "There is no input of this name. There are: " + s.names() + "."})
		return nil
	}
	if a.in.Kind == KindRows {
		a.raw, a.given = v, v.Kind() != jsontext.Null
		return nil
	}
	if v.Kind() != jsontext.Object {
		s.takeText(a, v)
		return nil
	}
	s.takeParts(a, v)
	return nil
}

// takeParts notes {"value": ..., "unit": ...}, and what is wrong with it once
// the value is known.
func (s *Sheet) takeParts(a *answer, v jsontext.Value) {
	wrong := ""
	_ = jsontext.Members(v, func(part string, v jsontext.Value) error {
		switch {
		case part == "value":
			s.takeText(a, v)
		case part != "unit":
			wrong = "it has a value and a unit, nothing besides."
		case v.Kind() == jsontext.String:
			a.unit, _ = v.Text()
		case v.Kind() != jsontext.Null:
			wrong = "the unit is to be a text."
		}
		return nil
	})
	if wrong != "" {
		s.fault(a, wrong)
	}
}

func (s *Sheet) takeText(a *answer, v jsontext.Value) {
	switch v.Kind() {
	case jsontext.Null:
		return
	case jsontext.Number:
		a.text = string(v)
	case jsontext.String:
		a.text, _ = v.Text()
	default:
		a.text = plain(v)
		s.fault(a, "a number or a text is expected.")
	}
	a.given = !blank(a.text)
}

// settle reads the answers: first the choices, on which it depends what else is
// asked, then the quantities, then what is uncertain about them.
func (s *Sheet) settle() {
	for i := range s.answers {
		if a := &s.answers[i]; a.in.Kind == KindChoice {
			s.settleChoice(a)
		}
	}
	for i := range s.answers {
		a := &s.answers[i]
		a.asked = a.in.When == "" || slices.Contains(a.in.Is, s.find(a.in.When).choice)
		if a.asked && a.in.Of == "" {
			s.settleOwn(a)
		}
	}
	for i := range s.answers {
		if a := &s.answers[i]; a.in.Of != "" && a.given {
			of := s.find(a.in.Of)
			a.asked = of.asked
			s.settleSpread(a, of)
		}
	}
}

// settleOwn reads an answer that is not a choice and no ±.
func (s *Sheet) settleOwn(a *answer) {
	switch a.in.Kind {
	case KindChoice:
	case KindText:
		s.settleText(a)
	case KindRows:
		s.settleRows(a)
	default:
		s.settleQuantity(a)
	}
}

func (s *Sheet) settleChoice(a *answer) {
	a.choice = a.text
	if !a.given {
		a.choice = a.in.Default
	}
	if a.unit != "" {
		s.fault(a, "it has no unit.")
		return
	}
	for _, c := range a.in.Choices {
		if c.Value == a.choice {
			a.known = true
			return
		}
	}
	allowed := choicesOf(a.in)
	s.problem(Problem{Field: a.in.Name, Value: a.text, Allowed: allowed, Say: a.in.Title + ": it is one of " + allowed + "."})
}

// settleQuantity reads a number with its unit and holds it against its range.
func (s *Sheet) settleQuantity(a *answer) {
	text := a.text
	if !a.given {
		if text = a.in.Default; text == "" {
			if !a.in.Optional {
				s.Missing(a.in.Name, "nothing is given yet.")
			}
			return
		}
	}
	if a.in.Kind == KindSeries {
		s.settleSeries(a, text)
		return
	}
	var err error
	if a.x, a.u, err = a.in.read(text, a.unit); err != nil {
		if a.x, a.u, err = a.in.onlyReading(err, a.unit); err != nil {
			s.fault(a, err.Error())
			return
		}
		a.chosen = true
	}
	r := a.in.rangeFor(a.u)
	if !r.Holds(a.x) {
		s.outside(a, r)
		return
	}
	if a.in.Whole && a.x != float64(int(a.x)) {
		s.fault(a, "a whole number is expected.")
		return
	}
	a.base = a.u.Base(a.x)
	a.low, a.high, a.at, a.known = a.base, a.base, a.base, true
}

// settleSeries reads several numbers and holds each against the range.
func (s *Sheet) settleSeries(a *answer, text string) {
	u, err := a.in.chosen(a.unit)
	var xs []float64
	if err == nil {
		xs, a.u, err = unit.Series(text, a.in.units, u)
	}
	if err != nil {
		s.fault(a, err.Error())
		return
	}
	r := a.in.rangeFor(a.u)
	a.series = make([]float64, len(xs))
	for i, x := range xs {
		if !r.Holds(x) {
			s.fault(a, "entry "+strconv.Itoa(i+1)+": "+unit.Text(x, 8)+" "+a.u.Symbol+" is not within "+r.String()+".")
			return
		}
		a.series[i] = a.u.Base(x)
	}
	a.known = true
}

// chosen returns the unit that was named beside an answer, or the input's own.
func (in *Input) chosen(named string) (unit.Unit, error) {
	own := mustUnit(in.Unit)
	if named == "" {
		return own, nil
	}
	return unit.Choose(named, in.units, own)
}

// read reads a text in the unit that was named beside it.
func (in *Input) read(text, named string) (float64, unit.Unit, error) {
	u, err := in.chosen(named)
	if err != nil {
		return 0, unit.Unit{}, err
	}
	return unit.Read(text, in.units, u)
}

// onlyReading reads a text that can be read in two ways, as 1,035 can, where only one
// of them lies in the range of the input; else it returns the error as it was.
func (in *Input) onlyReading(err error, named string) (float64, unit.Unit, error) {
	two, ok := err.(*unit.Error) // never wrapped; errors.As would bring reflection into the browser's core
	if !ok || two.Either[0] == "" {
		return 0, unit.Unit{}, err
	}
	var x float64
	var u unit.Unit
	found := 0
	for _, text := range two.Either {
		y, v, wrong := in.read(text, named)
		if wrong == nil && in.rangeFor(v).Holds(y) {
			x, u = y, v
			found++
		}
	}
	if found != 1 {
		return 0, unit.Unit{}, err
	}
	return x, u, nil
}

// settleSpread reads the ± of another input.
func (s *Sheet) settleSpread(a, of *answer) {
	if !of.known {
		if of.asked && !of.given {
			s.fault(a, "there is nothing that it could belong to: "+of.in.Title+" is empty.")
		}
		return
	}
	u, err := of.u, error(nil)
	if a.unit != "" {
		u, err = unit.Choose(a.unit, of.in.units, of.u)
	}
	var x float64
	if err == nil {
		x, u, err = unit.Read(a.text, of.in.units, u)
	}
	if err != nil {
		s.fault(a, err.Error())
		return
	}
	a.u, a.x, a.known = u, x, true
	if u.Kind != of.u.Kind {
		s.fault(a, "it is to be in "+of.u.Symbol+", as "+of.in.Title+" is.")
		return
	}
	s.widen(a, of, u.Width(x))
}

// Spread makes an input uncertain by the width that the input by holds, on both
// sides. Where both ends do not lie in its range, that is a fault of by.
func (s *Sheet) Spread(of, by string) { s.widen(s.find(by), s.find(of), s.Base(by)) }

// widen makes of uncertain by width on both sides, on the word of the field a. Both
// ends must lie in the range of the input, since one cut off would look surer than it
// is; but where the quantity itself can go no further, there the range ends.
func (s *Sheet) widen(a, of *answer, width float64) {
	if width < 0 {
		s.fault(a, "it says how far off to both sides, and cannot be less than 0.")
		return
	}
	r := of.in.rangeFor(of.u)
	mid := of.u.Of(of.base)
	off := of.u.Of(width) - of.u.Of(0)
	low, high := mid-off, mid+off
	if r.Min == 0 && low < 0 && of.u.Kind != unit.TemperatureKind {
		low, of.cut = 0, "be less than 0"
	}
	if r.Max == 100 && high > 100 && strings.HasPrefix(of.u.Symbol, "%") {
		high, of.cut = 100, "be more than 100 %"
	}
	if !r.Holds(low) || !r.Holds(high) {
		s.problem(Problem{Field: a.in.Name, Value: a.text, Unit: of.u.Symbol, Allowed: r.String(),
			Say: a.in.Title + ": " + of.in.Title + " of " + unit.Text(mid, 6) + " ± " + strings.TrimSpace(unit.Text(off, 6)+" "+of.u.Symbol) + " reaches outside of " + r.String() + "."})
		return
	}
	of.low, of.high = of.base-width, of.base+width
	if of.cut != "" {
		of.low, of.high = of.u.Base(low), of.u.Base(high)
	}
}
