package journey

import (
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// Two people say two things about an object while they are out of reach of
// each other. Neither is dropped in silence; one of them chooses. The treatment
// is closed, opened again from the archive by a device that never carried it,
// and goes on.
func TestAboutTheObject(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := pairedPhone(t, m, "Runa's phone", "RV")
	osk := pairedPhone(t, m, "Osk's phone", "OT")
	job := runa.NewTreatment("Sampler band of drawn-thread work")
	osk.Sink(job)
	osk.BeAtSink("OT")
	osk.Unsent(0)

	both := []*phone{runa, osk}
	for _, p := range both {
		p.browser.ExpectUnreachable()
	}
	m.Stop()
	for i, p := range both {
		p.Disconnected()
		p.Turn("#/t/" + job + "/about")
		p.Tap(browser.Hook("set-fibre"))
		p.Type(browser.Hook("value-fibre"), []string{"linen", "linen and silk"}[i])
		p.Tap(browser.Hook("keep-fibre"))
		p.Gone(browser.Hook("value-fibre"))
		p.Unsent(1)
	}
	m.Start()
	for _, p := range both {
		p.Unsent(0)
	}
	for _, p := range both {
		p.Until("two values to choose from", `document.querySelectorAll('[data-test=fact-fibre] [data-test=choose]').length===2`)
		p.Shot("two-values")
		p.NoBarriers("two values")
	}
	osk.Tap(browser.Hook("fact-fibre") + ` [data-test=choose]:nth-of-type(2)`)
	for _, p := range both {
		p.Until("one value that is agreed", `!document.querySelector('[data-test=fact-fibre] [data-test=choose]')`)
	}
	if a, b := runa.Text(browser.Hook("fact-fibre")), osk.Text(browser.Hook("fact-fibre")); a != b {
		t.Errorf("Runa's phone shows %q, Osk's %q", a, b)
	}

	osk.Tap(browser.Hook("close"))
	osk.Type(browser.Hook("close-why"), "Waits for the frame.")
	osk.Tap(browser.Hook("close-go"))
	osk.See(browser.Hook("reopen"))
	osk.Unsent(0)
	runa.Turn("#/")
	runa.See(browser.Hook("nothing"))

	ib := pairedPhone(t, m, "Ib's phone", "IB")
	ib.See(browser.Hook("nothing"))
	ib.Turn("#/all")
	ib.Tap(browser.Hook("treatment"))
	ib.See(browser.Hook("note"))
	ib.BeAtSink("IB")
	es := reader.AwaitLog(job, 5)
	sameLinesOf(t, ib.Person, es, job)
	ib.Turn("#/t/" + job + "/about")
	ib.Tap(browser.Hook("reopen"))
	ib.Tap(browser.Hook("reopen-go"))
	runa.See(browser.Hook("card"))
	runa.Sink(job)
	runa.Choose(soak)
	runa.Begin()
	runa.Unsent(0)
	es = reader.AwaitLog(job, 7)
	for _, p := range []*phone{runa, osk, ib} {
		sameLinesOf(t, p.Person, es, job)
	}
}
