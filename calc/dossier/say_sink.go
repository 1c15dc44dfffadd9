package dossier

import (
	"strconv"
	"strings"

	"sinkside/sync/journal"
)

func (f *folded) sayBegin(x *fact, b *body) string {
	s := KindName(b.what)
	if i, ok := f.places[x]; ok {
		s = f.state.Steps[i].Name()
	}
	s += " begun" + ended(b.where, ", ") + ended(sayBath(b), ": ") + "."
	if b.uncleared {
		s += " Begun uncleared."
	}
	if len(b.unticked) > 0 {
		s += " Not ticked:"
		for i, item := range b.unticked {
			if i > 0 {
				s += ";"
			}
			name, _, ok := fieldName(checkField + item)
			if !ok {
				name = item
			}
			s += " " + name
		}
		s += "."
	}
	return s
}

// sayBath is with what a step is made: "tap, 9 L, for 8 min".
func sayBath(b *body) string {
	var parts []string
	add := func(s, before, after string) {
		if s != "" {
			parts = append(parts, before+s+after)
		}
	}
	add(b.liquid, "", "")
	add(b.batch, "batch ", "")
	add(b.litres, "", " L")
	add(b.tempC, "at ", " °C")
	if b.targetS > 0 {
		add(sayMS(b.targetS*1000), "for ", "")
	}
	add(b.face, "face ", "")
	switch b.held {
	case "none":
		add("not held down", "", "")
	default:
		add(b.held, "held with ", "")
	}
	switch b.airflow {
	case "fan":
		add("fan", "", "")
	default:
		add(b.airflow, "", " air")
	}
	add(b.airMS, "", " m/s")
	switch b.sides {
	case 1:
		add("one face open to the air", "", "")
	case 2:
		add("both faces open to the air", "", "")
	}
	return strings.Join(parts, ", ")
}

func sayReading(b *body) string {
	v := token(b.value)
	s := b.q + " " + v + ended(b.unit, " ")
	if k := quantityOf(b.q); k != nil {
		s = k.name + " " + v + ended(k.shown, " ")
	}
	if b.q == "suds" && v == "0" {
		s = "No suds"
	} else if b.q == "suds" && v == "1" {
		s = "Suds"
	}
	if b.liquorC != "" {
		s += ", liquor at " + b.liquorC + " °C"
	}
	if b.compensated {
		s += ", brought to 25 °C by the meter"
	}
	if b.source {
		s += ", source water"
	}
	if b.atEnd {
		s += ", at the end of the bath"
	}
	s += ended(b.instrument, ", with ")
	switch b.how {
	case "memory":
		s += ", from memory"
	case "estimate":
		s += ", estimated"
	}
	return s
}

// sayDay puts the kinds of a wash day in a sentence.
func (f *folded) sayDay(x *fact, b *body) string {
	switch x.Kind {
	case "plan":
		return sayPlan(b)
	case "dwell":
		return sayDwell(b)
	case "act":
		return sayAct(b)
	case "abort":
		return f.sayAbort(b)
	case "reason":
		return f.sayReason(b)
	case "decide":
		return sayDecision(b)
	case "dry":
		return sayDry(b)
	case "takeover":
		return x.By + " takes over at the sink" + ended(b.who, " from ") + "."
	case "overnight":
		s := "Left overnight. " + orNone(b.who) + " answers for it"
		if len(b.until) >= 16 {
			s += " until " + b.until[:10] + " " + b.until[11:16]
		}
		return stopped(s + ended(b.text, ": "))
	case "heard":
		return f.sayHeard(b)
	case "reckoned":
		return sayReckoned(b)
	case "photo":
		return "Photograph" + f.during(b.of) + ended(b.text, ": ")
	}
	switch b.what {
	case "batch":
		return "Batch: " + b.name + ended(b.text, ": ")
	case "water":
		return "Water: " + b.name + ended(b.text, ": ")
	case "instrument":
		return "Instrument: " + b.name + ended(b.text, ": ")
	}
	return b.name + ended(b.text, ": ")
}

