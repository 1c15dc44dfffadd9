package reckoning

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"
)

// standard is what encoding/json writes of the same structs by their tags,
// without its escapes for HTML.
func standard(t interface{ Fatal(...any) }, v any) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		t.Fatal(err)
	}
	return string(bytes.TrimRight(b.Bytes(), "\n"))
}

func texted(t *rapid.T, name string) string { return rapid.String().Draw(t, name) }

func anyResult(t *rapid.T) Result {
	end := rapid.Ptr(rapid.Float64(), true)
	values := rapid.Custom(func(t *rapid.T) Value {
		return Value{texted(t, "name"), texted(t, "title"), rapid.Float64().Draw(t, "value"), texted(t, "unit"), end.Draw(t, "low"), end.Draw(t, "high"), texted(t, "shown")}
	})
	unknown := rapid.Custom(func(t *rapid.T) Unknown { return Unknown{texted(t, "name"), texted(t, "title"), texted(t, "say")} })
	working := rapid.Custom(func(t *rapid.T) Working {
		return Working{texted(t, "say"), texted(t, "formula"), texted(t, "put"), texted(t, "source")}
	})
	cautions := rapid.Custom(func(t *rapid.T) Caution { return Caution{texted(t, "about"), texted(t, "say"), texted(t, "source")} })
	verdicts := rapid.Custom(func(t *rapid.T) Verdict { return Verdict{texted(t, "name"), texted(t, "title"), texted(t, "say")} })
	tables := rapid.Custom(func(t *rapid.T) Table {
		cells := rapid.SliceOfN(rapid.String(), 0, 3)
		return Table{texted(t, "title"), cells.Draw(t, "columns"), rapid.SliceOfN(cells, 0, 3).Draw(t, "rows")}
	})
	pictures := rapid.Custom(func(t *rapid.T) Picture {
		shapes := rapid.Custom(func(t *rapid.T) Shape {
			return Shape{texted(t, "label"), rapid.Bool().Draw(t, "closed"), rapid.SliceOfN(rapid.Float64(), 0, 6).Draw(t, "points")}
		})
		return Picture{texted(t, "title"), rapid.Float64().Draw(t, "width"), rapid.Float64().Draw(t, "height"), texted(t, "size"), rapid.SliceOfN(shapes, 0, 3).Draw(t, "shapes")}
	})
	sources := rapid.Custom(func(t *rapid.T) Source { return Source{texted(t, "name"), texted(t, "where"), texted(t, "mark")} })
	const most = 3
	return Result{
		rapid.SliceOfN(values, 0, most).Draw(t, "values"), rapid.SliceOfN(verdicts, 0, most).Draw(t, "verdicts"),
		rapid.SliceOfN(tables, 0, most).Draw(t, "tables"), rapid.SliceOfN(pictures, 0, most).Draw(t, "pictures"), rapid.SliceOfN(unknown, 0, most).Draw(t, "unknown"), rapid.SliceOfN(working, 0, most).Draw(t, "working"),
		rapid.SliceOfN(cautions, 0, most).Draw(t, "cautions"), rapid.SliceOfN(sources, 0, most).Draw(t, "sources"),
	}
}

func TestResultsAreWhatEncodingJSONWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyResult(t)
		if got, want := string(AppendResult(nil, r)), standard(t, r); got != want {
			t.Fatalf("AppendResult =\n%s\nwant\n%s", got, want)
		}
	})
}

func TestProblemsAreWhatEncodingJSONWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		problem := rapid.Custom(func(t *rapid.T) Problem {
			return Problem{texted(t, "field"), texted(t, "value"), texted(t, "unit"), texted(t, "allowed"), texted(t, "say")}
		})
		problems := rapid.SliceOfN(problem, 0, 3).Draw(t, "problems")
		want := standard(t, map[string]any{"problems": problems})
		if got := string(AppendProblems(nil, problems)); got != want {
			t.Fatalf("AppendProblems =\n%s\nwant\n%s", got, want)
		}
	})
}
