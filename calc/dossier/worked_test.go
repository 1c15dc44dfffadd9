package dossier

import (
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

func TestEndedStepsAreRowsForAnEstimate(t *testing.T) {
	s := newStudio(1, 1, 0)
	d := s.devs[0]
	note := func(kind, body string) journal.Entry { return s.write(d, kind, body, 0, journal.Name{}) }
	note("open", `{"name":"Harbour-office signal flag"}`)
	rows := func() (string, int) {
		var w jsontext.Writer
		w.Begin('[')
		n := foldOf(s.all()).State().AppendWorked(&w)
		w.End(']')
		return string(w.B), n
	}
	if got, n := rows(); got != "[]" || n != 0 {
		t.Errorf("nothing done: %s, %d", got, n)
	}
	b := note("begin", `{"what":"rinse","liquid":"deionised water","litres":12,"target_s":480}`)
	s.pass(495_000)
	note("end", `{"of":"`+b.Name.String()+`"}`)
	note("begin", `{"what":"wash","liquid":"deionised water","litres":12,"target_s":480}`) // runs still
	want := `[{"step":"Rinse","took":{"value":495,"unit":"s"}}]`
	if got, n := rows(); got != want || n != 1 {
		t.Errorf("a rinse: %s, %d, want %s", got, n, want)
	}
	note("set", `{"field":"object_kind","value":"flag","over":[]}`)
	note("set", `{"field":"width_mm","value":1830,"over":[]}`)
	note("set", `{"field":"height_mm","value":914.4,"over":[]}`)
	want = `[{"step":"Rinse","object":"flag","area":{"value":1672620,"unit":"mm²"},"took":{"value":495,"unit":"s"}}]`
	if got, _ := rows(); got != want {
		t.Errorf("a rinse of a measured flag: %s, want %s", got, want)
	}
	note("set", `{"field":"height_mm","value":9144,"over":[]}`) // two heights: people must choose
	want = `[{"step":"Rinse","object":"flag","took":{"value":495,"unit":"s"}}]`
	if got, _ := rows(); got != want {
		t.Errorf("two heights: %s, want %s", got, want)
	}
}
