package journey

import (
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// Words without a gap, letters that turn the text around them, and things left
// half done: the screen holds, and nothing that was typed is gone.
func TestRoughHandling(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Osk's phone", "OT")

	long := strings.Repeat("unbleached", 20)
	colleague := m.Author("colleague")
	wide := machine.NewJob(1)
	colleague.Write(wide, time.Now(), "open", `{"name":"`+long+`"}`)
	colleague.Write(wide, time.Now(), "begin", `{"what":"wash","liquid":"`+long+`","litres":12,"target_s":600}`)
	colleague.Send()
	for _, screen := range []string{"#/t/" + wide.String(), "#/", "#/all", "#/t/" + wide.String() + "/log", "#/t/" + wide.String() + "/about"} {
		ph.Turn(screen)
		ph.Until("the long word on "+screen, `document.body.innerText.includes("unbleached")`)
		if w := browser.Eval[int](ph.Page, `document.documentElement.scrollWidth`); w > 390 {
			t.Errorf("%s is %d px wide on a phone of 390", screen, w)
		}
	}

	// An override that is never ended turns around its own text alone.
	job := ph.NewTreatment("Signal \u202eflag")
	ph.Turn("#/t/" + job + "/log")
	ph.See(browser.Hook("log-entry"))
	if order := browser.Eval[bool](ph.Page, `(b=>b.getBoundingClientRect().left>b.previousElementSibling.getBoundingClientRect().left)(document.querySelector('.said .by'))`); !order {
		t.Error("the initials stand before the sentence that they sign")
	}

	leftHalfDone(t, ph, job)

	ph.Sink(job)
	ph.Tap(browser.Hook("who"))
	ph.Type(browser.Hook("who-new"), "Osk Tarrin Marram")
	ph.Tap(browser.Hook("who-keep"))
	says(ph, "Initials are at most 12 characters; this has 15.")
	stillThere(ph, "who-new", "Osk Tarrin Marram")
}

func leftHalfDone(t *testing.T, ph *phone, job string) {
	t.Helper()
	ph.Sink(job)
	ph.Note("a note")
	ph.Choose(soak)
	ph.Turn("#/reckon")
	ph.Sink(job)
	ph.Reads(browser.Hook("litres"), soak.Litres)
	ph.Reads(browser.Hook("liquid"), soak.Liquid)

	about := "#/t/" + job + "/about"
	ph.Turn(about)
	ph.Tap(browser.Hook("set-fibre"))
	ph.Type(browser.Hook("value-fibre"), "wool, by burning")
	ph.Turn("#/")
	ph.Reload()
	ph.Turn(about)
	ph.See(browser.Hook("value-fibre"))
	stillThere(ph, "value-fibre", "wool, by burning")
	ph.Tap(browser.Hook("keep-fibre"))
	ph.Gone(browser.Hook("value-fibre"))
	ph.Reload()
	ph.See(browser.Hook("set-fibre"))
	if ph.Shows(browser.Hook("value-fibre")) {
		t.Error("a field that was kept is open again")
	}

	ph.Log(job, 3)
	ph.Correct("amend", "a note")
	ph.Type(browser.Hook("field-text"), "a note, written anew")
	ph.Type(browser.Hook("why"), "too short")
	ph.Reload()
	ph.Log(job, 3)
	entry := ph.Correct("amend", "a note")
	stillThere(ph, "field-text", "a note, written anew")
	stillThere(ph, "why", "too short")
	// Back lets go of it.
	ph.Tap(browser.Hook("sheet-back"))
	ph.Tap(entry + " " + browser.Hook("amend"))
	stillThere(ph, "field-text", "a note")
	ph.Tap(browser.Hook("sheet-back"))
}
