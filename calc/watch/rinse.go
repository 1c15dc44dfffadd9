package watch

import (
	"strings"

	"sinkside/calc/dossier"
	"sinkside/calc/reckoning/rinsing"
	"sinkside/calc/unit"
)

// How a conductivity came to 25 °C.
const (
	corrected   = "corrected"
	compensated = "compensated"
	raw         = "raw"
)

// pureUS is the conductivity, µS/cm at 25 °C, below which water has so little in
// it that a pH drifts (common practice).
const pureUS = 20

// mostPoints is how many conductivities stand on the curve at most, the latest: a
// long day has about fifty. More would cost a phone a second at each reading; all
// stand in the log.
const mostPoints = 150

// rinse puts the conductivities of the baths on a curve, and asks the reckoning
// what those at the ends of the rinses say.
func (l *look) rinse() {
	end := l.last(func(s *dossier.Step) bool { return rinses(s.What) && hasConductivity(s) })
	if end == nil {
		return
	}
	r := &Rinse{Points: []Point{}, Curve: []Band{}, Reasons: []string{}, Propose: rinsing.Look}
	l.w.Rinse = r
	r.Source = l.source(end.Liquid)
	place, over := int64(0), l.conductivities()-mostPoints
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if s.What == "rinse" {
			place = int64(s.Ordinal)
		}
		for j := range s.Readings {
			c := &s.Readings[j]
			if !ofLiquor(s, c) {
				continue
			}
			if over--; over >= 0 {
				continue
			}
			if p, ok := l.point(c, s.Entry, s.Name(), place); ok {
				p.WhyNot = orWhy(p.WhyNot, notOfAnEnd(s, c, end))
				r.Points = append(r.Points, p)
			}
		}
	}
	used := l.series(r.Points)
	if n := len(used) - unit.MostInSeries; n > 0 {
		for _, i := range used[:n] {
			r.Points[i].Fitted, r.Points[i].WhyNot = false, "so many rinses came after it that it no longer counts"
		}
		used = used[n:]
	}
	l.ending(r, used)
}

// ofLiquor tells whether a reading is a conductivity of the liquor that the object
// lay in.
func ofLiquor(s *dossier.Step, r *dossier.Reading) bool {
	return s.Immerses && r.Q == "conductivity" && !r.Source
}

func (l *look) conductivities() (n int) {
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		for j := range s.Readings {
			if ofLiquor(s, &s.Readings[j]) {
				n++
			}
		}
	}
	return n
}

func hasConductivity(s *dossier.Step) bool {
	for i := range s.Readings {
		r := &s.Readings[i]
		if _, ok := microsiemens(r); ok && r.Q == "conductivity" && !r.Source {
			return true
		}
	}
	return false
}

// microsiemens is a conductivity as read, in µS/cm; false where it cannot be
// read.
func microsiemens(r *dossier.Reading) (float64, bool) {
	x, ok := number(r.Value)
	switch r.Unit {
	case "", "uS/cm", "µS/cm":
		return x, ok
	case "mS/cm":
		x *= 1000
		return x, ok && x-x == 0
	}
	return 0, false
}

func orWhy(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// source is the last conductivity of the rinse water as it is poured: one that
// is of no bath, or of one with the liquid of the last rinse. Nil where it was
// not measured.
func (l *look) source(liquid string) *Point {
	var out *Point
	take := func(r *dossier.Reading) {
		if r.Q != "conductivity" || !r.Source || out != nil && r.At.MS < out.AtMS {
			return
		}
		if p, ok := l.point(r, r.Of, "Rinse water", 0); ok {
			p.Fitted = p.How != raw
			out = &p
		}
	}
	for i := range l.st.Loose {
		take(&l.st.Loose[i])
	}
	for i := range l.st.Steps {
		if s := &l.st.Steps[i]; sameLiquid(s.Liquid, liquid) {
			for j := range s.Readings {
				take(&s.Readings[j])
			}
		}
	}
	return out
}

func sameLiquid(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// point brings one conductivity to 25 °C, in the way that was set for this
// treatment; false where its value cannot be read.
func (l *look) point(r *dossier.Reading, of, label string, place int64) (Point, bool) {
	x, ok := microsiemens(r)
	p := Point{Entry: r.Entry, Of: of, Label: label, Place: place, AtMS: later(r.At.MS, 0), Value: x, K25: x, How: raw, Liquor: r.LiquorC, AtEnd: r.AtEnd}
	if !ok {
		return p, false
	}
	temp, known := number(r.LiquorC)
	switch {
	case r.Compensated:
		p.How = compensated
		p.Working = conductivity("compensated", x, "")
	case known:
		p.How = corrected
		way := "linear"
		if l.field("k25_way") == "iso7888" {
			way = "iso7888"
		}
		p.Working = conductivity(way, x, digits(temp))
	default:
		p.WhyNot = "no temperature of the liquor was recorded, so it cannot be brought to 25\u00a0°C"
		return p, true
	}
	k25, why := figure(p.Working, "k25")
	if why != "" {
		p.How, p.WhyNot = raw, why
	} else {
		p.K25 = k25
	}
	return p, true
}

// notOfAnEnd says why a reading in a bath is not one at the end of a rinse that
// can be compared with the last one; empty where it is.
func notOfAnEnd(s *dossier.Step, r *dossier.Reading, end *dossier.Step) string {
	switch {
	case s.What == "flowing":
		return "in a flowing rinse the liquor thins with time and not by rinses"
	case s.What != "rinse":
		return "not of a rinse"
	case !sameLiquid(s.Liquid, end.Liquid):
		return "rinsed with another water: " + orWhy(s.Liquid, "not said which")
	case !r.AtEnd:
		return "not taken at the end after agitation"
	}
	return ""
}

// series marks the points that the fit takes, and returns where they stand: the
// last of each rinse, in the rinses since the last other bath and without a gap.
func (l *look) series(points []Point) (used []int) {
	for i := len(points) - 1; i >= 0; i-- {
		p := &points[i]
		if p.WhyNot != "" {
			continue
		}
		if n := len(used); n > 0 {
			next := &points[used[n-1]]
			switch {
			case p.Place == next.Place:
				p.WhyNot = "a later reading of this rinse counts"
				continue
			case p.Place != next.Place-1:
				p.WhyNot = "between this rinse and the next that counts one was not measured at its end"
				l.before(points[:i], "before a rinse that was not measured at its end")
				return reversed(used)
			case l.between(p.Of, next.Of):
				p.WhyNot = "another bath or a drying came after it"
				l.before(points[:i], p.WhyNot)
				return reversed(used)
			}
		}
		p.Fitted = true
		used = append(used, i)
	}
	return reversed(used)
}

// before says of earlier points that would do why they are left out.
func (l *look) before(points []Point, why string) {
	for i := range points {
		points[i].WhyNot = orWhy(points[i].WhyNot, why)
	}
}

// between tells whether another bath or a drying was begun between two rinses.
func (l *look) between(a, b string) bool {
	in := false
	for i := range l.st.Steps {
		switch s := &l.st.Steps[i]; {
		case s.Entry == a:
			in = true
		case s.Entry == b:
			return false
		case in && (s.Immerses || s.What == "drying"):
			return true
		}
	}
	return false
}

func reversed(s []int) []int {
	for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
		s[i], s[j] = s[j], s[i]
	}
	return s
}
