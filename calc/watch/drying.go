package watch

import (
	"strconv"

	"sinkside/calc/dossier"
)

// How often a drying is looked at where the treatment does not say otherwise
// (common practice).
const (
	dryFirstMin   = 15
	dryFirstHours = 2
	dryLaterMin   = 60
)

// dryings rings for the checks of every drying that runs; the last begun is the
// one that is shown.
func (l *look) dryings() {
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if s.What != "drying" || s.Ended != nil {
			continue
		}
		d := &Drying{Of: s.Entry, Missing: []string{}}
		l.checks(s, d)
		l.w.Drying = d
	}
	if d := l.w.Drying; d != nil {
		d.MouldMS = later(begun(l.step(d.Of)), 24*hourMS)
		if l.st.WetSinceMS != nil {
			d.MouldMS = later(*l.st.WetSinceMS, 24*hourMS)
		}
		l.estimate(l.step(d.Of), d)
	}
}

// checks works out when a drying is to be looked at next: often at first, then
// less, from its begin or the last look or fresh blotter on.
func (l *look) checks(s *dossier.Step, d *Drying) {
	last := begun(s)
	for i := range l.st.Acts {
		a := &l.st.Acts[i]
		if (a.What == "check" || a.What == "blotter") && (a.Of == s.Entry || a.Of == "" && a.At.MS >= last) {
			last = max(last, later(a.At.MS, 0))
			d.Checks++
		}
	}
	first := int64(l.setting("dry_first_hours", 0, 72, dryFirstHours) * hourMS)
	every := func(at int64) int64 {
		if at-begun(s) < first {
			return int64(l.setting("dry_first_min", 1, 24*60, dryFirstMin) * minuteMS)
		}
		return int64(l.setting("dry_later_min", 1, 24*60, dryLaterMin) * minuteMS)
	}
	at := later(last, every(last))
	// Left overnight, it is not rung for until somebody is to be back, who is then
	// rung for; where it is not said when that is, it does not ring on and on.
	loud := true
	if n := len(l.st.Overnights); n > 0 {
		if o := &l.st.Overnights[n-1]; o.At.MS >= last {
			if o.UntilMS == nil {
				loud = false
			} else {
				at = max(at, later(*o.UntilMS, 0))
			}
		}
	}
	d.NextMS = at
	// A check that somebody acknowledged and nobody made comes again.
	for range 100 {
		h, ok := l.heardAt(l.cueStep(Check, s, strconv.FormatInt(at, 10), at, loud, "time to look at it", "time to look at it"))
		if !ok {
			break
		}
		at = max(at, h)
		at = later(at, every(at))
	}
	l.warnStep("check", s, d.NextMS, toneCaution, " is to be looked at.")
}
