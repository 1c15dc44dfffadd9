package library

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
)

// A range is taken from the ends of what is uncertain. It must hold whatever comes
// of any reading between those ends, in every reckoning, whichever way it is filled in.
func TestNoReadingBetweenTheEndsLeavesTheRange(t *testing.T) {
	known := goldenForms(t)
	for _, r := range All() {
		if !slices.ContainsFunc(r.Inputs, func(in reckoning.Input) bool { return in.Of != "" }) {
			continue
		}
		t.Run(r.Name, func(t *testing.T) {
			tried := 0
			rapid.Check(t, func(t *rapid.T) {
				f := rapid.SampledFrom(known[r.Name]).Draw(t, "form")
				if rapid.Bool().Draw(t, "any form") {
					f = anyForm(t, r)
				}
				u := anySpread(t, r, f)
				shown, problems := reckoningtest.Ask(t, r, u.Wide())
				if len(u.Off) == 0 || len(problems) > 0 {
					return
				}
				tried++
				for range 4 {
					u.Hold(t, shown)
				}
			})
			if tried == 0 {
				t.Error("no uncertain form was answered")
			}
		})
	}
}

// goldenForms are the forms of the golden file, by reckoning.
func goldenForms(t *testing.T) map[string][]form {
	t.Helper()
	out := map[string][]form{}
	for line := range bytes.Lines(golden) {
		var asked struct {
			Name string
			In   form
		}
		if err := json.Unmarshal(line, &asked); err != nil {
			t.Fatal(err)
		}
		out[asked.Name] = append(out[asked.Name], asked.In)
	}
	return out
}

// anySpread makes quantities of a form uncertain by up to a fifth.
func anySpread(t *rapid.T, r *reckoning.Reckoning, f form) reckoningtest.Uncertain {
	u := reckoningtest.Uncertain{Reckoning: r, Form: reckoningtest.Form(f).With(nil), Off: map[string]float64{}}
	for i := range r.Inputs {
		in := &r.Inputs[i]
		if in.Of == "" {
			continue
		}
		delete(u.Form, in.Name)
		x, _, ok := reckoningtest.Number(f[in.Of])
		if ok && rapid.Bool().Draw(t, in.Of+" is uncertain") {
			u.Off[in.Of] = math.Abs(x) * rapid.Float64Range(0, 0.2).Draw(t, in.Name)
		}
	}
	return u
}
