package journey

import (
	"strings"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// What cannot be gets a sentence where it was typed, before an entry is
// written, and what was typed is still there.
func TestOddInput(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Osk's phone", "OT")

	oddNames(ph)
	job := ph.NewTreatment("Häubchen 🧶 «quilted» <b>&amp;")
	ph.Reads("h1", "Häubchen 🧶 «quilted» <b>&amp;")
	oddBaths(ph)
	ph.Choose(soak)
	ph.Begin()
	oddReadings(ph)
	oddNotes(t, ph, job)
	oddTimes(ph)
	oddAmendments(ph, job)

	ph.Unsent(0)
	es := reader.Log(job)
	if len(es) != 3 {
		t.Errorf("odd input was written: %v", machine.Kinds(es))
	}
}

// says waits for a sentence in a fault on the screen.
func says(ph *phone, sentence string) {
	ph.t.Helper()
	ph.Until("the sentence "+sentence,
		`[...document.querySelectorAll(".fault,[role=alert]")].some(e=>e.getClientRects().length&&e.innerText.replace(/\s+/g," ").includes(`+browser.Quote(sentence)+`))`)
}

// stillThere compares what stands in a field with what was typed.
func stillThere(ph *phone, name, typed string) {
	ph.t.Helper()
	if got := browser.Eval[string](ph.Page, `document.querySelector(`+browser.Quote(browser.Hook(name))+`).value`); got != typed {
		ph.t.Errorf("%s holds %.60q, want %.60q", name, got, typed)
	}
}

func oddNames(ph *phone) {
	ph.t.Helper()
	long := strings.Repeat("band ", 2000)
	for _, c := range []struct{ name, by, sentence string }{
		{"   ", "OT", "Give the object a name"},
		{long, "OT", "up to 200 characters"},
		{"Signal flag", " ", "Say who is at the sink"},
		{"Signal flag", "Osk Tarrin of Marram", "at most 12"},
	} {
		ph.Turn("#/new")
		ph.Type(browser.Hook("new-name"), c.name)
		ph.Type(browser.Hook("new-who"), c.by)
		ph.Tap(browser.Hook("new-go"))
		says(ph, c.sentence)
		stillThere(ph, "new-name", c.name)
		ph.Turn("#/")
	}
}

func oddBaths(ph *phone) {
	ph.t.Helper()
	for _, c := range []struct{ litres, minutes, sentence string }{
		{"0", "10", "0"},
		{"99999999", "10", "99999999"},
		{"12", "99999999", "arget"},
	} {
		b := soak
		b.Litres, b.Minutes = c.litres, c.minutes
		ph.Choose(b)
		ph.Press("begin")
		says(ph, c.sentence)
		ph.Reads(browser.Hook("litres"), c.litres)
		ph.Reads(browser.Hook("target"), c.minutes)
	}
}

func oddReadings(ph *phone) {
	ph.t.Helper()
	for _, c := range []struct{ quantity, value, sentence string }{
		{"ph", "15", "pH 15 cannot be"},
		{"temperature", "900", "900 cannot be"},
		{"conductivity", "99999999", "99999999 cannot be"},
	} {
		ph.Tap(browser.Hook("reading-" + c.quantity))
		ph.Figures(c.value)
		ph.Press("keep")
		says(ph, c.sentence)
		ph.Reads(browser.Hook("pad-value"), c.value)
		ph.Tap(browser.Hook("sheet-back"))
	}
	ph.Tap(browser.Hook("reading-ph"))
	ph.Press("keep")
	says(ph, "Nothing has been typed yet")
	for _, key := range []string{"key-1", "key-2", "key-dot", "key-dot", "key-5"} {
		ph.Tap(browser.Hook(key))
	}
	ph.Reads(browser.Hook("pad-value"), "12.5")
	ph.Tap(browser.Hook("sheet-back"))
}

func oddNotes(t *testing.T, ph *phone, job string) {
	t.Helper()
	long := strings.Repeat("the blue bleeds a little ", 400)
	ph.Tap(browser.Hook("note"))
	ph.Press("keep")
	says(ph, "The note is empty")
	ph.Type(browser.Hook("note-text"), long)
	ph.Press("keep")
	says(ph, "up to 3500 characters")
	stillThere(ph, "note-text", long)

	// Left unfinished, and the page loaded anew: it stays.
	ph.Reload()
	ph.Sink(job)
	ph.Tap(browser.Hook("note"))
	stillThere(ph, "note-text", long)
	ph.Type(browser.Hook("note-text"), "🧵\u202e\u0000 \"quoted\" \\ <script>alert(1)</script>")
	ph.Press("keep")
	ph.Gone(browser.Hook("note-text"))
}

func oddTimes(ph *phone) {
	ph.t.Helper()
	ph.Ago(5)
	ph.Press("end")
	says(ph, "before the bath began")
	ph.Ago(99999999)
	ph.Press("end")
	says(ph, "more than a hundred years ago")
	ph.Ago(0)
}

func oddAmendments(ph *phone, job string) {
	ph.t.Helper()
	for _, c := range []struct{ field, value, why, sentence string }{
		{"litres", "12,,5", "misread", "is no number"},
		{"litres", "-3", "misread", "cannot be"},
		{"litres", "NaN", "misread", "is no number"},
		{"litres", "1e3", "misread", "is no number"},
		{"litres", "13", "  ", "Say"},
	} {
		ph.Log(job, 3)
		ph.Correct("amend", "Pre-soak 1 begun")
		ph.Type(browser.Hook("field-"+c.field), c.value)
		ph.Type(browser.Hook("why"), c.why)
		ph.Tap(browser.Hook("amend-go"))
		says(ph, c.sentence)
		stillThere(ph, "field-"+c.field, c.value)
		ph.Tap(browser.Hook("sheet-back"))
		ph.Turn("#/")
	}
	ph.Log(job, 3)
	ph.Correct("amend", "Pre-soak 1 begun")
	browser.Eval[bool](ph.Page, `(e=>{e.value="2099-01-01T10:00:00";e.dispatchEvent(new Event("input",{bubbles:true}));return true})(document.querySelector('[data-test=amend-at]'))`)
	ph.Type(browser.Hook("why"), "misread")
	ph.Tap(browser.Hook("amend-go"))
	says(ph, "in the future")
	ph.Tap(browser.Hook("sheet-back"))
}
