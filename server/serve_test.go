package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gorilla/websocket"

	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

// dialHere finds every name on this machine.
func dialHere(ctx context.Context, network, addr string) (net.Conn, error) {
	_, port, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, err
	}
	var d net.Dialer
	return d.DialContext(ctx, network, "127.0.0.1:"+port)
}

// guarded is every route that wants a paired device.
var guarded = []struct{ method, path string }{
	{"GET", "/api/me"}, {"POST", "/api/pair/new"}, {"GET", "/api/place"}, {"GET", "/api/devices"},
	{"POST", "/api/devices/01JQ6ZV3W8M0XK5T7N4R2B9CDE/revoke"}, {"POST", "/api/successor"}, {"GET", "/api/sync"},
	{"GET", "/api/treatments/01JQ6ZV3W8M0XK5T7N4R2B9CDE/log.jsonl"}, {"GET", "/api/treatments/01JQ6ZV3W8M0XK5T7N4R2B9CDE/log.csv"},
	{"GET", "/api/day/2026-03-04/log.jsonl"}, {"GET", "/api/day/2026-03-04/log.csv"}, {"POST", "/api/import"},
	{"GET", "/api/hours"}, {"GET", "/api/reckon"}, {"POST", "/api/reckon/tray"}, {"POST", "/api/sample/add"}, {"POST", "/api/sample/remove"},
	{"GET", "/api/"}, {"GET", "/api/nothing"}, {"GET", "/api//me"},
}

func TestUnpairedGetsNothing(t *testing.T) {
	r := serveOn(t, tempData(t), "--sample")
	for name, c := range map[string]*client{"this machine": browser(t, r.local, nil), "a phone": browser(t, r.tls, r.trusting())} {
		t.Run(name, func(t *testing.T) {
			c.t = t
			c.http.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
			for _, g := range guarded {
				c.wantFault(g.method, g.path, "{}", http.StatusUnauthorized, "unpaired")
			}
			if ws, res, err := c.dial(); err == nil {
				_ = ws.Close()
				t.Error("the websocket opened for an unpaired browser")
			} else if res == nil || res.StatusCode != http.StatusUnauthorized {
				t.Errorf("websocket: %v, want 401", res)
			}
			if got := string(c.get("/healthz")); got != `{"ok":true}`+"\n" {
				t.Errorf("healthz = %s", got)
			}
		})
	}
}

func TestPairedOverTLS(t *testing.T) {
	r := serveOn(t, tempData(t), "--studio", "Marram House Textile Studio")
	c := browser(t, r.tls, r.trusting()).pair(r, "Osk's phone")
	var me struct{ Name, Studio string }
	if err := json.Unmarshal(c.get("/api/me"), &me); err != nil || me.Name != "Osk's phone" || me.Studio != "Marram House Textile Studio" {
		t.Errorf("me = %+v (%v)", me, err)
	}
	a, _ := c.phone()
	b, _ := r.paired("desk").phone()
	job := newJob()
	record(t, a, job, "open", `{"name":"Harbour-office signal flag"}`)
	wait(t, b, "the phone's entry on the desk", func(v host.View) bool { return count(v, job) == 1 })
	record(t, b, job, "note", `{"text":"seen"}`)
	wait(t, a, "the desk's entry on the phone", func(v host.View) bool { return count(v, job) == 2 })
}

