package library

import (
	"math"
	"sinkside/calc/reckoning"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/calc/unit"
	"sinkside/sync/jsontext"
)

type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// mustBeSound holds an answer to what is true of every answer: it is there or
// there are problems, all of it can be written, every number is finite and
// physical.
func mustBeSound(t fataler, name string, text []byte) {
	t.Helper()
	r, problems := All().Run(name, text)
	door, ok := All().Answer(nil, name, text)
	if err := jsontext.Valid(door); err != nil || ok != (len(problems) == 0) {
		t.Fatalf("Answer(%s, %q) = %s, %v: %v", name, text, door, ok, err)
	}
	for _, p := range problems {
		if p.Say == "" {
			t.Fatalf("All().Run(%s, %q): a problem without a sentence: %+v", name, text, p)
		}
	}
	if len(problems) > 0 {
		if len(r.Values) > 0 {
			t.Fatalf("All().Run(%s, %q) has both figures and problems", name, text)
		}
		return
	}
	if len(r.Values)+len(r.Unknown)+len(r.Verdicts)+len(r.Tables) == 0 || len(r.Cautions) == 0 || len(r.Working) == 0 {
		t.Fatalf("All().Run(%s, %q) lacks figures and unknowns, cautions or working: %+v", name, text, r)
	}
	for _, v := range r.Values {
		mustBeFinite(t, v, signed(name, v.Name))
	}
	mustBeDrawn(t, r)
	mustBeSourced(t, name, r)
	for _, bad := range []string{"NaN", "Inf", "null,\"unit\"", "e+", "-0 "} {
		if strings.Contains(string(door), bad) {
			t.Fatalf("All().Run(%s, %q) says %q: %s", name, text, bad, door)
		}
	}
	mustBePhysical(t, r)
}

// signed reports whether a figure may be below nought.
func signed(name, figure string) bool {
	r, _ := All().Find(name)
	i := slices.IndexFunc(r.Results, func(s reckoning.ResultSpec) bool { return s.Name == figure })
	return r.Results[i].Signed || r.Results[i].Unit == "°C"
}

// mustBeSourced holds that whatever is said names a source that is listed.
func mustBeSourced(t fataler, name string, r reckoning.Result) {
	t.Helper()
	listed := map[string]bool{"": true}
	for _, s := range r.Sources {
		listed[s.Name] = true
	}
	for _, w := range r.Working {
		if !listed[w.Source] {
			t.Fatalf("%s: the step %q names a source %q that is not listed", name, w.Say, w.Source)
		}
	}
	object := false
	for _, c := range r.Cautions {
		if object = object || c.About == reckoning.Object; object && c.About == reckoning.People {
			t.Fatalf("%s: a caution about people comes after one about the object: %s", name, c.Say)
		}
		if !listed[c.Source] || c.Source == "" {
			t.Fatalf("%s: the caution %q names a source %q that is not listed", name, c.Say, c.Source)
		}
	}
}

// mustBeDrawn holds tables to their columns and pictures to their frames.
func mustBeDrawn(t fataler, r reckoning.Result) {
	t.Helper()
	for _, table := range r.Tables {
		for _, row := range table.Rows {
			if len(row) != len(table.Columns) {
				t.Fatalf("table %q has the row %q", table.Title, row)
			}
		}
	}
	for _, p := range r.Pictures {
		for _, s := range p.Shapes {
			for i, x := range s.Points {
				most := p.Width
				if i%2 == 1 {
					most = p.Height
				}
				if !(x >= -1e-6*most && x <= most*(1+1e-6)) || len(s.Points)%2 == 1 {
					t.Fatalf("picture %q of %v by %v: %q has the points %v", p.Title, p.Width, p.Height, s.Label, s.Points)
				}
			}
		}
	}
}

func mustBeFinite(t fataler, v reckoning.Value, signed bool) {
	t.Helper()
	ends := []float64{v.Value}
	if v.Low != nil && v.High != nil {
		ends = []float64{*v.Low, v.Value, *v.High}
	}
	if !slices.IsSorted(ends) || (v.Low == nil) != (v.High == nil) || v.Shown == "" || v.Title == "" {
		t.Fatalf("figure %+v", v)
	}
	for _, x := range ends {
		if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 && !signed {
			t.Fatalf("figure %+v holds %v", v, x)
		}
	}
}

// mustBePhysical holds figures against each other.
func mustBePhysical(t fataler, r reckoning.Result) {
	t.Helper()
	const slack = 1 + 1e-9
	least := func(small, large string, scale float64) {
		a, ok := r.Value(small)
		b, also := r.Value(large)
		if ok && also && a*scale > b*slack {
			t.Fatalf("%s %v is more than %s %v", small, a, large, b)
		}
	}
	least("active_mass", "product_mass", 1)
	least("mistaken_strength", "strength", 1)
	least("water_mass", "litres", 1) // water is never denser than a kilogram to the litre
	least("litres", "water_mass", 0.99)
	least("water_mass", "filled_mass", 1)
	least("left", "single_left", 1) // splitting is never worse
	for _, share := range []string{"left", "single_left", "best_left"} {
		if x, ok := r.Value(share); ok && x > 100 {
			t.Fatalf("%s is %v %%", share, x)
		}
	}
	least("planned", "total", 1)
	least("short", "total", 1)
	least("make_hours", "total_hours", 1)
	least("more_low", "more_high", 1)
	least("rate_low", "rate_high", 1)
	least("minutes_low", "minutes_high", 1)
	for _, whole := range []string{"needed", "best_n"} {
		if n, ok := r.Value(whole); ok && (n < 1 || n > 50 || n != math.Floor(n)) {
			t.Fatalf("%s is %v", whole, n)
		}
	}
}

