package dossier

import (
	"cmp"
	"slices"

	"sinkside/sync/journal"
)

// Dossier collects the entries of one treatment. Add them in any order, any
// number of times; State, Log and Summary follow from the set.
//
// It is not safe for concurrent use.
type Dossier struct {
	job   journal.ID
	facts map[journal.Name]*fact
	made  *folded // nil when entries came since it was made
}

// New starts an empty dossier.
func New(job journal.ID) *Dossier {
	return &Dossier{job: job, facts: map[journal.Name]*fact{}}
}

// Add puts e into the set and tells whether it is new. An entry of another
// treatment is not added.
func (d *Dossier) Add(e journal.Entry) bool {
	if e.Job != d.job || d.facts[e.Name] != nil {
		return false
	}
	d.facts[e.Name] = newFact(e)
	d.made = nil
	return true
}

// Len is the number of entries.
func (d *Dossier) Len() int { return len(d.facts) }

// State folds the set. The result is shared: it must not be changed, and stays
// as it is when entries are added.
func (d *Dossier) State() *State { return &d.fold().state }

func (d *Dossier) fold() *folded {
	if d.made == nil {
		d.made = foldFacts(d.job, d.facts)
	}
	return d.made
}

// folded is everything that one pass over the set works out.
type folded struct {
	facts    map[journal.Name]*fact
	chains   map[journal.ID][]*fact // by device, in order of place
	ordered  []*fact                // in recorded order
	alias    map[journal.Name]*fact // by the name on a refused branch
	strikes  map[*fact]*fact        // the strike that stands against an entry
	versions map[*fact]*versions    // of corrected entries
	doubts   map[*fact]string       // found in folding, besides fact.doubt
	places   map[*fact]int          // index in state.Steps of a begin
	ends     map[*fact]*fact        // begin of an end
	dry      []*fact                // declarations of dry that stand, by time
	why      map[*fact]string       // reasons given afterwards
	state    State
}

func foldFacts(job journal.ID, facts map[journal.Name]*fact) *folded {
	f := &folded{
		facts: facts, chains: map[journal.ID][]*fact{}, alias: map[journal.Name]*fact{}, strikes: map[*fact]*fact{}, versions: map[*fact]*versions{},
		doubts: map[*fact]string{}, places: map[*fact]int{}, ends: map[*fact]*fact{},
	}
	f.state = State{
		Job: job.String(), Entries: len(facts), Fields: map[string][]FieldValue{}, Steps: []Step{},
		Last: map[string]Reading{}, Doubts: []Doubt{}, Clocks: []ClockSeen{},
		Colours: []string{}, Plans: []Plan{}, Dwells: []Dwell{}, Acts: []Act{}, Loose: []Reading{}, Aborts: []Abort{},
		Decisions: []Decision{}, Takeovers: []Takeover{}, Reckoned: []Reckoned{}, Overnights: []Overnight{}, Heard: []Heard{}, Photos: []Photo{},
	}
	f.order()
	f.reissues()
	f.resolveStrikes()
	f.clocks()
	f.resolveAmends()
	f.opening()
	f.fields()
	f.colours()
	f.checklist()
	f.plans()
	f.dwells()
	f.steps()
	f.readings()
	f.immersion()
	f.wetness()
	f.done()
	f.aborts()
	f.people()
	f.remarks()
	return f
}

// reissues maps the names of refused branches to the entries that took their
// place. A re-issue of an entry that is here, or was re-issued before, is shown
// but changes nothing, so that a phone unsure of what had arrived doubles
// nothing.
func (f *folded) reissues() {
	for _, x := range f.ordered {
		x.again = false
		if x.Was.IsZero() {
			continue
		}
		if f.facts[x.Was] != nil || f.alias[x.Was] != nil {
			x.again = true
			continue
		}
		f.alias[x.Was] = x
	}
}

// find resolves a reference. One to a second copy means the entry that it is a
// copy of: a phone may have gone on from its copy before that one arrived. Names
// are hashes, so following them ends.
func (f *folded) find(n journal.Name) *fact {
	x := f.facts[n]
	if x == nil {
		x = f.alias[n]
	}
	if x != nil && x.again {
		return f.find(x.Was)
	}
	return x
}

// stands tells whether x counts: known, not a repeat, not struck.
func (f *folded) stands(x *fact) bool {
	return !x.unknown && !x.again && f.strikes[x] == nil
}

