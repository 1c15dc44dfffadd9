package hands

import (
	"strconv"
	"strings"

	"sinkside/pwa/journey/browser"
)

// Figures presses the keys of a number on the pad that is open.
func (p *Person) Figures(text string) {
	p.t.Helper()
	for _, r := range text {
		p.Tap(browser.Hook(keyOf(r)))
	}
	p.Reads(browser.Hook("pad-value"), strings.ReplaceAll(text, ",", "."))
}

// keyOf is the key of the pad for a character of a number.
func keyOf(r rune) string {
	if r == '.' || r == ',' {
		return "key-dot"
	}
	return "key-" + string(r)
}

// Reading takes a reading on the pad: temperature, ph or conductivity.
func (p *Person) Reading(quantity, value string) {
	p.t.Helper()
	p.Ask("reading-"+quantity, "pad-value")
	p.Figures(value)
	p.Press("keep")
	p.Gone(browser.Hook("pad-value"))
}

// Note keeps a note.
func (p *Person) Note(text string) {
	p.t.Helper()
	p.Ask("note", "note-text")
	p.Type(browser.Hook("note-text"), text)
	p.Press("keep")
	p.Gone(browser.Hook("note-text"))
}

// CountTaps counts how often the glass is touched from now on.
func (p *Person) CountTaps() {
	p.t.Helper()
	browser.Eval[bool](p.Page, `(removeEventListener("pointerdown",window.journeyTap,true),window.journeyTaps=0,
	  addEventListener("pointerdown",window.journeyTap=()=>{window.journeyTaps++},true),true)`)
}

// Taps is how often the glass was touched since CountTaps.
func (p *Person) Taps() int {
	p.t.Helper()
	return browser.Eval[int](p.Page, `window.journeyTaps`)
}

// Nudge takes a reading that is one step off the last one: "more-0.1", "less-10".
func (p *Person) Nudge(quantity, step string) {
	p.t.Helper()
	p.Ask("reading-"+quantity, "pad-value")
	p.Tap(browser.Hook("step-" + step))
	p.Press("keep")
	p.Gone(browser.Hook("pad-value"))
}

// Judge takes a reading that is chosen: colour 0 to 5, suds none or yes.
func (p *Person) Judge(quantity, choice string) {
	p.t.Helper()
	p.Ask("reading-"+quantity, quantity+"-"+choice)
	p.Tap(browser.Hook(quantity + "-" + choice))
	p.Press("keep")
	p.Gone(browser.Hook(quantity + "-" + choice))
}

// Source measures the rinse water as it is poured, with its temperature.
func (p *Person) Source(value, temperature string) {
	p.t.Helper()
	p.Ask("more", "more-source")
	p.Tap(browser.Hook("more-source"))
	p.Figures(value)
	p.Tap(browser.Hook("liquor"))
	const asked = "dialog:last-of-type "
	p.Reads(asked+"h2", "Water at the meter")
	for _, r := range temperature {
		p.Tap(asked + browser.Hook(keyOf(r)))
	}
	p.Reads(asked+browser.Hook("pad-value"), temperature)
	p.Tap(asked + browser.Hook("keep"))
	p.Reads(browser.Hook("liquor"), temperature+" °C")
	p.Reads(browser.Hook("pad-value"), value)
	p.Press("keep")
	p.Gone(browser.Hook("pad-value"))
}

// Act keeps what is done to the object, with its minutes where it lasts.
func (p *Person) Act(what string, minutes int) {
	p.t.Helper()
	p.Ask("acts", "act-"+what)
	if minutes > 0 {
		p.Tap(browser.Hook("lasts-" + strconv.Itoa(60*minutes)))
	}
	p.Press("act-" + what)
	p.Gone(browser.Hook("act-" + what))
}

// Weigh weighs the object where no key for it stands at hand: between baths.
func (p *Person) Weigh(grams string) {
	p.t.Helper()
	p.Ask("more", "more-mass")
	p.Tap(browser.Hook("more-mass"))
	p.Figures(grams)
	p.Press("keep")
	p.Gone(browser.Hook("pad-value"))
}

// Remembered takes a reading of so many minutes ago, from memory.
func (p *Person) Remembered(quantity, value string, ago int) {
	p.t.Helper()
	p.Ask("reading-"+quantity, "pad-value")
	p.Figures(value)
	p.Tap(browser.Hook("moment"))
	p.Tap(browser.Hook("how-memory"))
	p.Tap(browser.Hook("ago-" + strconv.Itoa(ago)))
	p.Tap(browser.Hook("moment-use"))
	p.Reads(browser.Hook("moment"), "from memory")
	p.Press("keep")
	p.Gone(browser.Hook("pad-value"))
}
