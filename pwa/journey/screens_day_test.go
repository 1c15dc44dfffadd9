package journey

import (
	"strings"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// The screens and questions of a wash day are free of serious barriers, light
// and dim: making ready, the shelf, a rinse with its curve, and a drying board.
func TestWashDayScreensHaveNoBarriers(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	day := noon(ph.Person)
	rinsed := rinsedTwice(ph)
	dries := onTheBoard(ph)
	for _, theme := range []string{"light", "dim"} {
		ph.Turn("#/phone")
		ph.Tap(browser.Hook("theme-" + theme))
		readyScreens(ph, theme, rinsed)
		ph.Sink(rinsed)
		questions(ph, theme, []question{
			{"reading-conductivity", "k25"}, {"reading-colour", "colour-0"}, {"reading-suds", "suds-none"}, {"acts", "act-sponge"}, {"limit", "to-ready"},
			{"curve-open", "proposal"}, {"curve-open decide", "decide-why"}, {"more more-source", "k25"}, {"more more-mass", "pad-value"},
			{"more more-dry", "dry-text"}, {"more more-overnight", "overnight-text"}, {"more more-warnings", "why-uncleared"}, {"more more-warnings why-uncleared", "reason-text"},
			{"reading-ph moment", "how-memory"}, {"reading-conductivity meter", "compensates"},
		})
		ph.Sink(dries)
		questions(ph, theme, []question{
			{"reading-humidity", "pad-value"}, {"acts", "act-turn"}, {"dry", "dry-text"}, {"overnight", "overnight-text"}, {"estimate", "sheet-back"},
		})
		ph.Shot(theme + "-drying-board")
		ph.NoBarriers("drying board, " + theme)
		for _, s := range []struct{ name, route, sees string }{
			{"taking over", "#/t/" + dries + "/hand", "take-over"},
			{"a day for paper", "#/t/" + dries + "/day/" + day, "paper"},
			{"two boards, what is due next", "#/", "due-next"},
			{"studio page on a wash day", "#/studio", "studio-day"},
		} {
			ph.Turn(s.route)
			ph.See(browser.Hook(s.sees))
			ph.Shot(theme + "-" + strings.ReplaceAll(s.name, " ", "-"))
			ph.NoBarriers(s.name + ", " + theme)
		}
		ph.Turn("#/phone")
		questions(ph, theme, []question{{"sound-check-open", "sound-play"}, {"sound-check-open sound-play", "sound-yes"}})
	}
}

// question is a way to a question over the sink, and what it shows.
type question struct{ way, sees string }

func questions(ph *phone, theme string, qs []question) {
	ph.t.Helper()
	for _, q := range qs {
		way := strings.Fields(q.way)
		for _, key := range way {
			ph.Tap(browser.Hook(key))
		}
		ph.See("dialog " + browser.Hook(q.sees))
		ph.Shot(theme + "-" + strings.ReplaceAll(q.way, " ", "-"))
		ph.NoBarriers(q.way + ", " + theme)
		ph.Leave()
	}
}

func rinsedTwice(ph *phone) (job string) {
	ph.t.Helper()
	job = ph.NewTreatment("Harbour-office signal flag")
	ph.Source("4.5", "20")
	for i, r := range endsOfRinses[:2] {
		ph.Choose(rinse)
		ph.Ago(7 - i)
		ph.Begin()
		ph.Reading("temperature", r.temp)
		ph.Reading("conductivity", r.kappa)
		ph.Judge("suds", r.suds)
		if i == 0 {
			ph.End()
		}
	}
	ph.See(browser.Hook("curve-open"))
	return job
}

func onTheBoard(ph *phone) (job string) {
	ph.t.Helper()
	job = ph.NewTreatment("Child's quilted bonnet")
	ph.Choose(rinse)
	ph.Ago(9)
	ph.Begin()
	ph.End()
	ph.Tap(browser.Hook("what-drying"))
	ph.NoBarriers("choosing a drying")
	ph.Begin()
	ph.Reading("air_temperature", "20.5")
	ph.Press("act-check")
	return job
}

func readyScreens(ph *phone, theme, job string) {
	ph.t.Helper()
	page := func(name, sees string) {
		ph.t.Helper()
		ph.See(browser.Hook(sees))
		ph.Shot(theme + "-" + strings.ReplaceAll(name, " ", "-"))
		ph.NoBarriers(name + ", " + theme)
	}
	ph.Ready(job, "checks")
	for part, sees := range map[string]string{"plan": "plan-edit", "tray": "part-tray", "water": "part-water", "dwell": "dwell-add", "stop": "stop-edit"} {
		ph.Ready(job, part)
		ph.See(browser.Hook(sees))
	}
	ph.Tap(browser.Hook("dwell-add"))
	ph.See(browser.Hook("dwell-name"))
	ph.Tap(browser.Hook("plan-edit"))
	ph.Tap(browser.Hook("plan-add-wash"))
	ph.Tap(browser.Hook("stop-edit"))
	page("make ready, all of it open", "stop-text")
	ph.Tap(browser.Hook("stop-leave"))
	ph.Tap(browser.Hook("dwell-leave"))
	ph.Tap(browser.Hook("plan-leave"))
	ph.Turn("#/shelf")
	page("the shelf", "batch-make")
	ph.Turn("#/shelf/batch")
	for _, f := range [][2]string{{"product", "sodium dodecyl sulfate"}, {"active", "30"}, {"target", "1"}, {"litres", "12"}} {
		ph.Type(browser.Hook("batch-"+f[0]), f[1])
	}
	page("making up a solution", "batch-right")
	for _, r := range []string{"air", "conductivity", "drying", "rinse_end", "water_plan"} {
		ph.Turn("#/reckon/" + r)
		ph.See("form")
		ph.NoBarriers("reckoning " + r + ", " + theme)
	}
}
