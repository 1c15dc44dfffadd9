package watch

import (
	"strconv"

	"sinkside/calc/dossier"
)

// The id of a cue is made of what it is about, so that every device comes to the
// same: KIND:ENTRY, or KIND:ENTRY:EXTRA where the same kind can come again for
// the same step. What it is about that could be changed by a correction is part
// of the id, so that a cue which was acknowledged and then put off rings again.

// slackMS is how much before its time a cue may have been acknowledged, for
// clocks that differ.
const slackMS = minuteMS

// cue adds one, in the order of time. plain is an id under which it may have been
// acknowledged at its time or later, before a correction changed its own.
func (l *look) cue(c Cue, plain string) {
	if !l.st.Open {
		return // nothing rings for a treatment that is closed
	}
	for i := range l.st.Heard {
		h := &l.st.Heard[i]
		if h.Cue == c.ID || h.Cue == plain && h.AtMS >= c.AtMS-slackMS {
			c.HeardBy = h.By
			if c.HeardBy == "" {
				c.HeardBy = "somebody"
			}
			break
		}
	}
	cs := append(l.w.Cues, c)
	for i := len(cs) - 1; i > 0 && (cs[i].AtMS < cs[i-1].AtMS || cs[i].AtMS == cs[i-1].AtMS && cs[i].ID < cs[i-1].ID); i-- {
		cs[i], cs[i-1] = cs[i-1], cs[i]
	}
	l.w.Cues = cs
}

// heardBy tells who acknowledged a cue and when; nil where nobody did.
func (l *look) heard(id string) *dossier.Heard {
	for i := range l.st.Heard {
		if l.st.Heard[i].Cue == id {
			return &l.st.Heard[i]
		}
	}
	return nil
}

// voice is "Rinse three".
func voice(s *dossier.Step) string {
	return kindName(s.What) + " " + inWords(int64(s.Ordinal))
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
		extra = ":" + strconv.FormatInt(s.TargetS, 10)
	}
	id := ":" + s.Entry
	l.cue(Cue{ID: Target + id + extra, Kind: Target, Of: s.Entry, AtMS: at, Loud: true, Say: stepName(s) + ": the time is up", Speak: voice(s) + ", the time is up"}, Target+id)
	left := int64(0)
	switch {
	case s.TargetS >= 8*60:
		left = 5 * minuteMS
	case s.TargetS >= 3*60:
		left = minuteMS
	}
	if left > 0 {
		l.cue(Cue{ID: Ahead + id + extra, Kind: Ahead, Of: s.Entry, AtMS: later(at, -left), Say: stepName(s) + ": " + lasting(left) + " left", Speak: voice(s) + ", " + spoken(left) + " left"}, Ahead+id)
	}
	l.warn(Warning{ID: "past:" + s.Entry, FromMS: at, Tone: toneLimit, Of: s.Entry, Say: stepName(s) + " is past its " + lasting(s.TargetS*1000) + "."})
}

// wet watches the object as long as it is wet: the tested dwell, mould, and who
// was to be back.
func (l *look) wet() {
	d := &l.w.Dwell
	if s := l.immersing(); s != nil && d.EndMS != nil {
		// Where the dwell was used up before this bath, it rings as it begins.
		id := ":" + s.Entry + ":" + strconv.FormatInt(d.S, 10)
		end, mark := max(*d.EndMS, begun(s)), max(*d.MarkMS, begun(s))
		tested := "tested dwell of " + lasting(d.S*1000)
		l.cue(Cue{ID: End + id, Kind: End, Of: s.Entry, AtMS: end, Loud: true, Say: upper(tested) + " is used up", Speak: "The tested dwell is used up"}, "")
		l.warn(Warning{ID: "end" + id, FromMS: end, Tone: toneLimit, Of: s.Entry, Say: "Immersed longer than the " + tested + "."})
		if left := end - mark; left > 0 {
			l.cue(Cue{ID: Mark + id, Kind: Mark, Of: s.Entry, AtMS: mark, Loud: true, Say: "80\u00a0% of the tested dwell: " + lasting(left) + " left",
				Speak: "Eighty per cent of the tested dwell, " + spoken(left) + " left"}, "")
			l.warn(Warning{ID: "mark" + id, FromMS: mark, Tone: toneCaution, Of: s.Entry, Say: "Immersion has reached 80\u00a0% of the " + tested + "."})
		}
	}
	if l.st.WetSinceMS == nil {
		return
	}
	since, of := *l.st.WetSinceMS, l.wetted()
	for _, hours := range [...]int64{24, 48} {
		n, at := strconv.FormatInt(hours, 10), later(since, hours*hourMS)
		l.cue(Cue{ID: Mould + ":" + of + ":" + n, Kind: Mould, Of: of, AtMS: at, Loud: true, Say: "Wet for " + n + " hours: look for mould",
			Speak: "Wet for " + inWords(hours) + " hours, look for mould"}, "")
		tone := toneCaution
		if hours > 24 {
			tone = toneLimit
		}
		l.warn(Warning{ID: "mould:" + of + ":" + n, FromMS: at, Tone: tone, Of: of,
			Say: "Wet for " + n + " hours. What is wet should be dry within 24 to 48 hours, or mould may grow."})
	}
	if o := l.away(); o != nil && !l.stirred(*o.UntilMS) {
		who := o.Who
		if who == "" {
			who = "Somebody"
		}
		l.cue(Cue{ID: Return + ":" + o.Entry, Kind: Return, Of: o.Entry, AtMS: later(*o.UntilMS, 0), Loud: true, Say: who + " was to be back by now", Speak: "Somebody was to be back by now"}, "")
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
