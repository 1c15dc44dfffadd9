package journey

import (
	"math/rand/v2"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// rainOnTheSink lets drops fall on the sink's screen: short touches anywhere,
// and pools that press for seconds on what changes the record. Nothing of it
// becomes an entry.
func rainOnTheSink(t *testing.T, p *phone, reader *machine.Device, job string) {
	t.Helper()
	seed := uint64(time.Now().UnixNano())
	rnd := rand.New(rand.NewPCG(seed, 1))
	before := len(reader.Log(job))
	p.Sink(job)
	for range 120 {
		p.TouchAt(390*rnd.Float64(), 844*rnd.Float64(), time.Duration(rnd.IntN(60))*time.Millisecond)
		if !p.Shows(browser.Hook("note")) {
			p.Sink(job) // a drop may turn a page; it records nothing
		}
	}
	p.Reload()
	p.Sink(job)
	p.Hold(browser.Hook("begin"), 2700*time.Millisecond)
	p.Reads(browser.Hook("begin"), "Held too long")
	p.Hold(browser.Hook("begin"), 200*time.Millisecond)
	p.Reads(browser.Hook("begin"), "Too short")
	p.Unsent(0)
	if after := reader.Log(job); len(after) != before {
		t.Errorf("rain (seed %d) wrote %v", seed, machine.Kinds(after[before:]))
	}
}
