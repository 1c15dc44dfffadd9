// Package watch says what must be watched in a treatment: the limits that it
// runs towards, the cues that ring and when, what to warn of, when rinsing may
// stop and when the textile may be dry.
//
// A [Watch] follows from the folded state alone. Now is no part of it: every
// cue and warning carries the time from which it holds, so that a screen only
// compares clocks, and a phone that slept finds out what it missed. Numbers come
// from the reckonings, each with the inputs by which its working is shown.
//
// It proposes and warns. It never says that a treatment is safe, and it stops
// nobody.
package watch

import "sinkside/sync/jsontext"

// Watch is what must be watched in one treatment. Times are corrected Unix
// milliseconds. Lists are never nil in JSON.
type Watch struct {
	Job      string    `json:"job"`
	Dwell    Limit     `json:"dwell"`
	Cues     []Cue     `json:"cues"`     // by time
	Warnings []Warning `json:"warnings"` // by the time from which they hold
	Due      []Due     `json:"due"`      // the next reading of each quantity in each running bath
	Next     Next      `json:"next"`
	Rinse    *Rinse    `json:"rinse"`  // null before the first conductivity in a rinse
	Drying   *Drying   `json:"drying"` // null while nothing dries
	StopPlan StopPlan  `json:"stop_plan"`
}

// Limit is the tested dwell that immersion is held against.
type Limit struct {
	S int64 `json:"s"` // the smallest over the colours, seconds; 0 where none is known
	// MarkS is where it first rings: 80 % of it, seconds.
	MarkS int64 `json:"mark_s"`
	// MarkMS and EndMS are when immersion reaches them if the bath that runs goes
	// on; null while nothing is immersed.
	MarkMS   *int64   `json:"mark_ms"`
	EndMS    *int64   `json:"end_ms"`
	Colour   string   `json:"colour"`   // that sets it
	Name     string   `json:"name"`     // who vouches for it
	Entry    string   `json:"entry"`    // that it rests on
	Liquid   string   `json:"liquid"`   // for which it was looked up
	Untested []string `json:"untested"` // colours without a tested dwell that fits, each with why: "red silk: tested at 18 °C, the bath has 22 °C"
	Say      string   `json:"say"`      // in a few sentences, what is untested first: "No test recorded for red silk."
}

// Kinds of cue.
const (
	Ahead   = "ahead"   // some minutes before a target
	Target  = "target"  // a target is reached
	Mark    = "mark"    // 80 % of the tested dwell
	End     = "end"     // all of it
	Reading = "reading" // a reading is overdue
	Check   = "check"   // a drying check is due
	Mould   = "mould"   // wet for too long
	Return  = "return"  // somebody was to be back
)

// Cue is something that every device says at its time.
type Cue struct {
	ID      string `json:"id"` // stays the same whichever device works it out
	Kind    string `json:"kind"`
	Of      string `json:"of"` // entry of the step
	AtMS    int64  `json:"at_ms"`
	Say     string `json:"say"`   // to read: "Rinse 3: 5 min left"
	Speak   string `json:"speak"` // to hear: "Rinse three, five minutes left"
	Loud    bool   `json:"loud"`  // rings until somebody acknowledges it; others sound once
	HeardBy string `json:"heard_by"`
}

// Warning is a sentence that holds from a time on.
type Warning struct {
	ID     string `json:"id"`
	FromMS int64  `json:"from_ms"`
	Tone   string `json:"tone"` // limit: past a limit; caution: look at it
	Say    string `json:"say"`
	Of     string `json:"of"`
}

// Due is when a reading is due.
type Due struct {
	Q    string `json:"q"`
	Of   string `json:"of"`
	AtMS int64  `json:"at_ms"`
}

// Next is what comes next, as a colleague would say it.
type Next struct {
	Say   string `json:"say"`
	AtMS  *int64 `json:"at_ms"`
	Place int64  `json:"place"` // of the next bath in the plan, from 1; 0: the plan is over or there is none
}

// Point is one conductivity on the curve.
type Point struct {
	Entry   string  `json:"entry"`
	Of      string  `json:"of"`
	Label   string  `json:"label"` // "Rinse 2"
	Place   int64   `json:"place"` // on the curve's axis: 0 for what came before the first rinse, then the rinse's ordinal
	AtMS    int64   `json:"at_ms"`
	Value   float64 `json:"value"`  // as read, µS/cm
	K25     float64 `json:"k25"`    // at 25 °C, µS/cm
	How     string  `json:"how"`    // corrected, compensated, or raw where no temperature is known
	Fitted  bool    `json:"fitted"` // it takes part in the fit
	WhyNot  string  `json:"why_not"`
	Liquor  string  `json:"liquor"` // temperature, as typed
	AtEnd   bool    `json:"at_end"`
	Working Asked   `json:"working"`
}

// Asked is a reckoning with its inputs: how a number is made again, with its working.
type Asked struct {
	Name   string         `json:"name"`
	Inputs jsontext.Value `json:"inputs"`
}

// Rinse is how rinsing goes, and when it may stop.
type Rinse struct {
	Source *Point  `json:"source"` // of the water that rinses, null: not measured
	Points []Point `json:"points"` // by time
	// ChangePct is from the last rinse but one to the last, % of the excess over
	// the source; null before the second.
	ChangePct *float64 `json:"change_pct"`
	// Curve is the fit and the honest range about it, from the first fitted rinse
	// to some after the last; empty where nothing is predicted.
	Curve    []Band `json:"curve"`
	MoreLow  *int64 `json:"more_low"` // rinses more, at least and at most; null: nothing is predicted
	MoreHigh *int64 `json:"more_high"`
	// Propose is go_on, stop, or look where the readings do not say.
	Propose string   `json:"propose"`
	Say     string   `json:"say"`     // the proposal in a sentence or two
	Reasons []string `json:"reasons"` // what speaks for it and what is missing, suds check included
	Refused string   `json:"refused"` // why nothing is predicted
	Working Asked    `json:"working"`
}

// Band is the fitted curve at one rinse.
type Band struct {
	Place int64   `json:"place"`
	K25   float64 `json:"k25"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// Drying is how a drying goes.
type Drying struct {
	Of        string   `json:"of"`
	NextMS    int64    `json:"next_ms"`  // next check
	Checks    int64    `json:"checks"`   // made so far
	WaterG    *float64 `json:"water_g"`  // still held, by the last weighing or the guess
	EarlyMS   *int64   `json:"early_ms"` // constant-rate drying could end, by the faster equation
	LateMS    *int64   `json:"late_ms"`
	Corrected bool     `json:"corrected"` // weighings have corrected the rate
	DewC      *float64 `json:"dew_c"`
	RoomSay   string   `json:"room_say"` // "21 °C, 52 % RH, dew point 10.8 °C"
	Say       string   `json:"say"`
	Missing   []string `json:"missing"`  // what would make an estimate possible
	MouldMS   int64    `json:"mould_ms"` // when 24 hours wet are reached
	Working   Asked    `json:"working"`
	Air       Asked    `json:"air"`
}

// StopPlan is what is done when a step is broken off.
type StopPlan struct {
	Steps   []string `json:"steps"`
	Generic bool     `json:"generic"` // nothing was agreed: general practice
	Caution string   `json:"caution"`
}
