package jsontext

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestValid(t *testing.T) {
	good := []string{`{}`, ` [1,-0.5e+3, "a\u00e4\ud83d\ude00\n", true,false,null,{"a":{"b":[]}}] `, `0`, `"é"`, `{"a":1,"b":1}`}
	for _, s := range good {
		if err := Valid([]byte(s)); err != nil {
			t.Errorf("Valid(%s) = %v, want nil", s, err)
		}
	}
	bad := []string{``, `{`, `{"a":1,}`, `[1,]`, `01`, `1.`, `.5`, `+1`, `1e`, `nul`, `"a`, "\"\x01\"", "\"\xff\"", `"\x"`, `"\ud800"`, `"\ud800\u0041"`,
		`{"a":1,"a":2}`, `{"a":1,"\u0061":2}`, `{a:1}`, `1 2`, `{"a" 1}`, `NaN`, strings.Repeat("[", MaxDepth+1) + strings.Repeat("]", MaxDepth+1)}
	for _, s := range bad {
		if err := Valid([]byte(s)); err == nil {
			t.Errorf("Valid(%s) = nil, want an error", s)
		}
	}
}

func TestManyNamesAreComparedToo(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("{")
	for i := range 30 {
		b.WriteString(`"k` + string(rune('a'+i)) + `":1,`)
	}
	ok := b.String() + `"last":1}`
	if err := Valid([]byte(ok)); err != nil {
		t.Fatalf("Valid = %v", err)
	}
	for _, twice := range []string{"ka", "kz"} {
		if Valid([]byte(b.String()+`"`+twice+`":1}`)) == nil {
			t.Errorf("a second %q was not noticed", twice)
		}
	}
}

// anyJSON draws a value that encoding/json can hold.
func anyJSON() *rapid.Generator[any] {
	leaf := rapid.OneOf(
		rapid.Map(rapid.String(), func(s string) any { return s }),
		rapid.Map(rapid.Float64Range(-1e25, 1e25), func(f float64) any { return f }),
		rapid.Map(rapid.Bool(), func(b bool) any { return b }),
		rapid.Just[any](nil))
	return rapid.Custom(func(t *rapid.T) any {
		if rapid.Bool().Draw(t, "leaf") {
			return leaf.Draw(t, "v")
		}
		m := map[string]any{}
		for _, k := range rapid.SliceOfN(rapid.String(), 0, 5).Draw(t, "keys") {
			m[k] = leaf.Draw(t, "m")
		}
		return []any{m, leaf.Draw(t, "e")}
	})
}

func TestReadsWhatEncodingJSONWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := anyJSON().Draw(t, "v")
		text, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		v, err := Trim(text)
		if err != nil {
			t.Fatalf("Trim(%s) = %v", text, err)
		}
		again, _ := json.Marshal(decode(t, v))
		if !bytes.Equal(again, text) {
			t.Fatalf("decode(%s) = %s", text, again)
		}
	})
}

func decode(t *rapid.T, v Value) any {
	switch v.Kind() {
	case Null:
		return nil
	case Bool:
		b, _ := v.Bool()
		return b
	case Number:
		f, err := v.Float()
		if err != nil {
			t.Fatal(err)
		}
		return f
	case String:
		s, err := v.Text()
		if err != nil {
			t.Fatal(err)
		}
		return s
	case Array:
		out := []any{}
		if err := Elements(v, func(_ int, e Value) error { out = append(out, decode(t, e)); return nil }); err != nil {
			t.Fatal(err)
		}
		return out
	}
	out := map[string]any{}
	if err := Members(v, func(k string, e Value) error { out[k] = decode(t, e); return nil }); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestWritesWhatEncodingJSONReads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		f := rapid.Float64().Draw(t, "f")
		i := rapid.Int64().Draw(t, "i")
		var w Writer
		w.Begin('{')
		w.Key(s)
		w.Begin('[')
		w.Str(s)
		w.Float(f)
		w.Int(i)
		w.Bool(true)
		w.Null()
		w.Raw(Value(`{"x":1}`))
		w.End(']')
		w.Key(s + "!")
		w.Uint(uint64(math.MaxUint64))
		w.End('}')
		if err := Valid(w.B); err != nil {
			t.Fatalf("Valid(%s) = %v", w.B, err)
		}
		var back map[string]any
		if err := json.Unmarshal(w.B, &back); err != nil {
			t.Fatalf("%s: %v", w.B, err)
		}
		row := back[s].([]any)
		if row[0] != s || row[1] != f {
			t.Fatalf("read back %q %v, want %q %v", row[0], row[1], s, f)
		}
		std, _ := json.Marshal(f)
		if got := AppendFloat(nil, f); !bytes.Equal(got, std) {
			t.Fatalf("AppendFloat(%v) = %s, want %s", f, got, std)
		}
	})
}

func TestAccessorsRefuseOtherKinds(t *testing.T) {
	for _, v := range []Value{Value(`1`), Value(`"1"`), Value(`true`), Value(`null`), Value(`{}`), nil} {
		if _, err := v.Text(); (err == nil) != (v.Kind() == String) {
			t.Errorf("Text(%s) err = %v", v, err)
		}
		if _, err := v.Int(); (err == nil) != (v.Kind() == Number) {
			t.Errorf("Int(%s) err = %v", v, err)
		}
		if _, err := v.Bool(); (err == nil) != (v.Kind() == Bool) {
			t.Errorf("Bool(%s) err = %v", v, err)
		}
		if err := Members(v, func(string, Value) error { return nil }); (err == nil) != (v.Kind() == Object) {
			t.Errorf("Members(%s) err = %v", v, err)
		}
	}
	if _, err := Value(`1e400`).Float(); err == nil {
		t.Error("Float(1e400) gave no error")
	}
	if _, err := Value(`1.5`).Int(); err == nil {
		t.Error("Int(1.5) gave no error")
	}
}

func FuzzValid(f *testing.F) {
	for _, s := range []string{`{"a":[1,2.5e-3,"x\u00e9"]}`, `[[]]`, `"\ud83d\ude00"`, `{"a":1,"a":2}`, `{`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		v, err := Trim(b)
		if err != nil {
			return
		}
		if !json.Valid(b) {
			t.Fatalf("Trim takes %q, encoding/json does not", b)
		}
		if v.Kind() == Invalid {
			t.Fatalf("%q has no kind", v)
		}
		_ = Members(v, func(_ string, m Value) error {
			if Valid(m) != nil {
				t.Fatalf("member %q of %q is not valid", m, v)
			}
			return nil
		})
	})
}
