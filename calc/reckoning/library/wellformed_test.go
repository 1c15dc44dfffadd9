package library

import (
	"math"
	"sinkside/calc/reckoning"
	"slices"
	"strings"
	"testing"

	"sinkside/calc/unit"
)

func TestEveryReckoningIsWellFormed(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		if seen[r.Name] || r.Title == "" || !strings.HasSuffix(r.Asks, "?") || r.Family == "" || len(r.Sources) == 0 {
			t.Errorf("%q is named twice or lacks title, question or sources", r.Name)
		}
		seen[r.Name] = true
		if got, ok := All().Find(r.Name); !ok || got != r {
			t.Errorf("All().Find(%q) = %v, %v", r.Name, got, ok)
		}
		inputs := map[string]*reckoning.Input{}
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

func checkInput(t *testing.T, r *reckoning.Reckoning, in *reckoning.Input, before map[string]*reckoning.Input) {
	t.Helper()
	at := r.Name + " " + in.Name
	switch in.Kind {
	case reckoning.KindQuantity, reckoning.KindSeries:
		if !slices.Contains(in.Units, in.Unit) || in.Min >= in.Max {
			t.Errorf("%s: unit %q of %v, range %v to %v", at, in.Unit, in.Units, in.Min, in.Max)
		}
	case reckoning.KindNumber:
		if len(in.Units) > 0 || in.Min >= in.Max {
			t.Errorf("%s: units %v, range %v to %v", at, in.Units, in.Min, in.Max)
		}
	case reckoning.KindChoice:
		if !slices.ContainsFunc(in.Choices, func(c reckoning.Choice) bool { return c.Value == in.Default }) {
			t.Errorf("%s: default %q is none of its choices", at, in.Default)
		}
	case reckoning.KindText:
		if len(in.Units) > 0 || in.Default != "" {
			t.Errorf("%s: units %v, default %q", at, in.Units, in.Default)
		}
	case reckoning.KindRows:
		columns := map[string]*reckoning.Input{}
		for i := range in.Columns {
			column := &in.Columns[i]
			columns[column.Name] = column
			checkInput(t, r, column, columns)
			if column.Kind == reckoning.KindRows || column.Of != "" {
				t.Errorf("%s %s: a table in a table, or a ± in one", at, column.Name)
			}
		}
		if len(in.Columns) == 0 || in.MaxRows < 1 {
			t.Errorf("%s: %d columns, %d rows", at, len(in.Columns), in.MaxRows)
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
			if on == nil || !slices.ContainsFunc(on.Choices, func(c reckoning.Choice) bool { return c.Value == v }) {
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
			own := unitNamed(t, in.Unit)
			for _, g := range in.Ranges {
				u := unitNamed(t, g.Unit)
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

func TestEverySourceIsListedAndUsed(t *testing.T) {
	for name, f := range examples {
		r := reckon(t, name, f)
		listed := map[string]bool{}
		for _, s := range r.Sources {
			if listed[s.Name] || s.Where == "" || !slices.Contains([]string{reckoning.Read, reckoning.Memory, reckoning.Practice, reckoning.Computed, reckoning.Ours}, s.Mark) {
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

func unitNamed(t *testing.T, symbol string) unit.Unit {
	t.Helper()
	u, ok := unit.Named(symbol)
	if !ok {
		t.Fatalf("no unit %q", symbol)
	}
	return u
}
