package library

import (
	"bufio"
	"bytes"
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"sinkside/calc/reckoning/reckoningtest"
	"slices"
	"strconv"
	"testing"

	"sinkside/sync/jsontext"
)

// The golden file holds one question and its whole answer to a line. It is
// written natively and read both natively and as WebAssembly, so that the two
// are held to the same answers: numbers to a relative 1e-12, since the last bits
// of math.Exp and math.Log may differ, and texts to the letter.
//
// To write it anew after a change of words or figures, and then read the
// difference: go test ./calc/reckoning/library -run Golden -update
//
//go:embed testdata/golden.jsonl
var golden []byte

var update = flag.Bool("update", false, "write testdata/golden.jsonl anew")

const sameTo = 1e-12

type goldenLine struct {
	Name string          `json:"name"`
	In   json.RawMessage `json:"in"`
	Out  json.RawMessage `json:"out"`
}

func TestGoldenAnswersAreTheSameEverywhere(t *testing.T) {
	var out bytes.Buffer
	lines := bufio.NewScanner(bytes.NewReader(golden))
	lines.Buffer(nil, 1<<20)
	asked := map[string]bool{}
	for lines.Scan() {
		var line goldenLine
		if err := json.Unmarshal(lines.Bytes(), &line); err != nil {
			t.Fatal(err)
		}
		text, _ := All().Answer(nil, line.Name, jsontext.Value(line.In))
		got := decoded(t, text)
		// The sources are the same for every form of one reckoning.
		if object, ok := got.(map[string]any); ok {
			delete(object, "sources")
		}
		if at := difference("", got, decoded(t, line.Out)); at != "" && !*update {
			t.Errorf("%s %s: %s", line.Name, line.In, at)
		}
		out.WriteString(reckoningtest.Standard(t, goldenLine{line.Name, line.In, json.RawMessage(reckoningtest.Standard(t, got))}) + "\n")
		asked[line.Name] = true
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	for _, r := range All() {
		if !asked[r.Name] {
			t.Errorf("%s is asked nothing", r.Name)
		}
	}
	if *update {
		if err := os.WriteFile("testdata/golden.jsonl", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func decoded(t *testing.T, text []byte) any {
	t.Helper()
	var v any
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return v
}

// difference says where two decoded JSON values first differ, numbers by more
// than sameTo; empty where they do not.
func difference(at string, got, want any) string {
	switch got := got.(type) {
	case float64:
		if w, ok := want.(float64); ok && math.Abs(got-w) <= sameTo*math.Max(math.Abs(got), math.Abs(w)) {
			return ""
		}
	case []any:
		w, ok := want.([]any)
		if !ok || len(got) != len(w) {
			break
		}
		for i := range got {
			if d := difference(at+"/"+strconv.Itoa(i), got[i], w[i]); d != "" {
				return d
			}
		}
		return ""
	case map[string]any:
		w, ok := want.(map[string]any)
		if !ok || len(got) != len(w) {
			break
		}
		for _, k := range slices.Sorted(maps.Keys(got)) {
			if d := difference(at+"/"+k, got[k], w[k]); d != "" {
				return d
			}
		}
		return ""
	default:
		if got == want {
			return ""
		}
	}
	return fmt.Sprintf("%s is %v, want %v", at, got, want)
}

func TestDifferenceToleratesTheLastBitsOnly(t *testing.T) {
	a := decoded(t, []byte(`{"x":[1,"a",null]}`))
	for text, want := range map[string]string{
		`{"x":[1.0000000000000002,"a",null]}`: "", `{"x":[1.00000000001,"a",null]}`: "/x/0 is 1, want 1.00000000001", `{"x":[1,"b",null]}`: "/x/1 is a, want b",
		`{"x":[1,"a"]}`: "/x is [1 a <nil>], want [1 a]", `{"y":[1,"a",null]}`: "/x is [1 a <nil>], want <nil>", `{"x":["1","a",null]}`: "/x/0 is 1, want 1",
	} {
		if got := difference("", a, decoded(t, []byte(text))); got != want {
			t.Errorf("difference(…, %s) = %q, want %q", text, got, want)
		}
	}
}
