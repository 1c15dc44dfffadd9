package unit

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// finest is the largest number below the line of a fraction: tapes are divided into
// sixty-fourths of an inch at most.
const finest = 64

// byTape reads a text in the ways in which people measure by inches, pounds and gallons
// and nobody in metres and grams: with a fraction, as in 12 3/8 in and ½ gal, or in two
// units, as in 5' 6", 5 ft 6 in and 3 lb 4 oz, which come in the smaller one. It is false
// for a text of another make.
func byTape(text string, allowed []Unit, chosen Unit) (x float64, u Unit, ok bool, err error) {
	s := strings.TrimSpace(text)
	if x, name, ok := fraction(s); ok {
		u, err := chosen, error(nil)
		if name = strings.TrimSpace(name); name != "" {
			u, err = pick(text, name, allowed, chosen)
		}
		if err == nil && u.System == Metric {
			err = wrong(text, "is a fraction, and those are read in inches, pounds and gallons only. Write ", Text(x, 6), ".")
		}
		return x, u, true, err
	}
	whole, name, rest := firstOfTwo(s)
	if rest == "" {
		return 0, Unit{}, false, nil
	}
	large, wrong := pick(text, name, allowed, chosen)
	x, small, also := Read(rest, allowed, Unit{})
	if wrong != nil || also != nil || large.System == Metric || small.System != large.System || small.Kind != large.Kind {
		return 0, Unit{}, false, nil
	}
	one := math.Round(large.Base(1) / small.Base(1)) // each is a whole number of the next: 12, 16, 128
	return float64(whole)*one + x, small, one > 1 && x >= 0 && x < one, nil
}

// fraction takes a number that ends in a fraction off the front of a text, as in 12 3/8,
// 12-3/8, 12⅜ and 3/8, and returns the rest; false where there is none.
func fraction(text string) (x float64, rest string, ok bool) {
	whole, rest := digitsOf(text)
	gap := strings.TrimLeft(rest, " ")
	if whole != "" {
		gap = strings.TrimLeft(strings.TrimPrefix(rest, "-"), " ")
	}
	part, rest := oneCharacter(gap)
	if part == 0 {
		over, under := whole, ""
		if len(gap) < len(text)-len(whole) {
			over, rest = digitsOf(gap)
		} else {
			whole, rest = "", gap
		}
		after, slash := strings.CutPrefix(rest, "/")
		if !slash {
			after, slash = strings.CutPrefix(rest, "⁄")
		}
		under, rest = digitsOf(after)
		a, b := small(over), small(under)
		if !slash || a == 0 || b <= a || b > finest {
			return 0, "", false
		}
		part = float64(a) / float64(b)
	}
	if whole == "" {
		return part, rest, true
	}
	n := small(whole)
	return float64(n) + part, rest, n > 0 || strings.Trim(whole, "0") == ""
}

// oneCharacter takes a fraction that is one character off the front; 0 where there is
// none.
func oneCharacter(s string) (float64, string) {
	r, n := utf8.DecodeRuneInString(s)
	eighths := 0
	switch r {
	case '½':
		eighths = 4
	case '¼':
		eighths = 2
	case '¾':
		eighths = 6
	case '⅛':
		eighths = 1
	case '⅜':
		eighths = 3
	case '⅝':
		eighths = 5
	case '⅞':
		eighths = 7
	}
	return float64(eighths) / 8, s[n:]
}

// small is a whole number of few digits; 0 where it is none.
func small(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil || len(digits) > 5 {
		return 0
	}
	return n
}

// firstOfTwo parts what is said in two units: the whole number of the first, its name,
// and all that follows; nothing follows where the text is of another make.
func firstOfTwo(text string) (whole int, name, rest string) {
	n, after := digitsOf(text)
	at := strings.IndexAny(after, "0123456789½¼¾⅛⅜⅝⅞")
	if whole = small(n); whole == 0 || at <= 0 {
		return 0, "", ""
	}
	name = strings.TrimSpace(after[:at])
	return whole, name, after[at:]
}
