package dossier

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// Limits of what people type. They keep an entry under journal.MaxLine whatever
// its characters need.
const (
	maxNote = 3500 // characters; 4 bytes each at most
	maxText = 200
	// aheadMS is how far ahead of now a time may be: a minute, for clocks that
	// differ.
	aheadMS = 60_000
)

// Proposal is what a person wants to record.
type Proposal struct {
	Kind string
	Body jsontext.Value
	At   string // RFC 3339 with offset
	By   string // initials
}

// Now is the time on a device: its own clock in Unix milliseconds, and what must
// be added to it for the studio machine's.
type Now struct{ MS, OffsetMS int64 }

// Check holds a proposal against what is known before it is written. It returns
// the body as it shall be written, in which numbers that were typed as text, with
// a comma or a point, have become numbers; or the errors, each at its field, in
// sentences. st is the treatment's state, nil when it is not known.
//
// What is entered over five seconds after it happened gets how late in seconds
// (ago_s), since the hybrid clock alone cannot tell that to the minute. For a tap
// that waited as a draft, now is the time of the tap.
//
// It refuses what cannot be; never an act that happens now, however the clocks
// stand: the fold marks what it doubts.
func Check(p Proposal, now Now, st *State) (jsontext.Value, []FieldError) {
	c := checker{now: now, st: st}
	if jsontext.Valid(p.Body) != nil || p.Body.Kind() != jsontext.Object {
		c.fail("body", "", "This entry is broken and cannot be kept.")
		return nil, c.errs
	}
	c.initials(p.By)
	atMS, atOK := c.when("at", p.At)
	c.read(p.Body)
	c.kind(p.Kind)
	if atOK && atMS < now.MS-backdatedMS {
		c.agoS = (now.MS - atMS) / 1000
		if p.Kind == "end" {
			c.endAfterBegin(p.At, atMS+now.OffsetMS)
		}
	}
	body := c.out(p.Body)
	if len(c.errs) == 0 && len(body) > journal.MaxLine-envelopeRoom {
		say := "This is too much for one entry. Make it two."
		if p.Kind == "reckoned" {
			say = "What was put in is more than one entry holds. Take rows away, or keep the result as a note."
		}
		c.fail("body", "", say)
	}
	if len(c.errs) > 0 {
		return nil, c.errs
	}
	return body, nil
}

const (
	// backdatedMS tells an act that happens now from one entered later.
	backdatedMS = 5_000
	// envelopeRoom is kept for what stands around a body in a line.
	envelopeRoom = 1024
)

type checker struct {
	now   Now
	st    *State
	vals  map[string]jsontext.Value
	fixed map[string]jsontext.Value // members to write otherwise than typed; nil: to leave out
	agoS  int64                     // how late it is entered, 0 for now
	errs  []FieldError
}

func (c *checker) fail(field, value, say string) {
	c.errs = append(c.errs, FieldError{field, value, say})
}

func (c *checker) read(body jsontext.Value) {
	c.vals, c.fixed = map[string]jsontext.Value{}, map[string]jsontext.Value{}
	_ = jsontext.Members(body, func(k string, v jsontext.Value) error { c.vals[k] = v; return nil })
}

func (c *checker) initials(by string) {
	n := utf8.RuneCountInString(by)
	switch {
	case strings.TrimSpace(by) == "":
		c.fail("by", by, "Say who is at the sink: initials are enough.")
	case n > 12:
		c.fail("by", by, "Initials are at most 12 characters; this has "+strconv.Itoa(n)+".")
	}
}

func (c *checker) when(field, at string) (ms int64, ok bool) {
	ms, err := journal.ParseAt(at)
	switch {
	case err != nil:
		c.fail(field, at, "This time cannot be read.")
	case ms > c.now.MS+aheadMS:
		c.fail(field, at, "This is in the future. Give the time at which it happened.")
	case ms < c.now.MS-maxAgoMS:
		c.fail(field, at, "This is more than a hundred years ago.")
	default:
		return ms, true
	}
	return 0, false
}

const maxAgoMS = 100 * 365 * dayMS

