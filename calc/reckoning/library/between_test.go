package library

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
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
				f := maps.Clone(rapid.SampledFrom(known[r.Name]).Draw(t, "form"))
				if rapid.Bool().Draw(t, "any form") {
					f = anyForm(t, r)
				}
				off := anySpread(t, r, f)
				wide, problems := All().Run(r.Name, f.json(t))
				if len(off) == 0 || len(problems) > 0 {
					return
				}
				tried++
				for range 4 {
					mustHold(t, r, wide, between(t, r, f, off))
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

// anySpread makes quantities of a form uncertain by up to a fifth, and returns by how
// much, in the unit that each is in.
func anySpread(t *rapid.T, r *reckoning.Reckoning, f form) map[string]float64 {
	off := map[string]float64{}
	for i := range r.Inputs {
		in := &r.Inputs[i]
		if in.Of == "" {
			continue
		}
		delete(f, in.Name)
		x, _, ok := number(f[in.Of])
		if !ok || rapid.Bool().Draw(t, in.Of+" is certain") {
			continue
		}
		off[in.Of] = math.Abs(x) * rapid.Float64Range(0, 0.2).Draw(t, in.Name)
		f[in.Name] = off[in.Of]
	}
	return off
}

// number returns the number of an answer and its unit.
func number(answer any) (x float64, unit string, ok bool) {
	switch a := answer.(type) {
	case float64:
		return a, "", true
	case string:
		end := strings.IndexFunc(a, func(c rune) bool { return !strings.ContainsRune("0123456789.,-", c) })
		if end < 0 {
			end = len(a)
		}
		x, err := strconv.ParseFloat(strings.Replace(a[:end], ",", ".", 1), 64)
		return x, strings.TrimSpace(a[end:]), err == nil
	case map[string]any:
		x, unit, ok = number(a["value"])
		if named, ok := a["unit"].(string); ok && unit == "" {
			unit = named
		}
	}
	return x, unit, ok
}

// between is the form with readings somewhere between their ends and nothing
// uncertain.
func between(t *rapid.T, r *reckoning.Reckoning, f form, off map[string]float64) form {
	point := maps.Clone(f)
	for i := range r.Inputs {
		in := &r.Inputs[i]
		delete(point, in.Name+"_pm")
		width, ok := off[in.Name]
		if !ok {
			continue
		}
		x, unit, _ := number(f[in.Name])
		x += width * rapid.Float64Range(-1, 1).Draw(t, in.Name+" between")
		for _, r := range in.Ranges {
			if r.Unit == unit || unit == "" && r.Unit == in.Unit {
				x = min(max(x, r.Min), r.Max)
			}
		}
		if point[in.Name] = any(x); unit != "" {
			point[in.Name] = map[string]any{"value": x, "unit": unit}
		}
	}
	return point
}

func mustHold(t *rapid.T, r *reckoning.Reckoning, wide reckoning.Result, f form) {
	point, problems := All().Run(r.Name, f.json(t))
	if len(problems) > 0 {
		t.Fatalf("%s %s cannot be reckoned between ends that can: %+v", r.Name, f.json(t), problems)
	}
	for _, v := range wide.Values {
		x, ok := point.Value(v.Name)
		rangeless := slices.ContainsFunc(wide.Working, func(w reckoning.Working) bool {
			return strings.HasPrefix(w.Say, v.Title+": no range is given")
		})
		if !ok || rangeless {
			continue
		}
		low, high := v.Value, v.Value
		if v.Low != nil {
			low, high = *v.Low, *v.High
		}
		if slack := 1e-9 * max(math.Abs(low), math.Abs(high)); x < low-slack || x > high+slack {
			t.Fatalf("%s %s: %s is %v, outside of %v to %v", r.Name, f.json(t), v.Name, x, low, high)
		}
	}
}
