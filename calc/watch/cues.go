package watch

import (
	"strconv"

	"sinkside/calc/dossier"
	"sinkside/sync/journal"
)

// The id of a cue is made of what it is about, so that every device comes to the
// same: KIND:ENTRY, or KIND:ENTRY:EXTRA where the same kind can come again for
// the same step. What it is about that could be changed by a correction is part
// of the id, so that a cue which was acknowledged and then put off rings again.

// slackMS is how much before its time a cue may have been acknowledged, for
// clocks that differ.
const slackMS = minuteMS

// cue adds one for a step or another entry, in the order of time, and returns it.
// It may also have been acknowledged without the extra, at its time or later,
// before a correction changed it. Nothing rings for a treatment that is closed:
// then it returns one that nobody sees.
func (l *look) cue(kind, of, extra string, at int64, loud bool, say, speak string) *Cue {
	if !l.st.Open {
		return &Cue{}
	}
	plain := kind + ":" + of
	c := Cue{ID: plain, Kind: kind, Of: of, AtMS: later(at, 0), Say: say, Speak: speak, Loud: loud}
	if extra != "" {
		c.ID += ":" + extra
	}
	for i := range l.st.Heard {
		h := &l.st.Heard[i]
		if h.Cue == c.ID || kind != Check && kind != Reading && h.Cue == plain && h.AtMS >= c.AtMS-slackMS {
			c.HeardBy = h.By
			if c.HeardBy == "" {
				c.HeardBy = "somebody"
			}
			break
		}
	}
	l.cues = append(l.cues, &c)
	for i := len(l.cues) - 1; i > 0; i-- {
		a, b := l.cues[i-1], l.cues[i]
		if a.AtMS < b.AtMS || a.AtMS == b.AtMS && a.ID < b.ID {
			break
		}
		l.cues[i-1], l.cues[i] = b, a
	}
	return &c
}

// heardAt is when a cue was acknowledged; false where nobody did.
func (l *look) heardAt(c *Cue) (int64, bool) {
	for i := range l.st.Heard {
		if h := &l.st.Heard[i]; h.Cue == c.ID {
			return later(h.AtMS, 0), true
		}
	}
	return 0, false
}

// voice is "Rinse three".
func voice(s *dossier.Step) string {
	return dossier.KindName(s.What) + " " + inWords(int64(s.Ordinal))
}

// baths watches every step that runs.
func (l *look) baths() {
	for i := range l.st.Steps {
		s := &l.st.Steps[i]
		if s.Ended != nil {
			continue
		}
		l.target(s)
		if s.Immerses {
			l.due(s)
		}
	}
}

// target rings when a step's time is up, and some minutes before: five where it
// lasts eight at least, one where it lasts three.
func (l *look) target(s *dossier.Step) {
	at, ok := targetMS(s)
	if !ok {
		return
	}
	extra := ""
	if s.Versions > 1 {
		// The time that the correction gives it, by the clock of who wrote it: it
		// does not change when a device learns later how wrong its clock was.
		extra = strconv.FormatInt(s.TargetS, 10)
		if ms, err := journal.ParseAt(s.Begun.At); err == nil {
			extra = strconv.FormatInt(later(ms, s.TargetS*1000), 10)
		}
	}
	l.cueStep(Target, s, extra, at, true, "the time is up", "the time is up")
	left := int64(0)
	switch {
	case s.TargetS >= 8*60:
		left = 5 * minuteMS
	case s.TargetS >= 3*60:
		left = minuteMS
	}
	if left > 0 {
		l.cueStep(Ahead, s, extra, at-left, false, lasting(left)+" left", spoken(left)+" left")
	}
	l.warnStep("past", s, at, toneLimit, " is past its "+lasting(s.TargetS*1000)+".")
}

// cueStep adds a cue that begins with the step's name.
func (l *look) cueStep(kind string, s *dossier.Step, extra string, at int64, loud bool, say, speak string) *Cue {
	return l.cue(kind, s.Entry, extra, at, loud, s.Name()+": "+say, voice(s)+", "+speak)
}

// wet watches the object as long as it is wet: the tested dwell, mould, and who
// was to be back.
func (l *look) wet() {
	l.limit()
	if l.st.WetSinceMS == nil {
		return
	}
	of, tone := l.wetted(), toneCaution
	for _, hours := range [...]int64{24, 48} {
		n, at := strconv.FormatInt(hours, 10), later(*l.st.WetSinceMS, hours*hourMS)
		l.cue(Mould, of, n, at, true, "Wet for "+n+" hours: look for mould", "Wet for "+inWords(hours)+" hours, look for mould")
		l.warn("mould", of, n, at, tone, "Wet for "+n+" hours. What is wet should be dry within 24 to 48 hours, or mould may grow.")
		tone = toneLimit
	}
	if o := l.away(); o != nil && !l.stirred(*o.UntilMS) {
		l.cue(Return, o.Entry, "", *o.UntilMS, true, orWhy(o.Who, "Somebody")+" was to be back by now", "Somebody was to be back by now")
	}
}

// limit rings for the tested dwell.
func (l *look) limit() {
	d := &l.w.Dwell
	s := l.last(func(s *dossier.Step) bool { return s.Immerses })
	if d.S == 0 || s == nil {
		return
	}
	tested, n := "tested dwell of "+lasting(d.S*1000), strconv.FormatInt(d.S, 10)
	over := "Immersed longer than the " + tested + "."
	if d.EndMS == nil {
		if l.st.WetSinceMS != nil && l.st.ImmersedMS > d.S*1000 && s.Ended != nil {
			l.warn("end", s.Entry, n, s.Ended.MS, toneLimit, over)
		}
		return
	}
	// Where the dwell was used up before this bath, it rings as it begins.
	s = l.immersing()
	if s == nil {
		return
	}
	end, mark := max(*d.EndMS, begun(s)), max(*d.MarkMS, begun(s))
	l.cue(End, s.Entry, n, end, true, upper(tested)+" is used up", "The tested dwell is used up")
	l.warn("end", s.Entry, n, end, toneLimit, over)
	if left := end - mark; left > 0 {
		l.cue(Mark, s.Entry, n, mark, true, "80\u00a0% of the tested dwell: "+lasting(left)+" left", "Eighty per cent of the tested dwell, "+spoken(left)+" left")
		l.warn("mark", s.Entry, n, mark, toneCaution, "Immersion has reached 80\u00a0% of the "+tested+".")
	}
}

// wetted is the entry that wetted the object, empty where it is not known.
func (l *look) wetted() string {
	for i := range l.st.Steps {
		if s := &l.st.Steps[i]; s.Wets && s.Begun.MS == *l.st.WetSinceMS {
			return s.Entry
		}
	}
	return ""
}

// away is the last entry that says until when a wet object is left overnight; nil
// where there is none.
func (l *look) away() *dossier.Overnight {
	if n := len(l.st.Overnights); n > 0 && l.st.Overnights[n-1].UntilMS != nil {
		return &l.st.Overnights[n-1]
	}
	return nil
}

// stirred tells whether anything was done to the object at or after a time.
func (l *look) stirred(ms int64) bool {
	for i := range l.st.Acts {
		if l.st.Acts[i].At.MS >= ms {
			return true
		}
	}
	for i := range l.st.Loose {
		if l.st.Loose[i].At.MS >= ms {
			return true
		}
	}
	return l.last(func(s *dossier.Step) bool {
		n := len(s.Readings)
		return s.Begun.MS >= ms || s.Ended != nil && s.Ended.MS >= ms || n > 0 && s.Readings[n-1].At.MS >= ms
	}) != nil
}
