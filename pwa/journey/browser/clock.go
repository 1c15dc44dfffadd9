package browser

import (
	"context"
	"strconv"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// clockScript gives a page a clock that a test can move. How far it has been
// moved outlives a reload.
const clockScript = `(()=>{
  const Real=Date;
  let moved=0;
  try{moved=Number(localStorage.getItem("journey.moved")||0)}catch{}
  class Moved extends Real{
    constructor(...a){if(a.length)super(...a);else super(Real.now()+moved)}
    static now(){return Real.now()+moved}
  }
  globalThis.Date=Moved;
  globalThis.journeyMove=ms=>{moved+=ms;localStorage.setItem("journey.moved",String(moved));return moved};
})()`

// MovableClock lets the documents of the tab have a clock that Move moves. The
// steady counter of the page goes on as it is: a clock that was set is what the
// app must bear anyway.
func (p *Page) MovableClock() {
	p.t.Helper()
	p.Before(clockScript)
}

// Move moves the page's clock, and lets the page notice as it does when it is
// looked at again.
func (p *Page) Move(d time.Duration) {
	p.t.Helper()
	Eval[float64](p, `journeyMove(`+strconv.FormatInt(d.Milliseconds(), 10)+`)`)
	Eval[bool](p, `(document.dispatchEvent(new Event("visibilitychange")),true)`)
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
