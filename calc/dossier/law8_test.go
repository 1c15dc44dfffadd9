package dossier

import (
	"bytes"
	"flag"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
)

var update = flag.Bool("update", false, "write the golden files again")

// Law 8: the same set folds to the same bytes on every machine. The golden file
// was written natively; the test runs as WebAssembly too.
func TestLaw8SameBytesEverywhere(t *testing.T) {
	s := newStudio(20260304, 3, 600_000)
	s.live(300)
	var lines bytes.Buffer
	d := New(job)
	for _, e := range s.all() {
		lines.Write(append(e.Line, '\n'))
		d.Add(e)
	}
	if *update {
		for name, b := range map[string][]byte{"testdata/day.jsonl": lines.Bytes(), "testdata/day.folded": []byte(bytesOf(d) + "\n")} {
			if err := os.WriteFile(name, b, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	day, err := os.ReadFile("testdata/day.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile("testdata/day.folded")
	if err != nil {
		t.Fatal(err)
	}
	read := New(job)
	for _, line := range bytes.Split(bytes.TrimSpace(day), []byte("\n")) {
		e, err := journal.Parse(line)
		if err != nil {
			t.Fatal(err)
		}
		read.Add(e)
	}
	if got := bytesOf(read) + "\n"; got != string(want) {
		t.Errorf("folded to\n%s\nwant\n%s", got, want)
	}
}

// Law 8: numbers that people measured are carried as they wrote them.
func TestLaw8DigitsStayAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.StringMatching(`-?(0|[1-9][0-9]{0,8})(\.[0-9]{1,12})?`).Draw(t, "typed")
		s := newStudio(1, 1, 0)
		s.write(s.devs[0], "begin", `{"what":"wash","liquid":"tap","litres":`+typed+`,"target_s":300}`, 0, journal.Name{})
		s.write(s.devs[0], "reading", `{"q":"temperature","value":`+typed+`,"unit":"degC"}`, 0, journal.Name{})
		s.write(s.devs[0], "set", `{"field":"dry_mass_g","value":`+typed+`}`, 0, journal.Name{})
		got := string(foldOf(s.all()).State().AppendJSON(nil))
		if n := strings.Count(got, `"litres":"`+typed+`"`) + strings.Count(got, `"value":"`+typed+`"`); n != 4 {
			t.Fatalf("%s is there %d times, want 4, the reading twice:\n%s", typed, n, got)
		}
	})
}
