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
	// Last holds the latest reading of each quantity; those of the source water,
	// of which the textile knows nothing, are left out.
	Last     map[string]Reading `json:"last"`
	Readings int                `json:"readings"`
	Notes    int                `json:"notes"`
	// ImmersedMS is the union of the ended baths, as far as it lies before
	// RunningSinceMS; from there on the object is immersed until now.
	ImmersedMS     int64  `json:"immersed_ms"`
	RunningSinceMS *int64 `json:"running_since_ms"`
	FirstWetMS     *int64 `json:"first_wet_ms"`
	// WetSinceMS is the first wetting since the object was last declared dry;
	// null while it is dry or was never wet.
	WetSinceMS *int64 `json:"wet_since_ms"`
	Dry        *Dry   `json:"dry"` // the last declaration, null when it has been wetted since
	// Colours are the dyed colours of the object, as its field lists them.
	Colours    []string    `json:"colours"`
	Plans      []Plan      `json:"plans"`     // those that nothing replaced: two or more are for people to choose from
	Dwells     []Dwell     `json:"dwells"`    // in recorded order
	Checklist  []Tick      `json:"checklist"` // before the object gets wet, in its order
	Acts       []Act       `json:"acts"`      // by time
	Loose      []Reading   `json:"loose"`     // readings of no step that is here, by time
	Aborts     []Abort     `json:"aborts"`    // by time
	Decisions  []Decision  `json:"decisions"` // by time
	Takeovers  []Takeover  `json:"takeovers"` // by time
	Reckoned   []Reckoned  `json:"reckoned"`  // by time
	Overnights []Overnight `json:"overnights"`
	Heard      []Heard     `json:"heard"` // acknowledged cues, the first of each
	Photos     []Photo     `json:"photos"`
	LastMS     int64       `json:"last_ms"` // latest time of any entry, 0 for none
	Doubts     []Doubt     `json:"doubts"`
	Unknown    int         `json:"unknown"` // entries that this version cannot read
	Clocks     []ClockSeen `json:"clocks"`
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

// Step is one bath, one other kind of wetting, or one drying.
type Step struct {
	Entry     string   `json:"entry"`    // name of its begin
	What      string   `json:"what"`     // presoak, wash, rinse and the other kinds that may be begun, or what a newer version calls it
	Wets      bool     `json:"wets"`     // starts the wet clock
	Immerses  bool     `json:"immerses"` // counts for the immersion clock
	Ordinal   int      `json:"ordinal"`
	Liquid    string   `json:"liquid"`
	Litres    string   `json:"litres"`
	TargetS   int64    `json:"target_s"`
	Uncleared bool     `json:"uncleared"`
	Reason    string   `json:"reason"`   // why it was begun uncleared, given then or later; empty: not yet
	TempC     string   `json:"temp_c"`   // planned temperature, empty for none
	Batch     string   `json:"batch"`    // the solution's batch on the shelf, empty for none
	Unticked  []string `json:"unticked"` // of the checklist, when it began
	Planned   int64    `json:"planned"`  // place in the plan that it follows, from 1; 0 for none
	Where     string   `json:"where"`    // the tray or board, where several stand
	// Of a drying: up or down; weights, pins or none; how the air moves; its
	// speed in m/s; how many faces are open to the air.
	Face     string  `json:"face"`
	Held     string  `json:"held"`
	Airflow  string  `json:"airflow"`
	AirMS    string  `json:"air_m_s"`
	Sides    int64   `json:"sides"`
	Begun    Moment  `json:"begun"`
	By       string  `json:"by"`
	Ended    *Moment `json:"ended"`
	EndEntry string  `json:"end_entry"`
	EndedBy  string  `json:"ended_by"`
	Aborted  bool    `json:"aborted"` // an abort ended it
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
	Q     string `json:"q"` // temperature, ph, conductivity and the other quantities
	Value string `json:"value"`
	Unit  string `json:"unit"`
	Of    string `json:"of"`
	At    Moment `json:"at"`
	By    string `json:"by"`
	Late  bool   `json:"late"` // entered over two minutes after it was measured
	How   string `json:"how"`  // clock, memory or estimate: how the time is known; empty: entered late, and not said
	// Of a conductivity: the liquor's temperature at the meter, whether the meter
	// compensated to 25 °C by itself, whether it is of the source water, and
	// whether it was taken at the bath's end after agitation.
	LiquorC     string `json:"liquor_c"`
	Compensated bool   `json:"compensated"`
	Source      bool   `json:"source"`
	AtEnd       bool   `json:"at_end"`
	Instrument  string `json:"instrument"`
}

