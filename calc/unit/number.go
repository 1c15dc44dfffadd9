package unit

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxText is the longest text, in bytes, that is read as one number with its
// unit.
const MaxText = 64

// Largest and smallest sizes of a number that can mean anything at a sink. What
// lies beyond is a slip of the key, not a quantity.
const (
	largest  = 1e12
	smallest = 1e-12
)

// Error says to a person why what they typed was not read, in one or two
// sentences that name the text and a way out.
type Error struct {
	Text string // as typed
	Say  string

	// Either holds the two texts that would be plain, where the one typed can be read
	// in two ways: as 1.035 and as 1035. Who knows that only one of them can be meant
	// may take that.
	Either [2]string
}

func (e *Error) Error() string { return e.Say }

func wrong(text string, say ...string) *Error {
	return &Error{Text: text, Say: quoted(text) + " " + strings.Join(say, "")}
}

// quoted puts a typed text between quotation marks, cut where it is long and
// with what does not show, or turns the line about, replaced. (unicode.IsPrint
// would bring tables of many kilobytes into the browser's core.)
func quoted(text string) string {
	const most = 24
	var b strings.Builder
	b.WriteString("“")
	n := 0
	for _, r := range text {
		if n++; n > most {
			b.WriteString("…")
			break
		}
		if unicode.IsControl(r) || r >= '\u200b' && r <= '\u200f' || r >= '\u202a' && r <= '\u202e' || r >= '\u2060' && r <= '\u206f' {
			r = utf8.RuneError
		}
		b.WriteRune(r)
	}
	b.WriteString("”")
	return b.String()
}

// Number reads a plain number as people type it: decimal comma or point, digits
// in groups of three, a typographic minus. It returns it as JSON spells numbers,
// with its digits kept: 7,10 is 7.10.
//
// A comma with exactly three digits behind it, as in 1,234, is refused: half of
// the world reads it as 1.234 and half as 1234, and a guess would be wrong by a
// thousand. A point is always the decimal point unless it stands twice or before
// a comma, because that is how this program writes numbers itself. An exponent is
// refused too: nobody at a sink writes one. Errors are of type [*Error].
func Number(text string) (string, error) {
	num, rest, err := cut(text)
	if err != nil {
		return "", err
	}
	if rest != "" {
		return "", wrong(text, "is no number: leave out ", quoted(rest), ".")
	}
	if num.exp != "" {
		return "", wrong(text, "is no number here: write it without an exponent.")
	}
	if _, err := value(text, num); err != nil {
		return "", err
	}
	whole, decimals, err := num.read(text)
	if err != nil {
		return "", err
	}
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	if decimals != "" {
		whole += "." + decimals
	}
	if num.minus {
		whole = "-" + whole
	}
	return whole, nil
}

// digits is what a typed number consists of.
type digits struct {
	minus  bool
	groups []string // digits between the marks; the first may be empty, as in .5
	marks  []rune   // the marks between them: . , ' or a space
	exp    string   // e-3
}

// cut takes the number off the front of a text and returns the rest, which is
// the unit, without space around it.
func cut(text string) (digits, string, error) {
	var d digits
	if len(text) > MaxText {
		return d, "", wrong(text, "is too long for one number.")
	}
	s := strings.TrimSpace(text)
	if s == "" {
		return d, "", &Error{Text: text, Say: "Nothing is typed here yet."}
	}
	if r, n := utf8.DecodeRuneInString(s); r == '-' || r == '−' || r == '–' || r == '+' {
		d.minus = r != '+'
		s = strings.TrimSpace(s[n:])
	}
	group, rest := digitsOf(s)
	d.groups = append(d.groups, group)
	for {
		mark, n := markOf(rest)
		group, after := digitsOf(rest[n:])
		if n == 0 || group == "" {
			break
		}
		d.marks, d.groups, rest = append(d.marks, mark), append(d.groups, group), after
	}
	if len(d.groups) == 1 && d.groups[0] == "" {
		return d, "", wrong(text, "is no number.")
	}
	d.exp, rest = exponentOf(rest)
	rest = strings.TrimSpace(rest)
	if strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, ",") {
		return d, "", wrong(text, "is no number: it breaks off after its ", nameOf(rune(rest[0])), ".")
	}
	return d, rest, nil
}

