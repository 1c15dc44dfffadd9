package machine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"
)

var pairLink = regexp.MustCompile(`#/pair/([0-9A-Za-z-]+)`)

// Code asks the running server for a one-time pairing code, as a person at
// the studio machine's terminal does.
func (m *Machine) Code() string {
	m.t.Helper()
	out := m.Run("pair", "--data", m.Dir)
	link := pairLink.FindStringSubmatch(out)
	if link == nil {
		m.t.Fatalf("sinkside pair printed no link:\n%s", out)
	}
	return link[1]
}

// Device is a paired program: it reads what the studio machine shows to any
// paired device, without a browser.
type Device struct {
	ID string // device id; empty for a stranger

	t    testing.TB
	base string
	http *http.Client
}

// Stranger is a program that is not paired.
func (m *Machine) Stranger() *Device {
	m.t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		m.t.Fatal(err)
	}
	return &Device{t: m.t, base: m.Local(), http: &http.Client{Jar: jar, Timeout: Patience}}
}

// Device pairs a program.
func (m *Machine) Device(label string) *Device {
	m.t.Helper()
	d := m.Stranger()
	var answer struct{ Device string }
	d.Post("/api/pair", map[string]string{"code": m.Code(), "label": label}, &answer)
	d.ID = answer.Device
	return d
}

// Header is what a websocket of this device needs to be let in.
func (d *Device) Header() http.Header {
	d.t.Helper()
	u, err := url.Parse(d.base)
	if err != nil {
		d.t.Fatal(err)
	}
	h := http.Header{"Origin": {d.base}}
	for _, c := range d.http.Jar.Cookies(u) {
		h.Add("Cookie", c.Name+"="+c.Value)
	}
	return h
}

// Socket is the address of the device's session with the studio machine.
func (d *Device) Socket() string { return "ws" + strings.TrimPrefix(d.base, "http") + "/api/sync" }

// Do sends one request and returns the status and the whole answer.
func (d *Device) Do(method, path string, body io.Reader) (int, []byte) {
	d.t.Helper()
	req, err := http.NewRequest(method, d.base+path, body)
	if err != nil {
		d.t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Origin", d.base)
	res, err := d.http.Do(req)
	if err != nil {
		d.t.Fatalf("%s %s: %v", method, path, err)
	}
	defer res.Body.Close()
	b, err := io.ReadAll(res.Body)
	if err != nil {
		d.t.Fatalf("%s %s: %v", method, path, err)
	}
	return res.StatusCode, b
}

// Get returns what a path holds.
func (d *Device) Get(path string) []byte {
	d.t.Helper()
	status, b := d.Do("GET", path, nil)
	if status != http.StatusOK {
		d.t.Fatalf("GET %s: %d %s", path, status, b)
	}
	return b
}

// Post sends JSON and reads JSON into out, unless out is nil.
func (d *Device) Post(path string, in, out any) {
	d.t.Helper()
	b, err := json.Marshal(in)
	if err != nil {
		d.t.Fatal(err)
	}
	status, answer := d.Do("POST", path, bytes.NewReader(b))
	if status/100 != 2 {
		d.t.Fatalf("POST %s: %d %s", path, status, answer)
	}
	if out != nil {
		if err := json.Unmarshal(answer, out); err != nil {
			d.t.Fatalf("POST %s: %v: %s", path, err, answer)
		}
	}
}

// An Entry is what a test looks at in one line of a log.
type Entry struct {
	Line string `json:"-"`
	Job  string `json:"job"`
	Dev  string `json:"dev"`
	N    uint64 `json:"n"`
	At   string `json:"at"`
	By   string `json:"by"`
	Kind string `json:"kind"`
	Body map[string]any
}

// Entries splits lines of JSON.
func Entries(t testing.TB, lines []byte) (es []Entry) {
	t.Helper()
	for line := range bytes.Lines(lines) {
		e := Entry{Line: string(bytes.TrimRight(line, "\n"))}
		if err := json.Unmarshal(line, &e); err != nil {
			t.Fatalf("a line of the log does not parse: %v: %s", err, line)
		}
		es = append(es, e)
	}
	return es
}

// Log is the record of one treatment on the studio machine, entries as
// their authors wrote them.
func (d *Device) Log(job string) []Entry {
	d.t.Helper()
	return Entries(d.t, d.Get("/api/treatments/"+job+"/log.jsonl"))
}

// AwaitLog waits until a treatment's record has at least n entries.
func (d *Device) AwaitLog(job string, n int) []Entry {
	d.t.Helper()
	deadline := time.NewTimer(Patience)
	defer deadline.Stop()
	tick := time.NewTicker(20 * time.Millisecond)
	defer tick.Stop()
	for {
		status, b := d.Do("GET", "/api/treatments/"+job+"/log.jsonl", nil)
		if status == http.StatusOK {
			if es := Entries(d.t, b); len(es) >= n {
				return es
			}
		}
		select {
		case <-deadline.C:
			d.t.Fatalf("the log of %s has not %d entries after %v: %d %s", job, n, Patience, status, b)
		case <-tick.C:
		}
	}
}

// Kinds tells the kinds of entries in order, for messages.
func Kinds(es []Entry) (kinds []string) {
	for _, e := range es {
		kinds = append(kinds, fmt.Sprintf("%s by %s", e.Kind, e.By))
	}
	return kinds
}
