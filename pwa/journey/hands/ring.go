package hands

import (
	"strconv"

	"sinkside/pwa/journey/browser"
)

// Rings waits until the device rings, with sound, and its bar says something.
func (p *Person) Rings(says string) {
	p.t.Helper()
	p.Until("it to ring and say "+says, `(r=>!!r&&r.dataset.ring==="ringing"&&r.dataset.audio==="runs"&&Number(r.dataset.sounded)>0&&r.innerText.replace(/\s+/g," ").includes(`+browser.Quote(says)+`))(document.querySelector('[data-test=rings]'))`)
}

// Silent waits until nothing rings on the device.
func (p *Person) Silent() {
	p.t.Helper()
	p.Until("it to be silent", `document.querySelector('[data-test=rings]')?.dataset.ring==="silent"&&!document.querySelector('[data-test=ring]')`)
}

// Heard acknowledges what rings, for all devices, by a held press; and says who
// has heard it where nobody has said so on this device.
func (p *Person) Heard() {
	p.t.Helper()
	p.Press("heard")
	p.Until("it to be silent here", `document.querySelector('[data-test=rings]')?.dataset.ring==="silent"`)
	p.Until("who has heard it", `!document.querySelector('[data-test=ring]')||!!document.querySelector('[data-test=who-new]')`)
	if p.Shows(browser.Hook("who-new")) {
		p.Type(browser.Hook("who-new"), p.By)
		p.Tap(browser.Hook("who-keep"))
	}
	p.Silent()
}

// Armed waits until the device says that so many would ring, itself included.
func (p *Person) Armed(devices int) {
	p.t.Helper()
	p.Until(strconv.Itoa(devices)+" armed devices", `(r=>!!r&&r.dataset.armed===`+browser.Quote(strconv.Itoa(devices))+`&&r.dataset.own==="true")(document.querySelector('[data-test=ringers]'))`)
}

// TakeOver takes over on the screen for it, by a held press.
func (p *Person) TakeOver(job, initials string) {
	p.t.Helper()
	p.Turn("#/t/" + job + "/hand")
	p.Type(browser.Hook("hand-new"), initials)
	p.Press("take-over")
	p.By = initials
	p.Reads(browser.Hook("who"), initials)
}
