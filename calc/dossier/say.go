package dossier

import (
	"strconv"
	"strings"
)

// say puts one entry in a sentence, with the body given.
func (f *folded) say(x *fact, b *body) string {
	if x.unknown {
		return "Something that this version cannot read yet: “" + x.Kind + "”, version " + strconv.Itoa(x.BV) + "."
	}
	switch x.Kind {
	case "open":
		return "Treatment opened: " + orNone(b.name) + ended(b.number, ", number ") + "."
	case "set":
		name, unit, _ := fieldName(b.field)
		return name + ": " + orNone(strings.ReplaceAll(token(b.value), "\n", "; ")) + unit
	case "begin":
		return f.sayBegin(x, b)
	case "end":
		return f.sayEnd(x)
	case "reading":
		return sayReading(b)
	case "note":
		return b.text
	case "amend":
		return "Correction of: " + f.target(b)
	case "strike":
		return "Struck: " + f.target(b)
	case "clock":
		return sayClock(b.offsetMS)
	case "close":
		return stopped("Treatment closed" + ended(b.why, ": "))
	case "reopen":
		return stopped("Treatment opened again" + ended(b.why, ": "))
	case "imported":
		return "Entries " + strconv.FormatInt(b.from, 10) + " to " + strconv.FormatInt(b.to, 10) + " of device " + b.dev + " came from a saved file."
	}
	return f.sayDay(x, b)
}

func (f *folded) sayEnd(x *fact) string {
	begin := f.ends[x]
	if begin == nil {
		return "A bath ended."
	}
	st := &f.state.Steps[f.places[begin]]
	s := ordinalName(st.What, st.Ordinal) + " ended"
	if ms := f.moment(x).MS - st.Begun.MS; ms >= 0 {
		s += " after " + sayMS(ms)
	}
	s += "."
	if st.EndEntry == x.Name.String() && st.MonoMS != nil && *st.MonoMS-*st.ClockMS > disagreeMS {
		s += " The phone's counter says " + sayMS(*st.MonoMS) + "."
	}
	return s
}

// disagreeMS is how much longer the steady counter must be than the clock before
// that is said: 2 s, as for clock offsets.
const disagreeMS = 2000

func sayClock(ms int64) string {
	switch {
	case ms > 0:
		return "This device's clock was " + sayMS(ms) + " behind the studio machine's."
	case ms < 0:
		return "This device's clock was " + sayMS(-ms) + " ahead of the studio machine's."
	}
	return "This device's clock agreed with the studio machine's."
}

// target is the sentence of the entry that b refers to.
func (f *folded) target(b *body) string {
	x := f.find(b.of)
	if x == nil {
		return "an entry that has not arrived."
	}
	switch x.Kind {
	case "strike", "amend":
		return "a correction (" + x.Kind + ")."
	case "reason":
		return "a reason." // without what it is about: forged names could go in a ring
	}
	return f.say(x, &x.body)
}

// sayMS is a duration in words: "8 min 12 s", "1 h 04 min".
func sayMS(ms int64) string {
	s := ms / 1000
	switch {
	case s < 60:
		return strconv.FormatInt(s, 10) + " s"
	case s < 3600:
		t := strconv.FormatInt(s/60, 10) + " min"
		if s%60 != 0 {
			t += " " + strconv.FormatInt(s%60, 10) + " s"
		}
		return t
	}
	m := strconv.FormatInt(s/60%60, 10)
	if len(m) < 2 {
		m = "0" + m
	}
	return strconv.FormatInt(s/3600, 10) + " h " + m + " min"
}

func orNone(s string) string {
	if s == "" {
		return "(nothing)"
	}
	return s
}

// stopped ends a sentence that people may have ended themselves.
func stopped(s string) string {
	s = strings.TrimRight(s, " \n")
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "…") {
		return s
	}
	return s + "."
}

// ended is before+s, or nothing when s is.
func ended(s, before string) string {
	if s == "" {
		return ""
	}
	return before + s
}
