package hands

import (
	"time"

	"sinkside/pwa/journey/browser"
)

// held is how long a button can at most be held and still count, and a little:
// a press that is not ready by then never will be.
const held = 3 * time.Second

// Press holds a button until it says to let go, and lets go. On a machine that
// is too busy to see the moment it presses again, as a person does who reads
// that nothing was recorded.
func (p *Person) Press(name string) {
	p.t.Helper()
	p.Again(name, func() {
		if p.CanBackdate() {
			p.Backdated(browser.Hook(name), 900*time.Millisecond)
			return
		}
		p.HoldUntil(browser.Hook(name), held, Held(name, "ready"))
	})
}

// PressKey holds a key on a button until it says to let go, and lets go.
func (p *Person) PressKey(name, key string) {
	p.t.Helper()
	p.Again(name, func() {
		p.Focus(name)
		p.Key(key, func() { p.Soon(held, Held(name, "ready")) })
	})
}

// Again presses until the button takes it: until it no longer says that
// nothing was recorded.
func (p *Person) Again(name string, press func()) {
	p.t.Helper()
	nothing := `(b=>!!b&&/nothing was recorded|Too short/.test(b.innerText))(document.querySelector(` + browser.Quote(browser.Hook(name)) + `))`
	for range 5 {
		press()
		// A press that counted says so at once; one that did not says why for some seconds.
		if !p.Soon(400*time.Millisecond, nothing) {
			return
		}
	}
	p.t.Fatalf("%s: %s takes no press", p.Name, name)
}

// Held is the expression that is true while a button's press stands at rest,
// held, ready, armed or busy.
func Held(name, is string) string {
	return `document.querySelector(` + browser.Quote(browser.Hook(name)) + `)?.dataset.hold===` + browser.Quote(is)
}

// Focus puts the focus on a button. A question that has just closed gives the
// focus back to where it was asked, so it is looked at again two frames later.
func (p *Person) Focus(name string) {
	p.t.Helper()
	e := `document.querySelector(` + browser.Quote(browser.Hook(name)) + `)`
	p.Until("the focus on "+name, `(`+e+`.focus(),document.activeElement===`+e+`&&new Promise(ok=>requestAnimationFrame(()=>requestAnimationFrame(()=>ok(document.activeElement===`+e+`)))))`)
}

// Ask opens a question by its key and waits for what it shows. A key that moved
// away at that moment may have opened another one: that is left again, as a
// person does.
func (p *Person) Ask(name, sees string) {
	p.t.Helper()
	for range 3 {
		p.Tap(browser.Hook(name))
		p.Until("a question", `!!document.querySelector("dialog[open]")`)
		if p.Shows("dialog " + browser.Hook(sees)) {
			return
		}
		p.Tap(browser.Hook("sheet-back"))
		p.Until("no question", `!document.querySelector("dialog")`)
	}
	p.t.Fatalf("%s: %s does not ask for %s", p.Name, name, sees)
}

// Leave leaves all questions that are open, one in front of the other.
func (p *Person) Leave() {
	p.t.Helper()
	p.Until("no question", `(d=>!d||(document.querySelector("[data-test=sheet-back]")?.click(),false))(document.querySelector("dialog"))`)
}
