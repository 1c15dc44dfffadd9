package web

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"sinkside/calc/dossier"
	"sinkside/server/sample"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// sampleTreatment is one treatment of the sample studio, by its object's name.
func sampleTreatment(t *testing.T, object string) *treatment {
	t.Helper()
	var n byte
	now := time.Date(2026, 3, 12, 12, 0, 0, 0, time.FixedZone("", 3600))
	es, err := sample.Entries(now, func() [10]byte { n++; return [10]byte{9: n} })
	if err != nil {
		t.Fatal(err)
	}
	byJob := map[journal.ID]*treatment{}
	for _, e := range es {
		tr := byJob[e.Job]
		if tr == nil {
			tr = &treatment{dossier: dossier.New(e.Job), lines: map[string][]byte{}}
			byJob[e.Job] = tr
		}
		tr.dossier.Add(e)
		tr.lines[e.Name.String()] = e.Line
	}
	for _, tr := range byJob {
		if tr.sum = dossier.Summarise(tr.dossier.State()); tr.sum.Name == object {
			return tr
		}
	}
	t.Fatalf("the sample has no %q", object)
	return nil
}

// readCSV reads what writeCSV wrote, each row by column.
func readCSV(t *testing.T, text []byte) []map[string]string {
	t.Helper()
	rest, ok := bytes.CutPrefix(text, []byte("\ufeff"))
	if !ok {
		t.Error("no byte order mark at the start")
	}
	all, err := csv.NewReader(bytes.NewReader(rest)).ReadAll()
	if err != nil {
		t.Fatalf("not readable as CSV: %v", err)
	}
	var rows []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, c := range cells {
			row[all[0][i]] = c
		}
		rows = append(rows, row)
	}
	return rows
}

func TestCSVShowsBothVersions(t *testing.T) {
	tr := sampleTreatment(t, "Harbour-office signal flag")
	var b bytes.Buffer
	if err := writeCSV(&b, tr.rows()); err != nil {
		t.Fatal(err)
	}
	rows := readCSV(t, b.Bytes())
	if len(rows) != tr.dossier.Len() {
		t.Errorf("%d rows, want one for each of %d entries", len(rows), tr.dossier.Len())
	}
	var amended, struck, stands int
	for _, r := range rows {
		switch r["standing"] {
		case "amended":
			amended++
			if !strings.Contains(r["says"], "6 L") || !strings.Contains(r["now_says"], "60 L") || r["why"] == "" || r["changed_by"] != "RV" {
				t.Errorf("amended row = %q, want 6 L as first written, 60 L now, the reason and RV", r)
			}
		case "struck":
			struck++
			if r["says"] == "" || r["why"] == "" || r["changed"] == "" {
				t.Errorf("struck row = %q, want what it said, why and when", r)
			}
		case "stands":
			stands++
		}
		if r["object"] != "Harbour-office signal flag" || r["number"] != "MH 121" || r["doubt"] != "" {
			t.Errorf("row = %q, want the flag's, without doubt", r)
		}
		if line := string(tr.lines[strings.TrimPrefix(r["entry"], "'")]); line == "" || !strings.Contains(line, r["body"]) {
			t.Errorf("entry %q: body %q is not of its line", r["entry"], r["body"])
		}
	}
	if amended != 1 || struck != 2 || stands != len(rows)-3 {
		t.Errorf("%d amended, %d struck, %d stand; want 1, 2 and the rest", amended, struck, stands)
	}
}

func TestCSVIsRFC4180(t *testing.T) {
	line := dossier.LogLine{Say: "Said \"tepid\",\nthen left", At: dossier.Moment{MS: 1772619731000, At: "2026-03-04T10:02:11+01:00"}}
	var b bytes.Buffer
	if err := writeCSV(&b, []logRow{{dossier.Summary{Name: "Flag"}, line}}); err != nil {
		t.Fatal(err)
	}
	text := strings.TrimPrefix(b.String(), "\ufeff")
	if !strings.HasPrefix(text, strings.Join(csvColumns, ",")+"\r\n") || !strings.HasSuffix(text, "\r\n") {
		t.Errorf("text = %q, want a header and CRLF line ends", text)
	}
	if !strings.Contains(text, "\"Said \"\"tepid\"\",\r\nthen left\"") {
		t.Errorf("text = %q, want quotes doubled and the cell quoted", text)
	}
	if !strings.Contains(text, "2026-03-04T11:22:11+01:00") {
		t.Errorf("text = %q, want the corrected time in the author's offset", text)
	}
}

func TestCSVCellsAreNoFormulas(t *testing.T) {
	for in, want := range map[string]string{
		"":                             "",
		"wool bunting":                 "wool bunting",
		"-5":                           "-5",
		"12,5":                         "12,5",
		"6.25":                         "6.25",
		"=HYPERLINK(\"x\")":            "'=HYPERLINK(\"x\")",
		"+1+1":                         "'+1+1",
		"-2+3+cmd|' /C calc'!A0":       "'-2+3+cmd|' /C calc'!A0",
		"@SUM(A1)":                     "'@SUM(A1)",
		"\t=1":                         "'\t=1",
		"\r=1":                         "'\r=1",
		"  =1":                         "'  =1",
		"＝1":                           "'＝1",
		"-Inf":                         "'-Inf",
		"2026-03-04T10:02:11+01:00":    "2026-03-04T10:02:11+01:00",
		"A note that = mentions signs": "A note that = mentions signs",
	} {
		if got := harmless(in); got != want {
			t.Errorf("harmless(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestLinesAreTheEntriesAsWritten(t *testing.T) {
	tr := sampleTreatment(t, "Child's quilted bonnet")
	b, err := asLines.body(tr.rows(), tr.lines)
	if err != nil {
		t.Fatal(err)
	}
	var log journal.Log
	for line := range bytes.Lines(b) {
		e, err := journal.Parse(bytes.TrimSuffix(line, []byte("\n")))
		if err != nil {
			t.Fatalf("line %s: %v", line, err)
		}
		if v := log.Add(e); v != journal.Stored {
			t.Errorf("line %s: %v, want every chain whole and in order", line, v)
		}
	}
	if n := len(log.Job(mustID(t, tr.sum.Job))); n != tr.dossier.Len() {
		t.Errorf("%d entries, want %d", n, tr.dossier.Len())
	}
}

func mustID(t *testing.T, s string) journal.ID {
	t.Helper()
	id, err := journal.ParseID(s)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func TestFileNames(t *testing.T) {
	for in, want := range map[string]string{
		"Child's quilted bonnet":     "childs-quilted-bonnet",
		"Harbour-office signal flag": "harbour-office-signal-flag",
		"Ärmel / \"Probe\"\r\nX: y":  "rmel-probe-x-y",
		"手巾":                         "treatment-01j0",
		"../../etc/passwd":           "etc-passwd",
	} {
		if got := fileName(in, "treatment 01J0"); got != want {
			t.Errorf("fileName(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestCSVSaysHowATimeIsKnown(t *testing.T) {
	for body, want := range map[string]string{
		`{}`: "late", `{"how":"clock"}`: "late", `{"how":"memory"}`: "late, from memory", `{"how":"estimate"}`: "late, estimated",
	} {
		if got := timing(dossier.LogLine{Late: true, Body: jsontext.Value(body)}); got != want {
			t.Errorf("timing(late, %s) = %q, want %q", body, got, want)
		}
	}
	if got := timing(dossier.LogLine{Body: jsontext.Value(`{"how":"clock"}`)}); got != "" {
		t.Errorf("timing of an entry by the clock = %q, want nothing", got)
	}
}
