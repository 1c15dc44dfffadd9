package journey

import (
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// The record at the sink is changed by a key held and let go, by two short
// presses of a key, and by two activations as switches and screen readers make
// them; not by one.
func TestKeysAndSwitches(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	atDesk, _ := desk(t, m)
	job := atDesk.NewTreatment("Sampler band of drawn-thread work")
	atDesk.Choose(rinse)
	state := func(name, is string) {
		t.Helper()
		atDesk.Until(name+" to be "+is, hands.Held(name, is))
	}

	atDesk.PressKey("begin", "Enter")
	atDesk.See(browser.Hook("end"))

	atDesk.Focus("end")
	atDesk.Key("Enter", nil)
	state("end", "armed")
	apart(atDesk)
	atDesk.Key("Enter", nil)
	atDesk.See(browser.Hook("begin"))

	activate := `(document.querySelector(` + browser.Quote(browser.Hook("begin")) + `).click(),true)`
	browser.Eval[bool](atDesk.Page, activate)
	state("begin", "armed")
	apart(atDesk)
	browser.Eval[bool](atDesk.Page, activate)
	atDesk.See(browser.Hook("end"))

	atDesk.Unsent(0)
	es := reader.Log(job)
	if n := kindsOf(es); n["begin"] != 2 || n["end"] != 1 {
		t.Errorf("keys and switches wrote %v, want two begins and an end", n)
	}
}

// apart waits until a second press is told from the bounce of the first.
func apart(p *hands.Person) {
	browser.Eval[bool](p.Page, `new Promise(ok=>{const from=performance.now(),look=()=>performance.now()-from>350?ok(true):requestAnimationFrame(look);look()})`)
}

// Two fingers, a finger that slides, and a finger joined by a drop change
// nothing.
func TestPressesThatDoNotCount(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	job := ph.NewTreatment("Harbour-office signal flag")
	ph.Choose(soak)
	begin := browser.Hook("begin")
	for _, c := range []struct{ name, says string }{
		{"second finger", "Something else touches the glass"},
		{"slide", "The touch slid"},
	} {
		ph.Fingers(begin, 700*time.Millisecond, c.name == "second finger", c.name == "slide")
		ph.Reads(begin, c.says)
	}
	ph.Unsent(0)
	if es := reader.AwaitLog(job, 1); len(es) != 1 {
		t.Errorf("presses that do not count wrote %v", machine.Kinds(es))
	}
	ph.Begin()
}

// The rule of the held press in real time, by a finger that waits until the
// button says to let go.
func TestAHeldPressInRealTime(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	job := ph.NewTreatment("Harbour-office signal flag")
	ph.Choose(soak)
	ph.Again("begin", func() { ph.HoldUntil(browser.Hook("begin"), 3*time.Second, hands.Held("begin", "ready")) })
	ph.See(browser.Hook("end"))
	ph.Unsent(0)
	if n := kindsOf(reader.AwaitLog(job, 2)); n["begin"] != 1 {
		t.Errorf("one held press wrote %v", n)
	}
}
