package journey

import (
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// The sample day plays a minute a second, and nothing that is pressed meanwhile
// is recorded.
func TestSamplePlays(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir(), "--sample")
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.NewTreatment("Harbour-office signal flag") // it says who is at the sink
	ph.Unsent(0)
	ph.Turn("#/")
	ph.See(browser.Hook("play-door"))
	ph.Tap(browser.Hook("play-door"))
	ph.See(browser.Hook("play-clock"))
	ph.See(browser.Hook("card"))
	held := len(ph.Lines())

	const clock = `document.querySelector('[data-test=play-clock]').dataset`
	ph.Until("a minute a second", clock+`.rate==="60"`)
	// Played time against the page's own, over two minutes of the day; empty
	// stretches are skipped, so it may be faster.
	ph.Until("the first look", `(window.journeyFrom={real:performance.now(),played:Number(`+clock+`.ms)},true)`)
	ph.Until("two minutes of the day", `Number(`+clock+`.ms)-journeyFrom.played>=120000`)
	if rate := browser.Eval[float64](ph.Page, `(Number(`+clock+`.ms)-journeyFrom.played)/(performance.now()-journeyFrom.real)`); rate < 40 {
		t.Errorf("the day plays at %.0f times", rate)
	}
	for range 200 {
		if ph.Shows(`a.card.runs` + browser.Hook("card")) {
			break
		}
		ph.Tap(browser.Hook("play-next"))
	}
	ph.Tap(browser.Hook("play-pause"))
	ph.Until("the day to stand", clock+`.rate==="0"`)
	ph.Shot("play-now")
	ph.NoBarriers("a played day")
	ph.Tap(`a.card.runs` + browser.Hook("card"))
	ph.See(browser.Hook("note"))
	ph.Shot("play-sink")
	ph.NoBarriers("a played sink")
	ph.Tap(browser.Hook("note"))
	ph.Type(browser.Hook("note-text"), "Nobody keeps this.")
	ph.Press("keep")
	says(ph, "nothing is recorded")
	ph.Tap(browser.Hook("sheet-back"))
	ph.Press("stop")
	says(ph, "nothing is recorded")
	ph.Tap(browser.Hook("play-leave"))
	ph.Gone(browser.Hook("play-clock"))
	ph.Unsent(0)
	if now := len(ph.Lines()); now != held {
		t.Errorf("the phone holds %d entries after the play, %d before", now, held)
	}
}
