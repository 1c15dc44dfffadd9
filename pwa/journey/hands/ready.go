package hands

import (
	"fmt"
	"strconv"
	"strings"

	"sinkside/pwa/journey/browser"
)

// Ready opens one part of making ready: checks, plan, tray, water, dwell or stop.
func (p *Person) Ready(job, part string) {
	p.t.Helper()
	p.Turn("#/t/" + job + "/ready")
	open := `document.querySelector(` + browser.Quote(browser.Hook("part-"+part)) + `)?.open===true`
	p.See(browser.Hook("open-" + part))
	if !p.Soon(0, open) {
		p.Tap(browser.Hook("open-" + part))
	}
	p.Until("the part "+part, open)
}

// Tick answers items of the checklist: "weighed" is done, "-weighed" is not.
func (p *Person) Tick(items ...string) {
	p.t.Helper()
	for _, item := range items {
		item, not := strings.CutPrefix(item, "-")
		answer, is := "yes", "done"
		if not {
			answer, is = "no", "not-done"
		}
		p.Press("check-" + item + "-" + answer)
		p.Until(item+" to be "+is, `document.querySelector(`+browser.Quote(browser.Hook("check-"+item))+`)?.dataset.is===`+browser.Quote(is))
	}
}

// Select chooses a value of a list.
func (p *Person) Select(name, value string) {
	p.t.Helper()
	p.See(browser.Hook(name))
	p.Until("the choice "+value, fmt.Sprintf(`(e=>{e.value=%[2]s;e.dispatchEvent(new Event("change",{bubbles:true}));return e.value===%[2]s})(document.querySelector(%[1]s))`,
		browser.Quote(browser.Hook(name)), browser.Quote(value)))
}

// Plan plans baths, in their order, and keeps the plan. A bath that is as the
// one before it is planned by its key "once more".
func (p *Person) Plan(job string, baths ...Bath) {
	p.t.Helper()
	p.Ready(job, "plan")
	p.Tap(browser.Hook("plan-edit"))
	for i, b := range baths {
		n := strconv.Itoa(i + 1)
		if i > 0 && b == baths[i-1] {
			p.Tap(browser.Hook("plan-again-" + strconv.Itoa(i)))
			p.See(browser.Hook("plan-what-" + n))
			continue
		}
		p.Tap(browser.Hook("plan-add-" + b.What))
		p.Select("plan-liquid-"+n, "own")
		p.Type(browser.Hook("plan-own-"+n), b.Liquid)
		p.Type(browser.Hook("plan-litres-"+n), b.Litres)
		p.Type(browser.Hook("plan-minutes-"+n), b.Minutes)
		p.Type(browser.Hook("plan-temp-"+n), b.Temp)
	}
	p.Tap(browser.Hook("plan-keep"))
	p.Until(fmt.Sprintf("%d planned baths", len(baths)), fmt.Sprintf(`document.querySelectorAll('[data-test=planned-bath]').length===%d`, len(baths)))
}

// Dwell is a test of a colour as it is entered by hand.
type Dwell struct {
	Colour             string // empty: every colour
	Minutes            string
	Temp, PHFrom, PHTo string
	Name               string // who vouches for it
}

// Tested enters a tested dwell, both faces, in any liquid.
func (p *Person) Tested(job string, d Dwell) {
	p.t.Helper()
	p.Ready(job, "dwell")
	row := `[data-test=dwell-colour][data-colour=` + strconv.Quote(d.Colour) + `]`
	p.Tap(row + " " + browser.Hook("dwell-add"))
	p.Select("dwell-liquid", "")
	for _, f := range [][2]string{{"minutes", d.Minutes}, {"temp", d.Temp}, {"phFrom", d.PHFrom}, {"phTo", d.PHTo}, {"name", d.Name}} {
		p.Type(browser.Hook("dwell-"+f[0]), f[1])
	}
	p.Tap(browser.Hook("dwell-faces-both"))
	p.Tap(browser.Hook("dwell-keep"))
	p.Reads(row, d.Name+" vouches for it")
}

// StopPlan agrees on what is done when it has to stop, and on who decides.
func (p *Person) StopPlan(job string, decides string, steps ...string) {
	p.t.Helper()
	p.Ready(job, "stop")
	p.Tap(browser.Hook("stop-edit"))
	p.Type(browser.Hook("stop-text"), strings.Join(steps, "\n"))
	p.Tap(browser.Hook("stop-keep"))
	p.Until("the agreed steps", fmt.Sprintf(`document.querySelectorAll('[data-test=stop-steps] li').length===%d`, len(steps)))
	p.Fact("decides", decides)
}

// Fact says one thing about the object where it is asked for.
func (p *Person) Fact(field, value string) {
	p.t.Helper()
	p.Tap(browser.Hook("set-" + field))
	p.Type(browser.Hook("value-"+field), value)
	p.Tap(browser.Hook("keep-" + field))
	p.Gone(browser.Hook("value-" + field))
	p.Reads(browser.Hook("fact-"+field), value)
}
