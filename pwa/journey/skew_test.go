package journey

import (
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// skewed is what a script finds on a device whose clock is seven minutes fast.
const skewed = `{const D=Date;self.Date=class extends D{constructor(...a){a.length?super(...a):super(D.now()+420000)}static now(){return D.now()+420000}}};`

// A device's clock is minutes wrong. It learns so from the studio machine, the
// record says so, and both devices show the same time on the clock.
func TestWrongClock(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	base := front(t, m, func(_ string, file []byte) []byte { return append([]byte(skewed), file...) })
	c := browser.Start(t, browser.Options{Name: "fast clock", Home: t.TempDir(), Phone: true})
	fast := hands.With(t, c.Page(), base, "IB")
	fast.Pair(m.Code(), "fast clock")
	osk := pairedPhone(t, m, "Osk's phone", "OT")

	job := fast.NewTreatment("Harbour-office signal flag")
	fast.Choose(soak)
	fast.Begin()
	begun := time.Now()
	osk.Sink(job)
	osk.BeAtSink("OT")
	osk.See(browser.Hook("clock"))
	clockIs(t, fast, begun, 10*time.Minute)
	clockIs(t, osk.Person, begun, 10*time.Minute)
	fast.Tap(browser.Hook("more"))
	fast.Until("to be told of the wrong clock", `document.body.innerText.includes("ahead of the studio machine")`)
	fast.Tap(browser.Hook("sheet-back"))

	// Started four minutes ago, by either clock, is four minutes ago.
	osk.End()
	fast.See(browser.Hook("begin"))
	fast.Choose(rinse)
	fast.Ago(4)
	fast.Begin()
	begun = time.Now().Add(-4 * time.Minute)
	osk.See(browser.Hook("clock"))
	clockIs(t, fast, begun, 8*time.Minute)
	clockIs(t, osk.Person, begun, 8*time.Minute)

	fast.Unsent(0)
	osk.Unsent(0)
	es := reader.Log(job)
	if !strings.Contains(join(es), `"kind":"clock"`) {
		t.Errorf("the record does not say that the clock is wrong:\n%s", join(es))
	}
	sameLinesOf(t, fast, es, job)
}
