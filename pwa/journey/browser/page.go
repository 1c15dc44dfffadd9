// Package browser drives real browsers for the journey tests: Chromium as a
// phone or as a desk machine, and WPE WebKit as the old phone.
//
// A [Page] is one tab, whatever engine shows it. Its methods do what a person
// does (look, touch, hold, type) and end the test when it cannot be done; they
// wait for a condition with a deadline and never for a fixed time. A message
// of the page's console that nobody expected fails the test at its end.
package browser

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Patience is how long a page may take to come into a state before the test
// gives up. It is long because two browsers, a server and a compiler may share
// two cores; nothing waits for it when all goes well.
const Patience = 30 * time.Second

// driver is what an engine must be able to do for a Page.
type driver interface {
	navigate(url string) error
	reload() error
	eval(js string) (json.RawMessage, error) // value of an expression; a promise is awaited
	press(x, y float64, held func()) error   // held runs while the finger is down
	keys(text string) error
	shot() ([]byte, error) // PNG
	files(selector string, paths ...string) error
}

// A Page is one tab of a browser.
type Page struct {
	// Name says whose page it is, in messages and names of screenshots.
	Name string
	t    testing.TB
	d    driver
	log  *console
}

func newPage(t testing.TB, name string, d driver, log *console) *Page {
	p := &Page{Name: name, t: t, d: d, log: log}
	t.Cleanup(func() {
		if t.Failed() {
			p.leaveEvidence()
		}
	})
	return p
}

// Go opens an address.
func (p *Page) Go(url string) {
	p.t.Helper()
	if err := p.d.navigate(url); err != nil {
		p.t.Fatalf("%s: open %s: %v", p.Name, url, err)
	}
}

// Before runs a script in every document of the tab before its own scripts.
func (p *Page) Before(js string) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine runs no script ahead of a page's own", p.Name)
	}
	if err := t.before(js); err != nil {
		p.t.Fatalf("%s: script ahead of the page: %v", p.Name, err)
	}
}

// Reload loads the page again, as a person who pulls it down, and waits until
// the old one is gone.
func (p *Page) Reload() {
	p.t.Helper()
	Eval[bool](p, `window.journeyOld=true`)
	if err := p.d.reload(); err != nil {
		p.t.Fatalf("%s: reload: %v", p.Name, err)
	}
	p.Until("the page to be loaded anew", `!window.journeyOld&&document.readyState==="complete"`)
}

// Eval returns the value of a JavaScript expression; a promise is awaited.
func Eval[T any](p *Page, js string) T {
	p.t.Helper()
	v, err := evaluate[T](p, js)
	if err != nil {
		p.t.Fatalf("%s: %s: %v", p.Name, js, err)
	}
	return v
}

func evaluate[T any](p *Page, js string) (v T, err error) {
	raw, err := p.d.eval(js)
	if err != nil || len(raw) == 0 {
		return v, err
	}
	return v, json.Unmarshal(raw, &v)
}

// Until waits until a JavaScript expression is true. What says in the failure
// what was waited for.
func (p *Page) Until(what, js string) {
	p.t.Helper()
	if last, err := p.await(js, Patience); err != nil {
		p.t.Fatalf("%s: waited %v for %s; last answer %s (%v)", p.Name, Patience, what, last, err)
	}
}

// Soon waits until a JavaScript expression is true, at most for d, and tells
// whether it came true.
func (p *Page) Soon(d time.Duration, js string) bool {
	_, err := p.await(js, d)
	return err == nil
}

// await polls, because a page that is being loaded anew forgets every observer
// put into it.
func (p *Page) await(js string, d time.Duration) (last string, err error) {
	deadline := time.NewTimer(d)
	defer deadline.Stop()
	tick := time.NewTicker(15 * time.Millisecond)
	defer tick.Stop()
	for {
		var raw json.RawMessage
		raw, err = p.d.eval(js)
		last = string(raw)
		switch last {
		case "", "false", "null", "0", `""`:
		default:
			if err == nil {
				return last, nil
			}
		}
		select {
		case <-deadline.C:
			if err == nil {
				err = fmt.Errorf("not true in time")
			}
			return last, err
		case <-tick.C:
		}
	}
}

