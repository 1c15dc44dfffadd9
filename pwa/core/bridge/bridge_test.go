package bridge

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"
)

const (
	job  = "01JAAAAAAAAAAAAAAAAAAAAAAA"
	dev  = "01JDDDDDDDDDDDDDDDDDDDDDDD"
	zero = "0000000000000000"
	noon = 1772622131000 // 2026-03-04 11:02:11 UTC
)

// ask makes a request as the worker does and reads the answer.
func ask(t *testing.T, c *Core, op string, header map[string]any, payload string) (map[string]any, string) {
	t.Helper()
	h := map[string]any{"op": op}
	for k, v := range header {
		h[k] = v
	}
	b, err := json.Marshal(h)
	if err != nil {
		t.Fatal(err)
	}
	head, body, ok := bytes.Cut(c.Call(append(append(b, '\n'), payload...)), []byte{'\n'})
	if !ok {
		t.Fatalf("%s: an answer without a header: %s", op, head)
	}
	var got map[string]any
	if err := json.Unmarshal(head, &got); err != nil {
		t.Fatalf("%s: header %s: %v", op, head, err)
	}
	return got, string(body)
}

// want is ask for what must succeed.
func want(t *testing.T, c *Core, op string, header map[string]any, payload string) (map[string]any, string) {
	t.Helper()
	h, body := ask(t, c, op, header, payload)
	if h["error"] != nil {
		t.Fatalf("%s: %v", op, h["error"])
	}
	return h, body
}

// chain writes entries one after the other, as the phone's database would ask
// for them.
type chain struct {
	t     *testing.T
	core  *Core
	job   string
	n     float64
	name  string
	clock string
	now   int64
	lines []string
}

func newChain(t *testing.T, c *Core) *chain {
	return &chain{t: t, core: c, job: job, clock: zero, now: noon}
}

func (c *chain) write(kind, body string) (name string) {
	c.t.Helper()
	h, line := want(c.t, c.core, "stamp", map[string]any{
		"job": c.job, "at": time.UnixMilli(c.now).UTC().Format(time.RFC3339), "by": "RV", "kind": kind, "bv": 1,
		"dev": dev, "n": c.n, "name": c.name, "clock": c.clock, "now": c.now,
	}, body)
	c.n, c.name, c.clock = h["n"].(float64), h["name"].(string), h["t"].(string)
	c.lines = append(c.lines, line)
	return c.name
}

func (c *chain) text() string { return strings.Join(c.lines, "\n") }

func TestStampContinuesTheChain(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	first := ch.write("open", `{"name":"Child's quilted bonnet"}`)
	firstClock := ch.clock
	ch.write("note", `{"text":"a stain at the left ear"}`)
	if ch.n != 2 || !strings.Contains(ch.lines[1], `"prev":"`+first+`"`) {
		t.Errorf("second line = %s, want place 2 after %s", ch.lines[1], first)
	}
	if ch.clock <= firstClock {
		t.Errorf("clock after the second entry = %s, want past %s", ch.clock, firstClock)
	}
}

func TestStampRefusesWhatNoEntryCanHold(t *testing.T) {
	var c Core
	header := map[string]any{
		"job": job, "at": "2026-03-04T12:02:11+01:00", "by": "RV", "kind": "note", "bv": 1,
		"dev": dev, "n": 0, "name": "", "clock": zero, "now": noon,
	}
	for name, body := range map[string]string{
		"no JSON":  "{",
		"too long": `{"text":"` + strings.Repeat("x", 17<<10) + `"}`,
	} {
		if h, _ := ask(t, &c, "stamp", header, body); h["error"] == nil || h["crashed"] != nil {
			t.Errorf("stamp of a body that is %s = %v, want a refusal", name, h)
		}
	}
}

func TestFold(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	ch.write("open", `{"name":"Harbour-office signal flag"}`)
	ch.write("begin", `{"what":"rinse","liquid":"Deionised water","litres":12.5,"target_s":600}`)
	h, _ := want(t, &c, "fold.add", map[string]any{"job": job}, ch.text()+"\nno entry\n")
	if h["refused"] != 1.0 {
		t.Errorf("fold.add passed over %v lines, want 1", h["refused"])
	}
	h, both := want(t, &c, "fold.state", map[string]any{"job": job}, "")
	state, watched := both[:int(h["state"].(float64))], both[int(h["state"].(float64)):]
	var w struct {
		Job  string
		Cues []struct{}
	}
	if err := json.Unmarshal([]byte(watched), &w); err != nil || w.Job != job || w.Cues == nil {
		t.Errorf("watch = %s (%v)", watched, err)
	}
	var st struct {
		Steps          []struct{ What string }
		RunningSinceMS *int64 `json:"running_since_ms"`
	}
	if err := json.Unmarshal([]byte(state), &st); err != nil {
		t.Fatal(err)
	}
	if len(st.Steps) != 1 || st.Steps[0].What != "rinse" || st.RunningSinceMS == nil || *st.RunningSinceMS != noon {
		t.Errorf("state = %s, want one rinse that runs since %d", state, noon)
	}
	if name := h["summary"].(map[string]any)["name"]; name != "Harbour-office signal flag" {
		t.Errorf("summary says %v", name)
	}
	heads := h["heads"].([]any)
	if head := heads[0].(map[string]any); len(heads) != 1 || head["n"] != 2.0 || head["name"] != ch.name {
		t.Errorf("heads = %v, want place 2 of one chain", heads)
	}
	_, page := want(t, &c, "fold.log", map[string]any{"job": job, "from": 1, "count": 5}, "")
	var log struct {
		Total int
		Lines []struct{ Kind string }
	}
	if err := json.Unmarshal([]byte(page), &log); err != nil || log.Total != 2 || len(log.Lines) != 1 || log.Lines[0].Kind != "begin" {
		t.Errorf("log from 1 = %s (%v), want the begin of 2 entries", page, err)
	}
	want(t, &c, "fold.drop", map[string]any{"job": job}, "")
	if h, _ := ask(t, &c, "fold.state", map[string]any{"job": job}, ""); h["error"] == nil {
		t.Error("fold.state of a dropped fold was answered")
	}
}

