// Package hands does in the app what a conservator does: pair a phone, open a
// treatment, run baths by held presses, take readings, correct the log. It
// knows the screens by their data-test marks and by what they say.
package hands

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

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

// Bath is what is chosen for the next bath.
type Bath struct {
	What    string // presoak, wash or rinse
	Liquid  string
	Litres  string // as keys are pressed
	Minutes string
}

// Choose sets the next bath up.
func (p *Person) Choose(b Bath) {
	p.t.Helper()
	p.Tap(browser.Hook("what-" + b.What))
	if !strings.Contains(p.Text(browser.Hook("liquid")), b.Liquid) {
		p.Tap(browser.Hook("liquid"))
		p.Type(browser.Hook("liquid-new"), b.Liquid)
		p.Tap(browser.Hook("liquid-keep"))
		p.Reads(browser.Hook("liquid"), b.Liquid)
	}
	p.amount("litres", b.Litres)
	p.amount("target", b.Minutes)
}

func (p *Person) amount(name, text string) {
	p.t.Helper()
	p.Tap(browser.Hook(name))
	p.Figures(text)
	p.Tap(browser.Hook("keep"))
	p.Gone(browser.Hook("pad-value"))
}

// Figures presses the keys of a number on the pad that is open.
func (p *Person) Figures(text string) {
	p.t.Helper()
	for _, r := range text {
		key := string(r)
		if r == '.' || r == ',' {
			key = "dot"
		}
		p.Tap(browser.Hook("key-" + key))
	}
	p.Reads(browser.Hook("pad-value"), strings.ReplaceAll(text, ",", "."))
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
	p.Tap(browser.Hook("ago"))
	p.Figures(strconv.Itoa(minutes))
	p.Tap(browser.Hook("keep"))
	p.Gone(browser.Hook("pad-value"))
}

// Reading takes a reading on the pad: temperature, ph or conductivity.
func (p *Person) Reading(quantity, value string) {
	p.t.Helper()
	p.Tap(browser.Hook("reading-" + quantity))
	p.Figures(value)
	p.Press("keep")
	p.Gone(browser.Hook("pad-value"))
}

// Note keeps a note.
func (p *Person) Note(text string) {
	p.t.Helper()
	p.Tap(browser.Hook("note"))
	p.Type(browser.Hook("note-text"), text)
	p.Press("keep")
	p.Gone(browser.Hook("note-text"))
}

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

// Unsent waits until the screen says that so many entries have not reached the
// studio machine.
func (p *Person) Unsent(n int) {
	p.t.Helper()
	p.Until(fmt.Sprintf("%d unsent entries", n), `document.querySelector('[data-test=unsent]')?.dataset.count===`+browser.Quote(strconv.Itoa(n)))
}

// Clock reads the large clock: the time left, negative when the target is past.
func (p *Person) Clock() time.Duration {
	p.t.Helper()
	p.Until("figures on the clock", clockFace+`!==undefined`)
	d, err := readClock(browser.Eval[string](p.Page, clockFace))
	if err != nil {
		p.t.Fatalf("%s: %v", p.Name, err)
	}
	return d
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

// Lines is every entry that this device holds, as it was written.
func (p *Person) Lines() []string {
	p.t.Helper()
	return browser.Eval[[]string](p.Page, entries)
}

// entries reads the lines from the app's database.
const entries = `new Promise((ok,no)=>{
  const r=indexedDB.open("sinkside");
  r.onerror=()=>no(r.error);
  r.onsuccess=()=>{
    const q=r.result.transaction("entries").objectStore("entries").getAll();
    q.onerror=()=>no(q.error);
    q.onsuccess=()=>{r.result.close();ok(q.result.map(e=>e.line))};
  }})`
