// Package hands does in the app what a conservator does: pair a phone, open a
// treatment, run baths by held presses, take readings, correct the log. It
// knows the screens by their data-test marks and by what they say.
package hands

import (
	"strconv"
	"testing"

	"sinkside/pwa/journey/browser"
)

// Person is somebody with a device that shows the app.
type Person struct {
	*browser.Page
	t    testing.TB
	Base string // origin of the app, "https://marram.local:8743"
	By   string // initials
}

// With gives a page of the app to somebody.
func With(t testing.TB, p *browser.Page, base, by string) *Person {
	return &Person{Page: p, t: t, Base: base, By: by}
}

// Open shows a screen of the app, "#/all".
func (p *Person) Open(route string) {
	p.t.Helper()
	p.Go(p.Base + "/" + route)
}

// Turn changes the screen without loading the app again, as a link does.
func (p *Person) Turn(route string) {
	p.t.Helper()
	browser.Eval[bool](p.Page, `(location.hash=`+browser.Quote(route)+`,true)`)
}

// Sink shows the sink of a treatment.
func (p *Person) Sink(job string) {
	p.t.Helper()
	p.Turn("#/t/" + job)
	p.See(browser.Hook("note"))
}

// BeAtSink says who is at the sink now.
func (p *Person) BeAtSink(initials string) {
	p.t.Helper()
	p.By = initials
	p.Tap(browser.Hook("who"))
	if known := browser.Hook("who-" + initials); p.Shows(known) {
		p.Tap(known)
	} else {
		p.Type(browser.Hook("who-new"), initials)
		p.Tap(browser.Hook("who-keep"))
	}
	p.Reads(browser.Hook("who"), initials)
	p.Until("the initials to be on the shelf", entries+`.then(lines=>lines.some(l=>l.includes('"initials"')&&l.includes(`+browser.Quote(strconv.Quote(initials))+`)))`)
}

// Lines is every entry that this device holds, as it was written.
func (p *Person) Lines() []string {
	p.t.Helper()
	return browser.Eval[[]string](p.Page, entries)
}

// entries reads the lines from the app's database.
var entries = Kept(`entries.map(e=>e.line)`, "entries")
