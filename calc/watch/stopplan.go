package watch

import "strings"

// generalStops are what is done when nothing was agreed (common practice).
var generalStops = [...]string{
	"Drain the tray. Never lift it filled.",
	"Lift on the screen.",
	"Blot both faces. Flush only if somebody who knows this dye says so: flushing can spread it.",
	"Fans on, with dry hands.",
	"Fresh absorbent on both faces.",
}

// stopPlan is what is done when a step is broken off, as it was agreed before
// wetting, one step a line. Of two that stand side by side the later counts.
func (l *look) stopPlan() {
	p := &l.w.StopPlan
	p.Steps, p.Caution = []string{}, "Never lift a filled tray: drain it."
	for line := range strings.SplitSeq(l.field("stop_plan"), "\n") {
		if line = strings.TrimSpace(line); line != "" {
			p.Steps = append(p.Steps, line)
		}
	}
	if len(p.Steps) > 0 {
		return
	}
	p.Generic = true
	p.Steps = append(p.Steps, generalStops[:]...)
	p.Caution = "No stop plan was agreed for this object: these are general steps. Flushing can spread a dye. " + p.Caution
}