func digitsOf(s string) (string, string) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// markOf returns the mark that s begins with, every space as the plain one and
// every apostrophe as the straight one, and its length; 0 where there is none.
func markOf(s string) (rune, int) {
	r, n := utf8.DecodeRuneInString(s)
	switch {
	case r == '.' || r == ',':
		return r, n
	case r == '\'' || r == '’':
		return '\'', n
	case n > 0 && r != '\t' && r != '\n' && unicode.IsSpace(r): // thin, narrow and no-break spaces among them
		return ' ', n
	}
	return 0, 0
}

func nameOf(mark rune) string {
	if mark == ',' {
		return "comma"
	}
	return "point"
}

// exponentOf takes e5 or E-3 off the front. An e that no digit follows is a
// unit's.
func exponentOf(s string) (string, string) {
	if s == "" || s[0] != 'e' && s[0] != 'E' {
		return "", s
	}
	n := 1
	if n < len(s) && (s[n] == '-' || s[n] == '+') {
		n++
	}
	d, rest := digitsOf(s[n:])
	if d == "" {
		return "", s
	}
	return s[:n] + d, rest
}

// value decides what the marks mean.
func value(text string, d digits) (float64, error) {
	whole, decimals, err := d.read(text)
	if err != nil {
		return 0, err
	}
	s := whole + "." + decimals + d.exp
	if whole == "" {
		s = "0" + s
	}
	if decimals == "" {
		s = strings.Replace(s, ".", "", 1)
	}
	x, err := strconv.ParseFloat(s, 64)
	zero := strings.Trim(whole+decimals, "0") == ""
	switch {
	case err != nil || x > largest:
		return 0, wrong(text, "is far too large.")
	case !zero && x < smallest:
		return 0, wrong(text, "is far too small.")
	case d.minus && !zero:
		return -x, nil
	}
	return math.Abs(x), nil
}

// read returns the digits before and behind the decimal mark.
func (d digits) read(text string) (whole, decimals string, err error) {
	if len(d.marks) == 0 {
		return d.groups[0], "", nil
	}
	last := len(d.marks) - 1
	mark := d.marks[last]
	decimal := mark == '.' || mark == ','
	before := d.marks[:last]
	switch {
	case last == 0 && mark == ',' && d.isGrouped():
		joined := d.groups[0] + d.groups[1]
		err := wrong(text, "can be read as ", d.groups[0], ".", d.groups[1], " or as ", joined, ". Write one of these two.")
		comma := d.groups[0] + "," + d.groups[1]
		for i, plain := range []string{d.groups[0] + "." + d.groups[1], joined} {
			err.Either[i] = strings.Replace(text, comma, plain, 1)
		}
		return "", "", err
	case last == 0 && decimal:
		return d.groups[0], d.groups[1], nil
	case allOf(d.marks, mark):
		if !d.isGrouped() {
			return "", "", badGroups(text)
		}
		return strings.Join(d.groups, ""), "", nil
	case decimal && allOf(before, before[0]):
		head := digits{groups: d.groups[:last+1], marks: before}
		if !head.isGrouped() {
			return "", "", badGroups(text)
		}
		return strings.Join(head.groups, ""), d.groups[last+1], nil
	}
	return "", "", wrong(text, "mixes its marks: write the number without groups, as in 1234.5.")
}

func badGroups(text string) error {
	return wrong(text, "has digits in groups that are not of three: write the number without groups, as in 1234.5.")
}

// isGrouped reports whether the marks can stand between thousands: one to three
// digits in front, not beginning with 0, and three in each later group.
func (d digits) isGrouped() bool {
	first := d.groups[0]
	if first == "" || len(first) > 3 || first[0] == '0' {
		return false
	}
	for _, g := range d.groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

func allOf(marks []rune, m rune) bool {
	for _, x := range marks {
		if x != m {
			return false
		}
	}
	return true
}
