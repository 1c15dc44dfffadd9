package journey

import (
	"encoding/json"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// Every reckoning of the library, with its example filled in, answers on the
// narrowest phone: nothing hangs over its edge, nothing bars anybody.
func TestEveryReckoningFitsAPhone(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	var list []struct{ Name, Title string }
	if err := json.Unmarshal(m.Device("reader").Get("/api/reckon"), &list); err != nil || len(list) < 20 {
		t.Fatalf("the list of reckonings (%v): %d", err, len(list))
	}
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	for i, r := range list {
		ph.View(360, 640, i%2 == 1)
		ph.Turn("#/reckon/" + r.Name)
		ph.Until("the form of "+r.Name, `document.querySelector("form")?.getAttribute("aria-label")===`+browser.Quote(r.Title))
		ph.Tap(browser.Hook("reckon-example"))
		ph.See(browser.Hook("working"))
		ph.See(browser.Hook("reckon-is-example"))
		if over := browser.Eval[[]string](ph.Page, overhanging); len(over) > 0 {
			t.Errorf("%s hangs over the edge: %.300q", r.Name, over)
		}
		if cut := browser.Eval[[]string](ph.Page, cutFigures); len(cut) > 0 {
			t.Errorf("%s cuts figures off: %q", r.Name, cut)
		}
		if wide := browser.Eval[[]string](ph.Page, sideways); len(wide) > 0 {
			t.Errorf("%s has tables that are read only by scrolling sideways: %q", r.Name, wide)
		}
		ph.NoBarriers(r.Name + ", an example")
	}
}

// overhanging lists what reaches past the right edge, but for what scrolls in a
// box of its own.
const overhanging = `[...document.querySelectorAll("main *")].filter(e=>!e.closest("svg")&&!e.parentElement.closest(".lines,.unseen")&&!e.matches(".unseen")&&e.getBoundingClientRect().right>innerWidth+1).map(e=>e.outerHTML.slice(0,80))`

// sideways lists the tables that are wider than their box.
const sideways = `[...document.querySelectorAll(".lines")].filter(e=>e.scrollWidth>e.clientWidth+1).map(e=>e.innerText.slice(0,80))`
