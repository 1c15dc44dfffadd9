package dossier

import (
	"strings"
	"testing"

	"sinkside/sync/jsontext"
)

const someRef = "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAE"

func TestCheckTakesTheWholeDay(t *testing.T) {
	cases := []struct{ name, kind, body, want string }{
		{"a rinse by plan", "begin", `{"what":"rinse","liquid":"deionised water","litres":"9,5","target_s":"300","temp_c":"21,5","planned":"3","batch":"Bath A","where":"tray 2","unticked":["weighed"]}`,
			`{"what":"rinse","liquid":"deionised water","litres":9.5,"target_s":300,"temp_c":21.5,"planned":3,"batch":"Bath A","where":"tray 2","unticked":["weighed"]}`},
		{"a gel without litres", "begin", `{"what":"gel","liquid":"agarose 4 %","litres":"","target_s":600}`, `{"what":"gel","liquid":"agarose 4 %","target_s":600}`},
		{"a drying of which nothing is said", "begin", `{"what":"drying","temp_c":" "}`, `{"what":"drying"}`},
		{"a drying", "begin", `{"what":"drying","face":"up","held":"pins","airflow":"fan","air_m_s":"0,3","sides":"2","target_s":"7200"}`,
			`{"what":"drying","face":"up","held":"pins","airflow":"fan","air_m_s":0.3,"sides":2,"target_s":7200}`},
		{"a conductivity", "reading", `{"q":"conductivity","value":"84","unit":"uS/cm","liquor_c":"21,4","compensated":false,"source":true,"at_end":true,"how":"memory","instrument":"Meter 1"}`,
			`{"q":"conductivity","value":84,"unit":"uS/cm","liquor_c":21.4,"compensated":false,"source":true,"at_end":true,"how":"memory","instrument":"Meter 1"}`},
		{"bath colour", "reading", `{"q":"colour","value":"3","unit":"0-5"}`, `{"q":"colour","value":3,"unit":"0-5"}`},
		{"no suds", "reading", `{"q":"suds","value":"0","unit":""}`, `{"q":"suds","value":0,"unit":""}`},
		{"frost", "reading", `{"q":"air_temperature","value":"-20","unit":"degC"}`, `{"q":"air_temperature","value":-20,"unit":"degC"}`},
		{"a plan", "plan", `{"baths":[{"what":"wash","liquid":"Bath A","litres":"9,5","target_s":"480"},{"what":"drying"}],"over":["` + someRef + `"]}`,
			`{"baths":[{"what":"wash","liquid":"Bath A","litres":9.5,"target_s":480},{"what":"drying"}],"over":["` + someRef + `"]}`},
		{"a plan dropped", "plan", `{"baths":[],"over":[]}`, `{"baths":[],"over":[]}`},
		{"a dwell", "dwell", `{"colour":"red silk","liquid":"Bath A","s":"1200","temp_c":"22","ph_from":"6","ph_to":"6","faces":"both","name":"OT"}`,
			`{"colour":"red silk","liquid":"Bath A","s":1200,"temp_c":22,"ph_from":6,"ph_to":6,"faces":"both","name":"OT"}`},
		{"a dwell of few words", "dwell", `{"colour":"","liquid":"","s":604800,"ph_from":"","name":"OT"}`, `{"colour":"","liquid":"","s":604800,"name":"OT"}`},
		{"an act", "act", `{"what":"sponge","s":"90"}`, `{"what":"sponge","s":90}`},
		{"an act of a moment", "act", `{"what":"turn","of":"` + someRef + `"}`, `{"what":"turn","of":"` + someRef + `"}`},
		{"an abort with nothing said", "abort", `{}`, `{}`},
		{"an abort", "abort", `{"of":["` + someRef + `"],"steps":["drain the tray"],"generic":true}`, `{"of":["` + someRef + `"],"steps":["drain the tray"],"generic":true}`},
		{"a reason", "reason", `{"of":"` + someRef + `","text":"the red ran"}`, `{"of":"` + someRef + `","text":"the red ran"}`},
		{"a decision", "decide", `{"what":"stop_rinsing","why":"plateau, no suds","proposed":"Rinsing may stop."}`, `{"what":"stop_rinsing","why":"plateau, no suds","proposed":"Rinsing may stop."}`},
		{"dry", "dry", `{"how":"weight","text":"48.6 g"}`, `{"how":"weight","text":"48.6 g"}`},
		{"taking over", "takeover", `{"from":"OT"}`, `{"from":"OT"}`},
		{"until tomorrow", "overnight", `{"who":"OT","until":"2026-03-05T08:00:00Z"}`, `{"who":"OT","until":"2026-03-05T08:00:00Z"}`},
		{"until nobody knows", "overnight", `{"who":"OT","until":""}`, `{"who":"OT"}`},
		{"heard", "heard", `{"cue":"target:` + someRef + `"}`, `{"cue":"target:` + someRef + `"}`},
		{"a reckoning", "reckoned", `{"name":"rinse","title":"What rinses leave","inputs":{"kept":"1,5","fresh":{"value":"10","unit":"L"}},"values":[{"name":"left","title":"Left after these rinses","shown":"0.1 %","value":0.1,"unit":"%"},{"name":"grade","title":"pH kept","shown":"4-5"}],"program":"0.3.0 abc","text":"for the plan"}`, `{"name":"rinse","title":"What rinses leave","inputs":{"kept":"1,5","fresh":{"value":"10","unit":"L"}},"values":[{"name":"left","title":"Left after these rinses","shown":"0.1 %","value":0.1,"unit":"%"},{"name":"grade","title":"pH kept","shown":"4-5"}],"program":"0.3.0 abc","text":"for the plan"}`},
		{"a photograph", "photo", `{"blob":"` + someRef + `","type":"image/jpeg","bytes":300000,"w":1600,"h":1200}`, `{"blob":"` + someRef + `","type":"image/jpeg","bytes":300000,"w":1600,"h":1200}`},
		{"a tick", "set", `{"field":"check.weighed","value":"yes","over":[]}`, `{"field":"check.weighed","value":"yes","over":[]}`},
		{"a stop plan", "set", `{"field":"stop_plan","value":"drain the tray\nblot"}`, `{"field":"stop_plan","value":"drain the tray\nblot"}`},
		{"how often", "set", `{"field":"dry_first_min","value":"12"}`, `{"field":"dry_first_min","value":12}`},
		{"a batch", "item", `{"what":"batch","name":"Bath A","active_pct":"27,5","cmc_g_l":"","unit":"× CMC","target":"4","expires":"2026-06-01T00:00:00Z"}`,
			`{"what":"batch","name":"Bath A","active_pct":27.5,"unit":"× CMC","target":4,"expires":"2026-06-01T00:00:00Z"}`},
		{"a water", "item", `{"what":"water","name":"Deionised","source":"deionised","conductivity":"1,4","stock_l":"80","make_l_h":"12"}`,
			`{"what":"water","name":"Deionised","source":"deionised","conductivity":1.4,"stock_l":80,"make_l_h":12}`},
		{"an instrument", "item", `{"what":"instrument","name":"Meter 1","measures":["conductivity"],"compensates":true}`, `{"what":"instrument","name":"Meter 1","measures":["conductivity"],"compensates":true}`},
	}
	for _, c := range cases {
		got, errs := Check(Proposal{Kind: c.kind, Body: jsontext.Value(c.body), At: stamp(morning), By: "RV"}, Now{MS: morning}, nil)
		if string(got) != c.want || errs != nil {
			t.Errorf("%s: %s %v, want %s", c.name, got, errs, c.want)
		}
		if _, err := readBody(c.kind, got); c.kind != "item" && err != nil {
			t.Errorf("%s: the fold doubts it: %v", c.name, err)
		}
	}
}

