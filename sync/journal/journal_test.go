package journal

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/jsontext"
)

var (
	testJob = NewID(1_700_000_000_000, [10]byte{1})
	testDev = NewID(1_700_000_000_001, [10]byte{2})
)

func write(t interface{ Fatal(...any) }, h Head, clock Time, kind, body string) Entry {
	e, err := Write(Draft{Job: testJob, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)}, testDev, h, clock)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// The ULID specification gives this pair: time 01ARZ3NDEK is 1469922850259 ms.
func TestIDSpellsAULID(t *testing.T) {
	id, err := ParseID("01ARZ3NDEKTSV4RRFFQ69G5FAV")
	if err != nil {
		t.Fatal(err)
	}
	if got := id.String(); got != "01ARZ3NDEKTSV4RRFFQ69G5FAV" {
		t.Errorf("String() = %s", got)
	}
	ms := uint64(0)
	for _, b := range id[:6] {
		ms = ms<<8 | uint64(b)
	}
	if ms != 1469922850259 {
		t.Errorf("time in the ID = %d, want 1469922850259", ms)
	}
	for _, bad := range []string{"", "01ARZ3NDEKTSV4RRFFQ69G5FA", "81ARZ3NDEKTSV4RRFFQ69G5FAV", "01arz3ndektsv4rrffq69g5fav", "01ARZ3NDEKTSV4RRFFQ69G5FAU"} {
		if _, err := ParseID(bad); err == nil {
			t.Errorf("ParseID(%q) gave no error", bad)
		}
	}
}

func TestIDsNamesAndTimesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var e [10]byte
		copy(e[:], rapid.SliceOfN(rapid.Byte(), 10, 10).Draw(t, "entropy"))
		id := NewID(rapid.Uint64Range(0, 1<<48-1).Draw(t, "ms"), e)
		if back, err := ParseID(id.String()); err != nil || back != id {
			t.Fatalf("ParseID(%s) = %v, %v", id, back, err)
		}
		name := Name(sha256.Sum256(e[:]))
		if back, err := ParseName(name.String()); err != nil || back != name {
			t.Fatalf("ParseName(%s) = %v, %v", name, back, err)
		}
		clock := Time(rapid.Uint64().Draw(t, "t"))
		if back, err := ParseTime(clock.String()); err != nil || back != clock {
			t.Fatalf("ParseTime(%s) = %v, %v", clock, back, err)
		}
	})
}

func TestWriteIsReadByEncodingJSON(t *testing.T) {
	e := write(t, Head{4, sha256.Sum256([]byte("before"))}, At(99)+7, "note", `{"text":"a \"quoted\" drip"}`)
	var m map[string]any
	if err := json.Unmarshal(e.Line, &m); err != nil {
		t.Fatal(err)
	}
	if m["n"] != 5.0 || m["dev"] != testDev.String() || m["prev"] != Name(sha256.Sum256([]byte("before"))).String() || m["kind"] != "note" {
		t.Errorf("members = %v", m)
	}
	back, err := Parse(bytes.Clone(e.Line))
	if err != nil || back.Name != e.Name || back.N != 5 || back.T != At(99)+7 || string(back.Body) != `{"text":"a \"quoted\" drip"}` {
		t.Errorf("Parse = %+v, %v", back, err)
	}
}

func TestParseKeepsOtherSpellings(t *testing.T) {
	e := write(t, Head{}, 5, "note", `{}`)
	line := strings.Replace(string(e.Line), `{"v":1,`, `{"later":[1], "v": 1 , `, 1)
	got, err := Parse([]byte(line))
	if err != nil {
		t.Fatal(err)
	}
	if string(got.Line) != line || got.Name == e.Name || got.Name != Name(sha256.Sum256([]byte(line))) {
		t.Error("another spelling is another entry, kept as written")
	}
}

