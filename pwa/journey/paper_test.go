package journey

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// A day on paper: what was read, with the mark of what came late, and nothing of
// the screen.
func TestPaper(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	day := noon(ph.Person)
	job := rinsedTwice(ph)
	ph.Remembered("ph", "6.9", 5)
	ph.Note("Fringe combed straight under water.")

	ph.Turn("#/day/" + day)
	ph.See(browser.Hook("paper"))
	ph.Until("all of it", `document.querySelector('[data-test=paper]').textContent.includes("Fringe combed")`)
	ph.Shot("day-on-the-screen")
	ph.NoBarriers("a day on the screen")
	ph.AsPrinted(true)
	text := ph.Text("body")
	for _, want := range []string{"Harbour-office signal flag", "20.0", "724.5", "805", "96.6", "105", "6.9", "▲", "late", "from memory", "Fringe combed straight under water."} {
		if !strings.Contains(text, want) {
			t.Errorf("the paper does not say %q", want)
		}
	}
	for _, key := range []string{"print", "print-csv", "back"} {
		if ph.Shows(browser.Hook(key)) {
			t.Errorf("the key %s is printed", key)
		}
	}
	if !browser.Eval[bool](ph.Page, `[...document.querySelectorAll('[data-test=paper] td')].some(c=>c.innerText.includes("6.9")&&c.closest("tr").innerText.includes("▲"))`) {
		t.Error("the pH that came late is not marked beside it")
	}
	pages := func(pdf []byte) int {
		return bytes.Count(pdf, []byte("/Type /Page")) - bytes.Count(pdf, []byte("/Type /Pages"))
	}
	pdf := ph.PDF("day")
	if n := pages(pdf); !bytes.HasPrefix(pdf, []byte("%PDF-")) || n < 1 || n > 4 {
		t.Errorf("the day takes %d pages", n)
	}
	ph.AsPrinted(false)

	ph.Turn("#/t/" + job + "/day/" + day)
	ph.See(browser.Hook("paper"))
	ph.Reads(browser.Hook("day-says"), "One treatment")
	ph.Turn("#/day/2026-02-30")
	ph.Reads("h1", "No such page")
}

// noon puts a device into a time zone in which it is about noon, so that what
// follows is of one day, and returns the day.
func noon(p *hands.Person) (day string) {
	now := time.Now().UTC()
	east := 12 - now.Hour()
	p.Zone(fmt.Sprintf("Etc/GMT%+d", -east)) // by its sign these count west
	return now.Add(time.Duration(east) * time.Hour).Format(time.DateOnly)
}