func TestCheckRefusesOfTheWholeDay(t *testing.T) {
	bath := func(more string) string {
		return `{"what":"rinse","liquid":"tap","litres":9,"target_s":300,` + more + `}`
	}
	cases := []struct{ name, kind, body, field string }{
		{"a flowing rinse without litres", "begin", `{"what":"flowing","liquid":"tap","target_s":300}`, "litres"},
		{"a chelating bath without liquid", "begin", `{"what":"chelating","litres":9,"target_s":300}`, "liquid"},
		{"a pH bath without target", "begin", `{"what":"ph_adjust","liquid":"tap","litres":9}`, "target_s"},
		{"local wetting with nothing", "begin", `{"what":"local","target_s":300}`, "liquid"},
		{"suction without target", "begin", `{"what":"suction","liquid":"tap"}`, "target_s"},
		{"gel, 0 litres", "begin", `{"what":"gel","liquid":"agarose","litres":0,"target_s":300}`, "litres"},
		{"over seven days", "begin", `{"what":"humidify","liquid":"mist","target_s":604801}`, "target_s"},
		{"boiling", "begin", bath(`"temp_c":101`), "temp_c"},
		{"place 0", "begin", bath(`"planned":0`), "planned"},
		{"half a place", "begin", bath(`"planned":1.5`), "planned"},
		{"unticked, no list", "begin", bath(`"unticked":"weighed"`), "unticked"},
		{"unticked, no texts", "begin", bath(`"unticked":[1]`), "unticked"},
		{"perhaps uncleared", "begin", bath(`"uncleared":"yes"`), "uncleared"},
		{"a long place", "begin", bath(`"where":"` + strings.Repeat("x", 201) + `"`), "where"},
		{"drying edgeways", "begin", `{"what":"drying","face":"edge"}`, "face"},
		{"drying with nails", "begin", `{"what":"drying","held":"nails"}`, "held"},
		{"drying in a storm", "begin", `{"what":"drying","airflow":"storm"}`, "airflow"},
		{"a gale", "begin", `{"what":"drying","air_m_s":21}`, "air_m_s"},
		{"three faces", "begin", `{"what":"drying","sides":3}`, "sides"},
		{"no time to dry", "begin", `{"what":"drying","target_s":0}`, "target_s"},
		{"colour 6", "reading", `{"q":"colour","value":6,"unit":"0-5"}`, "value"},
		{"colour 2.5", "reading", `{"q":"colour","value":2.5,"unit":"0-5"}`, "value"},
		{"many suds", "reading", `{"q":"suds","value":2,"unit":""}`, "value"},
		{"unit of suds", "reading", `{"q":"suds","value":1,"unit":"mm"}`, "unit"},
		{"a heavy one", "reading", `{"q":"mass","value":200001,"unit":"g"}`, "value"},
		{"a cold room", "reading", `{"q":"air_temperature","value":-21,"unit":"degC"}`, "value"},
		{"a hot room", "reading", `{"q":"air_temperature","value":61,"unit":"degC"}`, "value"},
		{"more than wet", "reading", `{"q":"humidity","value":101,"unit":"%"}`, "value"},
		{"hot liquor", "reading", `{"q":"conductivity","value":84,"unit":"uS/cm","liquor_c":101}`, "liquor_c"},
		{"maybe compensated", "reading", `{"q":"conductivity","value":84,"unit":"uS/cm","compensated":1}`, "compensated"},
		{"by hearsay", "reading", `{"q":"ph","value":7,"unit":"pH","how":"hearsay"}`, "how"},
		{"in what bath", "reading", `{"q":"ph","value":7,"unit":"pH","of":"that one"}`, "of"},
		{"a plan without baths", "plan", `{"over":[]}`, "baths"},
		{"a plan of one word", "plan", `{"baths":"wash"}`, "baths"},
		{"a bath of the plan without litres", "plan", `{"baths":[{"what":"drying"},{"what":"wash","liquid":"tap","target_s":300}]}`, "baths.1.litres"},
		{"a bath that is none", "plan", `{"baths":[{"what":"boil","liquid":"tap","litres":9,"target_s":300}]}`, "baths.0.what"},
		{"a plan of a hundred and one", "plan", `{"baths":[{"what":"drying"}` + strings.Repeat(`,{"what":"drying"}`, 100) + `]}`, "baths"},
		{"a plan over what", "plan", `{"baths":[],"over":[1]}`, "over"},
		{"a dwell of nothing", "dwell", `{"s":0,"name":"OT"}`, "s"},
		{"a dwell of a week and a second", "dwell", `{"s":604801,"name":"OT"}`, "s"},
		{"half a second", "dwell", `{"s":1.5,"name":"OT"}`, "s"},
		{"a dwell on nobody's word", "dwell", `{"s":60,"name":" "}`, "name"},
		{"a test in steam", "dwell", `{"s":60,"name":"OT","temp_c":101}`, "temp_c"},
		{"pH from 15", "dwell", `{"s":60,"name":"OT","ph_from":15}`, "ph_from"},
		{"pH to -1", "dwell", `{"s":60,"name":"OT","ph_to":-1}`, "ph_to"},
		{"a band upside down", "dwell", `{"s":60,"name":"OT","ph_from":7,"ph_to":6}`, "ph_to"},
		{"three faces tested", "dwell", `{"s":60,"name":"OT","faces":"three"}`, "faces"},
		{"an act unknown", "act", `{"what":"wring"}`, "what"},
		{"an act of less than no time", "act", `{"what":"rock","s":-1}`, "s"},
		{"an abort of one", "abort", `{"of":"` + someRef + `"}`, "of"},
		{"an abort with one step", "abort", `{"steps":"drain"}`, "steps"},
		{"generic or not", "abort", `{"generic":"yes"}`, "generic"},
		{"a reason for nothing", "reason", `{"text":"the red ran"}`, "of"},
		{"no reason", "reason", `{"of":"` + someRef + `","text":" "}`, "text"},
		{"a decision to wait", "decide", `{"what":"wait","why":"x"}`, "what"},
		{"a decision without why", "decide", `{"what":"go_on"}`, "why"},
		{"dry by smell", "dry", `{"how":"smell"}`, "how"},
		{"dry", "dry", `{}`, "how"},
		{"nobody stays", "overnight", `{}`, "who"},
		{"until later", "overnight", `{"who":"OT","until":"later"}`, "until"},
		{"heard what", "heard", `{}`, "cue"},
		{"a reckoning without its name", "reckoned", `{"inputs":{},"values":[{"name":"a","title":"A","shown":"1"}],"program":"x"}`, "name"},
		{"a reckoning without inputs", "reckoned", `{"name":"tray","inputs":[],"values":[{"name":"a","title":"A","shown":"1"}],"program":"x"}`, "inputs"},
		{"a reckoning without a result", "reckoned", `{"name":"tray","inputs":{},"values":[],"program":"x"}`, "values"},
		{"a reckoning with an odd result", "reckoned", `{"name":"tray","inputs":{},"values":[{"name":"a","value":"1"}],"program":"x"}`, "values"},
		{"a reckoning of too many rows", "reckoned", `{"name":"estimate","inputs":{"past":"` + strings.Repeat("8 h; ", 3200) + `"},"values":[{"name":"a","title":"A","shown":"1"}],"program":"x"}`, "body"},
		{"a reckoning of no program", "reckoned", `{"name":"tray","inputs":{},"values":[{"name":"a","title":"A","shown":"1"}]}`, "program"},
		{"no photograph", "photo", `{"type":"image/jpeg","bytes":1,"w":1,"h":1}`, "blob"},
		{"a drawing", "photo", `{"blob":"` + someRef + `","type":"image/png","bytes":1,"w":1,"h":1}`, "type"},
		{"an empty photograph", "photo", `{"blob":"` + someRef + `","type":"image/jpeg","bytes":0,"w":1,"h":1}`, "bytes"},
		{"no width", "photo", `{"blob":"` + someRef + `","type":"image/jpeg","bytes":1,"h":1}`, "w"},
		{"no height", "photo", `{"blob":"` + someRef + `","type":"image/jpeg","bytes":1,"w":1,"h":20001}`, "h"},
		{"half a tick", "set", `{"field":"check.weighed","value":"half"}`, "value"},
		{"a check that is none", "set", `{"field":"check.prayed","value":"yes"}`, "field"},
		{"a third way to 25 °C", "set", `{"field":"k25_way","value":"by feel"}`, "value"},
		{"readings without end", "set", `{"field":"reading_every_min","value":0}`, "value"},
		{"half a minute", "set", `{"field":"dry_later_min","value":0.5}`, "value"},
		{"no pick-up", "set", `{"field":"pick_up_pct","value":0}`, "value"},
		{"dry first for ever", "set", `{"field":"dry_first_hours","value":169}`, "value"},
		{"no stop plan", "set", `{"field":"stop_plan","value":""}`, "value"},
		{"a set over what", "set", `{"field":"fibre","value":"wool","over":"x"}`, "over"},
		{"more than active", "item", `{"what":"batch","name":"Bath A","active_pct":101}`, "active_pct"},
		{"no charge", "item", `{"what":"batch","name":"Bath A","charge":"strong"}`, "charge"},
		{"in spoons", "item", `{"what":"batch","name":"Bath A","unit":"spoons"}`, "unit"},
		{"expires sometime", "item", `{"what":"batch","name":"Bath A","expires":"soon"}`, "expires"},
		{"a sour batch", "item", `{"what":"batch","name":"Bath A","ph":15}`, "ph"},
		{"from the moon", "item", `{"what":"water","name":"W","source":"moon"}`, "source"},
		{"water made backwards", "item", `{"what":"water","name":"W","make_l_h":-1}`, "make_l_h"},
		{"measures one", "item", `{"what":"instrument","name":"M","measures":"ph"}`, "measures"},
		{"a correction of a dwell", "amend", `{"kind":"dwell","of":"` + someRef + `","why":"x","body":{"s":0,"name":"OT"}}`, "s"},
	}
	for _, c := range cases {
		body, errs := Check(Proposal{Kind: c.kind, Body: jsontext.Value(c.body), At: stamp(morning), By: "RV"}, Now{MS: morning}, nil)
		if len(errs) != 1 || errs[0].Field != c.field || len(errs[0].Say) < 10 || body != nil {
			t.Errorf("%s: %v, want one error at %s", c.name, errs, c.field)
		}
	}
}
