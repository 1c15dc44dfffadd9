package browser

import (
	"context"
	"fmt"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// clockScript gives a page a clock that a test can move: by so many
// milliseconds at first. How far it has been moved outlives a reload, and ends
// with the tab.
const clockScript = `(()=>{
  const Real=Date;
  let moved=%d;
  try{moved=Number(sessionStorage.getItem("journey.moved")??moved)}catch{}
  class Moved extends Real{
    constructor(...a){if(a.length)super(...a);else super(Real.now()+moved)}
    static now(){return Real.now()+moved}
  }
  globalThis.Date=Moved;
  globalThis.journeyMove=ms=>{moved+=ms;sessionStorage.setItem("journey.moved",String(moved));return moved};
})()`

// MovableClock lets the documents of the tab that are opened from now on have a
// clock that Move moves; ahead is how far off it is at first. The steady counter
// of the page goes on as it is: a clock that was set is what the app must bear
// anyway.
func (p *Page) MovableClock(ahead time.Duration) {
	p.t.Helper()
	p.Before(fmt.Sprintf(clockScript, ahead.Milliseconds()))
}

// Move moves the page's clock, lets a page that is seen notice as it does when it
// is looked at again, and returns how far the clock is off now.
func (p *Page) Move(d time.Duration) time.Duration {
	p.t.Helper()
	moved := Eval[float64](p, fmt.Sprintf(`journeyMove(%d)`, d.Milliseconds()))
	Eval[bool](p, `(document.hidden||document.dispatchEvent(new Event("visibilitychange")),true)`)
	return time.Duration(moved) * time.Millisecond
}

// Hidden says to the page that nobody looks at it, as when the screen goes off
// or another app is in front; or that somebody looks again.
func (p *Page) Hidden(is bool) {
	p.t.Helper()
	Eval[bool](p, fmt.Sprintf(`(Object.defineProperty(document,"hidden",{configurable:true,get:()=>%[1]t}),
	  Object.defineProperty(document,"visibilityState",{configurable:true,get:()=>%[1]t?"hidden":"visible"}),
	  document.dispatchEvent(new Event("visibilitychange")),true)`, is))
}

// Zone puts the tab into a time zone, such as "Europe/London".
func (p *Page) Zone(name string) {
	p.t.Helper()
	t, ok := p.d.(*tab)
	if !ok {
		p.t.Fatalf("%s: this engine's time zone cannot be changed", p.Name)
	}
	ctx, cancel := context.WithTimeout(t.ctx, Patience)
	defer cancel()
	if _, err := chromedp.Call(ctx, emulation.SetTimezoneOverride, emulation.SetTimezoneOverrideParams{TimezoneID: name}); err != nil {
		p.t.Fatalf("%s: time zone %s: %v", p.Name, name, err)
	}
}
