package journal

import (
	"errors"
	"strconv"

	"sinkside/sync/jsontext"
)

const (
	// Version is the envelope's format version that this code writes.
	Version = 1
	// MaxLine is the largest line in bytes, without a line end. What is larger
	// is a blob that an entry names.
	MaxLine = 16 << 10
)

var (
	// ErrFormat says that a line is no entry: not JSON, a member missing or of
	// the wrong kind. The cause is wrapped.
	ErrFormat = errors.New("not an entry")
	// ErrTooLong says that a line is over MaxLine bytes.
	ErrTooLong = errors.New("entry over 16 KiB")
)

// formatError keeps ErrFormat and the member that is wrong.
type formatError struct{ what string }

func (e *formatError) Error() string { return "not an entry: " + e.what }
func (e *formatError) Unwrap() error { return ErrFormat }

// Entry is one immutable fact in a treatment's log. Line is the entry; the
// other fields are what it says.
type Entry struct {
	V    int    // envelope version, from 1
	Job  ID     // treatment, or Shelf
	Dev  ID     // device that wrote it
	N    uint64 // place in the chain, from 1
	Prev Name   // name of the line before it; zero when N is 1
	T    Time   // when it was recorded, by the device's hybrid clock
	At   string // when it happened, RFC 3339 with offset; not checked here
	By   string // initials
	Kind string
	BV   int            // version of this kind's body
	Body jsontext.Value // an object
	Was  Name           // name it had on a refused branch; zero for none

	Line []byte // as its author wrote it, no line end
	Name Name   // SHA-256 of Line
}

// Chain returns the chain that e stands in.
func (e *Entry) Chain() Chain { return Chain{e.Job, e.Dev} }

// Parse reads a line. It takes members in any order, unknown ones too, and
// keeps the line as it is; At and Body are checked when folded, never here,
// since refusing an entry would stop its chain for ever (law 6).
//
// The line is kept, not copied.
func Parse(line []byte) (Entry, error) {
	if len(line) > MaxLine {
		return Entry{}, ErrTooLong
	}
	v, err := jsontext.Trim(line)
	if err != nil {
		return Entry{}, &formatError{err.Error()}
	}
	if len(v) != len(line) {
		return Entry{}, &formatError{"space around the line"}
	}
	for _, c := range line {
		if c == '\n' || c == '\r' {
			return Entry{}, &formatError{"line end inside the line"}
		}
	}
	e := Entry{Line: line, Name: sum256(line)}
	var have uint
	if err := jsontext.Members(v, func(key string, v jsontext.Value) error { return e.member(key, v, &have) }); err != nil {
		if errors.Is(err, ErrFormat) {
			return Entry{}, err
		}
		return Entry{}, &formatError{err.Error()}
	}
	return e, e.complete(have)
}

// The required members, as bits of what was seen.
const (
	hasV = 1 << iota
	hasJob
	hasDev
	hasN
	hasT
	hasAt
	hasBy
	hasKind
	hasBV
	hasBody
	hasAll = 1<<iota - 1
)

func (e *Entry) member(key string, v jsontext.Value, have *uint) (err error) {
	bad := func(err error) error {
		if err != nil {
			return &formatError{key + ": " + err.Error()}
		}
		return nil
	}
	switch key {
	case "v":
		*have |= hasV
		e.V, err = small(v)
	case "job":
		*have |= hasJob
		e.Job, err = idOf(v)
	case "dev":
		*have |= hasDev
		e.Dev, err = idOf(v)
	case "n":
		*have |= hasN
		var n int64
		n, err = v.Int()
		if err == nil && n < 1 {
			err = errors.New("expected a number from 1")
		}
		e.N = uint64(max(n, 0))
	case "prev":
		e.Prev, err = nameOf(v)
	case "was":
		e.Was, err = nameOf(v)
	case "t":
		*have |= hasT
		var s string
		if s, err = v.Text(); err == nil {
			e.T, err = ParseTime(s)
		}
	case "at":
		*have |= hasAt
		e.At, err = v.Text()
	case "by":
		*have |= hasBy
		e.By, err = v.Text()
	case "kind":
		*have |= hasKind
		e.Kind, err = v.Text()
	case "bv":
		*have |= hasBV
		e.BV, err = small(v)
	case "body":
		*have |= hasBody
		if v.Kind() != jsontext.Object {
			err = errors.New("expected an object")
		}
		e.Body = v
	}
	return bad(err)
}

func (e *Entry) complete(have uint) error {
	names := [...]string{"v", "job", "dev", "n", "t", "at", "by", "kind", "bv", "body"}
	for i, name := range names {
		if have&(1<<i) == 0 {
			return &formatError{name + " is missing"}
		}
	}
	switch {
	case e.N == 1 && !e.Prev.IsZero():
		return &formatError{"the first entry of a chain has a prev"}
	case e.N > 1 && e.Prev.IsZero():
		return &formatError{"prev is missing"}
	}
	return nil
}

func small(v jsontext.Value) (int, error) {
	n, err := v.Int()
	if err == nil && (n < 1 || n > 1<<20) {
		err = errors.New("expected a version from 1")
	}
	return int(n), err
}

func idOf(v jsontext.Value) (ID, error) {
	s, err := v.Text()
	if err != nil {
		return ID{}, err
	}
	return ParseID(s)
}

func nameOf(v jsontext.Value) (Name, error) {
	s, err := v.Text()
	if err != nil {
		return Name{}, err
	}
	n, err := ParseName(s)
	if err == nil && n.IsZero() {
		err = ErrName
	}
	return n, err
}

// Draft is what a person did, before it has a place in a chain.
type Draft struct {
	Job  ID
	At   string
	By   string
	Kind string
	BV   int
	Body jsontext.Value
	Was  Name
}

// Write makes the entry that follows head h in dev's chain. It fails with
// ErrFormat when the draft could not be read back, and with ErrTooLong.
func Write(d Draft, dev ID, h Head, t Time) (Entry, error) {
	if err := jsontext.Valid(d.Body); err != nil {
		return Entry{}, &formatError{"body: " + err.Error()}
	}
	b := make([]byte, 0, 256+len(d.Body))
	b = append(b, `{"v":`...)
	b = strconv.AppendInt(b, Version, 10)
	b = appendText(b, "job", d.Job.String())
	b = appendText(b, "dev", dev.String())
	b = append(b, `,"n":`...)
	b = strconv.AppendUint(b, h.N+1, 10)
	if h.N > 0 {
		b = appendText(b, "prev", h.Name.String())
	}
	b = appendText(b, "t", t.String())
	b = appendText(b, "at", d.At)
	b = appendText(b, "by", d.By)
	b = appendText(b, "kind", d.Kind)
	b = append(b, `,"bv":`...)
	b = strconv.AppendInt(b, int64(d.BV), 10)
	b = append(append(b, `,"body":`...), d.Body...)
	if !d.Was.IsZero() {
		b = appendText(b, "was", d.Was.String())
	}
	return Parse(append(b, '}'))
}

func appendText(b []byte, key, s string) []byte {
	b = append(append(append(b, `,"`...), key...), `":`...)
	return jsontext.AppendString(b, s)
}
