package journey

import (
	"net/http"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// Every screen, and every question that opens over the sink, is free of
// serious barriers: light and dim, with a running bath and without.
func TestScreensHaveNoBarriers(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir(), "--sample")
	m.Start()
	ph := newPhone(t, m, "Runa's phone", "RV")
	ph.Go(m.TrustURL())
	ph.See("h1")
	ph.Shot("trust")
	ph.NoBarriers("trusting the studio machine")
	ph.Open("#/pair/" + m.Code())
	ph.See(browser.Hook("pair-go"))
	ph.NoBarriers("pairing")
	ph.Pair(m.Code(), "Runa's phone")

	job := ph.NewTreatment("Harbour-office signal flag")
	ph.Choose(soak)
	ph.Ago(12)
	ph.Begin()
	ph.Reading("temperature", "21")
	ph.Note("Some yellow in the water.")
	ph.Log(job, 4)
	ph.Strike("Some yellow", "the other tray")
	for _, theme := range []string{"light", "dim"} {
		ph.Turn("#/phone")
		ph.Tap(browser.Hook("theme-" + theme))
		checkPages(t, ph, theme, job)
		checkSheets(ph, theme, job)
	}
}

func checkPages(t *testing.T, ph *phone, theme, job string) {
	t.Helper()
	for _, s := range []struct{ name, route, sees string }{
		{"now", "#/", browser.Hook("card")},
		{"all treatments", "#/all", browser.Hook("treatment")},
		{"new treatment", "#/new", browser.Hook("new-go")},
		{"sink with a bath past its time", "#/t/" + job, browser.Hook("end")},
		{"log", "#/t/" + job + "/log", browser.Hook("log-struck")},
		{"about", "#/t/" + job + "/about", "h1"},
		{"reckonings", "#/reckon", "h1"},
		{"a solution", "#/reckon/solution", "form"},
		{"a tray", "#/reckon/tray", "form"},
		{"rinsing", "#/reckon/rinse", "form"},
		{"studio page", "#/studio", browser.Hook("device-row")},
		{"this device", "#/phone", browser.Hook("save-unsent")},
		{"no such page", "#/nowhere/at/all", "h1"},
	} {
		ph.Turn(s.route)
		ph.See(s.sees)
		ph.Shot(theme + "-" + s.name)
		ph.NoBarriers(s.name + ", " + theme)
	}
	ph.Turn("#/studio")
	ph.Tap(browser.Hook("pair-start"))
	ph.See(browser.Hook("trust-url"))
	ph.Tap(browser.Hook("pair-new"))
	ph.See(browser.Hook("pair-code"))
	ph.Shot(theme + "-pair-a-phone")
	ph.NoBarriers("pairing a phone, " + theme)
}

func checkSheets(ph *phone, theme, job string) {
	ph.t.Helper()
	for _, s := range []struct{ opens, sees string }{
		{"reading-temperature", "pad-value"}, {"note", "note-text"}, {"more", "about"}, {"ago", "pad-value"}, {"who", "who-new"},
	} {
		ph.Sink(job)
		ph.Tap(browser.Hook(s.opens))
		ph.See(browser.Hook(s.sees))
		ph.Shot(theme + "-sheet-" + s.opens)
		ph.NoBarriers(s.opens + ", " + theme)
		ph.Tap(browser.Hook("sheet-back"))
		ph.Gone(browser.Hook(s.sees))
	}
	ph.Tap(browser.Hook("more"))
	ph.Tap(browser.Hook("another"))
	ph.See(browser.Hook("begin"))
	ph.NoBarriers("sink between baths, " + theme)
	ph.Tap(browser.Hook("liquid"))
	ph.See(browser.Hook("liquid-new"))
	ph.NoBarriers("liquids, " + theme)
	ph.Tap(browser.Hook("sheet-back"))
	for _, how := range []string{"amend", "strike"} {
		ph.Log(job, 5)
		ph.Correct(how, "Temperature")
		ph.See(browser.Hook("why"))
		ph.Shot(theme + "-" + how)
		ph.NoBarriers(how + ", " + theme)
		ph.Tap(browser.Hook("sheet-back"))
		ph.Gone(browser.Hook("why"))
		ph.Turn("#/")
	}
}

// Who is not paired sees nothing of the record, from this machine neither.
func TestUnpairedSeesNothing(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir(), "--sample")
	m.Start()
	stranger := m.Stranger()
	for _, path := range []string{"/api/me", "/api/place", "/api/devices", "/api/sync", "/api/reckon",
		"/api/day/2026-03-04/log.jsonl", "/api/day/2026-03-04/log.csv", "/api/treatments/01JQ6ZV3W8M0XK5T7N4R2B9CDE/log.jsonl"} {
		if status, b := stranger.Do("GET", path, nil); status != http.StatusUnauthorized {
			t.Errorf("GET %s answers a stranger %d: %s", path, status, b)
		}
	}
	for _, path := range []string{"/api/pair/new", "/api/import", "/api/sample/remove", "/api/successor", "/api/reckon/tray"} {
		if status, b := stranger.Do("POST", path, nil); status != http.StatusUnauthorized {
			t.Errorf("POST %s answers a stranger %d: %s", path, status, b)
		}
	}

	c := browser.Start(t, browser.Options{Name: "stranger", Home: t.TempDir()})
	c.Expect(`401|Authentication failed`)
	p := hands.With(t, c.Page(), m.Local(), "")
	for _, route := range []string{"#/", "#/all", "#/studio"} {
		p.Open(route)
		p.Until("to say that it is not paired", `document.body.innerText.includes("not paired")`)
		for _, mark := range []string{"card", "treatment", "device-row", "log-entry", "pair-code"} {
			if p.Shows(browser.Hook(mark)) {
				t.Errorf("%s shows a stranger %s", route, mark)
			}
		}
	}
}