// FuzzRun holds that no input whatever gives NaN, an infinity, a panic or an
// unphysical answer.
func FuzzRun(f *testing.F) {
	for name, example := range examples {
		f.Add(name, []byte(example.json(f)))
	}
	for _, text := range []string{
		`{}`, `[]`, `{"litres":1e308}`, `{"litres":"NaN","target":"Inf","active":"-0"}`, `{"kept":1e-300,"fresh":1e300,"n":50}`,
		`{"litres":{"value":{"value":1}}}`, `{"litres":{"unit":"L"}}`, `{"litres":"1,234"}`, `{"litres":1,"target":"100 × CMC","cmc":50,"active":0.1}`,
		`{"kept":500,"fresh":0.01,"n":50,"target":0.0001,"water":50000,"least":0.01}`, `{"shape":"sloped","length":1,"width":1,"shallow":0,"deep":0.1,"measure_pm":0}`,
	} {
		for _, r := range All() {
			f.Add(r.Name, []byte(text))
		}
	}
	f.Fuzz(func(t *testing.T, name string, text []byte) { mustBeSound(t, name, text) })
}

// anyForm draws a form of r whose numbers mostly lie in their ranges, often at
// their ends.
func anyForm(t *rapid.T, r *reckoning.Reckoning) form { return anyAnswers(t, r.Inputs) }

func anyAnswers(t *rapid.T, inputs []reckoning.Input) form {
	f := form{}
	for i := range inputs {
		in := &inputs[i]
		if in.Optional && rapid.Bool().Draw(t, in.Name+" left empty") {
			continue
		}
		switch {
		case in.Kind == reckoning.KindChoice:
			f[in.Name] = rapid.SampledFrom(in.Choices).Draw(t, in.Name).Value
		case in.Kind == reckoning.KindSeries:
			f[in.Name] = anySeries(t, in)
		case in.Kind == reckoning.KindText:
			f[in.Name] = rapid.StringN(0, 70, -1).Draw(t, in.Name)
		case in.Kind == reckoning.KindRows:
			rows := []form{}
			for range rapid.IntRange(0, min(in.MaxRows+1, 6)).Draw(t, in.Name+" rows") {
				rows = append(rows, anyAnswers(t, in.Columns))
			}
			f[in.Name] = rows
		case in.Of != "":
			f[in.Name] = unit.Text(rapid.Float64Range(0, 0.5).Draw(t, in.Name), 3)
		default:
			f[in.Name] = anyNumber(t, in)
		}
	}
	return f
}

func anyNumber(t *rapid.T, in *reckoning.Input) any {
	r := rapid.SampledFrom(in.Ranges).Draw(t, in.Name+" unit")
	// Evenly over the sizes, so that small numbers come up as often as large.
	x := r.Min
	if r.Min > 0 {
		x *= math.Pow(r.Max/r.Min, rapid.Float64Range(0, 1).Draw(t, in.Name))
	} else {
		x += (r.Max - r.Min) * rapid.Float64Range(0, 1).Draw(t, in.Name)
	}
	x = rapid.SampledFrom([]float64{x, x, x, x, x, x, r.Min, r.Max, r.Max * 1.01}).Draw(t, in.Name+" value")
	if in.Whole {
		x = math.Round(x)
	}
	return map[string]any{"value": x, "unit": r.Unit}
}

// anySeries draws readings that mostly fall, as those of rinses do.
func anySeries(t *rapid.T, in *reckoning.Input) any {
	r := rapid.SampledFrom(in.Ranges).Draw(t, in.Name+" unit")
	ratio := rapid.SampledFrom([]float64{0.01, 0.25, 0.5, 0.9, 1, 1.1}).Draw(t, in.Name+" ratio")
	x := r.Max / math.Pow(10, rapid.Float64Range(0, 6).Draw(t, in.Name))
	var texts []string
	for range rapid.IntRange(1, 8).Draw(t, in.Name+" entries") {
		texts = append(texts, unit.Text(min(max(x, r.Min), r.Max*1.001), rapid.IntRange(2, 6).Draw(t, in.Name+" figures")))
		x *= ratio * rapid.Float64Range(0.8, 1.2).Draw(t, in.Name+" scatter")
	}
	return map[string]any{"value": strings.Join(texts, "; "), "unit": r.Unit}
}

func TestAnyFormIsAnsweredSoundlyOrRefused(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(All()).Draw(t, "reckoning")
		f := anyForm(t, r)
		text := f.json(t)
		mustBeSound(t, r.Name, text)
		if _, problems := All().Run(r.Name, text); len(problems) == 0 {
			answered++
		}
	})
	if answered == 0 {
		t.Error("no form was answered: the property was not tried")
	}
}

// Whoever types a decimal comma, a thin space or another unit gets the same
// answer.
func TestTheSameQuantityGivesTheSameAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(1, 9999).Draw(t, "tenths of a litre")
		litres := float64(tenths) / 10
		ways := []any{litres, unit.Text(litres, 6), strings.Replace(unit.Text(litres, 6), ".", ",", 1) + "\u2009L", in(unit.Text(litres*1000, 9), "mL"), unit.Text(litres*1000, 9) + " ml"}
		var want float64
		for i, way := range ways {
			r, problems := All().Run("solution", form{"litres": way, "target": 2.34, "active": 28}.json(t))
			if len(problems) > 0 {
				t.Fatalf("%v: %+v", way, problems)
			}
			got, _ := r.Value("product_mass")
			if i == 0 {
				want = got
			}
			if !near(got, want, 1e-15*4) {
				t.Fatalf("%v gives %v g, %v gives %v g", ways[0], want, way, got)
			}
		}
	})
}
