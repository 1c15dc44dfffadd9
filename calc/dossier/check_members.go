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
	typed := token(c.vals[field])
	if strings.TrimSpace(typed) == "" {
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

// whole checks a number that must be whole.
func (c *checker) whole(field, name, sign string, lo, hi float64) {
	c.number(field, name, sign, lo, hi, false)
	if tok := c.fixed[field]; tok != nil {
		if _, err := tok.Int(); err != nil {
			c.fail(field, string(tok), name+" must be whole"+ended(sign, ", in ")+".")
		}
	}
}

// said tells whether a member that may be missing was given. An empty one is
// left out of the entry.
func (c *checker) said(field string) bool {
	v, ok := c.vals[field]
	if ok && strings.TrimSpace(token(v)) == "" {
		c.fixed[field] = nil
		return false
	}
	return ok
}

// choice checks a member that is one of a few words.
func (c *checker) choice(field string, must bool, say string, of ...string) string {
	if !must && !c.said(field) {
		return ""
	}
	s, err := c.vals[field].Text()
	if err != nil || !slices.Contains(of, s) {
		c.fail(field, token(c.vals[field]), say)
	}
	return s
}

func (c *checker) flags(fields ...string) {
	for _, field := range fields {
		if v, ok := c.vals[field]; ok {
			if _, err := v.Bool(); err != nil {
				c.fail(field, token(v), "This is yes or no.")
			}
		}
	}
}

// texts checks a list of texts, which may be missing.
func (c *checker) texts(field string) {
	v, ok := c.vals[field]
	if !ok {
		return
	}
	var list []string
	if textsOf(v, &list) != nil {
		c.fail(field, string(v), "This must be a list of texts.")
	}
}

// names checks a list of entries, which may be missing.
func (c *checker) names(field, say string) {
	v, ok := c.vals[field]
	if !ok {
		return
	}
	var list []journal.Name
	if namesOf(v, &list) != nil {
		c.fail(field, string(v), say)
	}
}

// date checks a time that need not have come yet, and may be missing.
func (c *checker) date(field string) {
	if !c.said(field) {
		return
	}
	at := token(c.vals[field])
	if _, err := journal.ParseAt(at); err != nil {
		c.fail(field, at, "This time cannot be read.")
	}
}

// about checks a reference that may be missing.
func (c *checker) about(say string) {
	if c.said("of") {
		c.reference("of", say)
	}
}

func (c *checker) reference(field, none string) {
	if n, err := nameOf(c.vals[field]); err != nil || n.IsZero() {
		c.fail(field, token(c.vals[field]), none)
	}
}
