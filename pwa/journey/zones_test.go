package journey

import (
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// The clocks are put on and back while an object soaks, and somebody carries
// the phone into another zone. What has gone and what is left is the same; times
// are said as the clock on the wall has them, and the record keeps the offsets.
func TestZones(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := timedPhone(t, m, "Runa's phone", "RV")
	ph.restarts(m)
	ph.browser.ExpectUnreachable()
	m.Stop()
	ph.Disconnected()

	hour := hands.Bath{What: "presoak", Liquid: "deionised water", Litres: "12", Minutes: "60"}
	for _, c := range []struct {
		begun       string // UTC
		from, until string // as London's clocks say
		offsets     [2]string
		newYork     string
	}{
		{"2026-03-29T00:40:10Z", "00:40", "02:40", [2]string{"+00:00", "+01:00"}, "28 March 21:40"},
		{"2026-10-25T00:40:10Z", "01:40", "01:40", [2]string{"+01:00", "+00:00"}, "24 October 21:40"},
	} {
		ph.Zone("Europe/London")
		at, err := time.Parse(time.RFC3339, c.begun)
		if err != nil {
			t.Fatal(err)
		}
		ph.passes(at.Sub(ph.now()))
		job := ph.NewTreatment("Sampler band of drawn-thread work")
		ph.Choose(hour)
		// Choosing took its time, which is not of the test's making.
		ph.passes(at.Sub(ph.now()))
		ph.Begin()
		begun := ph.now()
		ph.passes(40 * time.Minute)
		ph.leaves(begun, time.Hour)
		ph.Reads(browser.Hook("running"), "until "+c.until)
		ph.Until("when it began", `document.querySelector(".clock").textContent.includes("begun `+c.from+` by RV")`)
		ph.Reads(browser.Hook("immersed"), "40 min")

		ph.Zone("America/New_York")
		ph.Reload()
		ph.leaves(begun, time.Hour)
		ph.Reads(browser.Hook("immersed"), "40 min")
		ph.Reads(browser.Hook("running"), "until 21:40")
		ph.Zone("Europe/London")
		ph.Reload()
		ph.End()
		lines := strings.Join(ofJob(ph.Lines(), job), "\n")
		for i, e := range machine.Entries(t, []byte(lines))[1:] {
			if !strings.HasSuffix(e.At, c.offsets[i]) {
				t.Errorf("%s was recorded at %s, want the offset %s", e.Kind, e.At, c.offsets[i])
			}
		}
		defer func() {
			if es := reader.AwaitLog(job, 3); join(es) != lines+"\n" {
				t.Errorf("the studio machine has\n%s\nthe phone wrote\n%s", join(es), lines)
			}
		}()
		ph.Turn("#/")
	}
	ph.passes(-*ph.clock)
	m.Start()
	ph.Connected()
	ph.Unsent(0)
}
