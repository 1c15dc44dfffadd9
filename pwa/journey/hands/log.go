package hands

import (
	"fmt"

	"sinkside/pwa/journey/browser"
)

// Log shows the log of a treatment, with a number of entries.
func (p *Person) Log(job string, entries int) {
	p.t.Helper()
	p.Turn("#/t/" + job + "/log")
	p.Reads(browser.Hook("log-total"), fmt.Sprintf("%d entr", entries))
}

// entry is the selector of the first entry in the log that says something.
func (p *Person) entry(says string) string {
	p.t.Helper()
	find := `[...document.querySelectorAll('[data-test=log-entry]')].find(e=>e.innerText.includes(` + browser.Quote(says) + `))`
	p.Until("an entry that says "+says, `!!`+find)
	return `[data-entry="` + browser.Eval[string](p.Page, find+`.dataset.entry`) + `"]`
}

// Correct opens an entry of the log that is shown and presses amend or strike.
func (p *Person) Correct(how, says string) (entry string) {
	p.t.Helper()
	entry = p.entry(says)
	p.Tap(entry + " " + browser.Hook("log-line"))
	p.Tap(entry + " " + browser.Hook(how))
	return entry
}

// Amend replaces one field of an entry, with a reason.
func (p *Person) Amend(says, field, value, why string) (entry string) {
	p.t.Helper()
	entry = p.Correct("amend", says)
	p.Type(browser.Hook("field-"+field), value)
	p.Type(browser.Hook("why"), why)
	p.Tap(browser.Hook("amend-go"))
	p.Gone(browser.Hook("amend-go"))
	return entry
}

// Strike marks an entry as made in error, with a reason.
func (p *Person) Strike(says, why string) (entry string) {
	p.t.Helper()
	entry = p.Correct("strike", says)
	p.Type(browser.Hook("why"), why)
	p.Tap(browser.Hook("strike-go"))
	p.Gone(browser.Hook("strike-go"))
	return entry
}
