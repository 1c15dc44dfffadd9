package watch

import (
	"math"
	"strings"

	"sinkside/calc/dossier"
	"sinkside/calc/reckoning/rinsing"
)

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

// sudsCheck is said where the reckoning, which says it too, was not asked.
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
	if suds, ok := l.sign(last, "suds"); ok {
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
	if colour, ok := l.sign(last, "colour"); ok && colour >= 0 && colour <= 5 && colour == math.Trunc(colour) {
		q.put("colour", digits(colour))
	}
	r.Working = q.asked()
	e, problems := rinsing.RinseCurve(r.Working.Inputs)
	if len(problems) > 0 {
		r.Refused = problems[0].Say
		r.Say = "The readings cannot be reckoned with. Look at them."
		r.Reasons = append(r.Reasons, sudsCheck)
		return
	}
	r.Propose, r.Say, r.Refused = e.Propose, e.Say, e.Refused
	r.Reasons = append(r.Reasons, e.Reasons...)
	l.broughtTo25(r, used)
	if okPH && r.Points[used[len(used)-1]].K25 < pureUS {
		r.Reasons = append(r.Reasons, "In water as pure as this a pH drifts while you look at it: wait until it stands, and do not lean on its last figure.")
	}
	if other := l.since(last); other != nil {
		r.Propose, r.Say = rinsing.Look, other.Name()+" was begun after the last rinse that was measured: these readings do not speak of it. Measure the next rinse at its end."
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

// sign is the last value of a quantity in a rinse or in one begun after it.
func (l *look) sign(rinse *dossier.Step, q string) (x float64, ok bool) {
	x, ok = valueIn(rinse, q)
	after := false
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if later, is := valueIn(s, q); after && is && rinses(s.What) {
			x, ok = later, true
		}
		after = after || s == rinse
	}
	return x, ok
}

// since is the last bath but a rinse that was begun after one; nil where there is
// none.
func (l *look) since(rinse *dossier.Step) *dossier.Step {
	s := l.last(func(s *dossier.Step) bool { return s == rinse || s.Immerses && !rinses(s.What) })
	if s == rinse {
		return nil
	}
	return s
}

// broughtTo25 says how the readings and that of the source came to 25 °C: the
// coefficient is nobody's measurement.
func (l *look) broughtTo25(r *Rinse, used []int) {
	here, meter := r.Source.How == corrected, r.Source.How == compensated
	for _, i := range used {
		here = here || r.Points[i].How == corrected
		meter = meter || r.Points[i].How == compensated
	}
	switch {
	case here && meter:
		r.Reasons = append(r.Reasons, "Some readings were brought to 25\u00a0°C by the meter and some here, at the usual "+usualPct+": small differences between them may come from that.")
	case here:
		r.Reasons = append(r.Reasons, "Readings were brought to 25\u00a0°C at the usual "+usualPct+", not one found for this water.")
	}
}

// usualPct is the coefficient that the reckoning takes where none is given.
const usualPct = "2\u00a0% a degree"

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
