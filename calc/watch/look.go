package watch

import (
	"strconv"
	"strings"

	"sinkside/calc/dossier"
)

const (
	minuteMS = 60_000
	hourMS   = 60 * minuteMS
	// far is the last whole number that JavaScript knows exactly; what an entry
	// from a broken clock claims beyond it is held there.
	far = 1 << 53
	// longestS is a year, in seconds: a target or a dwell beyond it is a slip
	// and counts as not given.
	longestS = 366 * 24 * 3600
)

// look is one look at a treatment.
type look struct {
	st  *dossier.State
	w   *Watch
	now bath
	// cues and warned gather, in order, what is said at its time.
	cues   []*Cue
	warned []*Warning
	// tests holds for each colour what is known of it in the bath.
	tests []tested
}

// Of says what must be watched in the treatment that st is the state of. It
// changes nothing in st.
func Of(st *dossier.State) *Watch {
	l := look{st: st, w: &Watch{Job: st.Job, Cues: []Cue{}, Warnings: []Warning{}, Due: []Due{}}}
	l.now = l.bath()
	l.dwell()
	l.baths()
	l.wet()
	l.dryings()
	l.rinse()
	l.stopPlan()
	l.next()
	l.warnings()
	for _, c := range l.cues {
		l.w.Cues = append(l.w.Cues, *c)
	}
	for _, x := range l.warned {
		l.w.Warnings = append(l.w.Warnings, *x)
	}
	return l.w
}

// later adds two times or a time and a length, held within what is sensible.
func later(ms, by int64) int64 {
	return min(max(min(max(ms, -far), far)+min(max(by, -far), far), -far), far)
}

// number reads a number as an entry carries it; false for what is none, and for
// what no number holds.
func number(s string) (float64, bool) {
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil && x-x == 0
}

// setting returns a field as a number of minutes, hours or per cent within lo and
// hi; usual where it is not set or cannot be. Of two values that people must
// choose from, the later.
func (l *look) setting(name string, lo, hi, usual float64) float64 {
	if x, ok := number(l.field(name)); ok && x >= lo && x <= hi {
		return x
	}
	return usual
}

func (l *look) field(name string) string {
	if vs := l.st.Fields[name]; len(vs) > 0 {
		return vs[len(vs)-1].Value
	}
	return ""
}

// begun is when a step began.
func begun(s *dossier.Step) int64 { return later(s.Begun.MS, 0) }

// targetMS is when a step is to end; false where it has no target.
func targetMS(s *dossier.Step) (int64, bool) {
	if s.TargetS <= 0 || s.TargetS > longestS {
		return 0, false
	}
	return later(begun(s), s.TargetS*1000), true
}

// immersing is the bath that runs; the last begun where there are several, nil
// where there is none.
func (l *look) immersing() *dossier.Step {
	return l.last(func(s *dossier.Step) bool { return s.Immerses && s.Ended == nil })
}

// last is the last begun step that is so; nil where there is none.
func (l *look) last(so func(*dossier.Step) bool) *dossier.Step {
	for i := len(l.st.Steps) - 1; i >= 0; i-- {
		if so(&l.st.Steps[i]) {
			return &l.st.Steps[i]
		}
	}
	return nil
}

// lastIn is the last readable reading of a quantity in a step, nil where there is
// none.
func lastIn(s *dossier.Step, q string) *dossier.Reading {
	for i := len(s.Readings) - 1; i >= 0; i-- {
		if r := &s.Readings[i]; r.Q == q && !r.Source {
			if _, ok := number(r.Value); ok {
				return r
			}
		}
	}
	return nil
}

// valueIn is the value of lastIn.
func valueIn(s *dossier.Step, q string) (float64, bool) {
	if r := lastIn(s, q); r != nil {
		return number(r.Value)
	}
	return 0, false
}

// planned is the bath of the plan that comes next and its place from 1; nil and 0
// where the plan is over or there is none. Of two plans the later counts. After
// rinsing was stopped, rinses are passed over.
func (l *look) planned() (*dossier.PlannedBath, int64) {
	if len(l.st.Plans) == 0 {
		return nil, 0
	}
	plan := &l.st.Plans[len(l.st.Plans)-1]
	baths := plan.Baths
	var done int64
	for i := range l.st.Steps {
		if s := &l.st.Steps[i]; !l.dayBefore(s, plan) {
			done = max(done, s.Planned)
		}
	}
	stopped := l.stopped()
	for ; done < int64(len(baths)); done++ {
		if b := &baths[done]; !stopped || !rinses(b.What) {
			return b, done + 1
		}
	}
	return nil, 0
}

// dayBefore tells whether a step was over and the object dry again before a plan
// was made: the places of such a step are those of another plan.
func (l *look) dayBefore(s *dossier.Step, plan *dossier.Plan) bool {
	dried := l.st.Dry != nil && l.st.Dry.At.MS <= plan.AtMS
	if l.st.WetSinceMS != nil {
		dried = s.Begun.MS < *l.st.WetSinceMS
	}
	return dried && s.Ended != nil && s.Ended.MS <= plan.AtMS
}

// stopped tells whether the last decision was to stop rinsing, and no bath was
// begun since.
func (l *look) stopped() bool {
	n := len(l.st.Decisions)
	if n == 0 || l.st.Decisions[n-1].What != "stop_rinsing" {
		return false
	}
	since := l.st.Decisions[n-1].At.MS
	return l.last(func(s *dossier.Step) bool { return s.Immerses && s.Begun.MS > since }) == nil
}

func rinses(what string) bool { return what == "rinse" || what == "flowing" }

// immerses tells whether a planned bath of this kind immerses.
func immerses(what string) bool {
	_, yes := dossier.Wetting(what)
	return yes
}

// listed joins names: "red, blue and green"; by semicolons where one of them
// holds a comma.
func listed(names []string) string {
	if n := len(names); n > 1 {
		for _, name := range names {
			if strings.Contains(name, ",") {
				return strings.Join(names, "; ")
			}
		}
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// upper makes the first letter of a sentence a capital; ASCII only, which
// the sentences here begin with, or else a name as people wrote it.
func upper(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}