func TestWrongThingsAreNamedAndTheServerStaysWell(t *testing.T) {
	r := serveOn(t, tempData(t))
	c := r.paired("desk")
	for _, w := range []struct {
		method, path, body string
		status             int
		code               string
	}{
		{"GET", "/api/nothing", "", 404, "no-such-page"},
		{"GET", "/nothing.js", "", 404, "no-such-page"},
		{"DELETE", "/api/me", "", 405, "wrong-method"},
		{"GET", "/api/import", "", 405, "wrong-method"},
		{"POST", "/api/reckon", "{}", 405, "wrong-method"},
		{"POST", "/healthz", "{}", 405, "wrong-method"},
		{"POST", "/api/reckon/tray", `{"width":`, 400, "bad-json"},
		{"POST", "/api/reckon/tray", strings.Repeat(" ", 65<<10), 413, "too-large"},
		{"POST", "/api/reckon/tarot", "{}", 404, "no-such-reckoning"},
		{"POST", "/api/reckon/tray", `{"width":"-1"}`, 422, "bad-input"},
		{"POST", "/api/pair", `{"code":`, 400, "bad-json"},
		{"POST", "/api/pair", `{"code":"` + strings.Repeat("C", 5<<10) + `"}`, 413, "too-large"},
		{"POST", "/api/import", "", 400, "not-unsent"},
		{"POST", "/api/import", "treatment,object\n", 400, "not-unsent"},
		{"POST", "/api/import", strings.Repeat("x", 17<<20), 413, "too-large"},
		{"GET", "/api/treatments/flag/log.csv", "", 404, "no-such-treatment"},
		{"GET", "/api/treatments/01JQ6ZV3W8M0XK5T7N4R2B9CDE/log.jsonl", "", 404, "no-such-treatment"},
		{"GET", "/api/treatments/00000000000000000000000000/log.jsonl", "", 404, "no-such-treatment"},
		{"GET", "/api/day/yesterday/log.csv", "", 400, "bad-day"},
		{"GET", "/api/day/2026-02-30/log.csv", "", 400, "bad-day"},
		{"GET", "/api/sync", "", 400, "not-a-websocket"},
	} {
		c.wantFault(w.method, w.path, w.body, w.status, w.code)
	}
	for name, w := range map[string]struct {
		host, origin string
		status       int
	}{
		"another site's page": {"", "https://elsewhere.example", http.StatusForbidden},
		"a rebound name":      {"rebound.example", r.local, http.StatusMisdirectedRequest},
	} {
		req, err := http.NewRequest("POST", r.local+"/api/reckon/tray", strings.NewReader("{}"))
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Origin", w.origin)
		req.Host = w.host
		res, err := c.http.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		_ = res.Body.Close()
		if res.StatusCode != w.status {
			t.Errorf("%s: %d, want %d", name, res.StatusCode, w.status)
		}
	}
	_, res, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(r.local, "http")+"/api/sync",
		http.Header{"Origin": {"https://elsewhere.example"}, "Cookie": {c.http.Jar.Cookies(mustURL(t, r.local))[0].String()}})
	if err == nil || res == nil || res.StatusCode != http.StatusForbidden {
		t.Errorf("a websocket from another site's page: %v %v, want 403", res, err)
	}
	if status, _, _ := c.do("GET", "/api/me", nil); status != http.StatusOK {
		t.Errorf("afterwards: %d, want the server well", status)
	}
	if log := r.log.String(); strings.Contains(log, `"level":"error"`) {
		t.Errorf("the log calls a caller's fault an error:\n%s", log)
	}
}

func TestEveryAnswerCarriesTheHeaders(t *testing.T) {
	r := serveOn(t, tempData(t))
	for _, c := range []struct {
		client *client
		socket string
	}{
		{browser(t, r.local, nil), "ws" + strings.TrimPrefix(r.local, "http")},
		{browser(t, r.tls, r.trusting()), "wss" + strings.TrimPrefix(r.tls, "https")},
	} {
		for _, path := range []string{"/", "/api/me", "/nothing"} {
			_, _, h := c.client.do("GET", path, nil)
			policy := h.Get("Content-Security-Policy")
			for _, part := range []string{"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "frame-ancestors 'none'",
				"form-action 'none'", "base-uri 'none'"} {
				if !strings.Contains(policy, part) {
					t.Errorf("%s: policy %q lacks %q", path, policy, part)
				}
			}
			if strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") {
				t.Errorf("%s: policy %q allows what is inline", path, policy)
			}
			if path == "/" && !strings.Contains(policy, "connect-src 'self' "+c.socket+";") {
				t.Errorf("policy %q does not name the socket %s", policy, c.socket)
			}
			for header, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
				"Cross-Origin-Opener-Policy": "same-origin", "X-Frame-Options": "DENY"} {
				if got := h.Get(header); got != want {
					t.Errorf("%s: %s = %q, want %q", path, header, got, want)
				}
			}
		}
	}
}

func TestRevokedIsToldAndShutOut(t *testing.T) {
	r := serveOn(t, tempData(t))
	c := r.paired("lost phone")
	_, ended := c.phone()
	if out := r.command("devices", "list"); !strings.Contains(out, c.dev.String()) || !strings.Contains(out, "lost phone") {
		t.Errorf("devices list = %s", out)
	}
	r.command("devices", "revoke", c.dev.String())
	var told *wire.Close
	if err := <-ended; !errors.As(err, &told) || *told != *wire.Revoked {
		t.Errorf("session ended with %v, want it told why", err)
	}
	c.wantFault("GET", "/api/me", "", http.StatusUnauthorized, "revoked")
	if out := r.command("devices", "list"); !strings.Contains(out, "ended ") {
		t.Errorf("devices list = %s", out)
	}
}

