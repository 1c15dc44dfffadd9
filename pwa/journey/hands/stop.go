package hands

import (
	"fmt"

	"sinkside/pwa/journey/browser"
)

// Stop breaks off what runs by one held press.
func (p *Person) Stop() {
	p.t.Helper()
	p.Press("stop")
	p.See(browser.Hook("stop-face"))
}

// Steps goes through the steps of a stop, which must be these, and asks why.
func (p *Person) Steps(steps ...string) {
	p.t.Helper()
	for i, s := range steps {
		p.Reads(browser.Hook("stop-face"), fmt.Sprintf("Step %d of %d", i+1, len(steps)))
		p.Reads(browser.Hook("stop-step"), s)
		p.Reads(browser.Hook("stop-face"), "Never lift a filled tray: drain it.")
		if i < len(steps)-1 {
			p.Tap(browser.Hook("stop-next"))
		}
	}
	p.Tap(browser.Hook("stop-why"))
	p.See(browser.Hook("reason-text"))
}

// Reason says why, where it is asked.
func (p *Person) Reason(why string) {
	p.t.Helper()
	p.Type(browser.Hook("reason-text"), why)
	p.Press("keep")
	p.Gone(browser.Hook("reason-text"))
}

// Photograph gives a photograph to the key for it that is shown.
func (p *Person) Photograph(file string) {
	p.t.Helper()
	p.See(browser.Hook("photo"))
	p.Files(browser.Hook("photo-file"), file)
	p.Reads(browser.Hook("photo"), "Kept")
}
