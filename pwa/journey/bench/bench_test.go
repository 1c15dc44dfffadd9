// Package bench measures what the app promises on a phone: how soon a tap is
// durable, how soon the sink is usable again after a cold start without a
// network, what a phone downloads at first, what a running clock costs at rest,
// and how soon a reading stands in the curve.
//
//	go test ./pwa/journey/bench -run '^$' -bench . -benchtime 1x
//
// Numbers are for reading; nothing fails by them.
package bench

import (
	"fmt"
	"io"
	"net"
	"slices"
	"strconv"
	"sync/atomic"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// phone starts a phone and pairs it.
func phone(b *testing.B, m *machine.Machine, hosts map[string]string) (*browser.Chromium, *hands.Person, browser.Options) {
	b.Helper()
	o := browser.Options{Name: "phone", Home: b.TempDir(), Root: m.RootCertificate(), Hosts: hosts, Phone: true}
	c := browser.Start(b, o)
	p := hands.With(b, c.Page(), m.URL(), "RV")
	p.Pair(m.Code(), "phone")
	return c, p, o
}

// taps is how many presses are measured.
const taps = 200

// From letting go of a held press until the entry is durable on the phone, and
// until the screen says so.
func BenchmarkTapToDurable(b *testing.B) {
	m := machine.New(b, b.TempDir())
	m.Start()
	_, p, _ := phone(b, m, m.Hosts())
	p.NewTreatment("Harbour-office signal flag")
	p.Choose(hands.Bath{What: "rinse", Liquid: "deionised water", Litres: "12", Minutes: "8"})
	browser.Eval[bool](p.Page, `(performance.clearMeasures(),window.shown=[],addEventListener("pointerup",()=>{
	  const from=performance.now(),next=document.querySelector("[data-test=begin]")?"end":"begin";
	  const seen=new MutationObserver(()=>{if(document.querySelector("[data-test="+next+"]")){seen.disconnect();shown.push(performance.now()-from)}});
	  seen.observe(document.getElementById("app"),{subtree:true,childList:true,attributes:true});
	},true),true)`)
	for b.Loop() {
		for range taps / 2 {
			p.Backdated(browser.Hook("begin"), 700*time.Millisecond)
			p.See(browser.Hook("end"))
			p.Backdated(browser.Hook("end"), 700*time.Millisecond)
			p.See(browser.Hook("begin"))
		}
	}
	durable := browser.Eval[[]float64](p.Page, `performance.getEntriesByName("tap to durable").map(e=>e.duration)`)
	report(b, "durable", durable)
	report(b, "shown", browser.Eval[[]float64](p.Page, `shown`))
	p.Unsent(0)
}

// report prints the middle and the 99th of a hundred, in milliseconds.
func report(b *testing.B, what string, ms []float64) {
	b.Helper()
	if len(ms) < taps {
		b.Fatalf("%d of %d taps were %s", len(ms), taps, what)
	}
	slices.Sort(ms)
	b.ReportMetric(ms[len(ms)/2], what+"-p50-ms")
	b.ReportMetric(ms[len(ms)*99/100], what+"-p99-ms")
	b.ReportMetric(0, "ns/op")
}

// marks notes in a page when the clock is painted and when the core is ready,
// in milliseconds since the navigation began.
const marks = `{
  const seen=new Set(), look=()=>{
    const note=(name,is)=>{if(is&&!seen.has(name)){seen.add(name);requestAnimationFrame(()=>setTimeout(()=>performance.mark(name)))}};
    note("clock",document.querySelector("[data-test=clock] text")?.textContent);
    note("usable",document.querySelector("[data-core=ready]")&&document.querySelector("[data-test=end]"));
  };
  new MutationObserver(look).observe(document,{subtree:true,childList:true,attributes:true,characterData:true});
}`

// entries is the size of the treatment that is open on the phone.
const entries = 2000

// A phone that was off shows a running bath: new browser, no network, four
// times slower; once as browsers' developer tools slow a page, which leaves the
// worker with the core at full speed, and once with every thread slowed.
func BenchmarkOfflineColdStart(b *testing.B) {
	m := machine.New(b, b.TempDir())
	m.Start()
	job := longTreatment(m)
	c, p, o := phone(b, m, m.Hosts())
	p.Open("#/t/" + job)
	p.See(browser.Hook("clock"))
	p.Log(job, entries)
	p.Sink(job)
	p.Until("a kept state of the treatment", snapshot(job))
	c.Close()
	m.Stop()

	for name, slow := range map[string]func(*browser.Chromium) (restore func()){
		"page": func(c *browser.Chromium) func() { c.SlowPage(4); return func() { c.SlowPage(1) } },
		"all":  func(c *browser.Chromium) func() { return c.Slow(4) },
	} {
		b.Run(name, func(b *testing.B) {
			var clock, usable []float64
			for b.Loop() {
				for range 7 {
					at := coldStart(b, o, m.URL(), job, slow)
					clock, usable = append(clock, at[0]), append(usable, at[1])
				}
			}
			slices.Sort(clock)
			slices.Sort(usable)
			b.ReportMetric(clock[len(clock)/2], "clock-ms")
			b.ReportMetric(clock[len(clock)-1], "clock-worst-ms")
			b.ReportMetric(usable[len(usable)/2], "usable-ms")
			b.ReportMetric(usable[len(usable)-1], "usable-worst-ms")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// coldStart starts a browser, opens the sink without a network, and returns the
// milliseconds from the navigation to the painted clock and to the usable sink.
func coldStart(b *testing.B, o browser.Options, base, job string, slow func(*browser.Chromium) (restore func())) (at [2]float64) {
	b.Helper()
	c := browser.Start(b, o)
	c.ExpectUnreachable()
	p := hands.With(b, c.Page(), base, "RV")
	p.Before(marks)
	restore := slow(c)
	p.Open("#/t/" + job)
	const entries = `performance.getEntriesByName`
	p.Until("a usable sink", entries+`("usable").length>0&&`+entries+`("clock").length>0`)
	restore()
	for i, name := range []string{"clock", "usable"} {
		at[i] = browser.Eval[float64](p.Page, entries+`("`+name+`")[0].startTime`)
	}
	c.Close()
	return at
}

// longTreatment writes a treatment of many entries with a bath that runs.
func longTreatment(m *machine.Machine) (job string) {
	a := m.Author("the phone of the weeks before")
	id := machine.NewJob(1)
	at := time.Now().Add(-30 * 24 * time.Hour)
	a.Write(id, at, "open", `{"name":"Sampler band of drawn-thread work"}`)
	for n := 1; n+9 < entries-1; n += 10 {
		begin := a.Write(id, at, "begin", `{"what":"rinse","liquid":"deionised water","litres":12,"target_s":480}`)
		for i := range 7 {
			at = at.Add(time.Minute)
			a.Write(id, at, "reading", fmt.Sprintf(`{"q":"conductivity","value":%d,"unit":"uS/cm","of":"%s"}`, 600-40*i, begin))
		}
		a.Write(id, at, "note", fmt.Sprintf(`{"text":"The water is clearer than before at %s","of":"%s"}`, at.Format(time.TimeOnly), begin))
		at = at.Add(time.Minute)
		a.Write(id, at, "end", fmt.Sprintf(`{"of":"%s"}`, begin))
		at = at.Add(5 * time.Minute)
	}
	for len(a.Written[id]) < entries-1 {
		a.Write(id, at, "note", `{"text":"Left to soak."}`)
	}
	a.Write(id, time.Now().Add(-2*time.Minute), "begin", `{"what":"rinse","liquid":"deionised water","litres":12,"target_s":480}`)
	a.Send()
	return id.String()
}

// snapshot is true in a page when the state of the whole treatment is kept.
func snapshot(job string) string {
	return hands.Kept(`snapshots.some(s=>s.job===`+browser.Quote(job)+`&&JSON.parse(s.state).entries===`+strconv.Itoa(entries)+`)`, "snapshots")
}

// All bytes that reach a new phone until the app is there for being offline,
// TLS and headers included.
func BenchmarkFirstDownload(b *testing.B) {
	m := machine.New(b, b.TempDir())
	m.Start()
	counted := meter(b, m)
	for b.Loop() {
		phone(b, m, map[string]string{machine.Name: "127.0.0.99"})
	}
	b.ReportMetric(float64(counted.Load())/1000/float64(b.N), "KB")
	b.ReportMetric(0, "ns/op")
}

// meter stands between phones and the studio machine, on another loopback
// address and the same port, and counts what the phones get.
func meter(b *testing.B, m *machine.Machine) *atomic.Int64 {
	b.Helper()
	port := strconv.Itoa(m.TLS)
	l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.99", port))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { l.Close() })
	var counted atomic.Int64
	go func() {
		for {
			phone, err := l.Accept()
			if err != nil {
				return // the benchmark is over
			}
			go func() {
				defer phone.Close()
				studio, err := net.Dial("tcp", net.JoinHostPort(m.Addr, port))
				if err != nil {
					return
				}
				defer studio.Close()
				go io.Copy(studio, phone)
				io.Copy(io.MultiWriter(phone, counter{&counted}), studio)
			}()
		}
	}()
	return &counted
}

type counter struct{ n *atomic.Int64 }

func (c counter) Write(p []byte) (int, error) {
	c.n.Add(int64(len(p)))
	return len(p), nil
}