// Plan is a plan of baths that the sink follows as far as the person does.
type Plan struct {
	Entry string        `json:"entry"`
	By    string        `json:"by"`
	AtMS  int64         `json:"at_ms"`
	Baths []PlannedBath `json:"baths"`
}

// PlannedBath is one step of a plan.
type PlannedBath struct {
	What    string `json:"what"`
	Liquid  string `json:"liquid"`
	Litres  string `json:"litres"`
	TargetS int64  `json:"target_s"`
	TempC   string `json:"temp_c"`
	Batch   string `json:"batch"`
}

// Dwell is how long one colour stood pressed and wet in a test that it passed.
type Dwell struct {
	Entry  string `json:"entry"`
	Colour string `json:"colour"` // empty: every colour, on the word of who is named
	Liquid string `json:"liquid"` // with its strength, as it is begun with; empty: any
	S      int64  `json:"s"`
	TempC  string `json:"temp_c"`  // of the test; empty: not said
	PHFrom string `json:"ph_from"` // the band in which it holds; empty: open
	PHTo   string `json:"ph_to"`
	Faces  string `json:"faces"` // both, one, or empty for not said
	Name   string `json:"name"`  // who vouches for it
	By     string `json:"by"`
	AtMS   int64  `json:"at_ms"`
}

// Tick is one line of the checklist before the object gets wet.
type Tick struct {
	Item  string       `json:"item"`
	Title string       `json:"title"`
	Is    []FieldValue `json:"is"` // yes or no; none: not looked at; two or more: people must choose
}

// Act is something done in one press, with the time that it lasted if it did.
type Act struct {
	Entry string `json:"entry"`
	What  string `json:"what"` // sponge, rock, press_water and the others
	Say   string `json:"say"`
	Of    string `json:"of"`
	S     int64  `json:"s"` // how long it lasted, 0 for a moment
	Text  string `json:"text"`
	At    Moment `json:"at"`
	By    string `json:"by"`
}

// Abort is a treatment step broken off.
type Abort struct {
	Entry   string   `json:"entry"`
	Of      []string `json:"of"`      // the steps that ran
	Generic bool     `json:"generic"` // no stop plan had been agreed
	Steps   []string `json:"steps"`   // the stop plan as it was shown
	Reason  string   `json:"reason"`  // given afterwards; empty: not yet
	At      Moment   `json:"at"`
	By      string   `json:"by"`
}

// Decision is what a person decided, with what was proposed to them.
type Decision struct {
	Entry    string `json:"entry"`
	What     string `json:"what"` // stop_rinsing or go_on
	Why      string `json:"why"`
	Proposed string `json:"proposed"` // the sentence that stood on the screen
	Of       string `json:"of"`       // the step after which it was decided
	At       Moment `json:"at"`
	By       string `json:"by"`
}

// Dry declares the object dry.
type Dry struct {
	Entry string `json:"entry"`
	How   string `json:"how"` // touch, weight, humidity or other
	Text  string `json:"text"`
	At    Moment `json:"at"`
	By    string `json:"by"`
}

// Takeover is a change of who is at the sink.
type Takeover struct {
	Entry string `json:"entry"`
	From  string `json:"from"`
	By    string `json:"by"` // who took over
	At    Moment `json:"at"`
}

// Overnight says who answers for a wet object that nobody watches.
type Overnight struct {
	Entry string `json:"entry"`
	Who   string `json:"who"`
	Until string `json:"until"` // RFC 3339 or empty
	// UntilMS is Until in Unix milliseconds; null where there is none.
	UntilMS *int64 `json:"until_ms"`
	Text    string `json:"text"`
	At      Moment `json:"at"`
	By      string `json:"by"`
}

// Heard is a cue that somebody acknowledged, for all devices.
type Heard struct {
	Cue  string `json:"cue"`
	By   string `json:"by"`
	AtMS int64  `json:"at_ms"`
}

// Photo is a photograph that lies in the blob of this name.
type Photo struct {
	Entry string `json:"entry"`
	Blob  string `json:"blob"` // SHA-256, base64url without padding
	Type  string `json:"type"`
	Bytes int64  `json:"bytes"`
	Of    string `json:"of"`
	Text  string `json:"text"`
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