func (c *checker) kind(kind string) {
	switch kind {
	case "open":
		c.text("name", maxText, true, "Give the object a name; everything else can come later.")
		c.text("number", maxText, false, "")
	case "set":
		c.set()
	case "begin":
		c.begin()
	case "end":
		c.reference("of", "Say which bath ends.")
	case "reading":
		c.reading()
	case "note":
		c.text("text", maxNote, true, "The note is empty.")
	case "amend":
		c.amend()
	case "strike":
		c.reference("of", "Say which entry was made in error.")
		c.text("why", maxText, true, "Say in a word or two why; the entry stays visible.")
	case "close", "reopen":
		c.text("why", maxText, false, "")
	case "item":
		c.item()
	case "plan":
		c.plan()
	case "dwell":
		c.dwell()
	case "act":
		c.act()
	case "abort":
		c.abort()
	case "reason":
		c.reference("of", "Say what it is the reason for.")
		c.text("text", maxNote, true, "The reason is empty.")
	case "decide":
		c.decide()
	case "dry":
		c.choice("how", true, "Say how it is known to be dry.", "touch", "weight", "humidity", "other")
		c.text("text", maxText, false, "")
	case "takeover":
		c.text("from", maxText, false, "")
	case "overnight":
		c.overnight()
	case "heard":
		c.text("cue", maxText, true, "Say what was heard.")
	case "photo":
		c.photo()
	case "reckoned":
		c.reckoned()
	case "clock", "imported":
	default:
		c.fail("kind", kind, "This version writes no entry of the kind “"+kind+"”.")
	}
}

// amend checks the correction as an entry of the kind that it corrects; the
// caller gives that kind as "kind" in the draft's body only for this check.
func (c *checker) amend() {
	c.reference("of", "Say which entry is corrected.")
	c.text("why", maxText, true, "Say in a word or two why; both versions stay visible.")
	kind, _ := c.vals["kind"].Text()
	inner := c.vals["body"]
	if inner.Kind() != jsontext.Object {
		c.fail("body", "", "The corrected text is missing.")
		return
	}
	if kind == "amend" || kind == "strike" || kind == "clock" || kind == "imported" {
		c.fail("kind", kind, "An entry of this kind cannot be corrected; it can be struck.")
		return
	}
	in := checker{now: c.now, st: c.st}
	in.read(inner)
	in.kind(kind)
	if v, ok := c.vals["at"]; ok {
		at, _ := v.Text()
		if _, ok := in.when("at", at); ok && kind == "begin" {
			in.beginBeforeEnd(token(c.vals["of"]), at)
		}
	}
	c.errs = append(c.errs, in.errs...)
	if len(in.errs) == 0 {
		c.fixed["body"] = in.out(inner)
	}
}

func (c *checker) step(entry string) *Step {
	if c.st == nil {
		return nil
	}
	for i := range c.st.Steps {
		if c.st.Steps[i].Entry == entry {
			return &c.st.Steps[i]
		}
	}
	return nil
}

func (c *checker) endAfterBegin(at string, atMS int64) {
	st := c.step(token(c.vals["of"]))
	if st != nil && atMS < st.Begun.MS {
		c.fail("at", at, "This is before the bath began.")
	}
}

func (c *checker) beginBeforeEnd(entry, at string) {
	ms, err := journal.ParseAt(at)
	if st := c.step(entry); err == nil && st != nil && st.Ended != nil && ms+c.now.OffsetMS > st.Ended.MS {
		c.fail("at", at, "This is after the bath ended.")
	}
}

// out writes the body again with the numbers that were typed as text and how late
// it is, without the hint of amend's kind. Members keep their order.
func (c *checker) out(body jsontext.Value) jsontext.Value {
	_, amends := c.vals["body"]
	if len(c.fixed) == 0 && !amends && c.agoS == 0 {
		return body
	}
	var w jsontext.Writer
	w.Begin('{')
	_ = jsontext.Members(body, func(k string, v jsontext.Value) error {
		if f, ok := c.fixed[k]; ok {
			if v = f; f == nil {
				return nil
			}
		}
		if k != "ago_s" && !(amends && k == "kind") {
			w.Key(k)
			w.Raw(v)
		}
		return nil
	})
	if c.agoS > 0 {
		w.Key("ago_s")
		w.Int(c.agoS)
	}
	w.End('}')
	return w.B
}
