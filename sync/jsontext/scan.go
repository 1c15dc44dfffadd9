package jsontext

import (
	"unicode/utf16"
	"unicode/utf8"
)

// Valid reports what is wrong with b as one JSON value, space around it
// allowed; nil when nothing is.
func Valid(b []byte) error {
	_, err := Trim(b)
	return err
}

// Trim checks that b is one JSON value and returns it without the space around
// it.
func Trim(b []byte) (Value, error) {
	s := scanner{b: b}
	s.space()
	start := s.at
	if err := s.value(0); err != nil {
		return nil, err
	}
	end := s.at
	s.space()
	if s.at != len(b) {
		return nil, s.err("unexpected text after the value")
	}
	return Value(b[start:end]), nil
}

type scanner struct {
	b  []byte
	at int
}

func (s *scanner) err(what string) error { return &Error{At: s.at, What: what} }

func (s *scanner) space() {
	for s.at < len(s.b) {
		switch s.b[s.at] {
		case ' ', '\t', '\n', '\r':
			s.at++
		default:
			return
		}
	}
}

func (s *scanner) take(c byte) bool {
	if s.at < len(s.b) && s.b[s.at] == c {
		s.at++
		return true
	}
	return false
}

// value passes over one value that has depth objects and arrays around it.
func (s *scanner) value(depth int) error {
	if s.at >= len(s.b) {
		return s.err("unexpected end")
	}
	switch c := s.b[s.at]; {
	case c == '{':
		return s.object(depth + 1)
	case c == '[':
		return s.array(depth + 1)
	case c == '"':
		return s.str()
	case c == 't':
		return s.word("true")
	case c == 'f':
		return s.word("false")
	case c == 'n':
		return s.word("null")
	case c == '-' || c >= '0' && c <= '9':
		return s.number()
	}
	return s.err("expected a value")
}

func (s *scanner) object(depth int) error {
	if depth > MaxDepth {
		return s.err("nested too deep")
	}
	s.at++
	s.space()
	if s.take('}') {
		return nil
	}
	var seen names
	for {
		start := s.at
		if s.at >= len(s.b) || s.b[s.at] != '"' {
			return s.err("expected a member name")
		}
		if err := s.str(); err != nil {
			return err
		}
		if seen.add(s.b[start:s.at]) {
			s.at = start
			return s.err("member name occurs twice")
		}
		s.space()
		if !s.take(':') {
			return s.err("expected a colon")
		}
		s.space()
		if err := s.value(depth); err != nil {
			return err
		}
		s.space()
		if s.take('}') {
			return nil
		}
		if !s.take(',') {
			return s.err("expected a comma or the end of the object")
		}
		s.space()
	}
}

func (s *scanner) array(depth int) error {
	if depth > MaxDepth {
		return s.err("nested too deep")
	}
	s.at++
	s.space()
	if s.take(']') {
		return nil
	}
	for {
		if err := s.value(depth); err != nil {
			return err
		}
		s.space()
		if s.take(']') {
			return nil
		}
		if !s.take(',') {
			return s.err("expected a comma or the end of the array")
		}
		s.space()
	}
}

func (s *scanner) word(w string) error {
	if len(s.b)-s.at < len(w) || string(s.b[s.at:s.at+len(w)]) != w {
		return s.err("expected " + w)
	}
	s.at += len(w)
	return nil
}

func (s *scanner) digits() bool {
	start := s.at
	for s.at < len(s.b) && s.b[s.at] >= '0' && s.b[s.at] <= '9' {
		s.at++
	}
	return s.at > start
}

func (s *scanner) number() error {
	s.take('-')
	if !s.take('0') && !s.digits() {
		return s.err("expected a digit")
	}
	if s.take('.') && !s.digits() {
		return s.err("expected a digit after the point")
	}
	if s.take('e') || s.take('E') {
		if !s.take('+') {
			s.take('-')
		}
		if !s.digits() {
			return s.err("expected a digit in the exponent")
		}
	}
	return nil
}

