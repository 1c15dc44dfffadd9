// Package reckoningtest helps tests to ask a reckoning as a person at a form does.
package reckoningtest

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/sync/jsontext"
)

// Fataler is a test, a benchmark, or a property being checked.
type Fataler interface{ Fatal(args ...any) }

// Form is what is filled in: a value, or what [In] makes, for each input.
type Form map[string]any

// In is a value with the unit chosen beside it.
func In(value any, unit string) map[string]any { return map[string]any{"value": value, "unit": unit} }

// JSON is the form as it goes through a door.
func (f Form) JSON(t Fataler) jsontext.Value { return jsontext.Value(Standard(t, map[string]any(f))) }

// With returns a copy of the form with the members of more in it.
func (f Form) With(more Form) Form {
	out := Form{}
	for _, from := range []Form{f, more} {
		for k, v := range from {
			out[k] = v
		}
	}
	return out
}

// Standard is what encoding/json writes, without its escapes for HTML.
func Standard(t Fataler, v any) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		t.Fatal(err)
	}
	return string(bytes.TrimRight(b.Bytes(), "\n"))
}

// Ask reckons and may be refused.
func Ask(t Fataler, r *reckoning.Reckoning, f Form) (reckoning.Result, []reckoning.Problem) {
	return reckoning.List{r}.Run(r.Name, f.JSON(t))
}

// Run reckons, and ends the test where it is refused.
func Run(t testing.TB, r *reckoning.Reckoning, f Form) reckoning.Result {
	t.Helper()
	result, problems := Ask(t, r, f)
	if len(problems) > 0 {
		t.Fatalf("%s %v: %+v", r.Name, f, problems)
	}
	return result
}

// Refused reckons, and ends the test where it is not refused on account of field.
func Refused(t testing.TB, r *reckoning.Reckoning, f Form, field string) reckoning.Problem {
	t.Helper()
	_, problems := Ask(t, r, f)
	for _, p := range problems {
		if p.Field == field {
			return p
		}
	}
	t.Fatalf("%s %v: problems are %+v, want one of %q", r.Name, f, problems, field)
	return reckoning.Problem{}
}

// RunText reckons by the reckoning of that name in a list, of a form as JSON, and
// ends the test where it is refused.
func RunText(t testing.TB, l reckoning.List, name, form string) reckoning.Result {
	t.Helper()
	r, problems := l.Run(name, jsontext.Value(form))
	if len(problems) > 0 {
		t.Fatalf("%s %s: %+v", name, form, problems)
	}
	return r
}

// Verdict returns what an answer in words says, and ends the test where there is
// none of that name.
func Verdict(t testing.TB, r reckoning.Result, name string) string {
	t.Helper()
	for _, v := range r.Verdicts {
		if v.Name == name {
			return v.Say
		}
	}
	t.Fatalf("no verdict %s in %+v", name, r.Verdicts)
	return ""
}

// Value returns a figure, and ends the test where there is none of that name.
func Value(t testing.TB, r reckoning.Result, name string) reckoning.Value {
	t.Helper()
	for _, v := range r.Values {
		if v.Name == name {
			return v
		}
	}
	t.Fatalf("no figure %s in %+v", name, r.Values)
	return reckoning.Value{}
}

// Near reports whether got is want to a relative tolerance.
func Near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*max(math.Abs(want), 1e-300)
}
