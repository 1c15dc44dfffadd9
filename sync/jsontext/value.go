// Package jsontext reads and writes JSON over strconv alone.
//
// It is the codec of everything that runs on the phone as well as on the studio
// machine: encoding/json brings fmt and reflection with it, which costs the
// browser's download a third more and the first fold on a slow phone three
// times as long. The package is a leaf: it knows nothing of entries.
//
// Reading keeps the raw text of what it passes over, so that a body is stored,
// compared and hashed exactly as its author wrote it. The accepted language is
// RFC 8259, narrowed in three ways that RFC 7493 (I-JSON) also asks for: valid
// UTF-8, no name twice in one object, and no escaped lone surrogate. Nesting is
// limited to [MaxDepth].
package jsontext

import (
	"math"
	"strconv"
)

// MaxDepth is how many objects and arrays may stand inside each other.
const MaxDepth = 32

// Error says what is wrong with a JSON text, and at which byte.
type Error struct {
	At   int    // offset of the byte at which reading stopped
	What string // what was expected or found, lower case
}

func (e *Error) Error() string {
	return "json at byte " + strconv.Itoa(e.At) + ": " + e.What
}

// Kind is the kind of one JSON value.
type Kind uint8

// The kinds. Invalid is the kind of an empty or malformed Value.
const (
	Invalid Kind = iota
	Null
	Bool
	Number
	String
	Array
	Object
)

// Value is the raw text of one JSON value, without space around it.
//
// Values handed out by this package are well formed; Values made from other
// bytes must pass [Valid] first.
type Value []byte

// Kind tells by the first byte what v is.
func (v Value) Kind() Kind {
	if len(v) == 0 {
		return Invalid
	}
	switch c := v[0]; {
	case c == '{':
		return Object
	case c == '[':
		return Array
	case c == '"':
		return String
	case c == 't' || c == 'f':
		return Bool
	case c == 'n':
		return Null
	case c == '-' || c >= '0' && c <= '9':
		return Number
	}
	return Invalid
}

// Text returns the string that v spells; an error when v is no string.
func (v Value) Text() (string, error) {
	if v.Kind() != String {
		return "", &Error{What: "expected a string"}
	}
	return unquote(v)
}

// Int returns v as a whole number; an error when v is no number, has a
// fraction or an exponent, or does not fit.
func (v Value) Int() (int64, error) {
	if v.Kind() != Number {
		return 0, &Error{What: "expected a number"}
	}
	i, err := strconv.ParseInt(string(v), 10, 64)
	if err != nil {
		return 0, &Error{What: "expected a whole number"}
	}
	return i, nil
}

// Float returns v as a finite number; an error when v is no number or is
// beyond what a float64 holds.
func (v Value) Float() (float64, error) {
	if v.Kind() != Number {
		return 0, &Error{What: "expected a number"}
	}
	f, err := strconv.ParseFloat(string(v), 64)
	if err != nil || math.IsInf(f, 0) {
		return 0, &Error{What: "number out of range"}
	}
	return f, nil
}

// Bool returns v as a truth value; an error when v is none.
func (v Value) Bool() (bool, error) {
	switch string(v) {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	return false, &Error{What: "expected true or false"}
}

// Members calls f for each member of the object v, in the order written. An
// error of f ends the walk and is returned.
func Members(v Value, f func(key string, v Value) error) error {
	if v.Kind() != Object {
		return &Error{What: "expected an object"}
	}
	s := scanner{b: v, at: 1}
	for s.space(); !s.take('}'); s.space() {
		key, val, err := s.member()
		if err != nil {
			return err
		}
		if err := f(key, val); err != nil {
			return err
		}
		s.space()
		s.take(',')
	}
	return nil
}

// Elements calls f for each element of the array v. An error of f ends the
// walk and is returned.
func Elements(v Value, f func(i int, v Value) error) error {
	if v.Kind() != Array {
		return &Error{What: "expected an array"}
	}
	s := scanner{b: v, at: 1}
	s.space()
	for i := 0; !s.take(']'); i++ {
		start := s.at
		if err := s.value(0); err != nil {
			return err
		}
		if err := f(i, Value(v[start:s.at])); err != nil {
			return err
		}
		s.space()
		s.take(',')
		s.space()
	}
	return nil
}

// Get returns the member of the object v that is called key, and whether it is
// there.
func Get(v Value, key string) (Value, bool) {
	var found Value
	err := Members(v, func(k string, m Value) error {
		if k == key {
			found = m
			return errStop
		}
		return nil
	})
	return found, err == errStop
}

var errStop = &Error{What: "stop"}
