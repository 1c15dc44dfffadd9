package watch

import (
	"strconv"

	"sinkside/calc/dossier"
)

const (
	// everyMin is how often a bath is measured where the treatment does not say
	// otherwise, minutes (common practice).
	everyMin = 10
	// nearEndMS is how long before the target a reading counts as that of the end.
	nearEndMS = 2 * minuteMS
	// togetherMS is how near dues must lie to be said in one cue.
	togetherMS = 2 * minuteMS
)

// measured are the quantities that a bath is watched by, and their names.
var measured = [...][2]string{{"temperature", "temperature"}, {"ph", "pH"}, {"conductivity", "conductivity"}}

// due works out when each quantity is to be measured next in a bath that runs:
// some minutes after its begin or the last reading, but at the target at the
// latest, unless it was read shortly before.
func (l *look) due(s *dossier.Step) {
	every := int64(l.setting("reading_every_min", 1, 24*60, everyMin) * minuteMS)
	end, timed := targetMS(s)
	first := int64(far)
	from := len(l.w.Due)
	for _, q := range measured {
		last := begun(s)
		if r := lastIn(s, q[0]); r != nil {
			last = max(last, r.At.MS)
		}
		at := later(last, every)
		if timed && at > end && last < end-nearEndMS {
			at = end
		}
		l.w.Due = append(l.w.Due, Due{q[0], s.Entry, at})
		first = min(first, at)
	}
	var names []string
	for i, d := range l.w.Due[from:] {
		if d.AtMS <= first+togetherMS {
			names = append(names, measured[i][1])
		}
	}
	verb := " is due"
	if len(names) > 1 {
		verb = " are due"
	}
	what := listed(names) + verb
	l.cueStep(Reading, s, strconv.FormatInt(first, 10), first, false, what, what)
	l.warnStep("reading", s, first, toneCaution, ": "+what+".")
}
