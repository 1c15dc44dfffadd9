package dossier

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"sinkside/calc/unit"
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
		c.fail("body", "", "This is too much for one entry. Make it two.")
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
	fixed map[string]jsontext.Value // members to write otherwise than typed
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
		c.text("name", maxText, true, "Give it a name.")
		c.text("note", maxNote, false, "")
	case "clock", "imported":
	default:
		c.fail("kind", kind, "This version writes no entry of the kind “"+kind+"”.")
	}
}

// text checks a member that people type. none is what to say when it must be
// there and is not.
func (c *checker) text(field string, most int, must bool, none string) string {
	v, ok := c.vals[field]
	if !ok {
		if must {
			c.fail(field, "", none)
		}
		return ""
	}
	s, err := v.Text()
	if err != nil {
		c.fail(field, string(v), "This must be text.")
		return ""
	}
	if must && strings.TrimSpace(s) == "" {
		c.fail(field, s, none)
	}
	if n := utf8.RuneCountInString(s); n > most {
		c.fail(field, s, "This holds up to "+strconv.Itoa(most)+" characters; what you wrote has "+strconv.Itoa(n)+". Shorten it, or make it two.")
	}
	return s
}

// number checks a number typed as text or given as one. The range is said in the
// error with the sign of its unit.
func (c *checker) number(field, name, sign string, lo, hi float64, above bool) {
	v, ok := c.vals[field]
	typed := token(v)
	if !ok || strings.TrimSpace(typed) == "" {
		c.fail(field, "", name+" is missing.")
		return
	}
	number, err := unit.Number(typed)
	if err != nil {
		c.fail(field, typed, err.Error())
		return
	}
	tok := jsontext.Value(number)
	f, err := tok.Float()
	if err != nil || f < lo || f > hi || above && f <= lo {
		from := short(lo) + " to "
		if above {
			from = "above " + short(lo) + ", up to "
		}
		c.fail(field, typed, name+" "+typed+" cannot be: it must be "+from+short(hi)+ended(sign, " ")+".")
		return
	}
	c.fixed[field] = tok
}

func (c *checker) reference(field, none string) {
	if n, err := nameOf(c.vals[field]); err != nil || n.IsZero() {
		c.fail(field, token(c.vals[field]), none)
	}
}

func (c *checker) begin() {
	what := c.text("what", maxText, true, "Choose pre-soak, wash or rinse.")
	if what != "" && !slices.Contains([]string{"presoak", "wash", "rinse"}, what) {
		c.fail("what", what, "Choose pre-soak, wash or rinse.")
	}
	c.text("liquid", maxText, true, "Say what liquid is in the tray.")
	c.number("litres", "The litres in the tray", "L", 0, 10_000, true)
	c.number("target_s", "The target time", "s", 1, 7*24*3600, false)
	if tok, ok := c.fixed["target_s"]; ok {
		if _, err := tok.Int(); err != nil {
			c.fail("target_s", string(tok), "The target time must be whole seconds.")
		}
	}
}

func (c *checker) reading() {
	q, _ := c.vals["q"].Text()
	k := quantityOf(q)
	if k == nil {
		c.fail("q", q, "Choose temperature, pH or conductivity.")
		return
	}
	c.number("value", k.name, k.shown, k.min, k.max, false)
	if u, _ := c.vals["unit"].Text(); u != k.unit {
		c.fail("unit", u, k.name+" is kept in "+k.unit+".")
	}
	if _, ok := c.vals["of"]; ok {
		c.reference("of", "Say which bath it was taken in.")
	}
}

// The largest object that a field can describe: 100 kg dry, 100 m a side. A
// typing error is nearer than a larger textile (common practice).
func (c *checker) set() {
	field, _ := c.vals["field"].Text()
	name, ok := fieldNames[field]
	if !ok {
		c.fail("field", field, "This version has no field “"+field+"”.")
		return
	}
	switch field {
	case "dry_mass_g":
		c.number("value", name[0], "g", 0, 100_000, true)
	case "width_mm", "height_mm":
		c.number("value", name[0], "mm", 0, 100_000, true)
	default:
		c.text("value", maxText, true, name[0]+" is empty.")
	}
	if v, ok := c.vals["over"]; ok {
		if err := jsontext.Elements(v, func(_ int, v jsontext.Value) error { _, err := nameOf(v); return err }); err != nil {
			c.fail("over", string(v), "The value that this replaces is not known.")
		}
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
			v = f
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
