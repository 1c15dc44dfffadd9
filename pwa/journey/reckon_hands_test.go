package journey

import (
	"strings"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// Wet hands slip: what was said about keeping outlives a corrected figure, a key
// pressed three times keeps once, a row or a ± taken away can be put back.
func TestReckonWithWetHands(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	job := ph.NewTreatment("Harbour-office signal flag")
	ph.View(360, 640, false)

	ph.Turn("#/t/" + job + "/reckon/tray")
	ph.Type(browser.Hook("input-length"), "80")
	ph.Type(browser.Hook("input-width"), "60")
	ph.Type(browser.Hook("input-depth"), "8")
	ph.Reads(browser.Hook("value-litres"), "38.4 L")
	ph.Type(browser.Hook("keep-text"), "for the wash")
	ph.Type(browser.Hook("input-depth"), "8.")
	ph.Gone(browser.Hook("value-litres"))
	ph.Type(browser.Hook("input-depth"), "8.5")
	ph.Reads(browser.Hook("value-litres"), "40.8 L")
	stillThere(ph, "keep-text", "for the wash")
	for range 3 {
		ph.Tap(browser.Hook("keep-go"))
	}
	ph.See(browser.Hook("keep-done"))
	ph.Type(browser.Hook("keep-text"), "for the rinse")
	ph.Gone(browser.Hook("keep-done"))
	ph.Tap(browser.Hook("keep-go"))
	ph.See(browser.Hook("keep-done"))
	var kept int
	for _, l := range ph.Lines() {
		if strings.Contains(l, `"kind":"reckoned"`) {
			kept++
		}
	}
	if kept != 2 {
		t.Errorf("%d reckonings are kept, want one for the wash and one for the rinse", kept)
	}

	ph.Turn("#/reckon/several")
	ph.Type(browser.Hook("input-litres"), "12")
	ph.Tap(browser.Hook("add-ingredients"))
	ph.Type(browser.Hook("input-ingredients-0-name"), "SDS")
	ph.Type(browser.Hook("input-ingredients-1-name"), "citric acid")
	ph.Tap(browser.Hook("drop-ingredients-0"))
	stillThere(ph, "input-ingredients-0-name", "citric acid")
	ph.Tap(browser.Hook("restore-ingredients"))
	stillThere(ph, "input-ingredients-0-name", "SDS")
	stillThere(ph, "input-ingredients-1-name", "citric acid")
	ph.Gone(browser.Hook("restore-ingredients"))

	ph.Tap(browser.Hook("plus-minus"))
	ph.Type(browser.Hook("input-litres_pm"), "0,5")
	ph.Tap(browser.Hook("plus-minus"))
	ph.Gone(browser.Hook("input-litres_pm"))
	ph.Tap(browser.Hook("plus-minus"))
	stillThere(ph, "input-litres_pm", "0,5")
}

// Who looks at one reckoning and goes back for another finds the search as it was
// left, and not when coming anew. A word mistyped is told.
func TestFindAReckoningAndComeBack(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.Turn("#/reckon")
	ph.Type(browser.Hook("find"), "surfactent zebra")
	ph.Reads(browser.Hook("found"), "“surfactent” is read as surfactant.")
	ph.Reads(browser.Hook("found"), "Nothing is found by “zebra”.")
	ph.NoBarriers("a word mistyped")
	ph.Tap(browser.Hook("reckon-solution"))
	ph.See(browser.Hook("reckon-example"))
	ph.Tap(`a[href="#/reckon"]`)
	ph.See(browser.Hook("find"))
	stillThere(ph, "find", "surfactent zebra")
	ph.Type(browser.Hook("find"), "zebra")
	ph.Reads(browser.Hook("found"), "Nothing here fits")
	ph.See(browser.Hook("family-Mounts"))
	ph.Type(browser.Hook("find"), " ")
	ph.View(360, 640, false)
	ph.Tap(browser.Hook("family-Mounts") + " summary")
	ph.Tap(browser.Hook("reckon-slope"))
	ph.See(browser.Hook("reckon-example"))
	browser.Eval[bool](ph.Page, `(scrollTo(0,0),true)`)
	ph.Tap(`a[href="#/reckon"]`)
	ph.Until("the place in the list where it was left", `(e=>!!e&&e.getBoundingClientRect().top>0&&e.getBoundingClientRect().bottom<=innerHeight)(document.querySelector("[data-test=reckon-slope]"))`)
	ph.Turn("#/")
	ph.Gone(browser.Hook("find"))
	ph.Turn("#/reckon")
	ph.See(browser.Hook("find"))
	stillThere(ph, "find", "")
}

// A phone that lost the studio machine before it had the library gets it when the
// machine is back, on the page where it is missed.
func TestReckoningsComeWhenTheMachineIsBack(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.browser.ExpectUnreachable()
	ph.browser.Expect("Failed to fetch")
	m.Stop()
	ph.Disconnected()
	ph.Turn("#/reckon/cutting")
	ph.Reads("main", "not on this device yet")
	ph.NoBarriers("no reckonings yet")
	ph.Until("the app to have given up fetching it by itself", `performance.now()>17000`)
	m.Start()
	ph.See(browser.Hook("reckon-example"))
}
