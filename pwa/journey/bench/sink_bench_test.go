package bench

import (
	"slices"
	"strconv"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// rests is how long a sink is watched at rest.
const rests = time.Minute

// What a sink costs whose clock runs and that nobody touches: processor time of
// the renderer (page and worker), and of the whole browser with its painting,
// in per cent of one core.
func BenchmarkSinkAtRest(b *testing.B) {
	m := machine.New(b, b.TempDir())
	m.Start()
	c, p, _ := phone(b, m, m.Hosts())
	rinseWithCurve(p)
	p.Unsent(0)
	<-time.After(10 * time.Second) // what a start leaves to be done is no rest
	var page, all time.Duration
	for b.Loop() {
		pageBefore, allBefore := c.Busy()
		<-time.After(rests)
		pageAfter, allAfter := c.Busy()
		page, all = page+pageAfter-pageBefore, all+allAfter-allBefore
	}
	share := func(used time.Duration) float64 { return 100 * used.Seconds() / (rests.Seconds() * float64(b.N)) }
	b.ReportMetric(share(page), "%-renderer")
	b.ReportMetric(share(all), "%-browser")
	b.ReportMetric(0, "ns/op")
}

// rinseWithCurve runs a rinse in which one conductivity was read.
func rinseWithCurve(p *hands.Person) {
	p.NewTreatment("Harbour-office signal flag")
	p.Source("4.5", "20")
	p.Choose(hands.Bath{What: "rinse", Liquid: "deionised water", Litres: "12", Minutes: "30"})
	p.Begin()
	p.Reading("temperature", "21.0")
	p.Reading("conductivity", "412")
	p.See(browser.Hook("curve-open"))
}

// readings is how many readings are measured in one go.
const readings = 25

// drawnMS notes in a page how long each kept reading takes, in milliseconds from
// letting go until the frame with its point in the curve is shown. Where the app draws
// it in the very event of letting go, that is what the browser itself reports of the
// event: until the next frame is presented, to 8 ms. A timer set in that frame would
// wait for all that comes behind it. Where the app draws it later, such a timer is what
// there is.
const drawnMS = `(()=>{
  const points=()=>document.querySelectorAll("[data-test=curve-open] [data-test=curve-point]").length;
  let had=0;
  const atOnce=new Set();
  window.drawn=[];
  window.later=0;
  new PerformanceObserver(l=>{
    for(const e of l.getEntries())if(e.name==="pointerup"&&atOnce.delete(e.startTime))drawn.push(e.duration);
  }).observe({type:"event",durationThreshold:16});
  addEventListener("pointerdown",()=>{had=points()},true);
  addEventListener("pointerup",e=>{
    if(!e.target.closest("[data-test=keep]"))return;
    let is=false,frame=false;
    requestAnimationFrame(()=>{frame=true});
    const look=()=>{
      if(is||points()<=had)return;
      is=true;
      seen.disconnect();
      if(!frame)return atOnce.add(e.timeStamp);
      later++;
      requestAnimationFrame(()=>setTimeout(()=>drawn.push(performance.now()-e.timeStamp)));
    };
    const seen=new MutationObserver(look);
    seen.observe(document,{subtree:true,childList:true});
    look();
  },true);
  return true;
})()`

// From letting go of "Keep this reading" until its point is painted in the
// curve, four times slower: as developer tools slow a page, and with every
// thread slowed.
func BenchmarkReadingToCurve(b *testing.B) {
	for name, slow := range map[string]func(*browser.Chromium) (restore func()){
		"page": func(c *browser.Chromium) func() { c.SlowPage(4); return func() { c.SlowPage(1) } },
		"all":  func(c *browser.Chromium) func() { return c.Slow(4) },
	} {
		b.Run(name, func(b *testing.B) {
			m := machine.New(b, b.TempDir())
			m.Start()
			c, p, _ := phone(b, m, m.Hosts())
			rinseWithCurve(p)
			browser.Eval[bool](p.Page, drawnMS)
			restore := slow(c)
			for b.Loop() {
				for range readings {
					n := browser.Eval[int](p.Page, `drawn.length`)
					p.Tap(browser.Hook("reading-conductivity"))
					p.Tap(browser.Hook("step-less-1"))
					p.Until("its value at 25 °C", `/at 25/.test(document.querySelector("[data-test=k25]")?.innerText)`)
					p.Backdated(browser.Hook("keep"), 700*time.Millisecond)
					p.Gone(browser.Hook("pad-value"))
					p.Until("the point in the curve", `drawn.length>`+strconv.Itoa(n))
					p.Until("the reading in the log", `!document.querySelector("[data-pending]")`)
				}
			}
			restore()
			ms := browser.Eval[[]float64](p.Page, `drawn`)
			b.ReportMetric(browser.Eval[float64](p.Page, `later`), "drawn-later")
			slices.Sort(ms)
			b.ReportMetric(ms[len(ms)/2], "drawn-p50-ms")
			b.ReportMetric(ms[len(ms)-1], "drawn-worst-ms")
			b.ReportMetric(0, "ns/op")
		})
	}
}
