package bridge

import (
	"encoding/json"
	"strings"
	"testing"
)

// asOf gives what a treatment says it held at a time, and its entries then.
func asOf(t *testing.T, c *Core, ms int64) (entries int, both string) {
	t.Helper()
	h, both := want(t, c, "fold.asof", map[string]any{"job": job, "ms": ms}, "")
	size := int(h["state"].(float64))
	if size == 0 {
		return 0, both
	}
	var st struct{ Entries int }
	if err := json.Unmarshal([]byte(both[:size]), &st); err != nil {
		t.Fatal(err)
	}
	if !json.Valid([]byte(both[size:])) {
		t.Errorf("watch at %d = %s", ms, both[size:])
	}
	return st.Entries, both
}

func TestAsOfGoesForwardAndBack(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	ch.write("open", `{"name":"Harbour-office signal flag"}`)
	ch.now += 60_000
	ch.write("begin", `{"what":"rinse","liquid":"Deionised water","litres":12.5,"target_s":600}`)
	ch.now += 60_000
	ch.write("note", `{"text":"the hoist is stiff"}`)
	if n, both := asOf(t, &c, noon); n != 0 || both != "" {
		t.Errorf("a treatment that is not here = %d entries, %s", n, both)
	}
	want(t, &c, "fold.add", map[string]any{"job": job}, ch.text())
	for _, at := range []struct {
		ms   int64
		want int
	}{
		{noon - 1, 0}, {noon, 1}, {noon + 59_999, 1}, {noon + 60_000, 2}, {noon + 200_000, 3}, {noon + 1000, 1}, {noon + 60_001, 2},
	} {
		if n, _ := asOf(t, &c, at.ms); n != at.want {
			t.Errorf("as of noon %+d ms: %d entries, want %d", at.ms-noon, n, at.want)
		}
	}
}

func TestAsOfTheEndIsTheTreatmentAsItStands(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	ch.write("open", `{"name":"Sampler band of drawn-thread work"}`)
	begin := ch.write("begin", `{"what":"rinse","liquid":"Deionised water","litres":12.5,"target_s":600}`)
	ch.now += 600_000
	ch.write("end", `{"of":"`+begin+`"}`)
	want(t, &c, "fold.add", map[string]any{"job": job}, ch.text())
	h, now := want(t, &c, "fold.state", map[string]any{"job": job}, "")
	then, end := want(t, &c, "fold.asof", map[string]any{"job": job, "ms": int64(noon + 700_000)}, "")
	if now != end || h["state"] != then["state"] {
		t.Errorf("as of the end\n%s, want\n%s", end, now)
	}
}

func TestAsOfFollowsWhatIsAdded(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	ch.write("open", `{"name":"Child's quilted bonnet"}`)
	want(t, &c, "fold.add", map[string]any{"job": job}, ch.text())
	_, before := asOf(t, &c, noon+5000)
	if _, again := asOf(t, &c, noon+6000); again != before {
		t.Error("nothing was recorded in between, and the answers differ")
	}
	ch.now += 1000
	ch.write("note", `{"text":"a stain at the left ear"}`)
	// A clock that was five seconds fast: both were recorded earlier than they say.
	ch.now += 1000
	ch.write("clock", `{"offset_ms":-5000}`)
	want(t, &c, "fold.add", map[string]any{"job": job}, strings.Join(ch.lines[1:], "\n"))
	if n, _ := asOf(t, &c, noon-4500); n != 1 {
		t.Errorf("%d entries by half a second after the first, want 1", n)
	}
	if n, _ := asOf(t, &c, noon-4000); n != 2 {
		t.Errorf("%d entries by a second after the first, want 2", n)
	}
}
