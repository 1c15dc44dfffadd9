package dossier

import (
	"strconv"
	"strings"

	"sinkside/sync/jsontext"
)

// KindName is what a colleague calls a kind of step; an unknown one by the word
// it came with.
func KindName(what string) string {
	switch what {
	case "presoak":
		return "Pre-soak"
	case "wash":
		return "Wash"
	case "rinse":
		return "Rinse"
	case "flowing":
		return "Flowing rinse"
	case "chelating":
		return "Chelating bath"
	case "ph_adjust":
		return "pH-adjusting bath"
	case "local":
		return "Local wetting"
	case "suction":
		return "Suction"
	case "gel":
		return "Blotter or gel"
	case "humidify":
		return "Humidification"
	case "drying":
		return "Drying"
	case "":
		return "Bath"
	}
	return what
}

// quantity is what can be measured at the sink.
type quantity struct {
	q, unit, name, shown string
	min, max             float64
	whole                bool
}

// The ranges are those of the scale or of liquid water, not of a treatment: pH
// 0 to 14 (the usual scale), 0 to 100 °C, conductivity to 200 mS/cm, above
// which no wash water reads (sea water has about 50; common practice). Bath
// colour is held against white, 0 for none to 5; suds are there or not. A mass is
// of an object with the water in it, to 200 kg; the air is that of a room.
var quantities = []quantity{
	{"temperature", "degC", "Temperature", "°C", 0, 100, false},
	{"ph", "pH", "pH", "", 0, 14, false},
	{"conductivity", "uS/cm", "Conductivity", "µS/cm", 0, 200_000, false},
	{"colour", "0-5", "Bath colour", "of 5", 0, 5, true},
	{"suds", "", "Suds", "", 0, 1, true},
	{"mass", "g", "Mass", "g", 0, 200_000, false},
	{"air_temperature", "degC", "Air temperature", "°C", -20, 60, false},
	{"humidity", "%", "Humidity", "%", 0, 100, false},
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
	if _, err := v.Int(); k.whole && err != nil {
		return k.name + " " + string(v) + " is not whole"
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
var fieldNames = [][3]string{
	{"name", "Name", ""},
	{"number", "Number", ""},
	{"object_kind", "Kind of object", ""},
	{"fibre", "Fibre", ""},
	{"dry_mass_g", "Dry mass", " g"},
	{"width_mm", "Width", " mm"},
	{"height_mm", "Height", " mm"},
	{"colours", "Colours", ""},
	{"stop_plan", "Stop plan", ""},
	{"decides", "Who decides", ""},
	{"pick_up_pct", "Water taken up", " % of the dry mass"},
	{"k25_way", "Conductivity brought to 25 °C by", ""},
	{"reading_every_min", "Readings every", " min"},
	{"dry_first_min", "Drying checked at first every", " min"},
	{"dry_first_hours", "Drying checked so for the first", " h"},
	{"dry_later_min", "Drying checked later every", " min"},
}

// fieldName is what a field is called, its unit, and whether this version knows
// it; an unknown one goes by its own name.
func fieldName(field string) (name, unit string, ok bool) {
	for i := range fieldNames {
		if fieldNames[i][0] == field {
			return fieldNames[i][1], fieldNames[i][2], true
		}
	}
	if item, is := strings.CutPrefix(field, checkField); is {
		for i := range checklistItems {
			if checklistItems[i][0] == item {
				return checklistItems[i][1], "", true
			}
		}
	}
	return field, "", false
}

// actName is what a colleague calls a thing done.
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

// cueName is what a cue was about.
func cueName(kind string) string {
	switch kind {
	case "ahead":
		return "target near"
	case "target":
		return "target reached"
	case "mark":
		return "tested dwell near"
	case "end":
		return "tested dwell reached"
	case "reading":
		return "reading due"
	case "check":
		return "drying check due"
	case "mould":
		return "wet for long"
	case "return":
		return "back at the object"
	}
	return kind
}
