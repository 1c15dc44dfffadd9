package dossier

import (
	"strconv"
	"strings"

	"sinkside/sync/jsontext"
)

// bathName is what a colleague calls a kind of bath; an unknown one by the word
// it came with.
func bathName(what string) string {
	switch what {
	case "presoak":
		return "Pre-soak"
	case "wash":
		return "Wash"
	case "rinse":
		return "Rinse"
	case "":
		return "Bath"
	}
	return what
}

// quantity is what can be measured at the sink.
type quantity struct {
	q, unit, name, shown string
	min, max             float64
}

// The ranges are those of the scale or of liquid water, not of a treatment: pH
// 0 to 14 (the usual scale), 0 to 100 °C, conductivity to 200 mS/cm, above
// which no wash water reads (sea water has about 50; common practice).
var quantities = []quantity{
	{"temperature", "degC", "Temperature", "°C", 0, 100},
	{"ph", "pH", "pH", "", 0, 14},
	{"conductivity", "uS/cm", "Conductivity", "µS/cm", 0, 200_000},
}

func quantityOf(q string) *quantity {
	for i := range quantities {
		if quantities[i].q == q {
			return &quantities[i]
		}
	}
	return nil
}

// implausible tells why a reading cannot be right, empty when it can.
func implausible(q string, v jsontext.Value) string {
	k := quantityOf(q)
	if k == nil {
		return "a quantity that this version does not know"
	}
	f, err := v.Float()
	if err != nil {
		return "its value cannot be read"
	}
	if f < k.min || f > k.max {
		return k.name + " " + string(v) + " is outside " + k.span()
	}
	return ""
}

func (k *quantity) span() string {
	s := short(k.min) + " to " + short(k.max)
	if k.shown != "" {
		s += " " + k.shown
	}
	return s
}

func short(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// fieldNames says what each field of a treatment is called, and its unit.
var fieldNames = map[string][2]string{
	"name": {"Name", ""}, "number": {"Number", ""}, "fibre": {"Fibre", ""}, "dry_mass_g": {"Dry mass", " g"},
	"width_mm": {"Width", " mm"}, "height_mm": {"Height", " mm"}, "colours": {"Colours", ""},
}

// say puts one entry in a sentence, with the body given.
func (f *folded) say(x *fact, b *body) string {
	if x.unknown {
		return "Something that this version cannot read yet: “" + x.Kind + "”, version " + strconv.Itoa(x.BV) + "."
	}
	switch x.Kind {
	case "open":
		return "Treatment opened: " + orNone(b.name) + ended(b.number, ", number ") + "."
	case "set":
		name, ok := fieldNames[b.field]
		if !ok {
			name[0] = b.field
		}
		return name[0] + ": " + orNone(token(b.value)) + name[1]
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
		return "Treatment closed." + ended(b.why, " ")
	case "reopen":
		return "Treatment opened again." + ended(b.why, " ")
	case "imported":
		return "Entries " + strconv.FormatInt(b.from, 10) + " to " + strconv.FormatInt(b.to, 10) + " of device " + b.dev + " came from a saved file."
	}
	return b.name + ended(b.text, ": ")
}

func (f *folded) sayBegin(x *fact, b *body) string {
	s := bathName(b.what)
	if i, ok := f.places[x]; ok {
		s = ordinalName(f.state.Steps[i].What, f.state.Steps[i].Ordinal)
	}
	parts := []string{}
	if b.liquid != "" {
		parts = append(parts, b.liquid)
	}
	if b.litres != "" {
		parts = append(parts, b.litres+" L")
	}
	if b.targetS > 0 {
		parts = append(parts, "for "+sayMS(b.targetS*1000))
	}
	s += " begun" + ended(strings.Join(parts, ", "), ": ") + "."
	if b.uncleared {
		s += " Begun uncleared."
	}
	return s
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

func sayReading(b *body) string {
	v := token(b.value)
	if k := quantityOf(b.q); k != nil {
		return k.name + " " + v + ended(k.shown, " ")
	}
	return b.q + " " + v + ended(b.unit, " ")
}

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
	if x.Kind == "strike" || x.Kind == "amend" {
		return "a correction (" + x.Kind + ")."
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

// ended is before+s, or nothing when s is.
func ended(s, before string) string {
	if s == "" {
		return ""
	}
	return before + s
}

// sayAct is a thing done, in a word or two.
func sayAct(b *body) string {
	return actName(b.what)
}

// actName is what a colleague calls it.
func actName(what string) string {
	switch what {
	case "sponge":
		return "Sponged"
	case "rock":
		return "Rocked the tray"
	case "press_water":
		return "Pressed the water through"
	case "turn":
		return "Turned over"
	case "lift":
		return "Lifted out"
	case "drain":
		return "Drained the tray"
	case "blot":
		return "Blotted"
	case "blotter":
		return "Blotters changed"
	case "check":
		return "Drying checked"
	case "net_off":
		return "Net taken off"
	case "other":
		return "Done"
	}
	return what
}
