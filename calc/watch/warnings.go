package watch

import (
	"sinkside/calc/dossier"
	"sinkside/calc/unit"
)

// Tones of a warning.
const (
	toneLimit   = "limit"
	toneCaution = "caution"
)

// offPlanC is how far a bath may drift from its planned temperature, kelvin
// (common practice).
const offPlanC = 3

// warn adds a warning about a step or another entry, in the order of time.
func (l *look) warn(kind, of, extra string, from int64, tone, say string) {
	w := &Warning{ID: kind + ":" + of, FromMS: later(from, 0), Tone: tone, Say: say, Of: of}
	if extra != "" {
		w.ID += ":" + extra
	}
	l.warned = append(l.warned, w)
	for i := len(l.warned) - 1; i > 0; i-- {
		a, b := l.warned[i-1], l.warned[i]
		if a.FromMS < b.FromMS || a.FromMS == b.FromMS && a.ID < b.ID {
			break
		}
		l.warned[i-1], l.warned[i] = b, a
	}
}

// warnStep adds a warning that begins with the step's name.
func (l *look) warnStep(kind string, s *dossier.Step, from int64, tone, say string) {
	l.warn(kind, s.Entry, "", from, tone, s.Name()+say)
}

// warnings adds what the entries themselves call for. The clocks have added
// theirs as they were worked out.
func (l *look) warnings() {
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if s.Uncleared && s.Reason == "" {
			l.warnStep("uncleared", s, s.Begun.MS, toneCaution, " was begun uncleared. The reason is still to be given.")
		}
		l.unticked(s)
		if s.Ended == nil && s.Wets {
			l.temperature(s)
			l.rising(i)
		}
	}
	l.outside()
	for i := range l.st.Aborts {
		if a := &l.st.Aborts[i]; a.Reason == "" {
			l.warn("abort", a.Entry, "", a.At.MS, toneCaution, "It was broken off. The reason is still to be written down.")
		}
	}
	if n := len(l.st.Plans); n > 1 {
		p := &l.st.Plans[n-1]
		l.warn("plans", p.Entry, "", p.AtMS, toneCaution, "Two plans stand side by side. The later one is followed until you choose.")
	}
}

// temperature warns of a bath that has drifted from its plan.
func (l *look) temperature(s *dossier.Step) {
	r := lastIn(s, "temperature")
	plan, ok := number(s.TempC)
	if r == nil || !ok {
		return
	}
	has, _ := number(r.Value)
	by, side := has-plan, " above"
	if by < 0 {
		by, side = -by, " below"
	}
	const slack = 1e-9 // 23.1 - 20.1 is a little above 3 in binary
	if by > offPlanC+slack {
		l.warnStep("temperature", s, r.At.MS, toneCaution, " has "+degrees(has)+", "+unit.Text(by, 2)+"\u00a0°C"+side+" the plan.")
	}
}

// rising warns of a bath whose colour has risen since the reading before, or, in
// a rinse, since the last of the rinse before.
func (l *look) rising(i int) {
	s := &l.st.Steps[i]
	before, last, known := 0.0, 0.0, false
	if rinses(s.What) && i > 0 && rinses(l.st.Steps[i-1].What) {
		last, known = valueIn(&l.st.Steps[i-1], "colour")
	}
	var since *dossier.Reading
	for j := range s.Readings {
		r := &s.Readings[j]
		x, ok := number(r.Value)
		if r.Q != "colour" || !ok {
			continue
		}
		switch {
		case known && x > last:
			if since == nil {
				before = last
			}
			since = r
		case x < last:
			since = nil
		}
		last, known = x, true
	}
	if since != nil {
		l.warnStep("colour", s, since.At.MS, toneCaution, ": the colour of the bath has risen from "+unit.Text(before, 2)+" to "+unit.Text(last, 2)+" of 5. Look for what bleeds.")
	}
}

// unticked warns of what was open on the checklist when a step began and is
// still not done.
func (l *look) unticked(s *dossier.Step) {
	if l.st.WetSinceMS == nil || s.Begun.MS < *l.st.WetSinceMS || len(s.Unticked) == 0 {
		return
	}
	var open []string
	for _, item := range s.Unticked {
		title, done := item, false
		for i := range l.st.Checklist {
			if t := &l.st.Checklist[i]; t.Item == item {
				title = t.Title
				done = len(t.Is) > 0 && t.Is[len(t.Is)-1].Value == "yes"
			}
		}
		if !done {
			open = append(open, title)
		}
	}
	if open != nil {
		l.warnStep("unticked", s, s.Begun.MS, toneCaution, " was begun with this unticked: "+listed(open)+".")
	}
}

// outside warns of a bath that runs outside what a colour was tested for.
func (l *look) outside() {
	s := l.now.step
	if s == nil {
		return
	}
	for i := range l.tests {
		t := &l.tests[i]
		q := ""
		switch {
		case t.best != nil:
		case t.misses == offPH:
			q = "ph"
		case t.misses == tooWarm:
			q = "temperature"
		}
		if q == "" {
			continue
		}
		from, colour := begun(s), t.colour
		if r := lastIn(s, q); r != nil {
			from = r.At.MS
		}
		if colour == "" {
			colour = "All colours"
		}
		l.warn("outside", s.Entry, t.colour, from, toneLimit, upper(colour)+": "+l.why(t)+".")
	}
}