func sayPlan(b *body) string {
	if len(b.baths) == 0 {
		return "No plan any more."
	}
	s := "Plan:"
	for i := range b.baths {
		p := &b.baths[i]
		if i > 0 {
			s += ";"
		}
		with := sayBath(&body{liquid: p.Liquid, batch: p.Batch, litres: p.Litres, tempC: p.TempC, targetS: p.TargetS})
		s += " " + strconv.Itoa(i+1) + ". " + KindName(p.What) + ended(with, ", ")
	}
	return s + "."
}

func sayDwell(b *body) string {
	s := "Tested: " + sayMS(b.s*1000) + " pressed and wet, "
	if b.colour == "" {
		s += "every colour"
	} else {
		s += b.colour
	}
	s += ended(b.liquid, ", in ")
	if b.tempC != "" {
		s += ", at " + b.tempC + " °C"
	}
	switch {
	case b.phFrom != "" && b.phTo != "":
		s += ", pH " + b.phFrom + " to " + b.phTo
	case b.phFrom != "":
		s += ", from pH " + b.phFrom
	case b.phTo != "":
		s += ", up to pH " + b.phTo
	}
	switch b.faces {
	case "both":
		s += ", both faces"
	case "one":
		s += ", one face"
	}
	return s + ". " + orNone(b.name) + " vouches for it."
}

func sayAct(b *body) string {
	s := actName(b.what)
	if b.s > 0 {
		s += " for " + sayMS(b.s*1000)
	}
	return s + ended(b.text, ": ")
}

// sayReason names what the reason is for, and does not say it over again.
func (f *folded) sayReason(b *body) string {
	text := ": " + stopped(orNone(b.text))
	if name := f.stepName(b.of); name != "" {
		return "Reason for " + name + text
	}
	x := f.find(b.of)
	if x != nil && x.Kind == "abort" {
		return "Reason for breaking off" + ended(f.stepNames(f.says(x).ofAll), " ") + text
	}
	return "Reason" + text + " It is about: " + f.target(b)
}

// stepNames lists steps by name.
func (f *folded) stepNames(of []journal.Name) string {
	s := ""
	for i, n := range of {
		if i > 0 {
			s += ", "
		}
		if name := f.stepName(n); name != "" {
			s += name
		} else {
			s += "a step that is not here"
		}
	}
	return s
}

func (f *folded) sayAbort(b *body) string {
	s := "Broken off" + ended(f.stepNames(b.ofAll), ": ") + "."
	if b.generic {
		s += " No stop plan had been agreed; the general list was shown."
	}
	if len(b.steps) > 0 {
		s += " To do: " + listed(b.steps) + "."
	}
	return s
}

func sayDecision(b *body) string {
	s := b.what
	switch b.what {
	case "stop_rinsing":
		s = "to stop rinsing"
	case "go_on":
		s = "to go on"
	}
	return stopped("Decided "+s+ended(b.why, ": ")) + ended(b.proposed, " Proposed was: ")
}

func sayDry(b *body) string {
	s := "Dry"
	switch b.how {
	case "touch", "weight", "humidity":
		s += ", by " + b.how
	}
	return stopped(s + ended(b.text, ": "))
}

func (f *folded) sayHeard(b *body) string {
	kind, rest, _ := strings.Cut(b.cue, ":")
	entry, _, _ := strings.Cut(rest, ":")
	s := "Heard: " + cueName(kind)
	if n, err := journal.ParseName(entry); err == nil {
		s += ended(f.stepName(n), ", ")
	}
	return s + "."
}

// during is ", Rinse 2", or nothing when n is no step.
func (f *folded) during(n journal.Name) string { return ended(f.stepName(n), ", ") }

// stepName is what the step that n began is called, empty when it is not here.
func (f *folded) stepName(n journal.Name) string {
	if i, ok := f.places[f.find(n)]; ok {
		return f.state.Steps[i].Name()
	}
	return ""
}

// listed joins steps that may be whole sentences: "drain the tray; blot".
func listed(steps []string) string {
	s := ""
	for i, step := range steps {
		if i > 0 {
			s += "; "
		}
		s += strings.TrimRight(step, ". ")
	}
	return s
}