func TestCheck(t *testing.T) {
	var c Core
	header := map[string]any{
		"job": job, "kind": "reading", "at": "2026-03-04T12:02:11+01:00", "by": "RV", "now": noon, "offset_ms": 0,
	}
	h, body := want(t, &c, "check", header, `{"q":"ph","value":"7,10","unit":"pH"}`)
	if errs := h["errors"].([]any); len(errs) != 0 || !strings.Contains(body, `"value":7.10`) {
		t.Errorf("check of pH 7,10 = %v, %s, want the number 7.10", errs, body)
	}
	if h["bv"] != 1.0 {
		t.Errorf("body version of a reading = %v, want 1", h["bv"])
	}
	header["kind"] = "begin"
	h, _ = want(t, &c, "check", header, `{"what":"drying","face":"up","held":"none","airflow":"still","sides":1}`)
	if h["bv"] != 2.0 {
		t.Errorf("check of a begun drying = %v, want body version 2", h)
	}
	header["kind"] = "reading"
	h, body = want(t, &c, "check", header, `{"q":"ph","value":"15","unit":"pH"}`)
	if errs := h["errors"].([]any); len(errs) != 1 || body != "" {
		t.Errorf("check of pH 15 = %v, %q, want one error", errs, body)
	}
}

func TestShelf(t *testing.T) {
	var c Core
	shelf := strings.Repeat("0", 26)
	ch := newChain(t, &c)
	ch.job = shelf
	ch.write("item", `{"what":"initials","name":"RV"}`)
	ch.write("item", `{"what":"liquid","name":"Deionised water"}`)
	wrong := ch.write("item", `{"what":"liquid","name":"Deionized watr"}`)
	ch.write("item", `{"what":"initials","name":"RV"}`)
	ch.write("strike", `{"of":"`+wrong+`","why":"misspelt"}`)
	want(t, &c, "fold.add", map[string]any{"job": shelf}, ch.text())
	_, got := want(t, &c, "fold.state", map[string]any{"job": shelf}, "")
	if got != `{"initials":["RV"],"liquids":["Deionised water"],"batches":[],"waters":[],"instruments":[]}` {
		t.Errorf("shelf = %s", got)
	}
}

func TestReckon(t *testing.T) {
	var c Core
	_, got := want(t, &c, "reckon.run", map[string]any{"name": "conductivity"}, `{}`)
	if !strings.Contains(got, `"field":"value"`) {
		t.Errorf("conductivity without inputs = %s, want problems", got)
	}
	_, got = want(t, &c, "reckon.run", map[string]any{"name": "conductivity"}, `{"value":500,"temp":15}`)
	if !strings.Contains(got, `"shown":"625 µS/cm"`) {
		t.Errorf("conductivity = %s, want 625 µS/cm", got)
	}
}

func TestBadRequestsAreRefused(t *testing.T) {
	for name, request := range map[string]string{
		"empty":          "",
		"no JSON":        "what\n",
		"no operation":   "{}\n",
		"unknown":        `{"op":"nothing"}` + "\n",
		"missing member": `{"op":"stamp"}` + "\n{}",
		"no link":        `{"op":"link.start","now":1}` + "\n",
		"bad id":         `{"op":"fold.add","job":"me"}` + "\n",
	} {
		var c Core
		head, _, _ := bytes.Cut(c.Call([]byte(request)), []byte{'\n'})
		var got struct {
			Error   string
			Crashed bool
		}
		if err := json.Unmarshal(head, &got); err != nil || got.Error == "" || got.Crashed {
			t.Errorf("%s: answer %s (%v), want a refusal", name, head, err)
		}
	}
}

func TestAPanicIsToldApart(t *testing.T) {
	var c Core
	ops["panic"] = func(*call) error { panic("lost my place") }
	defer delete(ops, "panic")
	if h, _ := ask(t, &c, "panic", nil, ""); h["crashed"] != true || h["error"] != "the core failed: lost my place" {
		t.Errorf("answer to a panic = %v", h)
	}
}
