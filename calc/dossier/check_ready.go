package dossier

import (
	"strconv"
	"strings"

	"sinkside/sync/jsontext"
)

// What is agreed before the object gets wet, and what stands on the shelf.

// mostBaths is how long a plan may be; a longer one is a slip.
const mostBaths = 100

// The largest object that a field can describe: 100 kg dry, 100 m a side. A
// typing error is nearer than a larger textile (common practice).
func (c *checker) set() {
	field, _ := c.vals["field"].Text()
	c.names("over", "The value that this replaces is not known.")
	name, _, ok := fieldName(field)
	if !ok {
		c.fail("field", field, "This version has no field “"+field+"”.")
		return
	}
	if strings.HasPrefix(field, checkField) {
		c.choice("value", true, "This is yes or no.", "yes", "no")
		return
	}
	switch field {
	case "dry_mass_g":
		c.number("value", name, "g", 0, 100_000, true)
	case "width_mm", "height_mm":
		c.number("value", name, "mm", 0, 100_000, true)
	case "pick_up_pct": // a fleece can hold many times its mass
		c.number("value", name, "%", 0, 2_000, true)
	case "reading_every_min", "dry_first_min", "dry_later_min":
		c.whole("value", name, "min", 1, 24*60)
	case "dry_first_hours":
		c.number("value", name, "h", 0, 7*24, false)
	case "k25_way":
		c.choice("value", true, "This is linear, or iso7888 for natural water of 60 to 1000 µS/cm.", "linear", "iso7888")
	case "stop_plan":
		c.text("value", maxNote, true, name+" is empty.")
	default:
		c.text("value", maxText, true, name+" is empty.")
	}
}

// plan checks each bath as one that begins. Errors stand at "baths.0.litres".
func (c *checker) plan() {
	c.names("over", "The plan that this replaces is not known.")
	var w jsontext.Writer
	n := 0
	w.Begin('[')
	err := jsontext.Elements(c.vals["baths"], func(i int, v jsontext.Value) error {
		n++
		in := checker{now: c.now, st: c.st}
		in.read(v)
		in.begin()
		for _, e := range in.errs {
			c.fail("baths."+strconv.Itoa(i)+"."+e.Field, e.Value, e.Say)
		}
		if v.Kind() == jsontext.Object {
			w.Raw(in.out(v))
		}
		return nil
	})
	w.End(']')
	switch {
	case err != nil:
		c.fail("baths", "", "The baths of the plan are missing.")
	case n > mostBaths:
		c.fail("baths", "", "A plan holds up to "+strconv.Itoa(mostBaths)+" baths; this has "+strconv.Itoa(n)+".")
	default:
		c.fixed["baths"] = w.B
	}
}

func (c *checker) dwell() {
	c.text("colour", maxText, false, "")
	c.text("liquid", maxText, false, "")
	c.whole("s", "The tested time", "s", 1, longestS)
	c.degrees("temp_c", "The temperature of the test")
	c.acid("ph_from")
	c.acid("ph_to")
	if from, to := c.fixed["ph_from"], c.fixed["ph_to"]; from != nil && to != nil {
		lo, _ := from.Float()
		if hi, _ := to.Float(); lo > hi {
			c.fail("ph_to", string(to), "The pH goes from "+string(from)+" to "+string(to)+": the second must not be below the first.")
		}
	}
	c.choice("faces", false, "Choose both faces or one.", "both", "one")
	c.text("name", maxText, true, "Say who vouches for it.")
}

func (c *checker) acid(field string) {
	if c.said(field) {
		c.number(field, "pH", "", 0, 14, false)
	}
}

// item checks what stands on the shelf. All but the name may be missing: unknown
// is unknown.
func (c *checker) item() {
	c.text("name", maxText, true, "Give it a name.")
	c.text("note", maxNote, false, "")
	what, _ := c.vals["what"].Text()
	switch what {
	case "batch":
		c.batch()
	case "water":
		c.water()
	case "instrument":
		c.texts("measures")
		c.flags("compensates")
		c.date("calibrated")
	}
}

func (c *checker) batch() {
	for _, field := range []string{"product", "lot", "water"} {
		c.text(field, maxText, false, "")
	}
	c.choice("charge", false, "Choose anionic, nonionic, amphoteric, cationic or none.", "anionic", "nonionic", "amphoteric", "cationic", "none")
	c.choice("unit", false, "Choose g/L, % w/v or × CMC.", "g/L", "% w/v", "× CMC")
	c.amount("active_pct", "The active content", "%", 100)
	c.amount("cmc_g_l", "The critical micelle concentration", "g/L", 1_000)
	c.amount("target", "The strength", "", 1_000)
	c.amount("litres", "The litres made up", "L", 10_000)
	c.amount("product_g", "The product weighed in", "g", 1_000_000)
	c.acid("ph")
	c.date("made")
	c.date("expires")
	c.flags("gone")
}

func (c *checker) water() {
	c.choice("source", false, "Choose deionised, distilled, tap or other.", "deionised", "distilled", "tap", "other")
	if c.said("conductivity") {
		c.number("conductivity", "Conductivity", "µS/cm", 0, 200_000, false)
	}
	c.degrees("liquor_c", "The water's temperature")
	c.flags("compensated")
	c.acid("ph")
	c.text("hardness_unit", maxText, false, "")
	for _, m := range [][3]string{{"hardness", "The hardness", ""}, {"stock_l", "The stock", "L"}, {"make_l_h", "What is made in an hour", "L"}} {
		if c.said(m[0]) {
			c.number(m[0], m[1], m[2], 0, 1_000_000, false)
		}
	}
}

// amount checks a number above nought, which may be missing.
func (c *checker) amount(field, name, sign string, most float64) {
	if c.said(field) {
		c.number(field, name, sign, 0, most, true)
	}
}