// Hook is the CSS selector of an element's data-test mark.
func Hook(name string) string { return `[data-test="` + name + `"]` }

// Quote writes a string as a JavaScript literal.
func Quote(s string) string {
	b, _ := json.Marshal(s) // a string always marshals
	return string(b)
}

// See waits until an element is there and has a size.
func (p *Page) See(selector string) {
	p.t.Helper()
	p.Until("to see "+selector, `(e=>!!e&&e.getClientRects().length>0)(document.querySelector(`+Quote(selector)+`))`)
}

// Gone waits until no such element is shown.
func (p *Page) Gone(selector string) {
	p.t.Helper()
	p.Until(selector+" to go", `(e=>!e||e.getClientRects().length===0)(document.querySelector(`+Quote(selector)+`))`)
}

// Shows reports whether such an element is shown now.
func (p *Page) Shows(selector string) bool {
	p.t.Helper()
	return Eval[bool](p, `(e=>!!e&&e.getClientRects().length>0)(document.querySelector(`+Quote(selector)+`))`)
}

// Text is what an element says, with runs of space made one.
func (p *Page) Text(selector string) string {
	p.t.Helper()
	p.See(selector)
	return strings.Join(strings.Fields(Eval[string](p, `document.querySelector(`+Quote(selector)+`).innerText`)), " ")
}

// Reads waits until an element's text contains a string.
func (p *Page) Reads(selector, text string) {
	p.t.Helper()
	p.Until(selector+" to say "+strconv.Quote(text),
		`(e=>!!e&&e.innerText.replace(/\s+/g," ").includes(`+Quote(text)+`))(document.querySelector(`+Quote(selector)+`))`)
}

// spot is the place of an element's middle, or why a finger cannot reach it.
type spot struct {
	X, Y float64
	Why  string
}

// place brings an element into view and finds where to touch it. An element
// that another covers wherever it stands, is outside the screen or is disabled
// cannot be touched.
const place = `(async sel=>{
  const e=document.querySelector(sel);
  if(!e||!e.getClientRects().length) return {Why:"not shown"};
  let r=e.getBoundingClientRect();
  const middle=()=>{e.scrollIntoView({block:"center",inline:"center",behavior:"instant"});r=e.getBoundingClientRect()};
  const over=()=>document.elementFromPoint(r.left+r.width/2,r.top+r.height/2);
  const ours=h=>!!h&&(h===e||e.contains(h)||h.tagName==="LABEL"&&h.control===e);
  if(r.top<0||r.left<0||r.bottom>innerHeight||r.right>innerWidth||!ours(over())) middle();
  const X=r.left+r.width/2,Y=r.top+r.height/2,hit=over();
  if(!hit) return {X,Y,Why:"outside the screen"};
  if(!ours(hit)) return {X,Y,Why:"covered by "+hit.outerHTML.slice(0,120)};
  if(e.disabled||e.getAttribute("aria-disabled")==="true") return {X,Y,Why:"disabled"};
  for(const k of ["pointerdown","click"]) removeEventListener(k,window.journeyAim,true);
  window.journeyHit="";
  // A click falls on what is there once the finger has gone: it may be something else.
  window.journeyAim=d=>{
    const still=document.querySelector(sel),hit=!!still&&d.composedPath().includes(still);
    if(d.type==="pointerdown") window.journeyHit=hit?"":"missed";
    else if(still===e&&!hit&&!(e.labels&&[...e.labels].some(l=>d.composedPath().includes(l)))) window.journeyHit="slipped";
  };
  for(const k of ["pointerdown","click"]) addEventListener(k,window.journeyAim,{capture:true,once:true});
  return {X,Y,Why:""};
})`

// reach waits until an element can be touched at a place that keeps still.
func (p *Page) reach(selector string) spot {
	p.t.Helper()
	s, why := p.aim(selector, Patience)
	if why != "" {
		p.t.Fatalf("%s: %s cannot be touched: %s", p.Name, selector, why)
	}
	return s
}