func TestParseRefuses(t *testing.T) {
	first := string(write(t, Head{}, 5, "note", `{}`).Line)
	second := string(write(t, Head{1, sha256.Sum256(nil)}, 5, "note", `{}`).Line)
	prev := `"prev":"` + Name(sha256.Sum256(nil)).String() + `",`
	cases := map[string]string{
		"empty":           "",
		"cut":             first[:len(first)-1],
		"space":           first + " ",
		"line end inside": strings.Replace(first, `{"v"`, "{\n\"v\"", 1),
		"no kind":         strings.Replace(first, `"kind":"note",`, "", 1),
		"body no object":  strings.Replace(first, `"body":{}`, `"body":[]`, 1),
		"n zero":          strings.Replace(first, `"n":1`, `"n":0`, 1),
		"n fraction":      strings.Replace(first, `"n":1`, `"n":1.0`, 1),
		"n huge":          strings.Replace(first, `"n":1`, `"n":99999999999999999999`, 1),
		"v zero":          strings.Replace(first, `"v":1`, `"v":0`, 1),
		"first with prev": strings.Replace(first, `"n":1,`, `"n":1,`+prev, 1),
		"second, no prev": strings.Replace(second, prev, "", 1),
		"zero prev":       strings.Replace(second, prev, `"prev":"`+Name{}.String()+`",`, 1),
		"clock capitals":  strings.Replace(first, `"t":"0000000000000005"`, `"t":"000000000000000A"`, 1),
		"job small":       strings.Replace(first, testJob.String(), strings.ToLower(testJob.String()), 1),
		"n twice":         strings.Replace(first, `"n":1`, `"n":1,"n":1`, 1),
		"not UTF-8":       strings.Replace(first, `"RV"`, "\"\xff\"", 1),
		"not an object":   `[1]`,
		"by not text":     strings.Replace(first, `"by":"RV"`, `"by":7`, 1),
	}
	for name, line := range cases {
		if line == first || line == second {
			t.Errorf("%s: the case changes nothing", name)
		}
		if _, err := Parse([]byte(line)); !errors.Is(err, ErrFormat) {
			t.Errorf("%s: Parse = %v, want ErrFormat", name, err)
		}
	}
}

func TestLinesHaveALimit(t *testing.T) {
	room := MaxLine - len(write(t, Head{}, 5, "note", `{"text":""}`).Line)
	body := `{"text":"` + strings.Repeat("x", room) + `"}`
	if e := write(t, Head{}, 5, "note", body); len(e.Line) != MaxLine {
		t.Fatalf("line of %d bytes, want %d", len(e.Line), MaxLine)
	}
	_, err := Write(Draft{Job: testJob, By: "RV", At: "2026-03-04T10:02:11+01:00", Kind: "note", BV: 1, Body: jsontext.Value(body[:9] + "y" + body[9:])}, testDev, Head{}, 5)
	if !errors.Is(err, ErrTooLong) {
		t.Errorf("one byte more: %v, want ErrTooLong", err)
	}
}

func TestWriteRefusesABrokenBody(t *testing.T) {
	for _, body := range []string{``, `{`, `[]`, `{"a":1,"a":2}`} {
		_, err := Write(Draft{Job: testJob, Kind: "note", BV: 1, Body: jsontext.Value(body)}, testDev, Head{}, 5)
		if !errors.Is(err, ErrFormat) {
			t.Errorf("body %q: %v, want ErrFormat", body, err)
		}
	}
}

func TestDigestTellsSetsApart(t *testing.T) {
	a := ChainHead{Chain{testJob, testDev}, Head{3, sha256.Sum256([]byte("a"))}}
	b := ChainHead{Chain{Shelf, testDev}, Head{3, sha256.Sum256([]byte("b"))}}
	if Digest([]ChainHead{a, b}) != Digest([]ChainHead{b, a}) {
		t.Error("the order of heads changes the digest")
	}
	longer, forked := a, a
	longer.N++
	forked.Name = sha256.Sum256([]byte("c"))
	for _, other := range [][]ChainHead{nil, {a}, {longer, b}, {forked, b}} {
		if Digest([]ChainHead{a, b}) == Digest(other) {
			t.Errorf("%v has the same digest", other)
		}
	}
}

func FuzzParse(f *testing.F) {
	e := write(f, Head{}, 5, "begin", `{"what":"rinse","litres":12.5}`)
	f.Add(e.Line)
	f.Add(write(f, Head{1, e.Name}, 6, "end", `{"of":"`+e.Name.String()+`"}`).Line)
	f.Add([]byte(`{"v":1,"n":1e0}`))
	f.Add(e.Line[:40])
	f.Fuzz(func(t *testing.T, line []byte) {
		e, err := Parse(line)
		if err != nil {
			return
		}
		if !bytes.Equal(e.Line, line) || e.Name != sha256.Sum256(line) {
			t.Fatal("the line was not kept as written")
		}
		if !json.Valid(line) || e.N == 0 || (e.N == 1) != e.Prev.IsZero() || e.Body.Kind() != jsontext.Object {
			t.Fatalf("took %q as %+v", line, e)
		}
		d := Draft{Job: e.Job, At: e.At, By: e.By, Kind: e.Kind, BV: e.BV, Body: e.Body, Was: e.Was}
		again, err := Write(d, e.Dev, Head{e.N - 1, e.Prev}, e.T)
		if err != nil {
			if errors.Is(err, ErrTooLong) {
				return
			}
			t.Fatalf("what was read cannot be written: %v", err)
		}
		again.Line, again.Name, again.V = e.Line, e.Name, e.V
		if again.Kind != e.Kind || again.At != e.At || again.By != e.By || again.Dev != e.Dev || again.T != e.T {
			t.Fatalf("written again it says %+v, not %+v", again, e)
		}
	})
}
