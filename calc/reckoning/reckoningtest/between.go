package reckoningtest

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/reckoning"
)

// Uncertain is a filled-in form some readings of which may be off, each by so much in
// the unit that it is in.
type Uncertain struct {
	Reckoning *reckoning.Reckoning
	Form      Form
	Off       map[string]float64
}

// Wide is the form as a person fills it in: with how far off each reading may be.
func (u Uncertain) Wide() Form {
	out := u.Form.With(nil)
	for name, off := range u.Off {
		out[name+"_pm"] = off
	}
	return out
}

// HoldBetween fails where a reading between the ends of what is uncertain gives a figure
// outside of the range that is shown for it, or none at all. off is as in [Uncertain].
func HoldBetween(t *testing.T, r *reckoning.Reckoning, f Form, off map[string]float64) {
	t.Helper()
	u := Uncertain{Reckoning: r, Form: f, Off: off}
	shown := Run(t, r, u.Wide())
	rapid.Check(t, func(t *rapid.T) { u.Hold(t, shown) })
}

// Hold draws readings between their ends and holds what comes of them against the ranges
// that were shown.
func (u Uncertain) Hold(t *rapid.T, shown reckoning.Result) {
	f := u.Form.With(nil)
	for i := range u.Reckoning.Inputs { // in one order, or a failure cannot be drawn again
		in := &u.Reckoning.Inputs[i]
		delete(f, in.Name+"_pm")
		if off, ok := u.Off[in.Name]; ok {
			f[in.Name] = moved(f[in.Name], in, off*rapid.Float64Range(-1, 1).Draw(t, in.Name+" is off by"))
		}
	}
	point, problems := Ask(t, u.Reckoning, f)
	if len(problems) > 0 {
		t.Fatalf("%s %v cannot be reckoned between ends that can: %+v", u.Reckoning.Name, f, problems)
	}
	for _, v := range shown.Values {
		x, ok := point.Value(v.Name)
		if !ok || rangeless(shown, v) {
			continue
		}
		low, high := v.Value, v.Value
		if v.Low != nil {
			low, high = *v.Low, *v.High
		}
		if slack := 1e-9*max(math.Abs(low), math.Abs(high)) + 1e-12; x < low-slack || x > high+slack {
			t.Fatalf("%s %v: %s is %v, outside of %v to %v", u.Reckoning.Name, f, v.Name, x, low, high)
		}
	}
}

// rangeless reports whether a figure is said to have no range.
func rangeless(r reckoning.Result, v reckoning.Value) bool {
	return slices.ContainsFunc(r.Working, func(w reckoning.Working) bool { return strings.HasPrefix(w.Say, v.Title+": no range is given") })
}

// moved is an answer that is off by so much, though not beyond the range of its input.
func moved(answer any, in *reckoning.Input, by float64) any {
	x, unit, _ := Number(answer)
	x += by
	for _, r := range in.Ranges {
		if r.Unit == unit || unit == "" && r.Unit == in.Unit {
			x = min(max(x, r.Min), r.Max)
		}
	}
	if unit == "" {
		return x
	}
	return In(x, unit)
}

// Number returns the number of an answer and its unit; false where it holds none.
func Number(answer any) (x float64, unit string, ok bool) {
	switch a := answer.(type) {
	case float64:
		return a, "", true
	case int:
		return float64(a), "", true
	case string:
		end := strings.IndexFunc(a, func(c rune) bool { return !strings.ContainsRune("0123456789.,-", c) })
		if end < 0 {
			end = len(a)
		}
		x, err := strconv.ParseFloat(strings.Replace(a[:end], ",", ".", 1), 64)
		return x, strings.TrimSpace(a[end:]), err == nil
	case map[string]any:
		x, unit, ok = Number(a["value"])
		if named, given := a["unit"].(string); given && unit == "" {
			unit = named
		}
	}
	return x, unit, ok
}