// aim waits for that at most for d, and says why it cannot be touched.
func (p *Page) aim(selector string, d time.Duration) (s spot, why string) {
	p.t.Helper()
	js := place + `(` + Quote(selector) + `)`
	still := 0
	steady := func() bool {
		v, err := evaluate[spot](p, js)
		if err != nil {
			v.Why = err.Error()
		}
		if v != s || v.Why != "" {
			still = 0
		}
		s, still = v, still+1
		return still >= 3 && s.Why == ""
	}
	if !poll(d, steady) {
		return s, cmp.Or(s.Why, "it does not keep still")
	}
	return s, ""
}

// poll calls f until it returns true or the time is over.
func poll(d time.Duration, f func() bool) bool {
	deadline := time.NewTimer(d)
	defer deadline.Stop()
	tick := time.NewTicker(15 * time.Millisecond)
	defer tick.Stop()
	for !f() {
		select {
		case <-deadline.C:
			return f()
		case <-tick.C:
		}
	}
	return true
}

// Tap touches an element and lets go. When something else moved under the
// finger at that moment, it touches again, as a person does.
func (p *Page) Tap(selector string) {
	p.t.Helper()
	s := p.reach(selector)
	for range 5 {
		p.TouchAt(s.X, s.Y, 0)
		// A page that has gone away cannot be asked: it was touched.
		switch how, err := evaluate[string](p, `window.journeyHit??""`); {
		case err != nil || how == "":
			return
		case how == "missed":
			s = p.reach(selector)
		default:
			// What it slipped to may have opened something in front: that is seen by what follows.
			again, why := p.aim(selector, time.Second)
			if why != "" {
				return
			}
			s = again
		}
	}
	p.t.Fatalf("%s: %s moves away from the finger", p.Name, selector)
}

// Hold keeps one finger on an element for a time and lets go.
func (p *Page) Hold(selector string, d time.Duration) {
	p.t.Helper()
	s := p.reach(selector)
	p.TouchAt(s.X, s.Y, d)
}

// HoldUntil keeps one finger on an element until a JavaScript expression is
// true, at most for d, and lets go.
func (p *Page) HoldUntil(selector string, d time.Duration, js string) {
	p.t.Helper()
	s := p.reach(selector)
	p.touch(s.X, s.Y, func() { p.Soon(d, js) })
}

// TouchAt puts a finger at a place in CSS pixels and lets go after d.
func (p *Page) TouchAt(x, y float64, d time.Duration) {
	p.t.Helper()
	p.touch(x, y, func() {
		if d > 0 {
			<-time.After(d)
		}
	})
}

func (p *Page) touch(x, y float64, held func()) {
	p.t.Helper()
	if err := p.d.press(x, y, held); err != nil {
		p.t.Fatalf("%s: touch at %.0f, %.0f: %v", p.Name, x, y, err)
	}
}

// Type puts text into a field in place of what stands there. A field that
// moved away from under the finger is touched again, as a person does.
func (p *Page) Type(selector, text string) {
	p.t.Helper()
	focused := `document.activeElement===document.querySelector(` + Quote(selector) + `)`
	for tries := 0; ; tries++ {
		p.Tap(selector)
		if _, err := p.await(focused, time.Second); err == nil {
			break
		} else if tries == 5 {
			p.t.Fatalf("%s: %s does not take the focus: %v", p.Name, selector, err)
		}
	}
	Eval[bool](p, `(e=>{e.select&&e.select();return true})(document.activeElement)`)
	p.Keys(text)
}

// Keys types text into whatever has the focus.
func (p *Page) Keys(text string) {
	p.t.Helper()
	if err := p.d.keys(text); err != nil {
		p.t.Fatalf("%s: type %q: %v", p.Name, text, err)
	}
}

// Files chooses files in a file field.
func (p *Page) Files(selector string, paths ...string) {
	p.t.Helper()
	if err := p.d.files(selector, paths...); err != nil {
		p.t.Fatalf("%s: choose files: %v", p.Name, err)
	}
}
