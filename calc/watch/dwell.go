package watch

import (
	"strings"

	"sinkside/calc/dossier"
	"sinkside/calc/unit"
)

// bath is the bath that tested dwells are held against: the one that runs, else
// the next of the plan, else the last.
type bath struct {
	step    *dossier.Step // that runs; nil where none does
	liquid  string        // empty: not known
	temp    float64       // °C
	ph      float64
	hasTemp bool
	hasPH   bool
	has     string // "the bath has" or "the last bath had"
	coming  bool   // it runs or is planned
	planned bool   // temp is of the plan
}

func (l *look) bath() bath {
	b := bath{has: "the bath has"}
	plan := ""
	s := l.immersing()
	b.step = s
	if s == nil {
		if p, ok := l.plannedImmersion(); ok {
			b.liquid, plan, b.coming = p.Liquid, p.TempC, true
		} else {
			s = l.last(func(s *dossier.Step) bool { return s.Immerses })
			b.has = "the last bath had"
		}
	}
	if s != nil {
		b.liquid, plan, b.coming = s.Liquid, s.TempC, b.step != nil
		b.temp, b.hasTemp = valueIn(s, "temperature")
		b.ph, b.hasPH = valueIn(s, "ph")
	}
	if !b.hasTemp {
		b.temp, b.hasTemp = number(plan)
		b.planned = true
	}
	b.liquid = strings.TrimSpace(b.liquid)
	return b
}

// plannedImmersion is the next bath of the plan in which the object is immersed.
func (l *look) plannedImmersion() (dossier.PlannedBath, bool) {
	if _, place := l.planned(); place > 0 {
		for _, b := range l.st.Plans[len(l.st.Plans)-1].Baths[place-1:] {
			if immerses(b.What) && !(rinses(b.What) && l.stopped()) {
				return b, true
			}
		}
	}
	return dossier.PlannedBath{}, false
}

// tested is what is known of one colour in the bath.
type tested struct {
	colour string
	best   *dossier.Dwell // the longest that fits; nil where none does
	near   *dossier.Dwell // else the one that comes nearest
	misses miss           // what near fails at
}

// miss is what a tested dwell fails at; the later ones come nearer.
type miss uint8

const (
	noTest miss = iota
	otherLiquid
	notBothFaces
	tooWarm
	offPH
	fits
)

// against holds a tested dwell against the bath. What is not known of either
// does not count against it, but for the faces: a test is good for both or not.
func (b *bath) against(d *dossier.Dwell) miss {
	t, okT := number(d.TempC)
	from, okFrom := number(d.PHFrom)
	to, okTo := number(d.PHTo)
	switch liquid := strings.TrimSpace(d.Liquid); {
	case liquid != "" && !strings.EqualFold(liquid, b.liquid):
		return otherLiquid
	case d.Faces != "both":
		return notBothFaces
	case okT && b.hasTemp && t < b.temp:
		return tooWarm
	case b.hasPH && (okFrom && b.ph < from || okTo && b.ph > to):
		return offPH
	}
	return fits
}

// colours are the dyed colours of the object; where none are recorded, those
// that have been tested.
func (l *look) colours() []string {
	out := []string{}
	add := func(c string) {
		c = strings.TrimSpace(c)
		if c == "" || len(c) >= len("undyed") && strings.EqualFold(c[:len("undyed")], "undyed") {
			return
		}
		for _, have := range out {
			if strings.EqualFold(have, c) {
				return
			}
		}
		out = append(out, c)
	}
	for _, c := range l.st.Colours {
		add(c)
	}
	if len(l.st.Colours) == 0 {
		for i := range l.st.Dwells {
			add(l.st.Dwells[i].Colour)
		}
	}
	return out
}

// test looks a colour up; the empty one for what holds for every colour.
func (l *look) test(colour string) tested {
	t := tested{colour: colour}
	for i := range l.st.Dwells {
		d := &l.st.Dwells[i]
		if c := strings.TrimSpace(d.Colour); d.S <= 0 || d.S > longestS || c != "" && !strings.EqualFold(c, colour) {
			continue
		}
		m := l.now.against(d)
		switch {
		case m == fits && (t.best == nil || longer(d, t.best)):
			t.best = d
		case m != fits && (t.near == nil || m > t.misses || m == t.misses && longer(d, t.near)):
			t.near, t.misses = d, m
		}
	}
	return t
}

// longer orders dwells for one colour, the entry's name last, so that no order
// of arrival shows.
func longer(a, b *dossier.Dwell) bool {
	return a.S > b.S || a.S == b.S && a.Entry < b.Entry
}

