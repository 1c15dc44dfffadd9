package reckoning

import (
	"bufio"
	"bytes"
	_ "embed"
	"encoding/json"
	"flag"
	"math"
	"os"
	"reflect"
	"testing"

	"sinkside/sync/jsontext"
)

// The golden file holds one question and its whole answer to a line. It is
// written natively and read both natively and as WebAssembly, so that the two
// are held to the same answers: numbers to a relative 1e-12, since the last bits
// of math.Exp and math.Log may differ, and texts to the letter.
//
// To write it anew after a change of words or figures, and then read the
// difference: go test ./calc/reckoning -run Golden -update
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
	n := 0
	for lines.Scan() {
		var line goldenLine
		if err := json.Unmarshal(lines.Bytes(), &line); err != nil {
			t.Fatal(err)
		}
		got, _ := Answer(nil, line.Name, jsontext.Value(line.In))
		if !*update && !same(decoded(t, got), decoded(t, line.Out)) {
			t.Errorf("%s %s =\n%s\nwant\n%s", line.Name, line.In, got, line.Out)
		}
		out.WriteString(standard(t, goldenLine{line.Name, line.In, got}) + "\n")
		n++
	}
	if err := lines.Err(); err != nil || n < 12 {
		t.Fatalf("read %d lines, %v", n, err)
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

// same compares decoded JSON with a tolerance for numbers.
func same(a, b any) bool {
	switch a := a.(type) {
	case float64:
		b, ok := b.(float64)
		return ok && math.Abs(a-b) <= sameTo*math.Max(math.Abs(a), math.Abs(b))
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for i := range a {
			if !same(a[i], b[i]) {
				return false
			}
		}
		return true
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for k := range a {
			if !same(a[k], b[k]) {
				return false
			}
		}
		return true
	}
	return reflect.DeepEqual(a, b)
}

func TestSameToleratesTheLastBitsOnly(t *testing.T) {
	a := decoded(t, []byte(`{"x":[1,"a",null]}`))
	for text, want := range map[string]bool{
		`{"x":[1.0000000000000002,"a",null]}`: true, `{"x":[1.00000000001,"a",null]}`: false, `{"x":[1,"b",null]}`: false,
		`{"x":[1,"a"]}`: false, `{"y":[1,"a",null]}`: false, `{"x":["1","a",null]}`: false,
	} {
		if got := same(a, decoded(t, []byte(text))); got != want {
			t.Errorf("same(…, %s) = %v, want %v", text, got, want)
		}
	}
}
