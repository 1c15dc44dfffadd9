package reckoning

import (
	"math"
	"slices"
	"strings"
	"testing"

	"sinkside/calc/unit"
)

func TestEveryReckoningIsWellFormed(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		if seen[r.Name] || r.Title == "" || r.Asks == "" || len(r.Sources) == 0 {
			t.Errorf("%q is named twice or lacks title, question or sources", r.Name)
		}
		seen[r.Name] = true
		if got, ok := Find(r.Name); !ok || got != r {
			t.Errorf("Find(%q) = %v, %v", r.Name, got, ok)
		}
		inputs := map[string]*Input{}
		for i := range r.Inputs {
			in := &r.Inputs[i]
			if inputs[in.Name] != nil {
				t.Errorf("%s asks for %s twice", r.Name, in.Name)
			}
			inputs[in.Name] = in
			checkInput(t, r, in, inputs)
		}
		figures := map[string]bool{}
		for _, f := range r.Results {
			if figures[f.Name] || f.Title == "" {
				t.Errorf("%s announces %q twice or without a title", r.Name, f.Name)
			}
			figures[f.Name] = true
		}
	}
}

func checkInput(t *testing.T, r *Reckoning, in *Input, before map[string]*Input) {
	t.Helper()
	at := r.Name + " " + in.Name
	switch in.Kind {
	case Quantity, Series:
		if !slices.Contains(in.Units, in.Unit) || in.Min >= in.Max {
			t.Errorf("%s: unit %q of %v, range %v to %v", at, in.Unit, in.Units, in.Min, in.Max)
		}
	case Number:
		if len(in.Units) > 0 || in.Min >= in.Max {
			t.Errorf("%s: units %v, range %v to %v", at, in.Units, in.Min, in.Max)
		}
	case OneOf:
		if !slices.ContainsFunc(in.Choices, func(c Choice) bool { return c.Value == in.Default }) {
			t.Errorf("%s: default %q is none of its choices", at, in.Default)
		}
	default:
		t.Errorf("%s: kind %q", at, in.Kind)
	}
	// What it hangs on must come before it in the form.
	if in.Of != "" && (before[in.Of] == nil || !in.Optional) {
		t.Errorf("%s: a ± of %q", at, in.Of)
	}
	if in.When != "" {
		on := before[in.When]
		for _, v := range in.Is {
			if on == nil || !slices.ContainsFunc(on.Choices, func(c Choice) bool { return c.Value == v }) {
				t.Errorf("%s: depends on %q being %q", at, in.When, v)
			}
		}
	}
	if in.Title == "" || strings.HasSuffix(in.Title, ".") || in.Help != "" && !strings.HasSuffix(in.Help, ".") {
		t.Errorf("%s: title %q, help %q", at, in.Title, in.Help)
	}
}

func TestRangesInOtherUnitsLieWithin(t *testing.T) {
	for _, r := range All() {
		for i := range r.Inputs {
			in := &r.Inputs[i]
			own := mustUnit(in.Unit)
			for _, g := range in.Ranges {
				u := mustUnit(g.Unit)
				if g.Min >= g.Max {
					t.Errorf("%s %s: %v", r.Name, in.Name, g)
				}
				low, high := own.Of(u.Base(g.Min)), own.Of(u.Base(g.Max))
				declared := g.Unit == "% w/v" && in.Name == "active" // by volume, against by mass
				if u.Kind == own.Kind && !declared && (low < in.Min-1e-9*math.Abs(in.Min) || high > in.Max+1e-9*math.Abs(in.Max)) {
					t.Errorf("%s %s: %v is %v to %v %s, outside of %v to %v", r.Name, in.Name, g, low, high, in.Unit, in.Min, in.Max)
				}
			}
		}
	}
}

func TestInwards(t *testing.T) {
	rows := []struct {
		x    float64
		side int
		want float64
	}{
		{0.002641720, 1, 0.00265}, {1320.86, -1, 1320}, {0, 1, 0}, {10, 1, 10}, {999.9, 1, 1000}, {999.9, -1, 999},
		{32, 1, 32}, {104.00000000000001, -1, 104}, {9.999, 1, 10}, {1.001, -1, 1}, {1000.4, 1, 1010}, {-17.7778, 1, -17.7}, {-17.7778, -1, -17.8},
	}
	for _, r := range rows {
		if got := inwards(r.x, r.side); got != r.want {
			t.Errorf("inwards(%v, %v) = %v, want %v", r.x, r.side, got, r.want)
		}
	}
}

func TestEverySourceIsListedAndUsed(t *testing.T) {
	for name, f := range exampleForms {
		r := reckon(t, name, f)
		listed := map[string]bool{}
		for _, s := range r.Sources {
			if listed[s.Name] || s.Where == "" || !slices.Contains([]string{Read, Memory, Practice, Computed, Ours}, s.Mark) {
				t.Errorf("%s: source %+v", name, s)
			}
			listed[s.Name] = true
		}
		for _, w := range r.Working {
			if w.Source != "" && !listed[w.Source] {
				t.Errorf("%s: the step %q names a source %q that is not listed", name, w.Say, w.Source)
			}
		}
		for _, c := range r.Cautions {
			if !listed[c.Source] {
				t.Errorf("%s: the caution %q names a source %q that is not listed", name, c.Say, c.Source)
			}
		}
	}
}

func TestUnitsOfFiguresExist(t *testing.T) {
	for _, r := range All() {
		for _, f := range r.Results {
			if _, ok := unit.Named(f.Unit); !ok {
				t.Errorf("%s %s: no unit %q", r.Name, f.Name, f.Unit)
			}
		}
	}
}