// dwell works out the tested dwell.
func (l *look) dwell() {
	w := &l.w.Dwell
	w.Untested, w.Liquid = []string{}, l.now.liquid
	colours := l.colours()
	if len(colours) == 0 {
		colours = []string{""}
	}
	var sets *dossier.Dwell
	for _, c := range colours {
		t := l.test(c)
		l.tests = append(l.tests, t)
		if t.best == nil {
			if c != "" {
				w.Untested = append(w.Untested, c+": "+l.why(&t))
			}
		} else if sets == nil || t.best.S < sets.S {
			sets, w.Colour = t.best, c
		}
	}
	if sets != nil {
		w.S, w.MarkS, w.Name, w.Entry = sets.S, sets.S*4/5, sets.Name, sets.Entry
		if w.Name == "" {
			w.Name = sets.By
		}
		if since := l.st.RunningSinceMS; since != nil {
			mark, end := later(*since, later(w.MarkS*1000, -l.st.ImmersedMS)), later(*since, later(w.S*1000, -l.st.ImmersedMS))
			w.MarkMS, w.EndMS = &mark, &end
		}
	}
	w.Say = l.sayDwell(sets)
}

// why says why no tested dwell of a colour fits.
func (l *look) why(t *tested) string {
	b, d := &l.now, t.near
	switch t.misses {
	case otherLiquid:
		switch {
		case b.liquid == "" && b.coming:
			return "tested in " + d.Liquid + ", and it is not said what the bath is of"
		case b.liquid == "":
			return "tested in " + d.Liquid + ", and no bath is planned"
		}
		return "no test recorded in " + b.liquid
	case notBothFaces:
		if d.Faces == "one" {
			return "tested on one face only"
		}
		return "tested, but not said whether on both faces"
	case tooWarm:
		at, _ := number(d.TempC)
		has := b.has
		if b.planned {
			has = "the plan has"
		}
		return "tested at " + degrees(at) + ", " + has + " " + degrees(b.temp)
	case offPH:
		return "tested " + band(d) + ", " + b.has + " " + unit.Text(b.ph, 3)
	}
	return "no test recorded"
}

func degrees(x float64) string { return unit.Text(x, 3) + "\u00a0°C" }

// band says the pH in which a test holds; empty where it is not held to one.
func band(d *dossier.Dwell) string {
	from, okFrom := number(d.PHFrom)
	to, okTo := number(d.PHTo)
	switch {
	case okFrom && okTo:
		return "for pH " + unit.Text(from, 3) + " to " + unit.Text(to, 3)
	case okFrom:
		return "from pH " + unit.Text(from, 3)
	case okTo:
		return "up to pH " + unit.Text(to, 3)
	}
	return ""
}

// sayDwell says the limit in a few sentences, what is untested first.
func (l *look) sayDwell(sets *dossier.Dwell) string {
	var never []string
	more, known, held := "", l.now.hasTemp || !l.now.coming, ""
	for i := range l.tests {
		t := &l.tests[i]
		switch {
		case t.best != nil || t.colour == "":
		case t.near == nil:
			never = append(never, t.colour)
		default:
			more += " " + upper(t.colour) + ": " + l.why(t) + "."
		}
		if t.best != nil {
			if _, ok := number(t.best.TempC); !ok {
				known = false
			}
			if b := band(t.best); b != "" && held == "" && l.now.coming && !l.now.hasPH {
				held = b
			}
		}
	}
	say := more
	if never != nil {
		say = " No test recorded for " + listed(never) + "." + more
	}
	switch t := &l.tests[0]; {
	case sets != nil:
		say += " Tested for " + lasting(sets.S*1000)
		if l.w.Dwell.Colour != "" {
			say += ", which " + l.w.Dwell.Colour + " sets"
		}
		if l.w.Dwell.Name != "" {
			say += "; " + l.w.Dwell.Name + " vouches for it"
		}
		say += "."
		if !known {
			say += " The temperature of the bath or of a test is not known."
		}
		if held != "" {
			say += " It holds " + held + ", and the pH of the bath has not been measured."
		}
	case t.colour == "" && t.near != nil:
		say = " No test that fits: " + l.why(t) + "."
	case t.colour == "" && len(l.st.Colours) > 0:
		say = " No test recorded. No dyed colour is listed."
	case t.colour == "":
		say = " No test recorded."
	}
	if len(l.st.Colours) == 0 && len(l.st.Dwells) > 0 {
		say += " No colours are listed for this object."
	}
	return say[1:]
}
