package journey

import (
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// A reckoning for a treatment with the studio machine away: found by a question,
// filled in, kept, found in the log, reckoned again, its purpose amended, and
// struck. Its form outlives the page.
func TestReckonedForATreatmentOffline(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	job := ph.NewTreatment("Harbour-office signal flag")
	libraryHere(ph)
	ph.browser.ExpectUnreachable()
	m.Stop()
	ph.Disconnected()

	ph.Sink(job)
	ph.Tap(browser.Hook("more"))
	ph.Tap(`a[href="#/t/` + job + `/reckon"]`)
	ph.Type(browser.Hook("find"), "how many litres does my tray take")
	ph.Reads(browser.Hook("found"), "fit")
	ph.Shot("reckonings-found")
	ph.NoBarriers("reckonings found")
	ph.Tap(browser.Hook("reckon-tray"))

	ph.Type(browser.Hook("input-length"), "80")
	ph.Type(browser.Hook("input-width"), "60")
	ph.Reads(browser.Hook("reckon-wants"), "depth")
	ph.Type(browser.Hook("input-depth"), "8,5")
	ph.Reads(browser.Hook("value-litres"), "40.8 L") // 80 x 60 x 8.5 cm = 40 800 cm3
	ph.Reload()
	ph.Reads(browser.Hook("value-litres"), "40.8 L")
	stillThere(ph, "input-depth", "8,5")

	ph.Type(browser.Hook("keep-text"), "for the wash")
	ph.Tap(browser.Hook("keep-go"))
	ph.See(browser.Hook("keep-done"))
	ph.Shot("reckoned-kept")
	ph.NoBarriers("a result kept")

	ph.Turn("#/t/" + job + "/log")
	const said = "Reckoned, What a tray holds (for the wash): the tray holds 40.8 L"
	ph.Reads(`[data-kind=reckoned]`, said)
	ph.Amend(said, "text", "for the rinse", "the wash is in the other tray")
	ph.Tap(`[data-kind=reckoned] ` + browser.Hook("reckon-again"))
	ph.Reads(browser.Hook("again-same"), "the same figures")
	if !browser.Eval[bool](ph.Page, `!!(document.querySelector(".cautions").compareDocumentPosition(document.querySelector("[data-test=kept-litres]"))&Node.DOCUMENT_POSITION_FOLLOWING)`) {
		t.Error("the figure that was kept stands above the cautions for people")
	}
	ph.Reads("main", "for the rinse")
	ph.Reads(browser.Hook("kept-litres"), "40.8 L")
	ph.Reads(browser.Hook("value-litres"), "40.8 L")
	stillThere(ph, "input-depth", "8,5")
	ph.Shot("reckoned-again")
	ph.NoBarriers("a reckoning opened again")
	ph.Type(browser.Hook("input-depth"), "10")
	ph.Reads(browser.Hook("value-litres"), "48 L")
	ph.Reads(browser.Hook("kept-litres"), "40.8 L")

	ph.Turn("#/t/" + job + "/reckon")
	ph.See(browser.Hook("kept"))
	ph.See(browser.Hook("lately-tray"))
	ph.NoBarriers("reckonings of a treatment")
	ph.Turn("#/t/" + job + "/log")
	// The amendment says the same words, so the entry is found by its kind.
	ph.Tap(`[data-kind=reckoned] ` + browser.Hook("log-line"))
	ph.Tap(`[data-kind=reckoned] ` + browser.Hook("strike"))
	ph.Type(browser.Hook("why"), "wrong tray")
	ph.Tap(browser.Hook("strike-go"))
	ph.Gone(browser.Hook("strike-go"))
	ph.Turn("#/t/" + job + "/reckon")
	ph.See(browser.Hook("lately-tray"))
	ph.Gone(browser.Hook("kept"))

	m.Start()
	ph.Unsent(0)
	var kept int
	for _, e := range reader.AwaitLog(job, len(ph.Lines())-1) {
		if e.Kind == "reckoned" {
			kept++
			inputs, _ := e.Body["inputs"].(map[string]any)
			depth, _ := inputs["depth"].(map[string]any)
			program, _ := e.Body["program"].(string)
			if depth["value"] != "8,5" || depth["unit"] != "cm" || !strings.HasPrefix(program, "reckonings ") {
				t.Errorf("kept %s", e.Line)
			}
		}
	}
	if kept != 1 {
		t.Errorf("%d reckonings are kept, want 1", kept)
	}
}

// What another version reckoned otherwise stays as it was kept; what differs is
// named. It is on the day's paper.
func TestReckonedByAnotherVersion(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	other := m.Author("another phone")
	job := machine.NewJob(7)
	at := time.Now().Add(-time.Minute)
	other.Write(job, at, "open", `{"name":"Harbour-office signal flag"}`)
	entry := other.Write(job, at, "reckoned", `{"name":"tray","title":"What a tray holds","inputs":{"length":"80","width":"60","depth":"8,5"},`+
		`"values":[{"name":"litres","title":"The tray holds","shown":"39 L","value":39,"unit":"L"}],"program":"reckonings 0000000000000000"}`)
	gone := other.Write(job, at, "reckoned", `{"name":"abacus","title":"Beads","inputs":{"beads":"3"},"values":[{"name":"beads","title":"Beads","shown":"3"}],"program":"reckonings 0000000000000000"}`)
	other.Send()
	ph := pairedPhone(t, m, "Runa's phone", "RV")

	ph.Open("#/t/" + job.String() + "/reckoned/" + entry.String())
	ph.Reads(browser.Hook("again-differs"), "other figures")
	ph.Reads(browser.Hook("again"), "The tray holds: 39 L then, 40.8 L now.")
	ph.Reads(browser.Hook("kept-litres"), "39 L")
	ph.NoBarriers("reckoned otherwise by another version")
	ph.Turn("#/t/" + job.String() + "/reckoned/" + gone.String())
	ph.Reads("main", "This version has no such reckoning")
	ph.Reads(browser.Hook("kept-beads"), "3")

	ph.Turn("#/t/" + job.String() + "/day/" + browser.Eval[string](ph.Page, `(d=>[d.getFullYear(),d.getMonth()+1,d.getDate()].map(n=>String(n).padStart(2,"0")).join("-"))(new Date(`+browser.Quote(at.Format(time.RFC3339))+`))`))
	ph.Until("the reckoning on paper", `document.querySelector('[data-test=paper]')?.textContent.includes("Reckoned, What a tray holds: the tray holds 39 L")`)
}

// A table grows and shrinks, what is wrong in it is told at its field, an example
// takes nothing away from what stood there and is not kept with a treatment.
func TestReckonWithATable(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.Turn("#/reckon/several")
	ph.Type(browser.Hook("input-litres"), "12")
	ph.Type(browser.Hook("input-ingredients-0-name"), "SDS")
	ph.Type(browser.Hook("input-ingredients-0-target"), "1")
	ph.See(browser.Hook("value-products"))
	ph.Tap(browser.Hook("add-ingredients"))
	ph.Until("the new row to be typed in", `document.activeElement===document.querySelector('[data-test=input-ingredients-1-name]')`)
	ph.Type(browser.Hook("input-ingredients-1-name"), "citric acid")
	ph.Type(browser.Hook("input-ingredients-1-target"), "1o")
	ph.Until("the fault at its field", `document.querySelector('[data-test=input-ingredients-1-target]').closest(".field").innerText.includes("1o")`)
	ph.NoBarriers("a table with a fault")
	ph.Tap(browser.Hook("drop-ingredients-1"))
	ph.Gone(browser.Hook("input-ingredients-1-name"))
	ph.See(browser.Hook("table"))

	if ph.Shows(browser.Hook("input-litres_pm")) {
		t.Error("a field for ± is there before anybody asked for it")
	}
	ph.Tap(browser.Hook("plus-minus"))
	ph.Type(browser.Hook("input-litres_pm"), "1")
	ph.Reads(browser.Hook("value-products"), " to ")
	ph.Tap(browser.Hook("plus-minus"))
	ph.Gone(browser.Hook("input-litres_pm"))

	ph.See(browser.Hook("keep-with"))
	ph.Tap(browser.Hook("reckon-example"))
	ph.See(browser.Hook("reckon-is-example"))
	ph.See(browser.Hook("input-ingredients-2-name"))
	ph.Gone(browser.Hook("keep-with"))
	ph.NoBarriers("an example")
	ph.Reload()
	ph.See(browser.Hook("value-products"))
	stillThere(ph, "input-ingredients-0-name", "SDS")
	ph.Tap(browser.Hook("reckon-example"))
	ph.See(browser.Hook("reckon-is-example"))
	ph.Tap(browser.Hook("reckon-put-back"))
	ph.Gone(browser.Hook("reckon-is-example"))
	stillThere(ph, "input-ingredients-0-name", "SDS")
}

// libraryHere waits until the phone can reckon without a network, and has all else that
// is no part of its first download.
func libraryHere(ph *phone) {
	ph.t.Helper()
	for what, name := range map[string]string{"the library of reckonings": "/library-", "further letters": "-latin-ext-400-"} {
		ph.Until(what+" to be kept", `caches.open("library").then(c=>c.keys()).then(k=>k.some(r=>r.url.includes("`+name+`")))`)
	}
}
