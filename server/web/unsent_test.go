package web

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

var phone = journal.ID{0: 1, 15: 7}

// notes writes n notes of dev in job, one a line.
func notes(t *testing.T, job, dev journal.ID, n int) []string {
	t.Helper()
	var head journal.Head
	var out []string
	for i := range n {
		d := journal.Draft{Job: job, At: "2026-03-04T10:00:00Z", By: "OT", Kind: "note", BV: 1,
			Body: jsontext.Value(`{"text":"rinse ` + strconv.Itoa(i+1) + `"}`)}
		e, err := journal.Write(d, dev, head, journal.At(1772619731000+int64(i)))
		if err != nil {
			t.Fatal(err)
		}
		head = journal.Head{N: e.N, Name: e.Name}
		out = append(out, string(e.Line))
	}
	return out
}

func header(dev journal.ID) string {
	return `{"sinkside":"unsent","v":1,"dev":"` + dev.String() + `","saved":"2026-03-04T17:20:11+01:00"}`
}

func TestReadUnsentNamesBrokenLines(t *testing.T) {
	es := notes(t, journal.ID{15: 1}, phone, 3)
	foreign := notes(t, journal.ID{15: 1}, journal.ID{0: 1, 15: 8}, 1)[0]
	file := strings.Join([]string{header(phone), es[0], `{"v":1,"job"`, "", foreign, es[1], es[2][:40]}, "\r\n")
	f, err := readUnsent(strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	if f.dev != phone || len(f.entries) != 2 || f.entries[0].line != 2 || f.entries[1].line != 6 {
		t.Errorf("entries = %+v, want those of lines 2 and 6", f.entries)
	}
	if string(f.entries[1].Line) != es[1] {
		t.Errorf("line 6 = %s, want it as written", f.entries[1].Line)
	}
	var got []string
	for _, r := range f.refused.list {
		got = append(got, strconv.Itoa(r.Line)+" "+r.Code)
		if !strings.HasPrefix(r.Say, "Line "+strconv.Itoa(r.Line)+" ") {
			t.Errorf("say = %q, want the line's number in it", r.Say)
		}
	}
	if want := "3 broken-line, 5 foreign-line, 7 broken-line"; strings.Join(got, ", ") != want {
		t.Errorf("refused = %s, want %s", strings.Join(got, ", "), want)
	}
}

func TestReadUnsentWantsItsFirstLine(t *testing.T) {
	entry := notes(t, journal.ID{15: 1}, phone, 1)[0]
	for name, file := range map[string]string{
		"nothing":           "",
		"no header":         entry,
		"other file":        "treatment,object\r\n1,2",
		"other kind":        `{"sinkside":"backup","v":1,"dev":"` + phone.String() + `"}`,
		"later version":     `{"sinkside":"unsent","v":2,"dev":"` + phone.String() + `"}`,
		"no device":         `{"sinkside":"unsent","v":1}`,
		"unreadable device": `{"sinkside":"unsent","v":1,"dev":"phone"}`,
		"a list":            `["unsent"]`,
	} {
		if _, err := readUnsent(strings.NewReader(file)); !errors.Is(err, errNotUnsent) {
			t.Errorf("%s: err = %v, want errNotUnsent", name, err)
		}
	}
}
