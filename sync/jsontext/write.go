package jsontext

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// AppendString appends s as a JSON string. Invalid UTF-8 becomes U+FFFD.
// The line and paragraph separators are escaped, since old JavaScript does not
// take them in a literal.
func AppendString(dst []byte, s string) []byte {
	dst = append(dst, '"')
	start := 0
	for i := 0; i < len(s); {
		c := s[i]
		if c >= 0x20 && c != '"' && c != '\\' && c < utf8.RuneSelf {
			i++
			continue
		}
		if c < utf8.RuneSelf {
			dst = append(append(dst, s[start:i]...), escapeOf(c)...)
			i++
			start = i
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 || r == '\u2028' || r == '\u2029' {
			dst = append(dst, s[start:i]...)
			dst = append(dst, `\u`...)
			for shift := 12; shift >= 0; shift -= 4 {
				dst = append(dst, hexDigits[r>>shift&15])
			}
			start = i + n
		}
		i += n
	}
	return append(append(dst, s[start:]...), '"')
}

const hexDigits = "0123456789abcdef"

func escapeOf(c byte) string {
	for i := range len(escaped) {
		if escaped[i] == c {
			return `\` + escapes[i:i+1]
		}
	}
	return `\u00` + string([]byte{hexDigits[c>>4], hexDigits[c&15]})
}

// AppendFloat appends the shortest text that reads back as f, in the form that
// JavaScript also writes; null for what is not finite.
func AppendFloat(dst []byte, f float64) []byte {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return append(dst, "null"...)
	}
	abs := math.Abs(f)
	if abs != 0 && (abs < 1e-6 || abs >= 1e21) {
		dst = strconv.AppendFloat(dst, f, 'e', -1, 64)
		// e-09 becomes e-9, as encoding/json does.
		if n := len(dst); n >= 4 && dst[n-4] == 'e' && dst[n-2] == '0' {
			dst[n-2] = dst[n-1]
			dst = dst[:n-1]
		}
		return dst
	}
	return strconv.AppendFloat(dst, f, 'f', -1, 64)
}

// Writer builds one JSON text in B; it sets the commas. Calls must nest, which
// is the caller's care: Begin and End in pairs, Key before each value in an
// object.
type Writer struct {
	B    []byte
	more bool // the next value or key has one before it
}

func (w *Writer) comma() {
	if w.more {
		w.B = append(w.B, ',')
	}
	w.more = true
}

// Begin opens an object or array with '{' or '['.
func (w *Writer) Begin(c byte) { w.comma(); w.B = append(w.B, c); w.more = false }

// End closes it with '}' or ']'.
func (w *Writer) End(c byte) { w.B = append(w.B, c); w.more = true }

// Key writes a member name; the next call writes its value.
func (w *Writer) Key(k string) {
	w.comma()
	w.B = append(AppendString(w.B, k), ':')
	w.more = false
}

// Str writes a string.
func (w *Writer) Str(s string) { w.comma(); w.B = AppendString(w.B, s) }

// Int writes a whole number.
func (w *Writer) Int(i int64) { w.comma(); w.B = strconv.AppendInt(w.B, i, 10) }

// Uint writes a whole number.
func (w *Writer) Uint(u uint64) { w.comma(); w.B = strconv.AppendUint(w.B, u, 10) }

// Float writes a number; null when it is not finite.
func (w *Writer) Float(f float64) { w.comma(); w.B = AppendFloat(w.B, f) }

// Bool writes true or false.
func (w *Writer) Bool(b bool) { w.comma(); w.B = strconv.AppendBool(w.B, b) }

// Null writes null.
func (w *Writer) Null() { w.comma(); w.B = append(w.B, "null"...) }

// Raw writes v as it is.
func (w *Writer) Raw(v Value) { w.comma(); w.B = append(w.B, v...) }
