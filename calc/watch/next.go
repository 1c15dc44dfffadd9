package watch

import (
	"sinkside/calc/dossier"
	"sinkside/calc/unit"
)

// next says what comes next, and where two plans stand that people must choose.
// Until they have, the later is followed.
func (l *look) next() {
	l.following()
	if len(l.st.Plans) > 1 {
		l.w.Next.Say += " Two plans stand: choose one."
	}
}

// following says what comes after the bath that runs, of the plan, or in the
// drying.
func (l *look) following() {
	n := &l.w.Next
	p, place := l.planned()
	n.Place = place
	then := ""
	if p != nil {
		then = l.sayPlanned(p)
	}
	if s := l.firstUp(); s != nil {
		n.Say = s.Name() + " runs without a target."
		if at, ok := targetMS(s); ok {
			n.AtMS = &at
			n.Say = "Lift out of " + s.Name() + "."
			if !s.Immerses {
				n.Say = "End " + s.Name() + "."
			}
		}
		plans := l.st.Plans
		switch {
		case then != "":
			n.Say += " Then " + then
		case len(plans) == 0:
		case s.Planned == int64(len(plans[len(plans)-1].Baths)):
			n.Say += " It is the last of the plan."
		default:
			n.Say += " Nothing more is planned."
		}
		return
	}
	if d := l.w.Drying; d != nil {
		at := d.NextMS
		n.AtMS, n.Say = &at, "Look at the drying."
		return
	}
	wet := l.st.WetSinceMS != nil
	switch {
	case wet && l.stopped():
		n.Say = "Rinsing was stopped. Blot and dry."
		if then != "" {
			n.Say = "Rinsing was stopped. Of the plan comes " + then
		}
	case then != "":
		n.Say = upper(then)
	case wet && len(l.st.Plans) > 0:
		n.Say = "The plan is over and the object is wet. Blot and dry, or go on as you decide."
	case wet:
		n.Say = "The object is wet and nothing runs. There is no plan."
	case l.st.Dry != nil:
		n.Say = "Declared dry."
	case len(l.st.Plans) > 0:
		n.Say = "The plan is over."
	default:
		n.Say = "No bath is planned yet."
	}
}

// firstUp is the wetting that runs and is to end first; one without a target only
// where none has any, and then the last begun. Nil where none runs.
func (l *look) firstUp() *dossier.Step {
	var first *dossier.Step
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if s.Ended != nil || s.What == "drying" {
			continue
		}
		at, timed := targetMS(s)
		if first != nil {
			if sooner, ok := targetMS(first); ok && (!timed || sooner <= at) {
				continue
			}
		}
		first = s
	}
	return first
}

// sayPlanned is "rinse 3: deionised water, 8 L, 5 min.", counted among what was
// begun.
func (l *look) sayPlanned(b *dossier.PlannedBath) string {
	s := dossier.Step{What: b.What, Ordinal: 1}
	for i := range l.st.Steps {
		if l.st.Steps[i].What == b.What {
			s.Ordinal = max(s.Ordinal, l.st.Steps[i].Ordinal+1)
		}
	}
	say := ""
	if b.Liquid != "" {
		say = ", " + b.Liquid
	}
	if x, ok := number(b.Litres); ok {
		say += ", " + unit.Text(x, 4) + "\u00a0L"
	}
	if b.TargetS > 0 && b.TargetS <= longestS {
		say += ", " + lasting(b.TargetS*1000)
	}
	if x, ok := number(b.TempC); ok {
		say += ", " + degrees(x)
	}
	if say != "" {
		say = ":" + say[1:]
	}
	return (&s).Name() + say + "."
}
