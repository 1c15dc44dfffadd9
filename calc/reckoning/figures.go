package reckoning

import (
	"slices"
	"strings"

	"sinkside/calc/unit"
)

// shownFigures is to how many significant figures people are shown a result:
// kitchen scales and measuring jugs are no better.
const shownFigures = 3

// figure is one number of a result while it is being worked out, in the own
// unit of its kind.
type figure struct {
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

//go:noinline
func fig(name string, factors ...float64) figure { return figure{name: name, factors: factors} }

// figures are collected by name.
type figures []figure

//go:noinline
func (f *figures) add(name string, x float64) { *f = append(*f, fig(name, x)) }

func product(factors []float64) float64 {
	x := 1.0
	for _, f := range factors {
		x *= f
	}
	return x
}

func (f figure) base() float64 { return product(f.factors) }
func (f figure) low() float64  { return product(f.lows) }
func (f figure) high() float64 { return product(f.highs) }

// spread reports whether the figure has a range.
func (f figure) spread() bool { return f.lows != nil && !f.rangeless && f.low() < f.high() }

func figureNamed(figures []figure, name string) (figure, bool) {
	for _, f := range figures {
		if f.name == name {
			return f, true
		}
	}
	return figure{}, false
}

// spreadOver gives each figure its range: the least and the greatest that its
// factors become when every uncertain input is moved to either end of its own
// range, in every combination. Since each factor only rises or only falls as one
// input rises, no point between leaves that range.
func (s *sheet) spreadOver(figures []figure) *Problem {
	var uncertain []*answer
	for i := range s.answers {
		if a := &s.answers[i]; a.spread > 0 {
			uncertain = append(uncertain, a)
		}
	}
	if len(uncertain) == 0 {
		return nil
	}
	for i := range figures {
		f := &figures[i]
		f.lows, f.highs = slices.Clone(f.factors), slices.Clone(f.factors)
	}
	defer func() {
		for _, a := range uncertain {
			a.at = a.base
		}
	}()
	for corner := range 1 << len(uncertain) {
		for i, a := range uncertain {
			a.at = a.base + a.spread
			if corner>>i&1 == 0 {
				a.at = a.base - a.spread
			}
		}
		at, p := s.r.figures(s)
		if p != nil {
			p.Say = "At the edge of the ±: " + p.Say
			return p
		}
		widenAll(figures, at)
	}
	return nil
}

func widenAll(figures, at []figure) {
	for i := range figures {
		f := &figures[i]
		g, ok := figureNamed(at, f.name)
		if !ok {
			f.rangeless = true
			continue
		}
		for k, x := range g.factors {
			f.lows[k], f.highs[k] = min(f.lows[k], x), max(f.highs[k], x)
		}
	}
}

// value writes a figure for the result.
func (s *sheet) value(f figure) Value {
	spec := s.r.spec(f.name)
	u := mustUnit(spec.Unit)
	v := Value{Name: f.name, Title: spec.Title, Value: u.Of(f.base()), Unit: spec.Unit, Shown: s.shown(spec, f)}
	if f.spread() {
		low, high := u.Of(f.low()), u.Of(f.high())
		v.Low, v.High = &low, &high
	}
	return v
}

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
func (s *sheet) shown(spec ResultSpec, f figure) string {
	if spec.kind == unit.FractionKind {
		return shownShare(f)
	}
	units := unit.Handy(spec.kind, f.base(), s.system())
	if len(units) == 0 {
		units = []unit.Unit{mustUnit(spec.Unit)}
	}
	out := []string{units[0].Write(f.base(), shownFigures) + shownRange(units[0], f)}
	for _, u := range units[1:] {
		out = append(out, u.Write(f.base(), shownFigures))
	}
	return strings.Join(out, ", ")
}

// shownRange writes a range in brackets; nothing where rounding hides it.
func shownRange(u unit.Unit, f figure) string {
	low, high := unit.Text(u.Of(f.low()), shownFigures), u.Write(f.high(), shownFigures)
	if !f.spread() || low == unit.Text(u.Of(f.high()), shownFigures) {
		return ""
	}
	return " (" + low + " to " + high + ")"
}

// inWords writes a quantity inside a sentence, the person's own units in
// brackets.
func (s *sheet) inWords(k unit.Kind, base float64) string {
	units := unit.Handy(k, base, s.system())
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

//go:noinline
func (s *sheet) litres(v unit.Volume) string { return s.inWords(unit.VolumeKind, v.Litres()) }

//go:noinline
func (s *sheet) weight(m unit.Mass) string { return s.inWords(unit.MassKind, m.Grams()) }

// least is the smallest share that is written as a number. Below it the account
// of complete mixing means nothing any more.
const least = 1e-6

// shownShare writes a share as per cent and as one part in so many.
func shownShare(f figure) string {
	percent := mustUnit("%")
	if f.base() < least {
		return "less than " + percent.Write(least, shownFigures)
	}
	out := percent.Write(f.base(), shownFigures)
	if f.spread() && f.low() < least {
		out += " (up to " + percent.Write(f.high(), shownFigures) + ")"
	} else {
		out += shownRange(percent, f)
	}
	if f.base() < 0.1 {
		out += ", 1 part in " + unit.Text(1/f.base(), shownFigures)
	}
	return out
}
