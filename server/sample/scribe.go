package sample

import (
	"errors"
	"fmt"
	"strconv"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// person is one of the invented people, with the device that they write on.
type person struct {
	initials string
	dev      journal.ID
}

// The sample devices. Their IDs are ASCII on purpose: no clock and no chance makes them.
var (
	runa = person{"RV", journal.ID([]byte("sinkside-sample1"))}
	osk  = person{"OT", journal.ID([]byte("sinkside-sample2"))}
)

// IsDevice tells whether dev is one of the sample's own devices.
func IsDevice(dev journal.ID) bool { return dev == runa.dev || dev == osk.dev }

// scribe writes one treatment's entries in the order in which they were recorded. The first
// mistake is kept in err and ends the writing.
type scribe struct {
	job    journal.ID
	day    time.Time // midnight of the day being written
	now    time.Time // when the last entry was recorded
	heads  map[journal.ID]journal.Head
	clocks map[journal.ID]*journal.Clock
	out    []journal.Entry
	err    error
}

func newScribe(job journal.ID, day time.Time) *scribe {
	return &scribe{job: job, day: midnight(day), heads: map[journal.ID]journal.Head{},
		clocks: map[journal.ID]*journal.Clock{runa.dev: {}, osk.dev: {}}}
}

func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// at sets the time of day of what is written next, "09:12:05".
func (s *scribe) at(clock string) *scribe {
	var h, m, sec int
	if _, err := fmt.Sscanf(clock, "%d:%d:%d", &h, &m, &sec); err != nil {
		s.err = errors.Join(s.err, fmt.Errorf("time of day %q: %w", clock, err))
	}
	s.now = time.Date(s.day.Year(), s.day.Month(), s.day.Day(), h, m, sec, 0, s.day.Location())
	return s
}

// after sets the time of what is written next to some time after what was written last.
func (s *scribe) after(d time.Duration) *scribe {
	s.now = s.now.Add(d)
	return s
}

// on is a time of day some days after the one being written.
func (s *scribe) on(days int, clock string) time.Time {
	was := s.now
	t := s.at(clock).now
	s.now = was
	return t.AddDate(0, 0, days)
}

// nextDay goes on with the day after.
func (s *scribe) nextDay() *scribe {
	s.day = s.day.AddDate(0, 0, 1)
	return s
}

// put writes an entry that is recorded as it happens.
func (s *scribe) put(by person, kind string, body jsontext.Value) journal.Name {
	return s.write(by, 0, kind, 1, body)
}

// put2 writes one whose body is of the second version.
func (s *scribe) put2(by person, kind string, body jsontext.Value) journal.Name {
	return s.write(by, 0, kind, 2, body)
}

// putLate writes an entry that is recorded some time after it happened.
func (s *scribe) putLate(by person, late time.Duration, kind string, body jsontext.Value) journal.Name {
	return s.write(by, late, kind, 1, body)
}

func (s *scribe) write(by person, late time.Duration, kind string, version int, body jsontext.Value) journal.Name {
	if s.err != nil {
		return journal.Name{}
	}
	d := journal.Draft{Job: s.job, At: s.now.Add(-late).Format(time.RFC3339), By: by.initials, Kind: kind, BV: version, Body: body}
	e, err := journal.Write(d, by.dev, s.heads[by.dev], s.clocks[by.dev].Tick(s.now.UnixMilli()))
	if err != nil {
		s.err = fmt.Errorf("write %s at %s: %w", kind, d.At, err)
		return journal.Name{}
	}
	s.heads[by.dev] = journal.Head{N: e.N, Name: e.Name}
	s.out = append(s.out, e)
	return e.Name
}

func (s *scribe) open(by person, name string) {
	s.put(by, "open", body("name", name, "sample", true))
}

func (s *scribe) set(by person, field string, value any) {
	s.put(by, "set", body("field", field, "value", value))
}

// begin starts a bath of litres for a target time in minutes.
func (s *scribe) begin(by person, what, liquid string, litres float64, targetMin int) journal.Name {
	return s.put(by, "begin", bath(what, liquid, litres, targetMin))
}

func bath(what, liquid string, litres float64, targetMin int) jsontext.Value {
	return body("what", what, "liquid", liquid, "litres", litres, "target_s", targetMin*60)
}

func (s *scribe) end(by person, of journal.Name) { s.put(by, "end", body("of", of)) }

func (s *scribe) note(by person, of journal.Name, text string) journal.Name {
	if of.IsZero() {
		return s.put(by, "note", body("text", text))
	}
	return s.put(by, "note", body("text", text, "of", of))
}

func (s *scribe) temperature(by person, of journal.Name, degC float64) journal.Name {
	return s.put(by, "reading", body("q", "temperature", "value", degC, "unit", "degC", "of", of))
}

func (s *scribe) ph(by person, of journal.Name, value float64) journal.Name {
	return s.put(by, "reading", body("q", "ph", "value", value, "unit", "pH", "of", of))
}

func (s *scribe) conductivity(by person, of journal.Name, microsiemensPerCM float64) journal.Name {
	return s.put(by, "reading", body("q", "conductivity", "value", microsiemensPerCM, "unit", "uS/cm", "of", of))
}

func (s *scribe) strike(by person, of journal.Name, why string) {
	s.put(by, "strike", body("of", of, "why", why))
}

func (s *scribe) amend(by person, of journal.Name, why string, corrected jsontext.Value) {
	s.put(by, "amend", body("of", of, "over", []journal.Name{of}, "body", corrected, "why", why))
}

// body builds an object from names and values, in the order given.
func body(pairs ...any) jsontext.Value {
	var w jsontext.Writer
	w.Begin('{')
	for i := 0; i+1 < len(pairs); i += 2 {
		w.Key(pairs[i].(string))
		switch v := pairs[i+1].(type) {
		case string:
			w.Str(v)
		case int:
			w.Int(int64(v))
		case float64:
			w.Raw(strconv.AppendFloat(nil, v, 'f', -1, 64))
		case bool:
			w.Bool(v)
		case journal.Name:
			w.Str(v.String())
		case []journal.Name:
			w.Begin('[')
			for _, n := range v {
				w.Str(n.String())
			}
			w.End(']')
		case []string:
			w.Begin('[')
			for _, text := range v {
				w.Str(text)
			}
			w.End(']')
		case jsontext.Value:
			w.Raw(v)
		}
	}
	w.End('}')
	return w.B
}

// list builds an array.
func list(values ...jsontext.Value) jsontext.Value {
	var w jsontext.Writer
	w.Begin('[')
	for _, v := range values {
		w.Raw(v)
	}
	w.End(']')
	return w.B
}
