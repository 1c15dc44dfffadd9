package reckoning

import (
	"slices"
	"strings"

	"sinkside/calc/unit"
)

// shownFigures is to how many significant figures people are shown a result:
// kitchen scales and measuring jugs are no better.
const shownFigures = 3

// Figure is one number of a result while it is being worked out, in the own
// unit of its kind.
type Figure struct {
	name string
	// factors are what the figure is the product of, mostly one. Each of them
	// must only rise or only fall as one input rises. A product of two that go
	// opposite ways, as rinses needed × water for each, does neither, and is
	// given as two factors.
	factors   []float64
	lows      []float64 // the least and the greatest of each factor; nil where nothing is uncertain
	highs     []float64
	rangeless bool // has no range, since at some edge of the ± it cannot be reckoned
}

// Figures are the numbers of a result, collected by name.
type Figures []Figure

// Add adds a figure, in its kind's own unit.
//
//go:noinline
func (f *Figures) Add(name string, x float64) { f.Product(name, x) }

// Fig returns one figure, the product of its factors as [Figures.Product] takes
// them.
//
//go:noinline
func Fig(name string, factors ...float64) Figure { return Figure{name: name, factors: factors} }

// Product adds a figure that is the product of factors, each of which only rises
// or only falls as any one input rises.
//
//go:noinline
func (f *Figures) Product(name string, factors ...float64) {
	*f = append(*f, Fig(name, factors...))
}

// Between adds a figure that has a range whatever the inputs: two published
// equations that differ, a prediction interval, the error of a reading. low and
// high enclose x.
//
//go:noinline
func (f *Figures) Between(name string, x, low, high float64) {
	*f = append(*f, Figure{name: name, factors: []float64{x}, lows: []float64{low}, highs: []float64{high}})
}

func product(factors []float64) float64 {
	x := 1.0
	for _, f := range factors {
		x *= f
	}
	return x
}

func (f Figure) base() float64 { return product(f.factors) }
func (f Figure) low() float64  { return product(f.lows) }
func (f Figure) high() float64 { return product(f.highs) }

// spread reports whether the figure has a range.
func (f Figure) spread() bool { return f.lows != nil && !f.rangeless && f.low() < f.high() }

func figureNamed(figures Figures, name string) (Figure, bool) {
	for _, f := range figures {
		if f.name == name {
			return f, true
		}
	}
	return Figure{}, false
}

// spreadOver gives each figure its range: the least and the greatest that its
// factors become when every uncertain input is moved to either end of its own
// range, in every combination. Since each factor only rises or only falls as one
// input rises, no point between leaves that range.
func (s *Sheet) spreadOver(figures Figures) *Problem {
	var uncertain []*answer
	for i := range s.answers {
		if a := &s.answers[i]; a.low < a.high {
			uncertain = append(uncertain, a)
		}
	}
	if len(uncertain) == 0 {
		return nil
	}
	for i := range figures {
		f := &figures[i]
		if f.lows == nil {
			f.lows, f.highs = slices.Clone(f.factors), slices.Clone(f.factors)
		}
	}
	defer func() {
		for _, a := range uncertain {
			a.at = a.base
		}
	}()
	for corner := range 1 << len(uncertain) {
		for i, a := range uncertain {
			a.at = a.high
			if corner>>i&1 == 0 {
				a.at = a.low
			}
		}
		at, p := s.atEdge()
		if p != nil {
			p.Say = "At the edge of the ±: " + p.Say
			return p
		}
		widenAll(figures, at)
	}
	return nil
}

// atEdge makes the figures at one corner of the ranges. What is checked of the form
// must hold there too.
func (s *Sheet) atEdge() (Figures, *Problem) {
	if s.r.Prepare != nil {
		if s.r.Prepare(s); !s.Sound() {
			return nil, &s.problems[0]
		}
	}
	return s.r.Figures(s)
}

func widenAll(figures, at Figures) {
	for i := range figures {
		f := &figures[i]
		g, ok := figureNamed(at, f.name)
		if !ok {
			f.rangeless = true
			continue
		}
		lows, highs := g.factors, g.factors
		if g.lows != nil {
			lows, highs = g.lows, g.highs
		}
		for k := range g.factors {
			f.lows[k], f.highs[k] = min(f.lows[k], lows[k]), max(f.highs[k], highs[k])
		}
	}
}

// value writes a figure for the result.
func (s *Sheet) value(f Figure) Value {
	spec := s.r.spec(f.name)
	u := mustUnit(spec.Unit)
	v := Value{Name: f.name, Title: spec.Title, Value: u.Of(f.base()), Unit: spec.Unit, Shown: s.shown(spec, f)}
	if f.spread() {
		low, high := u.Of(f.low()), u.Of(f.high())
		v.Low, v.High = &low, &high
	}
	return v
}

// Title returns the title of a figure that the reckoning announces.
//
//go:noinline
func (s *Sheet) Title(figure string) string { return s.r.spec(figure).Title }

