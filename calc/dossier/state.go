package dossier

import "sinkside/sync/jsontext"

// State is the folded state of one treatment. Times are corrected Unix
// milliseconds; lists are never nil in JSON.
type State struct {
	Job     string  `json:"job"`
	Entries int     `json:"entries"` // all entries, whatever became of them
	Open    bool    `json:"open"`
	Sample  bool    `json:"sample"` // invented, from the sample studio
	Opened  *Moment `json:"opened"`
	// Fields holds what was set, by field name. One value is agreed; two or
	// more are for a person to choose from (law 3).
	Fields map[string][]FieldValue `json:"fields"`
	Steps  []Step                  `json:"steps"` // by begin
	// Last holds the latest reading of each quantity.
	Last     map[string]Reading `json:"last"`
	Readings int                `json:"readings"`
	Notes    int                `json:"notes"`
	// ImmersedMS is the union of the ended baths, as far as it lies before
	// RunningSinceMS; from there on the object is immersed until now.
	ImmersedMS     int64       `json:"immersed_ms"`
	RunningSinceMS *int64      `json:"running_since_ms"`
	FirstWetMS     *int64      `json:"first_wet_ms"`
	LastMS         int64       `json:"last_ms"` // latest time of any entry, 0 for none
	Doubts         []Doubt     `json:"doubts"`
	Unknown        int         `json:"unknown"` // entries that this version cannot read
	Clocks         []ClockSeen `json:"clocks"`
}

// FieldValue is one value of a field, and the entry that set it.
type FieldValue struct {
	Value string `json:"value"`
	Entry string `json:"entry"`
	By    string `json:"by"`
	AtMS  int64  `json:"at_ms"`
}

// Moment is when something happened.
type Moment struct {
	MS         int64  `json:"ms"` // corrected
	At         string `json:"at"` // as written
	Corrected  bool   `json:"corrected"`
	RecordedMS int64  `json:"recorded_ms"` // when it was entered, corrected
}

// Step is one bath.
type Step struct {
	Entry     string  `json:"entry"` // name of its begin
	What      string  `json:"what"`  // presoak, wash, rinse
	Ordinal   int     `json:"ordinal"`
	Liquid    string  `json:"liquid"`
	Litres    string  `json:"litres"`
	TargetS   int64   `json:"target_s"`
	Uncleared bool    `json:"uncleared"`
	Begun     Moment  `json:"begun"`
	By        string  `json:"by"`
	Ended     *Moment `json:"ended"`
	EndEntry  string  `json:"end_entry"`
	EndedBy   string  `json:"ended_by"`
	// ClockMS is end minus begin; MonoMS the same by one device's steady
	// counter, a lower bound; LimitMS the longer, which counts for limits.
	ClockMS  *int64    `json:"clock_ms"`
	MonoMS   *int64    `json:"mono_ms"`
	LimitMS  *int64    `json:"limit_ms"`
	Readings []Reading `json:"readings"`
	Versions int       `json:"versions"` // 1, more when corrected
	Choose   bool      `json:"choose"`   // two corrections stand side by side
}

// Reading is one measured value.
type Reading struct {
	Entry string `json:"entry"`
	Q     string `json:"q"` // temperature, ph, conductivity
	Value string `json:"value"`
	Unit  string `json:"unit"`
	Of    string `json:"of"`
	At    Moment `json:"at"`
	By    string `json:"by"`
}

// Doubt is something in an entry that a person should look at.
type Doubt struct {
	Entry string `json:"entry"`
	Why   string `json:"why"`
}

// ClockSeen is how far a device's clock was from the studio machine's: studio
// minus device.
type ClockSeen struct {
	Dev      string `json:"dev"`
	OffsetMS int64  `json:"offset_ms"`
}

// LogLine is one entry as the log shows it.
type LogLine struct {
	Entry   string         `json:"entry"`
	Dev     string         `json:"dev"`
	N       uint64         `json:"n"`
	Kind    string         `json:"kind"`
	Say     string         `json:"say"` // as it stood when written
	At      Moment         `json:"at"`
	By      string         `json:"by"`
	Struck  *Struck        `json:"struck"`
	Amended []Amended      `json:"amended"` // corrections, in order
	Was     string         `json:"was"`
	Doubt   string         `json:"doubt"`
	Late    bool           `json:"late"` // entered over two minutes after it happened
	Body    jsontext.Value `json:"body"`
}

// Struck is who marked an entry as made in error, and why.
type Struck struct {
	Entry string `json:"entry"`
	By    string `json:"by"`
	Why   string `json:"why"`
	MS    int64  `json:"ms"`
}

// Amended is one correction of an entry.
type Amended struct {
	Entry  string         `json:"entry"`
	Say    string         `json:"say"`
	Why    string         `json:"why"`
	By     string         `json:"by"`
	MS     int64          `json:"ms"`
	Struck bool           `json:"struck"`
	Stands bool           `json:"stands"` // nothing replaced it
	At     string         `json:"at"`     // the time it gives, empty for unchanged
	Body   jsontext.Value `json:"body"`   // the new body
}

// Summary is the one line of a treatment that every device carries.
type Summary struct {
	Job      string `json:"job"`
	Name     string `json:"name"`
	Number   string `json:"number"`
	Open     bool   `json:"open"`
	Sample   bool   `json:"sample"`
	OpenedMS int64  `json:"opened_ms"`
	LastDay  int64  `json:"last_day"` // start of the UTC day of its last entry, Unix ms: coarse, so that readings do not change it
	Removed  bool   `json:"removed"`
}

// FieldError says what is wrong with one field of a draft, in a sentence for
// the person who typed it.
type FieldError struct {
	Field string `json:"field"`
	Value string `json:"value"`
	Say   string `json:"say"`
}

const dayMS = 86_400_000

// Summarise makes the summary of a folded treatment. Where people must still
// choose between two values it takes the later.
func Summarise(s *State) Summary {
	sum := Summary{Job: s.Job, Name: s.field("name"), Number: s.field("number"), Open: s.Open, Sample: s.Sample, LastDay: s.LastMS - s.LastMS%dayMS}
	if s.Opened != nil {
		sum.OpenedMS = s.Opened.MS
	}
	return sum
}

func (s *State) field(name string) string {
	vs := s.Fields[name]
	if len(vs) == 0 {
		return ""
	}
	return vs[len(vs)-1].Value
}
