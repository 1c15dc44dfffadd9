package journey

import (
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// The offline part in an old WebKit, over plain HTTP on loopback, where it
// counts as secure: written while the studio machine is away, through a reload,
// and everything arrives once.
func TestOldWebKit(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	w := browser.StartWebKit(t, "old phone", t.TempDir())
	p := hands.With(t, w.Page(), m.Local(), "OT")
	p.Pair(m.Code(), "old phone")
	job := p.NewTreatment("Harbour-office signal flag")
	p.Choose(soak)
	p.Ago(4)
	p.Begin()
	begun := time.Now().Add(-4 * time.Minute)
	p.Unsent(0)

	m.Stop()
	p.Disconnected()
	p.Reading("temperature", "21.5")
	p.Note("Nothing on the sponge.")
	p.Unsent(2)
	p.Shot("webkit-offline")
	p.Reload()
	clockIs(t, p, begun, 10*time.Minute)
	p.Unsent(2)
	p.End()
	p.Unsent(3)

	m.Start()
	p.Unsent(0)
	es := reader.AwaitLog(job, 5)
	sameLinesOf(t, p, es, job)
	if n := kindsOf(es); n["begin"] != 1 || n["end"] != 1 || n["reading"] != 1 || n["note"] != 1 {
		t.Errorf("the studio machine has %v", n)
	}
}
