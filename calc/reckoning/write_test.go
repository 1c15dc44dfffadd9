package reckoning

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/jsontext"
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

func TestTheListIsWhatEncodingJSONWrites(t *testing.T) {
	got := string(AppendList([]byte("before ")))
	if want := "before " + standard(t, All()); got != want {
		t.Errorf("AppendList =\n%s\nwant\n%s", got, want)
	}
	if err := jsontext.Valid(AppendList(nil)); err != nil {
		t.Error(err)
	}
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
	sources := rapid.Custom(func(t *rapid.T) Source { return Source{texted(t, "name"), texted(t, "where"), texted(t, "mark")} })
	const most = 3
	return Result{
		rapid.SliceOfN(values, 0, most).Draw(t, "values"), rapid.SliceOfN(unknown, 0, most).Draw(t, "unknown"), rapid.SliceOfN(working, 0, most).Draw(t, "working"),
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

func TestAnswerGivesAResultOrItsProblems(t *testing.T) {
	got, ok := Answer([]byte("> "), "tray", jsontext.Value(`{"length":90,"width":60,"depth":10}`))
	if want := "> " + standard(t, reckon(t, "tray", form{"length": 90, "width": 60, "depth": 10})); !ok || string(got) != want {
		t.Errorf("Answer = %s, %v, want %s", got, ok, want)
	}
	got, ok = Answer(nil, "tray", jsontext.Value(`{"length":90,"width":60,"depth":0}`))
	if ok || !bytes.HasPrefix(got, []byte(`{"problems":[{"field":"depth","value":"0","unit":"cm","allowed":"0.1 to 150 cm",`)) {
		t.Errorf("Answer = %s, %v, want a problem of depth", got, ok)
	}
}
