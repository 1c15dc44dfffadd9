package hands

import (
	"fmt"
	"strconv"

	"sinkside/pwa/journey/browser"
)

// Pair opens a pairing link, spends its code, and stays until the device can
// do without the network.
func (p *Person) Pair(code, label string) {
	p.t.Helper()
	p.Open("#/pair/" + code)
	p.Until("the core to be ready", `!!document.querySelector('[data-core=ready]')`)
	p.Type(browser.Hook("pair-label"), label)
	p.Tap(browser.Hook("pair-go"))
	p.Until("the pairing to be done", `location.hash==="#/"`)
	p.Connected()
	p.Until("the app to be kept for being offline", `!!navigator.serviceWorker.controller`)
}

// Connected waits until the device has a session with the studio machine.
func (p *Person) Connected() {
	p.t.Helper()
	p.Until("the link to be on", `document.querySelector('[data-test=link]')?.dataset.link==="on"`)
}

// Disconnected waits until the device knows that the studio machine is away.
func (p *Person) Disconnected() {
	p.t.Helper()
	p.Until("the link to be off", `(l=>!!l&&l!=="on")(document.querySelector('[data-test=link]')?.dataset.link)`)
}

// Unsent waits until the screen says that so many entries have not reached the
// studio machine; of none, that this is also so: the screen may not have heard yet
// of an entry that was written just now.
func (p *Person) Unsent(n int) {
	p.t.Helper()
	says := `document.querySelector('[data-test=unsent]')?.dataset.count===` + browser.Quote(strconv.Itoa(n))
	if n == 0 {
		says += "&&" + received
	}
	p.Until(fmt.Sprintf("%d unsent entries", n), says)
}

// received is true once every entry that this device wrote has its receipt.
var received = Kept(`heads.filter(h=>h.dev===meta.dev).every(h=>receipts.some(r=>r.job===h.job&&r.dev===h.dev&&r.n===h.n))`, "heads", "meta", "receipts")
