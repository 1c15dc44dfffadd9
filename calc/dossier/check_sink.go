package dossier

import (
	"strings"
)

// What is done and read at the sink.

// longestS is the longest time that a step is planned for, or a test or an act
// lasts: seven days, in seconds.
const longestS = 7 * 24 * 3600

const (
	steep  = "Say what liquid is in the tray."
	medium = "Say with what it is wetted."
)

// begin checks a step, or one of a plan. What of a drying was not looked at is
// left out, not asked for.
func (c *checker) begin() {
	const choose = "Choose what begins: pre-soak, wash, rinse, another kind of wetting, or drying."
	target := true
	switch c.choice("what", true, choose, "presoak", "wash", "rinse", "flowing", "chelating", "ph_adjust", "local", "suction", "gel", "humidify", "drying") {
	case "drying":
		target = c.said("target_s")
		c.drying()
	case "local", "suction", "gel", "humidify":
		c.text("liquid", maxText, true, medium)
		if c.said("litres") {
			c.number("litres", "The litres", "L", 0, 10_000, true)
		}
	default:
		c.text("liquid", maxText, true, steep)
		c.number("litres", "The litres in the tray", "L", 0, 10_000, true)
	}
	if target {
		c.whole("target_s", "The target time", "s", 1, longestS)
	}
	c.flags("uncleared")
	c.degrees("temp_c", "The planned temperature")
	c.text("batch", maxText, false, "")
	c.text("where", maxText, false, "")
	c.texts("unticked")
	if c.said("planned") {
		c.whole("planned", "The place in the plan", "", 1, mostBaths)
	}
}

func (c *checker) drying() {
	c.choice("face", false, "Choose face up or face down.", "up", "down")
	c.choice("held", false, "Choose weights, pins or none.", "weights", "pins", "none")
	c.choice("airflow", false, "Choose still, gentle or fan.", "still", "gentle", "fan")
	if c.said("air_m_s") {
		// A fan at arm's length blows 1 to 5 m/s; 20 is a gale (common practice).
		c.number("air_m_s", "The air's speed", "m/s", 0, 20, false)
	}
	if c.said("sides") {
		c.whole("sides", "The number of faces open to the air", "", 1, 2)
	}
}

// degrees checks a temperature of a liquid, which may be missing.
func (c *checker) degrees(field, name string) {
	if c.said(field) {
		c.number(field, name, "°C", 0, 100, false)
	}
}

func (c *checker) reading() {
	q, _ := c.vals["q"].Text()
	k := quantityOf(q)
	if k == nil {
		c.fail("q", q, "Choose what was measured.")
		return
	}
	if k.whole {
		c.whole("value", k.name, k.shown, k.min, k.max)
	} else {
		c.number("value", k.name, k.shown, k.min, k.max, false)
	}
	if u, _ := c.vals["unit"].Text(); u != k.unit {
		c.fail("unit", u, strings.TrimSuffix(k.name+" is kept in "+k.unit, " in ")+".")
	}
	c.about("Say which bath it was taken in.")
	c.degrees("liquor_c", "The liquor's temperature")
	c.flags("compensated", "source", "at_end")
	c.text("instrument", maxText, false, "")
	c.choice("how", false, "Choose by the clock, from memory or estimated.", "clock", "memory", "estimate")
}

func (c *checker) act() {
	c.choice("what", true, "Choose what was done.", "sponge", "rock", "press_water", "turn", "lift", "drain", "blot", "blotter", "check", "net_off", "other")
	c.about("Say during which step it was done.")
	if c.said("s") {
		c.whole("s", "The time that it lasted", "s", 0, longestS)
	}
	c.text("text", maxNote, false, "")
}

// abort asks for nothing: what is broken off must be in the record at once, and
// the reason comes later.
func (c *checker) abort() {
	c.names("of", "A step that this breaks off is not known.")
	c.texts("steps")
	c.flags("generic")
}

func (c *checker) decide() {
	c.choice("what", true, "Choose to stop rinsing or to go on.", "stop_rinsing", "go_on")
	c.text("why", maxNote, true, "Say in a word or two why.")
	c.text("proposed", maxNote, false, "")
	c.about("Say after which step it was decided.")
}

func (c *checker) overnight() {
	c.text("who", maxText, true, "Say who answers for it.")
	c.date("until")
	c.text("text", maxNote, false, "")
}

// The largest photograph is one of a good camera: 100 MB, 20,000 pixels a side.
func (c *checker) photo() {
	c.reference("blob", "The photograph is missing.")
	c.choice("type", true, "A photograph is kept as JPEG.", "image/jpeg")
	c.whole("bytes", "The photograph's size", "bytes", 1, 100_000_000)
	c.whole("w", "The photograph's width", "pixels", 1, 20_000)
	c.whole("h", "The photograph's height", "pixels", 1, 20_000)
	c.about("Say what it shows.")
	c.text("text", maxNote, false, "")
}