// of returns the entries of one kind that stand and lack nothing, in recorded
// order.
func (f *folded) of(kind string) (out []*fact) {
	for _, x := range f.ordered {
		if x.Kind == kind && f.stands(x) && f.says(x).lacks(kind) == nil {
			out = append(out, x)
		}
	}
	return out
}

// byTime is of, by the time at which it happened.
func (f *folded) byTime(kind string) []*fact {
	out := f.of(kind)
	f.sortByTime(out)
	return out
}

func (f *folded) sortByTime(xs []*fact) {
	slices.SortStableFunc(xs, func(a, b *fact) int { return cmp.Compare(f.moment(a).MS, f.moment(b).MS) })
}

// about is the name of the entry that x is about, empty for none. One that has
// not arrived is doubtful and keeps the name that was given.
func (f *folded) about(x *fact, n journal.Name) string {
	if n.IsZero() {
		return ""
	}
	if y := f.find(n); y != nil {
		return y.Name.String()
	}
	f.doubt(x, "the entry that it is about has not arrived")
	return n.String()
}

func (f *folded) doubt(x *fact, why string) {
	if x.doubt == "" && f.doubts[x] == "" {
		f.doubts[x] = why
	}
}

// resolveStrikes finds which strikes stand. A strike can be struck itself, which
// gives the entry back. References go to earlier lines by hash, so this ends,
// but for names of refused branches, which a forger could tie into a ring: an
// entry met again on the way counts as not struck.
func (f *folded) resolveStrikes() {
	by := map[*fact][]*fact{}
	for _, x := range f.ordered {
		if x.Kind != "strike" || x.unknown || x.again || x.body.of.IsZero() {
			continue
		}
		if target := f.find(x.body.of); target != nil {
			by[target] = append(by[target], x)
		} else {
			f.doubt(x, "the entry that it strikes has not arrived")
		}
	}
	done := map[*fact]bool{}
	onWay := map[*fact]bool{}
	var settle func(x *fact)
	settle = func(x *fact) {
		if done[x] || onWay[x] {
			return
		}
		onWay[x] = true
		for _, s := range by[x] {
			settle(s)
			if f.strikes[s] == nil {
				f.strikes[x] = s
				break
			}
		}
		done[x] = true
	}
	for _, x := range f.ordered {
		settle(x)
	}
}

// opening finds out whether the treatment is open, and since when. The latest
// of close and reopen decides.
func (f *folded) opening() {
	s := &f.state
	closed := false
	for _, x := range f.ordered {
		if !f.stands(x) {
			continue
		}
		switch x.Kind {
		case "open":
			if s.Opened == nil {
				m := f.moment(x)
				s.Opened = &m
			}
			s.Sample = s.Sample || x.body.sample
		case "close":
			closed = true
		case "reopen":
			closed = false
		}
	}
	s.Open = !closed
}

// moment gives x's time, by its correction when it has one.
func (f *folded) moment(x *fact) Moment {
	at, atMS := x.At, x.atMS
	if v := f.versions[x]; v != nil && v.now.at != "" {
		at, atMS = v.now.at, v.now.atMS
	}
	return Moment{MS: atMS + x.offset, At: at, Corrected: x.offset != 0, RecordedMS: x.recordedMS + x.offset}
}

// remarks gathers doubts and counts in recorded order.
func (f *folded) remarks() {
	s := &f.state
	for _, x := range f.ordered {
		s.LastMS = max(s.LastMS, min(x.atMS, x.recordedMS)+x.offset)
		if x.unknown {
			s.Unknown++
		}
		if why := f.whyDoubt(x); why != "" {
			s.Doubts = append(s.Doubts, Doubt{x.Name.String(), why})
		}
		if x.Kind == "note" && f.stands(x) {
			s.Notes++
		}
	}
}

// leadMS is how far an entry may be dated after its recording before that is
// doubtful: a minute, for clocks that were set in between.
const leadMS = 60_000

func (f *folded) whyDoubt(x *fact) string {
	switch {
	case x.doubt != "":
		return x.doubt
	case f.doubts[x] != "":
		return f.doubts[x]
	case x.again:
		return "a second copy of an entry that is here already"
	case x.atMS > x.recordedMS+leadMS:
		return "dated after it was recorded"
	}
	return ""
}
