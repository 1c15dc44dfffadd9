package dossier

import (
	"errors"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// fact is an entry with its body read.
type fact struct {
	journal.Entry
	body    body
	doubt   string // first thing wrong with it, empty for nothing
	unknown bool   // of a kind, body version or envelope version that this code does not know

	atMS       int64 // At as Unix ms, not corrected; the clock's when At is unreadable
	recordedMS int64 // when it was entered, by this device, not corrected
	order      journal.Time
	offset     int64 // ms to add to this device's times here
	again      bool  // a re-issue of an entry that is here already
}

// body is what the bodies of all kinds can say; each kind uses its part.
type body struct {
	name, number string
	sample       bool
	field        string
	value        jsontext.Value
	over         []journal.Name
	what, liquid string
	litres       string
	targetS      int64
	mono         *mono
	agoS         int64 // entered so many seconds after it happened
	uncleared    bool
	of           journal.Name
	q, unit      string
	text, why    string
	offsetMS     int64
	dev          string
	from, to     int64
	at           string
	inner        jsontext.Value
}

// mono is a reading of a device's steady counter, which no one can set, with
// the session that it counts in.
type mono struct {
	session string
	ms      int64
}

// knownBV is the newest body version of each kind that this code reads.
var knownBV = map[string]int{
	"open": 1, "set": 1, "begin": 1, "end": 1, "reading": 1, "note": 1, "amend": 1,
	"strike": 1, "clock": 1, "close": 1, "reopen": 1, "imported": 1, "item": 1,
}

func newFact(e journal.Entry) *fact {
	f := &fact{Entry: e}
	if ms, err := journal.ParseAt(e.At); err == nil {
		f.atMS = ms
	} else {
		f.atMS = e.T.WallMS()
		f.doubt = "its time cannot be read, so the time of recording stands in"
	}
	if bv, ok := knownBV[e.Kind]; !ok || e.BV > bv || e.V > journal.Version {
		f.unknown = true
		f.recordedMS = f.recorded()
		return f
	}
	b, err := readBody(e.Kind, e.Body)
	if err != nil && f.doubt == "" {
		f.doubt = err.Error()
	}
	f.body = b
	f.recordedMS = f.recorded()
	return f
}

// recorded is when the entry was entered. A late one says itself how late
// (ago_s). The hybrid clock cannot tell by less than it may be pulled ahead by
// other devices; beyond that it can.
func (f *fact) recorded() int64 {
	if f.body.agoS > 0 && f.body.agoS < maxAgoMS/1000 {
		return f.atMS + f.body.agoS*1000
	}
	if t := f.T.WallMS(); t-f.atMS > journal.MaxLead+lateMS || f.atMS-t > leadMS {
		return t
	}
	return f.atMS
}

// readBody reads what a body of a known kind says. It reads on after a fault,
// so that one odd member does not hide the others; the first fault is returned.
func readBody(kind string, v jsontext.Value) (body, error) {
	var b body
	var first error
	err := jsontext.Members(v, func(key string, v jsontext.Value) error {
		if err := b.member(key, v); err != nil && first == nil {
			first = errors.New(key + " cannot be read")
		}
		return nil
	})
	if err != nil {
		return b, errors.New("its body cannot be read")
	}
	if first == nil {
		first = b.lacks(kind)
	}
	return b, first
}

func (b *body) member(key string, v jsontext.Value) (err error) {
	switch key {
	case "name":
		b.name, err = v.Text()
	case "number":
		b.number, err = v.Text()
	case "sample":
		b.sample, err = v.Bool()
	case "field":
		b.field, err = v.Text()
	case "value":
		b.value = v
	case "over":
		err = jsontext.Elements(v, func(_ int, v jsontext.Value) error {
			n, err := nameOf(v)
			b.over = append(b.over, n)
			return err
		})
	case "what":
		b.what, err = v.Text()
	case "liquid":
		b.liquid, err = v.Text()
	case "litres":
		b.litres, err = numberToken(v)
	case "target_s":
		b.targetS, err = v.Int()
	case "mono":
		b.mono, err = monoOf(v)
	case "ago_s":
		if b.agoS, err = v.Int(); err == nil && b.agoS < 0 {
			b.agoS, err = 0, errors.New("negative")
		}
	case "uncleared":
		b.uncleared, err = v.Bool()
	case "of":
		b.of, err = nameOf(v)
	case "q":
		b.q, err = v.Text()
	case "unit":
		b.unit, err = v.Text()
	case "text":
		b.text, err = v.Text()
	case "why":
		b.why, err = v.Text()
	case "offset_ms":
		b.offsetMS, err = v.Int()
	case "dev":
		b.dev, err = v.Text()
	case "from":
		b.from, err = v.Int()
	case "to":
		b.to, err = v.Int()
	case "at":
		b.at, err = v.Text()
	case "body":
		b.inner = v
		if v.Kind() != jsontext.Object {
			err = errors.New("no object")
		}
	}
	return err
}

// lacks names what a body of its kind cannot do without, or cannot be.
func (b *body) lacks(kind string) error {
	missing := ""
	switch kind {
	case "set":
		if b.field == "" {
			missing = "field"
		} else if k := b.value.Kind(); k != jsontext.String && k != jsontext.Number {
			missing = "value"
		}
	case "begin":
		if b.what == "" {
			missing = "kind of bath"
		}
	case "end", "strike":
		if b.of.IsZero() {
			missing = "entry it is about"
		}
	case "amend":
		if b.of.IsZero() {
			missing = "entry it is about"
		} else if b.inner == nil {
			missing = "new text"
		}
	case "reading":
		if b.q == "" {
			missing = "quantity"
		} else if b.value.Kind() != jsontext.Number {
			missing = "value"
		}
	}
	if kind == "clock" && (b.offsetMS < -maxAgoMS || b.offsetMS > maxAgoMS) {
		return errors.New("no clock is wrong by more than a hundred years")
	}
	if missing != "" {
		return errors.New("the " + missing + " is missing")
	}
	return nil
}

func nameOf(v jsontext.Value) (journal.Name, error) {
	s, err := v.Text()
	if err != nil {
		return journal.Name{}, err
	}
	return journal.ParseName(s)
}

func numberToken(v jsontext.Value) (string, error) {
	if v.Kind() != jsontext.Number {
		return "", errors.New("no number")
	}
	return string(v), nil
}

func monoOf(v jsontext.Value) (*mono, error) {
	var m mono
	err := jsontext.Members(v, func(key string, v jsontext.Value) (err error) {
		switch key {
		case "s":
			m.session, err = v.Text()
		case "ms":
			m.ms, err = v.Int()
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	if m.session == "" || m.ms < 0 {
		return nil, errors.New("no session")
	}
	return &m, nil
}

// token is a set value as text: what a string spells, or a number as written.
func token(v jsontext.Value) string {
	if s, err := v.Text(); err == nil {
		return s
	}
	return string(v)
}
