package watch

import (
	"math"
	"strconv"
	"strings"

	"sinkside/calc/dossier"
	"sinkside/calc/reckoning"
	"sinkside/sync/jsontext"
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

// rinse puts all conductivities of the baths on a curve, and asks the reckoning
// what those at the ends of the rinses say.
func (l *look) rinse() {
	end := l.last(func(s *dossier.Step) bool { return rinses(s.What) && hasConductivity(s) })
	if end == nil {
		return
	}
	r := &Rinse{Points: []Point{}, Curve: []Band{}, Reasons: []string{}, Propose: reckoning.Look}
	l.w.Rinse = r
	r.Source = l.source(end.Liquid)
	place := int64(0)
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if !s.Immerses {
			continue
		}
		if s.What == "rinse" {
			place = int64(s.Ordinal)
		}
		for j := range s.Readings {
			if c := &s.Readings[j]; c.Q == "conductivity" && !c.Source {
				if p, ok := point(c, s.Entry, stepName(s), place); ok {
					p.WhyNot = orWhy(p.WhyNot, notOfAnEnd(s, c, end))
					r.Points = append(r.Points, p)
				}
			}
		}
	}
	used := l.series(r.Points)
	l.ending(r, used)
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
		if p, ok := point(r, r.Of, "Rinse water", 0); ok {
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

// point brings one conductivity to 25 °C; false where its value cannot be read.
func point(r *dossier.Reading, of, label string, place int64) (Point, bool) {
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
		p.Working = conductivity("linear", x, digits(temp))
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

// ending asks the reckoning about the points at used.
func (l *look) ending(r *Rinse, used []int) {
	switch {
	case r.Source == nil:
		r.Refused = "The rinse water as it is poured has not been measured, so there is nothing to compare with."
		r.Say = "Measure the conductivity of the rinse water as it is poured."
	case !r.Source.Fitted:
		r.Refused = "The rinse water: " + r.Source.WhyNot + "."
		r.Say = "Measure the rinse water again, with its temperature."
	case len(used) == 0:
		r.Refused = "No reading of a rinse can be fitted: " + r.Points[len(r.Points)-1].WhyNot + "."
		r.Say = "Measure at the end of the rinse, after agitation, with the temperature of the liquor."
	default:
		l.fit(r, used)
		return
	}
	for _, i := range used {
		r.Points[i].Fitted, r.Points[i].WhyNot = false, "the rinse water was not measured so that it could be compared"
	}
	r.Reasons = append(r.Reasons, sudsCheck)
}

// sudsCheck is said wherever the reckoning has nothing to say.
const sudsCheck = "Whatever the readings say, check for suds: conductivity does not see non-ionic detergent."

func (l *look) fit(r *Rinse, used []int) {
	last := l.step(r.Points[used[len(used)-1]].Of)
	q := ask("rinse_end")
	q.put("readings", joined(r.Points, used))
	q.put("source", digits(r.Source.K25))
	if litres := l.litres(r.Points, used); litres != "" {
		q.put("litres", litres)
		q.put("kept", l.kept())
	}
	if suds, ok := valueIn(last, "suds"); ok {
		showed := "none"
		if suds > 0 {
			showed = "some"
		}
		q.put("suds", showed)
	}
	ph, okPH := valueIn(last, "ph")
	if len(used) > 1 && okPH {
		if before, ok := valueIn(l.step(r.Points[used[len(used)-2]].Of), "ph"); ok {
			q.put("ph_change", digits(min(7, max(-7, ph-before))))
		}
	}
	if colour, ok := valueIn(last, "colour"); ok && colour >= 0 && colour <= 5 && colour == math.Trunc(colour) {
		q.put("colour", digits(colour))
	}
	r.Working = q.asked()
	e, problems := reckoning.RinseCurve(r.Working.Inputs)
	if len(problems) > 0 {
		r.Refused = problems[0].Say
		r.Say = "The readings cannot be reckoned with. Look at them."
		r.Reasons = append(r.Reasons, sudsCheck)
		return
	}
	r.Propose, r.Say, r.Refused = e.Propose, e.Say, e.Refused
	r.Reasons = append(append(r.Reasons, e.Reasons...), sudsCheck)
	if okPH && r.Points[used[len(used)-1]].K25 < pureUS {
		r.Reasons = append(r.Reasons, "In water as pure as this a pH drifts while you look at it: wait until it stands, and do not lean on its last figure.")
	}
	if e.Moved {
		by := e.Change * 100
		r.ChangePct = &by
	}
	if e.Refused == "" {
		low, high := int64(e.MoreLow), int64(e.MoreHigh)
		r.MoreLow, r.MoreHigh = &low, &high
	}
	first := r.Points[used[0]].Place
	for _, b := range e.Curve {
		r.Curve = append(r.Curve, Band{first + int64(b.Place) - 1, b.K25, b.Low, b.High})
	}
}

// step finds a step by its entry; an empty one where it is not there.
func (l *look) step(entry string) *dossier.Step {
	if s := l.last(func(s *dossier.Step) bool { return s.Entry == entry }); s != nil {
		return s
	}
	return &dossier.Step{}
}

// joined lists readings as a series.
func joined(points []Point, used []int) string {
	var texts []string
	for _, i := range used {
		texts = append(texts, digits(points[i].K25))
	}
	return strings.Join(texts, "; ")
}

// litres lists the fresh water of the rinses; empty where one is not known.
func (l *look) litres(points []Point, used []int) string {
	var texts []string
	for _, i := range used {
		x, ok := number(l.step(points[i].Of).Litres)
		if !ok || x < 0.01 || x > 5000 {
			return ""
		}
		texts = append(texts, digits(x))
	}
	return strings.Join(texts, "; ")
}

// kept is the liquid that the drained object still holds, in litres, by its dry
// mass and its pick-up; empty where one of them is not known.
func (l *look) kept() string {
	if g, ok := l.held(); ok && g >= 1 && g <= 500_000 {
		return digits(g / 1000)
	}
	return ""
}

// held is the water that the drained object holds by its dry mass and pick-up, g.
func (l *look) held() (float64, bool) {
	mass, ok := number(l.field("dry_mass_g"))
	pickUp, known := number(l.field("pick_up_pct"))
	g := mass * pickUp / 100
	return g, ok && known && mass > 0 && pickUp > 0 && g-g == 0
}

// digits writes a number with six significant figures at most, as forms read it.
func digits(x float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 5, 64), 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

func conductivity(way string, x float64, temp string) Asked {
	q := ask("conductivity")
	q.put("way", way)
	q.put("value", digits(x))
	q.put("temp", temp)
	return q.asked()
}

// question is put together for a reckoning, one input after the other.
type question struct {
	name string
	w    jsontext.Writer
}

func ask(name string) *question {
	q := &question{name: name}
	q.w.Begin('{')
	return q
}

// put gives an input; what is empty is not known and left out.
func (q *question) put(input, text string) {
	if text != "" {
		q.w.Key(input)
		q.w.Str(text)
	}
}

func (q *question) asked() Asked {
	q.w.End('}')
	return Asked{q.name, q.w.B}
}

// figure asks for one figure; why says what stands against it.
func figure(a Asked, name string) (x float64, why string) {
	out, problems := reckoning.Run(a.Name, a.Inputs)
	if len(problems) > 0 {
		return 0, problems[0].Say
	}
	for _, v := range out.Values {
		if v.Name == name {
			return v.Value, ""
		}
	}
	return 0, "it cannot be reckoned"
}
