package dossier

import (
	"strings"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// The writers below spell out what encoding/json would make of the struct tags;
// a test holds them against it. Maps are written in the order of their keys.

// AppendJSON appends the state. Equal sets of entries give equal bytes.
func (s *State) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	str(&w, "job", s.Job)
	num(&w, "entries", int64(s.Entries))
	boolean(&w, "open", s.Open)
	boolean(&w, "sample", s.Sample)
	moment(&w, "opened", s.Opened)
	w.Key("fields")
	w.Begin('{')
	for _, k := range sortedKeys(s.Fields) {
		list(&w, k, len(s.Fields[k]), func(i int) { s.Fields[k][i].write(&w) })
	}
	w.End('}')
	list(&w, "steps", len(s.Steps), func(i int) { s.Steps[i].write(&w) })
	w.Key("last")
	w.Begin('{')
	for _, k := range sortedKeys(s.Last) {
		w.Key(k)
		r := s.Last[k]
		r.write(&w)
	}
	w.End('}')
	num(&w, "readings", int64(s.Readings))
	num(&w, "notes", int64(s.Notes))
	num(&w, "immersed_ms", s.ImmersedMS)
	numOrNull(&w, "running_since_ms", s.RunningSinceMS)
	numOrNull(&w, "first_wet_ms", s.FirstWetMS)
	numOrNull(&w, "wet_since_ms", s.WetSinceMS)
	w.Key("dry")
	if s.Dry == nil {
		w.Null()
	} else {
		s.Dry.write(&w)
	}
	texts(&w, "colours", s.Colours)
	list(&w, "plans", len(s.Plans), func(i int) { s.Plans[i].write(&w) })
	list(&w, "dwells", len(s.Dwells), func(i int) { s.Dwells[i].write(&w) })
	list(&w, "checklist", len(s.Checklist), func(i int) { s.Checklist[i].write(&w) })
	list(&w, "acts", len(s.Acts), func(i int) { s.Acts[i].write(&w) })
	list(&w, "loose", len(s.Loose), func(i int) { s.Loose[i].write(&w) })
	list(&w, "aborts", len(s.Aborts), func(i int) { s.Aborts[i].write(&w) })
	list(&w, "decisions", len(s.Decisions), func(i int) { s.Decisions[i].write(&w) })
	list(&w, "takeovers", len(s.Takeovers), func(i int) { s.Takeovers[i].write(&w) })
	list(&w, "overnights", len(s.Overnights), func(i int) { s.Overnights[i].write(&w) })
	list(&w, "heard", len(s.Heard), func(i int) { s.Heard[i].write(&w) })
	list(&w, "photos", len(s.Photos), func(i int) { s.Photos[i].write(&w) })
	num(&w, "last_ms", s.LastMS)
	list(&w, "doubts", len(s.Doubts), func(i int) { s.Doubts[i].write(&w) })
	num(&w, "unknown", int64(s.Unknown))
	list(&w, "clocks", len(s.Clocks), func(i int) { s.Clocks[i].write(&w) })
	w.End('}')
	return w.B
}

// AppendJSON appends the summary.
func (s *Summary) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	strs(&w, "job", s.Job, "name", s.Name, "number", s.Number)
	boolean(&w, "open", s.Open)
	boolean(&w, "sample", s.Sample)
	num(&w, "opened_ms", s.OpenedMS)
	num(&w, "last_day", s.LastDay)
	boolean(&w, "removed", s.Removed)
	w.End('}')
	return w.B
}

// AppendLog appends lines as an array.
func AppendLog(dst []byte, lines []LogLine) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('[')
	for i := range lines {
		lines[i].write(&w)
	}
	w.End(']')
	return w.B
}

// AppendErrors appends field errors as an array.
func AppendErrors(dst []byte, errs []FieldError) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('[')
	for i := range errs {
		w.Begin('{')
		strs(&w, "field", errs[i].Field, "value", errs[i].Value, "say", errs[i].Say)
		w.End('}')
	}
	w.End(']')
	return w.B
}

// strs writes members that are texts: names and texts by turns.
func strs(w *jsontext.Writer, pairs ...string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		w.Key(pairs[i])
		w.Str(pairs[i+1])
	}
}

func str(w *jsontext.Writer, key, s string)          { w.Key(key); w.Str(s) }
func num(w *jsontext.Writer, key string, i int64)    { w.Key(key); w.Int(i) }
func boolean(w *jsontext.Writer, key string, b bool) { w.Key(key); w.Bool(b) }

func numOrNull(w *jsontext.Writer, key string, i *int64) {
	w.Key(key)
	if i == nil {
		w.Null()
		return
	}
	w.Int(*i)
}

// list writes n items. It is no generic function, of which each kind of item would
// cost the phone a copy.
func list(w *jsontext.Writer, key string, n int, write func(i int)) {
	w.Key(key)
	w.Begin('[')
	for i := range n {
		write(i)
	}
	w.End(']')
}

func texts(w *jsontext.Writer, key string, items []string) {
	w.Key(key)
	w.Begin('[')
	for _, s := range items {
		w.Str(s)
	}
	w.End(']')
}

func moment(w *jsontext.Writer, key string, m *Moment) {
	w.Key(key)
	if m == nil {
		w.Null()
		return
	}
	m.write(w)
}

func (m *Moment) write(w *jsontext.Writer) {
	w.Begin('{')
	num(w, "ms", m.MS)
	str(w, "at", m.At)
	boolean(w, "corrected", m.Corrected)
	num(w, "recorded_ms", m.RecordedMS)
	w.End('}')
}

func (v *FieldValue) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "value", v.Value, "entry", v.Entry, "by", v.By)
	num(w, "at_ms", v.AtMS)
	w.End('}')
}

func (d *Doubt) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", d.Entry, "why", d.Why)
	w.End('}')
}

func (c *ClockSeen) write(w *jsontext.Writer) {
	w.Begin('{')
	str(w, "dev", c.Dev)
	num(w, "offset_ms", c.OffsetMS)
	w.End('}')
}

func (l *LogLine) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", l.Entry, "dev", l.Dev)
	w.Key("n")
	w.Uint(l.N)
	strs(w, "kind", l.Kind, "say", l.Say)
	moment(w, "at", &l.At)
	str(w, "by", l.By)
	w.Key("struck")
	if l.Struck == nil {
		w.Null()
	} else {
		w.Begin('{')
		strs(w, "entry", l.Struck.Entry, "by", l.Struck.By, "why", l.Struck.Why)
		num(w, "ms", l.Struck.MS)
		w.End('}')
	}
	list(w, "amended", len(l.Amended), func(i int) { l.Amended[i].write(w) })
	strs(w, "was", l.Was, "doubt", l.Doubt)
	boolean(w, "late", l.Late)
	raw(w, "body", l.Body)
	w.End('}')
}

func (a *Amended) write(w *jsontext.Writer) {
	w.Begin('{')
	strs(w, "entry", a.Entry, "say", a.Say, "why", a.Why, "by", a.By)
	num(w, "ms", a.MS)
	boolean(w, "struck", a.Struck)
	boolean(w, "stands", a.Stands)
	str(w, "at", a.At)
	raw(w, "body", a.Body)
	w.End('}')
}

func raw(w *jsontext.Writer, key string, v jsontext.Value) {
	w.Key(key)
	if v == nil {
		w.Null()
		return
	}
	w.Raw(v)
}

func sortedKeys[T any](m map[string]T) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	journal.SortBy(keys, func(a, b *string) int { return strings.Compare(*a, *b) })
	return keys
}
