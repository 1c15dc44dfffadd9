package journey

import (
	"math/rand/v2"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// A thousand drops fall on the sink while a bath runs: short ones, pools that
// press for seconds, several at once, drops that run down the glass. None is one
// pointer that keeps still and goes between half a second and two and a half, so
// nothing of it becomes an entry.
func TestRain(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	p := pairedPhone(t, m, "Runa's phone", "RV")
	job := p.NewTreatment("Harbour-office signal flag")
	p.Choose(soak)
	p.Begin()
	p.Unsent(0)
	before, held := len(reader.Log(job)), len(p.Lines())

	seed := uint64(time.Now().UnixNano())
	rnd := rand.New(rand.NewPCG(seed, 1))
	for range 1000 {
		p.Drops(drop(rnd))
		// A drop may turn a page, and records nothing by that; the rain falls on the sink.
		if !p.Shows(browser.Hook("note")) {
			p.Sink(job)
		}
	}
	if scale := browser.Eval[float64](p.Page, `visualViewport.scale`); scale != 1 {
		t.Errorf("rain (seed %d) has made the sink %.2f times as large", seed, scale)
	}
	p.Sink(job)
	p.Leave()
	for _, aim := range []string{"end", "stop"} {
		if !p.Shows(browser.Hook(aim)) {
			continue
		}
		p.Backdated(browser.Hook(aim), 2700*time.Millisecond)
		p.Reads(browser.Hook(aim), "Held too long")
		p.Backdated(browser.Hook(aim), 200*time.Millisecond)
		p.Reads(browser.Hook(aim), "Too short")
	}
	p.Unsent(0)
	if after := reader.Log(job); len(after) != before {
		t.Errorf("rain (seed %d) wrote %v", seed, machine.Kinds(after[before:]))
	}
	if lines := len(p.Lines()); lines != held {
		t.Errorf("rain (seed %d) left %d lines on the phone, want %d", seed, lines, held)
	}
}

// drop is one touch of the rain.
func drop(rnd *rand.Rand) browser.Touch {
	d := browser.Touch{X: 390 * rnd.Float64(), Y: 844 * rnd.Float64()}
	switch rnd.IntN(4) {
	case 0:
		d.Held = time.Duration(rnd.IntN(400)) * time.Millisecond
	case 1:
		d.Held = 2600*time.Millisecond + time.Duration(rnd.IntN(4000))*time.Millisecond
	case 2:
		d.Held, d.Second = time.Duration(rnd.IntN(3000))*time.Millisecond, true
	default:
		d.Held, d.Drift = time.Duration(rnd.IntN(3000))*time.Millisecond, 16+60*rnd.Float64()
	}
	return d
}