// str passes over a string, checking escapes and UTF-8.
func (s *scanner) str() error {
	s.at++
	for s.at < len(s.b) {
		switch c := s.b[s.at]; {
		case c == '"':
			s.at++
			return nil
		case c == '\\':
			if _, err := s.escape(); err != nil {
				return err
			}
		case c < 0x20:
			return s.err("control character in a string")
		case c < utf8.RuneSelf:
			s.at++
		default:
			r, n := utf8.DecodeRune(s.b[s.at:])
			if r == utf8.RuneError && n == 1 {
				return s.err("invalid UTF-8")
			}
			s.at += n
		}
	}
	return s.err("unexpected end of a string")
}

// escape passes over one escape, or a pair that spells one character, and
// returns that character.
func (s *scanner) escape() (rune, error) {
	if s.at+1 >= len(s.b) {
		return 0, s.err("unexpected end of an escape")
	}
	c := s.b[s.at+1]
	if c == 'u' {
		return s.unicode()
	}
	for i := range len(escapes) {
		if escapes[i] == c {
			s.at += 2
			return rune(escaped[i]), nil
		}
	}
	return 0, s.err("unknown escape")
}

const (
	escapes = `"\/bfnrt`
	escaped = "\"\\/\b\f\n\r\t"
)

func (s *scanner) unicode() (rune, error) {
	r, ok := hex4(s.b[s.at+2:])
	if !ok {
		return 0, s.err("expected four hexadecimal digits")
	}
	if !utf16.IsSurrogate(r) {
		s.at += 6
		return r, nil
	}
	rest := s.b[s.at+6:]
	if len(rest) >= 6 && rest[0] == '\\' && rest[1] == 'u' {
		if low, ok := hex4(rest[2:]); ok {
			if pair := utf16.DecodeRune(r, low); pair != utf8.RuneError {
				s.at += 12
				return pair, nil
			}
		}
	}
	return 0, s.err("lone surrogate")
}

func hex4(b []byte) (rune, bool) {
	if len(b) < 4 {
		return 0, false
	}
	var r rune
	for _, c := range b[:4] {
		switch {
		case c >= '0' && c <= '9':
			r = r<<4 | rune(c-'0')
		case c >= 'a' && c <= 'f':
			r = r<<4 | rune(c-'a'+10)
		case c >= 'A' && c <= 'F':
			r = r<<4 | rune(c-'A'+10)
		default:
			return 0, false
		}
	}
	return r, true
}

// member reads `"name" : value` of an object that has been checked before; the
// checks are repeated since a Value can be made from any bytes.
func (s *scanner) member() (string, Value, error) {
	start := s.at
	if s.at >= len(s.b) || s.b[s.at] != '"' {
		return "", nil, s.err("expected a member name")
	}
	if err := s.str(); err != nil {
		return "", nil, err
	}
	key, err := unquote(s.b[start:s.at])
	if err != nil {
		return "", nil, err
	}
	s.space()
	if !s.take(':') {
		return "", nil, s.err("expected a colon")
	}
	s.space()
	start = s.at
	if err := s.value(0); err != nil {
		return "", nil, err
	}
	return key, Value(s.b[start:s.at]), nil
}

// unquote returns what the string token q spells.
func unquote(q []byte) (string, error) {
	inner := q[1 : len(q)-1]
	plain := true
	for _, c := range inner {
		if c == '\\' {
			plain = false
			break
		}
	}
	if plain {
		return string(inner), nil
	}
	out := make([]byte, 0, len(inner))
	s := scanner{b: inner}
	for s.at < len(inner) {
		if inner[s.at] != '\\' {
			out = append(out, inner[s.at])
			s.at++
			continue
		}
		r, err := s.escape()
		if err != nil {
			return "", err
		}
		out = utf8.AppendRune(out, r)
	}
	return string(out), nil
}

// names finds a name that occurs twice. Names are compared as they read, not
// as they are spelled, so "a" and "\u0061" are the same.
type names struct {
	few  [12]string
	n    int
	many map[string]bool
}

func (ns *names) add(quoted []byte) (twice bool) {
	key, err := unquote(quoted)
	if err != nil {
		return false
	}
	if ns.many != nil {
		twice = ns.many[key]
		ns.many[key] = true
		return twice
	}
	for _, k := range ns.few[:ns.n] {
		if k == key {
			return true
		}
	}
	if ns.n < len(ns.few) {
		ns.few[ns.n] = key
		ns.n++
		return false
	}
	ns.many = make(map[string]bool, 2*len(ns.few))
	for _, k := range ns.few {
		ns.many[k] = true
	}
	ns.many[key] = true
	return false
}
