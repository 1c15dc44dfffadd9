package dossier

import (
	"strconv"

	"sinkside/sync/journal"
)

// day makes one of the kinds of entry of a wash day, about what was picked.
func (s *studio) day(num string, pick func(...string) (journal.Entry, bool)) (kind, body string) {
	of := ""
	if e, ok := pick("begin"); ok {
		of = e.Name.String()
	}
	about := func(rest string) string {
		if of == "" {
			return `{` + rest + `}`
		}
		return `{"of":"` + of + `",` + rest + `}`
	}
	list := func(kinds ...string) string {
		if e, ok := pick(kinds...); ok {
			return `["` + e.Name.String() + `"]`
		}
		return `[]`
	}
	mono := `"mono":{"s":"a","ms":` + strconv.FormatInt(s.now-morning, 10) + `}`
	switch s.rng.IntN(15) {
	case 0:
		return "plan", `{"baths":[{"what":"wash","liquid":"Bath A","litres":` + num + `.50,"target_s":480,"temp_c":21.0},{"what":"drying"}],"over":` + list("plan") + `}`
	case 1:
		return "dwell", `{"colour":"` + []string{"", "red", "blue"}[s.rng.IntN(3)] + `","liquid":"Bath A","s":` + num + `00,"temp_c":2` + num + `,"ph_from":6.0,"faces":"both","name":"OT"}`
	case 2:
		return "act", about(`"what":"` + []string{"sponge", "rock", "blotter", "check"}[s.rng.IntN(4)] + `","s":` + num)
	case 3:
		return "abort", `{"of":` + list("begin") + `,"steps":["drain the tray"],"generic":true,` + mono + `}`
	case 4:
		if e, ok := pick("abort", "begin"); ok {
			return "reason", `{"of":"` + e.Name.String() + `","text":"the red ran, ` + num + `"}`
		}
	case 5:
		return "decide", about(`"what":"stop_rinsing","why":"plateau ` + num + `","proposed":"Rinsing may stop."`)
	case 6, 7:
		return "dry", `{"how":"touch","text":"hems too, ` + num + `"}`
	case 8:
		return "takeover", `{"from":"OT"}`
	case 9:
		return "overnight", `{"who":"OT","until":"2026-03-05T08:00:00Z","text":"` + num + `"}`
	case 10, 11:
		return "heard", `{"cue":"target:` + of + `"}`
	case 13:
		return "reckoned", `{"name":"tray","title":"What a tray holds","inputs":{"length":"90","depth":` + num + `},"values":[{"name":"litres","title":"The tray holds","shown":"` + num + ` L","value":` + num + `,"unit":"L"}],"program":"0.3"}`
	case 12:
		return "photo", about(`"blob":"` + journal.Name{byte(s.rng.IntN(250))}.String() + `","type":"image/jpeg","bytes":` + num + `000,"w":1600,"h":1200`)
	}
	item := checklistItems[s.rng.IntN(len(checklistItems))][0]
	return "set", `{"field":"check.` + item + `","value":"` + []string{"yes", "no"}[s.rng.IntN(2)] + `","over":` + list("set") + `}`
}
