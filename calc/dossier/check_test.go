package dossier

import (
	"strings"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

func TestCheckTakes(t *testing.T) {
	now := Now{MS: morning}
	cases := []struct{ name, kind, body, at, want string }{
		{"a comma", "reading", `{"q":"ph","value":" 6,40 ","unit":"pH"}`, stamp(morning), `{"q":"ph","value":6.40,"unit":"pH"}`},
		{"a number", "reading", `{"q":"conductivity","value":84,"unit":"uS/cm"}`, stamp(morning), `{"q":"conductivity","value":84,"unit":"uS/cm"}`},
		{"groups of three", "reading", `{"q":"conductivity","value":"1 200,50","unit":"uS/cm"}`, stamp(morning), `{"q":"conductivity","value":1200.50,"unit":"uS/cm"}`},
		{"leading noughts", "begin", `{"what":"wash","liquid":"tap","litres":"09,5","target_s":480}`, stamp(morning), `{"what":"wash","liquid":"tap","litres":9.5,"target_s":480}`},
		{"four minutes ago", "note", `{"text":"x"}`, stamp(morning - 240_000), `{"text":"x","ago_s":240}`},
		{"a correction", "amend", `{"kind":"reading","of":"` + strings.Repeat("A", 42) + `E","over":[],"why":"misread","body":{"q":"ph","value":"7","unit":"pH"}}`, stamp(morning),
			`{"of":"` + strings.Repeat("A", 42) + `E","over":[],"why":"misread","body":{"q":"ph","value":7,"unit":"pH"}}`},
	}
	for _, c := range cases {
		got, errs := Check(Proposal{Kind: c.kind, Body: jsontext.Value(c.body), At: c.at, By: "RV"}, now, nil)
		if string(got) != c.want || errs != nil {
			t.Errorf("%s: %s %v, want %s", c.name, got, errs, c.want)
		}
	}
}

// Clocks differ by a minute before a time is held to be of the future.
func TestCheckKnowsTheFuture(t *testing.T) {
	for ahead, fine := range map[int64]bool{60_000: true, 60_001: false} {
		_, errs := Check(Proposal{Kind: "note", Body: jsontext.Value(`{"text":"x"}`), At: stamp(morning + ahead), By: "RV"}, Now{MS: morning}, nil)
		if (errs == nil) != fine {
			t.Errorf("%d ms ahead: %v", ahead, errs)
		}
	}
}

func TestCheckRefuses(t *testing.T) {
	ref := strings.Repeat("A", 42) + "E"
	at := stamp(morning)
	cases := []struct{ name, kind, body, at, by, field string }{
		{"pH 15", "reading", `{"q":"ph","value":"15","unit":"pH"}`, at, "RV", "value"},
		{"pH below 0", "reading", `{"q":"ph","value":"-1","unit":"pH"}`, at, "RV", "value"},
		{"two commas", "reading", `{"q":"ph","value":"12,,5","unit":"pH"}`, at, "RV", "value"},
		{"a comma that can be read two ways", "reading", `{"q":"conductivity","value":"1,200","unit":"uS/cm"}`, at, "RV", "value"},
		{"two signs", "reading", `{"q":"conductivity","value":"--3","unit":"uS/cm"}`, at, "RV", "value"},
		{"a number with its unit", "begin", `{"what":"wash","liquid":"tap","litres":"9 L","target_s":480}`, at, "RV", "litres"},
		{"exponent", "reading", `{"q":"conductivity","value":"1e3","unit":"uS/cm"}`, at, "RV", "value"},
		{"no value", "reading", `{"q":"ph","value":"","unit":"pH"}`, at, "RV", "value"},
		{"boiling over", "reading", `{"q":"temperature","value":"101","unit":"degC"}`, at, "RV", "value"},
		{"other unit", "reading", `{"q":"temperature","value":"21","unit":"degF"}`, at, "RV", "unit"},
		{"what quantity", "reading", `{"q":"smell","value":"21","unit":""}`, at, "RV", "q"},
		{"0 litres", "begin", `{"what":"wash","liquid":"tap","litres":"0","target_s":480}`, at, "RV", "litres"},
		{"no liquid", "begin", `{"what":"wash","liquid":" ","litres":"9","target_s":480}`, at, "RV", "liquid"},
		{"no time", "begin", `{"what":"wash","liquid":"tap","litres":"9","target_s":0}`, at, "RV", "target_s"},
		{"part of a second", "begin", `{"what":"wash","liquid":"tap","litres":"9","target_s":"1,5"}`, at, "RV", "target_s"},
		{"no such bath", "begin", `{"what":"boil","liquid":"tap","litres":"9","target_s":480}`, at, "RV", "what"},
		{"tomorrow", "note", `{"text":"x"}`, stamp(morning + dayMS), "RV", "at"},
		{"no date", "note", `{"text":"x"}`, "yesterday", "RV", "at"},
		{"a very old date", "note", `{"text":"x"}`, "1812-01-01T00:00:00Z", "RV", "at"},
		{"nobody", "note", `{"text":"x"}`, at, " ", "by"},
		{"long initials", "note", `{"text":"x"}`, at, strings.Repeat("R", 13), "by"},
		{"empty note", "note", `{"text":"  "}`, at, "RV", "text"},
		{"long note", "note", `{"text":"` + strings.Repeat("é", 3501) + `"}`, at, "RV", "text"},
		{"escapes that grow", "note", `{"text":"` + strings.Repeat(`\u0001`, 3000) + `"}`, at, "RV", "body"},
		{"no reason", "strike", `{"of":"` + ref + `","why":""}`, at, "RV", "why"},
		{"strikes nothing", "strike", `{"why":"x"}`, at, "RV", "of"},
		{"correction without reason", "amend", `{"kind":"note","of":"` + ref + `","body":{"text":"x"}}`, at, "RV", "why"},
		{"correction that is wrong", "amend", `{"kind":"reading","of":"` + ref + `","why":"x","body":{"q":"ph","value":"15","unit":"pH"}}`, at, "RV", "value"},
		{"correction of a strike", "amend", `{"kind":"strike","of":"` + ref + `","why":"x","body":{}}`, at, "RV", "kind"},
		{"no name", "open", `{"name":""}`, at, "RV", "name"},
		{"no mass", "set", `{"field":"dry_mass_g","value":"0"}`, at, "RV", "value"},
		{"unknown field", "set", `{"field":"price","value":"0"}`, at, "RV", "field"},
		{"unknown kind", "infrared", `{}`, at, "RV", "kind"},
		{"broken", "note", `{"text":`, at, "RV", "body"},
	}
	for _, c := range cases {
		body, errs := Check(Proposal{Kind: c.kind, Body: jsontext.Value(c.body), At: c.at, By: c.by}, Now{MS: morning}, nil)
		if len(errs) != 1 || errs[0].Field != c.field || len(errs[0].Say) < 10 || body != nil {
			t.Errorf("%s: %v, want one error at %s", c.name, errs, c.field)
		}
	}
}

func TestCheckKnowsTheBath(t *testing.T) {
	s := newStudio(1, 1, 0)
	b := s.write(s.devs[0], "begin", `{"what":"wash","liquid":"tap","litres":9,"target_s":300}`, 0, journal.Name{})
	st := foldOf(s.all()).State()
	end := Proposal{Kind: "end", Body: jsontext.Value(`{"of":"` + b.Name.String() + `"}`), At: stamp(s.now - 60_000), By: "OT"}
	if _, errs := Check(end, Now{MS: s.now + 10_000}, st); len(errs) != 1 || errs[0].Field != "at" {
		t.Errorf("an end before its start: %v", errs)
	}
	// This phone is two minutes behind and knows it: its time is later than it says.
	if _, errs := Check(end, Now{MS: s.now + 10_000, OffsetMS: 120_000}, st); errs != nil {
		t.Errorf("with the clock's offset: %v", errs)
	}
	// Ending now is never refused, whatever the clocks say.
	end.At = stamp(s.now - 3_600_000)
	if _, errs := Check(end, Now{MS: s.now - 3_600_000}, st); errs != nil {
		t.Errorf("an end that happens now: %v", errs)
	}
}