func TestStopEndsSessionsAndKeepsEverything(t *testing.T) {
	dir := tempData(t)
	r := serveOn(t, dir)
	c := r.paired("desk")
	d, ended := c.phone()
	job := newJob()
	record(t, d, job, "open", `{"name":"Harbour-office signal flag"}`)
	wait(t, d, "the acknowledgement", func(v host.View) bool { return len(v.Memory.Receipts) == 1 })
	if code := r.end(); code != exitOK {
		t.Errorf("exit %d, want 0; log:\n%s", code, r.log)
	}
	<-ended
	if _, err := os.Stat(filepath.Join(dir, "command.json")); err == nil {
		t.Error("the command file is still there")
	}
	again := serveOn(t, dir)
	c2 := again.paired("desk again")
	if lines := c2.get("/api/treatments/" + job.String() + "/log.jsonl"); bytes.Count(lines, []byte("\n")) != 1 {
		t.Errorf("after a restart the log is %s", lines)
	}
}

func TestBadDaysAreSaidInASentence(t *testing.T) {
	dir := tempData(t)
	r := serveOn(t, dir)
	taken := strings.TrimPrefix(r.local, "http://")
	newer := tempData(t)
	if err := os.MkdirAll(filepath.Join(newer, "store"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(newer, "store", "format"), []byte("sinkside store 99\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		args []string
		want []string
	}{
		"a second server": {[]string{"--data", dir, "--listen", "127.0.0.1:0"}, []string{"another Sinkside", "Stop it, or give this one a folder"}},
		"a port in use":   {[]string{"--data", tempData(t), "--listen", taken}, []string{"already listens on " + taken, "--listen"}},
		"a newer store":   {[]string{"--data", newer, "--listen", "127.0.0.1:0"}, []string{"newer version", "--data"}},
	} {
		t.Run(name, func(t *testing.T) {
			var out, problems bytes.Buffer
			args := append([]string{"serve", "--no-mdns", "--tls-listen", "127.0.0.1:0", "--trust-listen", "127.0.0.1:0"}, c.args...)
			if code := run(context.Background(), args, streams{nil, &out, &problems}); code != exitFailed {
				t.Errorf("exit %d, want 1", code)
			}
			for _, part := range c.want {
				if !strings.Contains(problems.String(), part) {
					t.Errorf("said %q, want %q in it", &problems, part)
				}
			}
			if out.Len() > 0 {
				t.Errorf("printed %q before it failed", &out)
			}
		})
	}
	if got := string(browser(t, r.local, nil).get("/healthz")); !strings.Contains(got, "true") {
		t.Errorf("the first server says %s afterwards", got)
	}
}

func TestTheLogHoldsNothingOfAPerson(t *testing.T) {
	r := serveOn(t, tempData(t), "--studio", "Marram House Textile Studio")
	c := r.paired("Runa Vell's phone")
	d, _ := c.phone()
	job := newJob()
	record(t, d, job, "open", `{"name":"Child's quilted bonnet"}`)
	wait(t, d, "the acknowledgement", func(v host.View) bool { return len(v.Memory.Receipts) == 1 })
	c.get("/api/treatments/" + job.String() + "/log.csv")
	c.wantFault("POST", "/api/pair", `{"code":"FFFF-FFFF","label":"Osk Tarrin"}`, 400, "wrong-code")
	c.post("/api/devices/"+c.dev.String()+"/revoke", "{}", nil)
	r.end()
	log := r.log.String()
	secrets := []string{"Runa", "Osk", "bonnet", "Marram", "FFFF"}
	for _, link := range append(localLink.FindAllStringSubmatch(r.out.String(), -1), phoneLink.FindAllStringSubmatch(r.out.String(), -1)...) {
		secrets = append(secrets, link[2])
	}
	for _, cookie := range c.http.Jar.Cookies(mustURL(t, r.local)) {
		secrets = append(secrets, cookie.Value)
	}
	for _, secret := range secrets {
		if strings.Contains(log, secret) {
			t.Errorf("the log holds %q:\n%s", secret, log)
		}
	}
	for line := range strings.Lines(log) {
		if !json.Valid([]byte(line)) {
			t.Errorf("log line %q is no JSON", line)
		}
	}
}
