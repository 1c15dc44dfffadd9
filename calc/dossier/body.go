package dossier

import (
	"errors"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// body is what the bodies of all kinds can say; each kind uses its part. Numbers
// that people measured are tokens, as they were written.
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

	tempC, batch, where string
	unticked            []string
	planned, sides      int64
	face, held, airflow string
	airMS               string

	how, liquorC, instrument   string
	compensated, source, atEnd bool

	baths        []PlannedBath
	colour       string
	s            int64
	phFrom, phTo string
	faces        string

	ofAll    []journal.Name // of an abort: the steps that ran
	steps    []string
	generic  bool
	proposed string
	who      string // of an overnight; of a takeover, from whom
	until    string
	cue      string
	blob     journal.Name
	mime     string
	bytes    int64

	inputs         jsontext.Value // of a reckoning, as they were asked
	values         []Kept
	title, program string
}

// mono is a reading of a device's steady counter, which no one can set, with
// the session that it counts in.
type mono struct {
	session string
	ms      int64
}

// readBody reads what a body of a known kind says. It reads on after a fault,
// so that one odd member does not hide the others; the first fault is returned.
func readBody(kind string, v jsontext.Value) (body, error) {
	var b body
	var first error
	err := jsontext.Members(v, func(key string, v jsontext.Value) error {
		if err := b.member(kind, key, v); err != nil && first == nil {
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

func (b *body) member(kind, key string, v jsontext.Value) (err error) {
	if s := b.texts(key); s != nil {
		*s, err = v.Text()
		return err
	}
	if s := b.tokens(key); s != nil {
		*s, err = numberToken(v)
		return err
	}
	if i := b.flags(key); i != nil {
		*i, err = v.Bool()
		return err
	}
	switch key {
	case "from":
		if kind == "takeover" {
			b.who, err = v.Text()
			return err
		}
		b.from, err = v.Int()
	case "of":
		if kind == "abort" {
			return namesOf(v, &b.ofAll)
		}
		b.of, err = nameOf(v)
	case "over":
		err = namesOf(v, &b.over)
	case "value":
		b.value = v
	case "mono":
		b.mono, err = monoOf(v)
	case "ago_s":
		if b.agoS, err = v.Int(); err == nil && b.agoS < 0 {
			b.agoS, err = 0, errors.New("negative")
		}
	case "target_s":
		b.targetS, err = v.Int()
	case "offset_ms":
		b.offsetMS, err = v.Int()
	case "to":
		b.to, err = v.Int()
	case "planned":
		b.planned, err = v.Int()
	case "sides":
		b.sides, err = v.Int()
	case "s":
		b.s, err = v.Int()
	case "bytes":
		b.bytes, err = v.Int()
	case "blob":
		b.blob, err = nameOf(v)
	case "unticked":
		err = textsOf(v, &b.unticked)
	case "steps":
		err = textsOf(v, &b.steps)
	case "baths":
		b.baths, err = bathsOf(v)
	case "inputs":
		if b.inputs = v; v.Kind() != jsontext.Object {
			err = errors.New("no object")
		}
	case "values":
		b.values, err = keptOf(v)
	case "body":
		b.inner = v
		if v.Kind() != jsontext.Object {
			err = errors.New("no object")
		}
	}
	return err
}

func (b *body) texts(key string) *string {
	switch key {
	case "name":
		return &b.name
	case "number":
		return &b.number
	case "field":
		return &b.field
	case "what":
		return &b.what
	case "liquid":
		return &b.liquid
	case "q":
		return &b.q
	case "unit":
		return &b.unit
	case "text":
		return &b.text
	case "why":
		return &b.why
	case "dev":
		return &b.dev
	case "at":
		return &b.at
	case "batch":
		return &b.batch
	case "where":
		return &b.where
	case "face":
		return &b.face
	case "held":
		return &b.held
	case "airflow":
		return &b.airflow
	case "how":
		return &b.how
	case "instrument":
		return &b.instrument
	case "colour":
		return &b.colour
	case "faces":
		return &b.faces
	case "proposed":
		return &b.proposed
	case "who":
		return &b.who
	case "until":
		return &b.until
	case "cue":
		return &b.cue
	case "type":
		return &b.mime
	case "title":
		return &b.title
	case "program":
		return &b.program
	}
	return nil
}

func (b *body) tokens(key string) *string {
	switch key {
	case "litres":
		return &b.litres
	case "temp_c":
		return &b.tempC
	case "air_m_s":
		return &b.airMS
	case "liquor_c":
		return &b.liquorC
	case "ph_from":
		return &b.phFrom
	case "ph_to":
		return &b.phTo
	}
	return nil
}

func (b *body) flags(key string) *bool {
	switch key {
	case "sample":
		return &b.sample
	case "uncleared":
		return &b.uncleared
	case "compensated":
		return &b.compensated
	case "source":
		return &b.source
	case "at_end":
		return &b.atEnd
	case "generic":
		return &b.generic
	}
	return nil
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
	case "end", "strike", "reason":
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
	case "plan":
		if b.baths == nil {
			missing = "list of baths"
		}
	case "dwell":
		if b.s <= 0 {
			missing = "time that was tested"
		} else if b.name == "" {
			missing = "name of who vouches for it"
		}
	case "act", "decide":
		if b.what == "" {
			missing = "act"
		}
	case "overnight":
		if b.who == "" {
			missing = "name of who answers for it"
		}
	case "heard":
		if b.cue == "" {
			missing = "cue"
		}
	case "photo":
		if b.blob.IsZero() {
			missing = "photograph"
		}
	case "reckoned":
		switch {
		case b.name == "":
			missing = "name of the reckoning"
		case b.inputs == nil:
			missing = "inputs"
		case len(b.values) == 0:
			missing = "result"
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
