package journey

import (
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// A target passes. The phone at the sink and the studio machine's page both
// ring, and one held press on either silences both. Without a network the phone
// rings alone and knows that it is alone.
func TestAlarms(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := timedPhone(t, m, "Runa's phone", "RV")
	studio, atDesk := deskBrowser(t, m)
	atDesk.Turn("#/studio")
	job := runa.NewTreatment("Harbour-office signal flag")
	runa.Armed(2)
	atDesk.Armed(2)

	runa.Choose(soak)
	runa.Ago(10)
	runa.Begin()
	both := []*hands.Person{runa.Person, atDesk}
	for _, p := range both {
		p.Rings("Pre-soak 1: the time is up")
		p.Shot("rings")
		p.NoBarriers("ringing")
	}
	runa.Heard()
	atDesk.Silent()
	runa.Unsent(0)
	e := only(t, reader, job, "heard")
	if cue, _ := e.Body["cue"].(string); !strings.HasPrefix(cue, "target:") || e.By != "RV" {
		t.Errorf("what was heard is %s", e.Line)
	}
	runa.End()

	runa.Choose(rinse)
	runa.Ago(8)
	runa.Begin()
	for _, p := range both {
		p.Rings("Rinse 1: the time is up")
	}
	atDesk.Heard()
	runa.Silent()
	runa.End()
	runa.Unsent(0)
	if n := kindsOf(reader.AwaitLog(job, 7))["heard"]; n != 2 {
		t.Errorf("%d entries of what was heard, want 2", n)
	}

	runa.browser.ExpectUnreachable()
	studio.ExpectUnreachable()
	m.Stop()
	runa.Disconnected()
	runa.Choose(rinse)
	runa.Begin()
	runa.Armed(1)
	runa.Reads(browser.Hook("ringers"), "this device rings")
	runa.passes(4 * time.Minute)
	runa.Silent()
	runa.passes(4 * time.Minute)
	runa.Rings("Rinse 2: the time is up")
	runa.Turn("#/phone")
	runa.Reads(browser.Hook("ringers"), "This device rings; no word of others")
	runa.Heard()
	runa.Sink(job)
	runa.End()
}

// The screen is off while cues pass. When somebody looks again the clock is
// right, what is due rings, and what passed unheard is told.
func TestScreenOff(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := timedPhone(t, m, "Runa's phone", "RV")
	job := runa.NewTreatment("Child's quilted bonnet")
	runa.Choose(soak)
	runa.Begin()
	begun := runa.now()
	runa.Hidden(true)
	runa.passes(12 * time.Minute)
	runa.Hidden(false)
	runa.leaves(begun, 10*time.Minute)
	runa.Rings("Pre-soak 1: the time is up")
	runa.Shot("screen-on-again")
	runa.Heard()
	runa.Reads(browser.Hook("missed"), "not heard here")
	runa.Tap(browser.Hook("missed") + " summary")
	runa.Reads(browser.Hook("missed"), "Pre-soak 1: 5 min left")
	runa.Shot("missed")
	runa.NoBarriers("what was missed")
	runa.Tap(browser.Hook("missed-seen"))
	runa.Gone(browser.Hook("missed"))
	runa.Reload()
	runa.leaves(begun, 10*time.Minute)
	runa.Silent()
	if runa.Shows(browser.Hook("missed")) {
		t.Error("what was told is told again")
	}
	runa.End()
	runa.Unsent(0)
	if n := kindsOf(reader.AwaitLog(job, 4)); n["heard"] != 1 {
		t.Errorf("the record has %v", n)
	}
}
