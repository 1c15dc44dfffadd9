package reckoning

import (
	"encoding/json"
	"math"
	"testing"

	"sinkside/sync/jsontext"
)

// form is a filled-in form as a caller of one of the doors writes it.
type form map[string]any

func (f form) json(t interface{ Fatal(...any) }) jsontext.Value {
	b, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// reckon runs a form that must have an answer.
func reckon(t *testing.T, name string, f form) Result {
	t.Helper()
	r, problems := Run(name, f.json(t))
	if len(problems) > 0 {
		t.Fatalf("Run(%s, %v) has the problems %+v", name, f, problems)
	}
	return r
}

func valueOf(t *testing.T, r Result, name string) Value {
	t.Helper()
	for _, v := range r.Values {
		if v.Name == name {
			return v
		}
	}
	t.Fatalf("no figure %s in %+v", name, r.Values)
	return Value{}
}

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// in is a number with its unit.
func in(value any, unit string) map[string]any { return map[string]any{"value": value, "unit": unit} }
