package jsontext

import (
	"encoding/json"
	"math"
	"testing"
)

// The members are what encoding/json makes of a struct with the same tags.
func TestMembersAreThoseOfEncodingJSON(t *testing.T) {
	type inner struct {
		Place int64 `json:"place"`
	}
	type all struct {
		A     string   `json:"a"`
		B     string   `json:"b"`
		Int   int64    `json:"int"`
		Float float64  `json:"float"`
		Bool  bool     `json:"bool"`
		Some  *int64   `json:"some"`
		None  *int64   `json:"none"`
		Part  *float64 `json:"part"`
		Lack  *float64 `json:"lack"`
		Odd   *float64 `json:"odd"` // set to NaN only for the writer
		Strs  []string `json:"strs"`
		List  []inner  `json:"list"`
	}
	i, f, nan := int64(-7), 2.5e-9, math.NaN()
	v := all{A: "é \"", Int: 1 << 60, Float: 0.1, Bool: true, Some: &i, Part: &f, Strs: []string{"x", ""}, List: []inner{{1}, {2}}}
	want, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var w Writer
	w.Begin('{')
	w.Texts("a", v.A, "b", v.B)
	w.KeyInt("int", v.Int)
	w.KeyFloat("float", v.Float)
	w.KeyBool("bool", v.Bool)
	w.KeyIntOrNull("some", v.Some)
	w.KeyIntOrNull("none", v.None)
	w.KeyFloatOrNull("part", v.Part)
	w.KeyFloatOrNull("lack", v.Lack)
	w.KeyFloatOrNull("odd", &nan)
	w.KeyStrs("strs", v.Strs)
	w.KeyList("list", len(v.List), func(i int) {
		w.Begin('{')
		w.KeyInt("place", v.List[i].Place)
		w.End('}')
	})
	w.End('}')
	if string(w.B) != string(want) {
		t.Errorf("wrote\n%s, want\n%s", w.B, want)
	}
}
