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

// What is easily wrong: both sides of 25 °C, from short to enough, and one ± for all the
// measures of a tray.
func TestNoReadingBetweenWideEndsLeavesTheRange(t *testing.T) {
	type off = map[string]float64
	hold := func(name string, f reckoningtest.Form, off map[string]float64) {
		t.Run(name, func(t *testing.T) {
			r, _ := All().Find(name)
			reckoningtest.HoldBetween(t, r, f, off)
		})
	}
	hold("solution", reckoningtest.Form{"litres": 40, "target": "3 × CMC", "active": 28, "density": 1.04, "cmc": 2.34}, off{"litres": 2, "active": 3, "density": 0.05, "cmc": 0.3})
	hold("rinse", reckoningtest.Form{"kept": 1.5, "fresh": 10, "n": 4, "target": 0.1, "start": 2.34, "water": 50, "least": 8}, off{"kept": 0.7, "fresh": 2})
	hold("air", reckoningtest.Form{"temperature": 20, "humidity": 60}, off{"temperature": 10, "humidity": 35})
	hold("conductivity", reckoningtest.Form{"value": 500, "temp": 26, "coefficient": 2}, off{"value": 10, "temp": 4, "coefficient": 0.3})
	hold("water_plan", reckoningtest.Form{"washes": 2, "wash_litres": 9, "rinses": 4, "rinse_litres": 8, "stock": 40, "rate": 4}, off{"stock": 30, "rate": 1})

	tray, _ := All().Find("tray")
	sloped := reckoningtest.Form{"shape": "sloped", "length": 90, "width": 60, "shallow": 6, "deep": 14}
	shown := reckoningtest.Run(t, tray, sloped.With(reckoningtest.Form{"measure_pm": 10})) // mm
	u := reckoningtest.Uncertain{Reckoning: tray, Form: sloped, Off: off{"length": 1, "width": 1, "shallow": 1, "deep": 1}}
	rapid.Check(t, func(t *rapid.T) { u.Hold(t, shown) })
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