func (r *Reckoning) spec(name string) ResultSpec {
	for _, spec := range r.Results {
		if spec.Name == name {
			return spec
		}
	}
	panic("reckoning: " + r.Name + " announces no figure " + name)
}

// shown writes a figure for people: in the unit that fits its size, its range,
// and in the person's own units.
func (s *Sheet) shown(spec ResultSpec, f Figure) string {
	if spec.kind == unit.FractionKind {
		return shownShare(f)
	}
	units := s.asTyped(s.handy(spec.kind, f.base(), mustUnit(spec.Unit)), spec.kind, f.base())
	digits := spec.Digits
	if digits == 0 {
		digits = shownFigures
	}
	out := []string{units[0].Write(f.base(), digits) + shownRange(units[0], f, digits)}
	for _, u := range units[1:] {
		if u.Symbol != units[0].Symbol {
			out = append(out, u.Write(f.base(), digits))
		}
	}
	return strings.Join(out, ", ")
}

// shownRange writes a range in brackets; nothing where rounding hides it.
func shownRange(u unit.Unit, f Figure, digits int) string {
	low, high := unit.Text(u.Of(f.low()), digits), u.Write(f.high(), digits)
	if !f.spread() || low == unit.Text(u.Of(f.high()), digits) {
		return ""
	}
	return " (" + low + " to " + high + ")"
}

// asTyped adds to the units of a figure the one in which the person typed a
// quantity of its kind, where that is not the field's own, none of those shown nor
// one that goes by size: mS/cm beside µS/cm, cm beside mm, % w/v beside g/L. It is left out where
// the person used a unit that is shown as well, and where the number would be
// unhandy, as minutes for years. Hardness is given in every scale as it is.
func (s *Sheet) asTyped(units []unit.Unit, k unit.Kind, base float64) []unit.Unit {
	if k == unit.HardnessKind || k == unit.TemperatureKind {
		return units
	}
	shown := len(units)
	for i := range s.answers {
		a := &s.answers[i]
		if !a.given || !a.known || !a.asked || a.in.Of != "" || a.u.Kind != k || a.u.System != unit.Metric {
			continue
		}
		if slices.ContainsFunc(units[:shown], func(u unit.Unit) bool { return u.Symbol == a.u.Symbol }) {
			return units[:shown]
		}
		if x := a.u.Of(base); len(units) == shown && a.u.Symbol != a.in.Unit && !unit.BySize(a.u) && max(x, -x) >= 0.01 && max(x, -x) < 10000 {
			units = append(units, a.u)
		}
	}
	return units
}

// InWords writes a quantity inside a sentence, the person's own units in
// brackets.
func (s *Sheet) InWords(k unit.Kind, base float64) string {
	units := s.handy(k, base, unit.Own(k))
	out := units[0].Write(base, shownFigures)
	var own []string
	for _, u := range units[1:] {
		own = append(own, u.Write(base, shownFigures))
	}
	if len(own) > 0 {
		out += " (" + strings.Join(own, ", ") + ")"
	}
	return out
}

// Degrees writes a temperature inside a sentence, for who reads it in °F in that too.
//
//go:noinline
func (s *Sheet) Degrees(t unit.Temperature) string {
	_, own, other := strings.Cut(s.InWords(unit.TemperatureKind, t.Celsius()), " (")
	if other {
		own = " (" + own
	}
	return Celsius(t) + own
}

// handy returns the units in which this person reads a quantity: a metric one
// first, which is own where the kind has no choice of them by size.
func (s *Sheet) handy(k unit.Kind, base float64, own unit.Unit) []unit.Unit {
	units := unit.Handy(k, base, s.system())
	if len(units) == 0 || units[0].System != unit.Metric {
		units = append([]unit.Unit{own}, units...)
	}
	return units
}

// Litres writes a volume inside a sentence.
//
//go:noinline
func (s *Sheet) Litres(v unit.Volume) string { return s.InWords(unit.VolumeKind, v.Litres()) }

// Weight writes a mass inside a sentence.
//
//go:noinline
func (s *Sheet) Weight(m unit.Mass) string { return s.InWords(unit.MassKind, m.Grams()) }

// Least is the smallest share that is written as a number. Below it the account
// of complete mixing means nothing any more.
const Least = 1e-6

// shownShare writes a share as per cent and as one part in so many.
func shownShare(f Figure) string {
	percent := mustUnit("%")
	if f.base() < Least && (f.base() > 0 || f.spread()) {
		return "less than " + percent.Write(Least, shownFigures)
	}
	out := percent.Write(f.base(), shownFigures)
	if f.spread() && f.low() < Least {
		out += " (up to " + percent.Write(f.high(), shownFigures) + ")"
	} else {
		out += shownRange(percent, f, shownFigures)
	}
	if f.base() > 0 && f.base() < 0.01 {
		out += ", 1 part in " + unit.Text(1/f.base(), shownFigures)
	}
	return out
}
