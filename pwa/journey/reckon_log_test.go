package journey

import (
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// The hours of a treatment are filled in from its log, those of the studio from the
// studio machine; what was typed by hand before can be had back. With the studio
// machine away, that is said.
func TestReckonFromTheLog(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	other := m.Author("another phone")
	job := machine.NewJob(8)
	at := time.Now().Add(-3 * time.Hour)
	other.Write(job, at, "open", `{"name":"Harbour-office signal flag"}`)
	for i, minutes := range []int{30, 45} {
		begun := at.Add(time.Duration(i) * time.Hour)
		step := other.Write(job, begun, "begin", `{"what":"rinse","liquid":"deionised water","litres":12,"target_s":480}`)
		other.Write(job, begun.Add(time.Duration(minutes)*time.Minute), "end", `{"of":"`+step.String()+`"}`)
	}
	other.Send()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	libraryHere(ph)

	ph.Turn("#/t/" + job.String() + "/reckon/hours")
	ph.Type(browser.Hook("input-work-0-step"), "Photography")
	ph.Type(browser.Hook("input-work-0-took"), "1.5")
	ph.Tap(browser.Hook("fill-in"))
	ph.Reads("form", "2 filled in.")
	stillThere(ph, "input-work-0-step", "Rinse")
	ph.Reads(".answer .figures", "1.25 h") // 30 and 45 minutes
	ph.NoBarriers("hours filled in from the log")
	ph.Tap(browser.Hook("reckon-put-back"))
	stillThere(ph, "input-work-0-step", "Photography")
	ph.Reads(".answer .figures", "1.5 h")

	ph.Turn("#/reckon/estimate")
	ph.Reads("h1", "Estimate")
	ph.Tap(browser.Hook("fill-in"))
	ph.Reads("form", "2 filled in.")
	ph.browser.ExpectUnreachable()
	m.Stop()
	ph.Disconnected()
	ph.Tap(browser.Hook("fill-in"))
	ph.Reads("form", "The studio machine is out of reach")
	stillThere(ph, "input-past-0-step", "Rinse")
}
