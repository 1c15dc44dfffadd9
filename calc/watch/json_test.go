package watch

import (
	"encoding/base64"
	"encoding/json"
	"testing"
)

type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// checkJSON holds the writer against encoding/json, and returns what it wrote.
func checkJSON(t fataler, w *Watch) []byte {
	t.Helper()
	std, err := json.Marshal(w)
	if err != nil {
		t.Fatalf("encoding/json: %v", err)
	}
	got := w.AppendJSON([]byte("x"))[1:]
	a, b := again(t, got), again(t, std)
	if a != b {
		t.Fatalf("AppendJSON wrote\n%s\nencoding/json\n%s", a, b)
	}
	return got
}

// again reads JSON and writes it with its members in order.
func again(t fataler, text []byte) string {
	t.Helper()
	var v any
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	plain(v)
	out, _ := json.Marshal(v)
	return string(out)
}

// plain spells out inputs, which are bytes to encoding/json and written as
// base64.
func plain(v any) {
	switch v := v.(type) {
	case []any:
		for _, x := range v {
			plain(x)
		}
	case map[string]any:
		if s, ok := v["inputs"].(string); ok {
			b, _ := base64.StdEncoding.DecodeString(s)
			var in any
			_ = json.Unmarshal(b, &in)
			v["inputs"] = in
		}
		for _, x := range v {
			plain(x)
		}
	}
}

func TestJSONOfADay(t *testing.T) {
	checkJSON(t, Of(&newDay().State))
	checkJSON(t, Of(&kerchief().State))
}
