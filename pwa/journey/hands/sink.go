package hands

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"sinkside/pwa/journey/browser"
)

// NewTreatment opens a treatment with just a name and returns its id.
func (p *Person) NewTreatment(name string) (job string) {
	p.t.Helper()
	p.Turn("#/new")
	p.Type(browser.Hook("new-name"), name)
	if p.Shows(browser.Hook("new-who")) {
		p.Type(browser.Hook("new-who"), p.By)
	}
	p.Tap(browser.Hook("new-go"))
	p.Until("the sink of the new treatment", `/^#\/t\/[0-9A-Z]{26}$/.test(location.hash)`)
	p.See(browser.Hook("begin"))
	return strings.TrimPrefix(browser.Eval[string](p.Page, `location.hash`), "#/t/")
}

// Bath is what is chosen for the next bath.
type Bath struct {
	What    string // presoak, wash or rinse
	Liquid  string
	Litres  string // as keys are pressed
	Minutes string
	Temp    string // °C in a plan; empty: any
}

// Choose sets the next bath up.
func (p *Person) Choose(b Bath) {
	p.t.Helper()
	p.Tap(browser.Hook("what-" + b.What))
	if !strings.Contains(p.Text(browser.Hook("liquid")), b.Liquid) {
		p.Ask("liquid", "liquid-new")
		p.Type(browser.Hook("liquid-new"), b.Liquid)
		p.Tap(browser.Hook("liquid-keep"))
		p.Reads(browser.Hook("liquid"), b.Liquid)
	}
	p.amount("litres", b.Litres)
	p.amount("target", b.Minutes)
}

func (p *Person) amount(name, text string) {
	p.t.Helper()
	p.Ask(name, "pad-value")
	p.Figures(text)
	p.Tap(browser.Hook("keep"))
	p.Gone(browser.Hook("pad-value"))
}

// Begin begins the chosen bath by a held press.
func (p *Person) Begin() {
	p.t.Helper()
	p.Press("begin")
	p.See(browser.Hook("clock"))
}

// End ends the running bath by a held press.
func (p *Person) End() {
	p.t.Helper()
	p.Press("end")
	p.See(browser.Hook("begin"))
}

// Ago says that what is pressed next happened some minutes earlier.
func (p *Person) Ago(minutes int) {
	p.t.Helper()
	p.Ask("ago", "pad-value")
	p.Figures(strconv.Itoa(minutes))
	p.Tap(browser.Hook("keep"))
	p.Gone(browser.Hook("pad-value"))
}

// Clock reads the large clock: the time left, negative when the target is past.
func (p *Person) Clock() time.Duration {
	p.t.Helper()
	var d time.Duration
	var err error
	// The first screen takes the place of the clock that a start paints ahead of it.
	for range 20 {
		p.Until("figures on the clock", clockFace+`!==undefined`)
		if d, err = readClock(browser.Eval[string](p.Page, clockFace)); err == nil {
			return d
		}
	}
	p.t.Fatalf("%s: %v", p.Name, err)
	return 0
}

const clockFace = `document.querySelector('[data-test=clock] text')?.textContent`

// readClock reads "6:12", "1:02:03" or "+1:48".
func readClock(face string) (time.Duration, error) {
	digits, past := strings.CutPrefix(face, "+")
	var total time.Duration
	for part := range strings.SplitSeq(digits, ":") {
		n, err := strconv.Atoi(part)
		if err != nil {
			return 0, fmt.Errorf("the clock shows %q", face)
		}
		total = total*60 + time.Duration(n)*time.Second
	}
	if past {
		total = -total
	}
	return total, nil
}
