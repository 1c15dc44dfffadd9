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
	w.KeyStr("job", s.Job)
	w.KeyInt("entries", int64(s.Entries))
	w.KeyBool("open", s.Open)
	w.KeyBool("sample", s.Sample)
	moment(&w, "opened", s.Opened)
	w.Key("fields")
	w.Begin('{')
	for _, k := range sortedKeys(s.Fields) {
		w.KeyList(k, len(s.Fields[k]), func(i int) { s.Fields[k][i].write(&w) })
	}
	w.End('}')
	w.KeyList("steps", len(s.Steps), func(i int) { s.Steps[i].write(&w) })
	w.Key("last")
	w.Begin('{')
	for _, k := range sortedKeys(s.Last) {
		w.Key(k)
		r := s.Last[k]
		r.write(&w)
	}
	w.End('}')
	w.KeyInt("readings", int64(s.Readings))
	w.KeyInt("notes", int64(s.Notes))
	w.KeyInt("immersed_ms", s.ImmersedMS)
	w.KeyIntOrNull("running_since_ms", s.RunningSinceMS)
	w.KeyIntOrNull("first_wet_ms", s.FirstWetMS)
	w.KeyIntOrNull("wet_since_ms", s.WetSinceMS)
	w.Key("dry")
	if s.Dry == nil {
		w.Null()
	} else {
		s.Dry.write(&w)
	}
	w.KeyStrs("colours", s.Colours)
	w.KeyList("plans", len(s.Plans), func(i int) { s.Plans[i].write(&w) })
	w.KeyList("dwells", len(s.Dwells), func(i int) { s.Dwells[i].write(&w) })
	w.KeyList("checklist", len(s.Checklist), func(i int) { s.Checklist[i].write(&w) })
	w.KeyList("acts", len(s.Acts), func(i int) { s.Acts[i].write(&w) })
	w.KeyList("loose", len(s.Loose), func(i int) { s.Loose[i].write(&w) })
	w.KeyList("aborts", len(s.Aborts), func(i int) { s.Aborts[i].write(&w) })
	w.KeyList("decisions", len(s.Decisions), func(i int) { s.Decisions[i].write(&w) })
	w.KeyList("takeovers", len(s.Takeovers), func(i int) { s.Takeovers[i].write(&w) })
	w.KeyList("reckoned", len(s.Reckoned), func(i int) { s.Reckoned[i].write(&w) })
	w.KeyList("overnights", len(s.Overnights), func(i int) { s.Overnights[i].write(&w) })
	w.KeyList("heard", len(s.Heard), func(i int) { s.Heard[i].write(&w) })
	w.KeyList("photos", len(s.Photos), func(i int) { s.Photos[i].write(&w) })
	w.KeyInt("last_ms", s.LastMS)
	w.KeyList("doubts", len(s.Doubts), func(i int) { s.Doubts[i].write(&w) })
	w.KeyInt("unknown", int64(s.Unknown))
	w.KeyList("clocks", len(s.Clocks), func(i int) { s.Clocks[i].write(&w) })
	w.End('}')
	return w.B
}

// AppendJSON appends the summary.
func (s *Summary) AppendJSON(dst []byte) []byte {
	w := jsontext.Writer{B: dst}
	w.Begin('{')
	w.Texts("job", s.Job, "name", s.Name, "number", s.Number)
	w.KeyBool("open", s.Open)
	w.KeyBool("sample", s.Sample)
	w.KeyInt("opened_ms", s.OpenedMS)
	w.KeyInt("last_day", s.LastDay)
	w.KeyBool("removed", s.Removed)
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
		w.Texts("field", errs[i].Field, "value", errs[i].Value, "say", errs[i].Say)
		w.End('}')
	}
	w.End(']')
	return w.B
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
	w.KeyInt("ms", m.MS)
	w.KeyStr("at", m.At)
	w.KeyBool("corrected", m.Corrected)
	w.KeyInt("recorded_ms", m.RecordedMS)
	w.End('}')
}

func (v *FieldValue) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("value", v.Value, "entry", v.Entry, "by", v.By)
	w.KeyInt("at_ms", v.AtMS)
	w.End('}')
}

func (d *Doubt) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", d.Entry, "why", d.Why)
	w.End('}')
}

func (c *ClockSeen) write(w *jsontext.Writer) {
	w.Begin('{')
	w.KeyStr("dev", c.Dev)
	w.KeyInt("offset_ms", c.OffsetMS)
	w.End('}')
}

func (l *LogLine) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", l.Entry, "dev", l.Dev)
	w.Key("n")
	w.Uint(l.N)
	w.Texts("kind", l.Kind, "say", l.Say)
	moment(w, "at", &l.At)
	w.KeyStr("by", l.By)
	w.Key("struck")
	if l.Struck == nil {
		w.Null()
	} else {
		w.Begin('{')
		w.Texts("entry", l.Struck.Entry, "by", l.Struck.By, "why", l.Struck.Why)
		w.KeyInt("ms", l.Struck.MS)
		w.End('}')
	}
	w.KeyList("amended", len(l.Amended), func(i int) { l.Amended[i].write(w) })
	w.Texts("was", l.Was, "doubt", l.Doubt)
	w.KeyBool("late", l.Late)
	raw(w, "body", l.Body)
	w.End('}')
}

func (a *Amended) write(w *jsontext.Writer) {
	w.Begin('{')
	w.Texts("entry", a.Entry, "say", a.Say, "why", a.Why, "by", a.By)
	w.KeyInt("ms", a.MS)
	w.KeyBool("struck", a.Struck)
	w.KeyBool("stands", a.Stands)
	w.KeyStr("at", a.At)
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
