package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"sinkside/server/web/wsconn"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link/host"
)

// client is a browser without a screen: it keeps cookies and sends its origin.
type client struct {
	t      *testing.T
	origin string
	http   *http.Client
	dev    journal.ID
}

// browser opens the app at an origin; transport is nil for plain http.
func browser(t *testing.T, origin string, transport *http.Transport) *client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	if transport == nil {
		transport = &http.Transport{}
	}
	t.Cleanup(transport.CloseIdleConnections)
	return &client{t: t, origin: origin, http: &http.Client{Jar: jar, Timeout: testPatience, Transport: transport}}
}

func (c *client) do(method, path string, body io.Reader) (int, []byte, http.Header) {
	c.t.Helper()
	req, err := http.NewRequest(method, c.origin+path, body)
	if err != nil {
		c.t.Fatal(err)
	}
	if method != "GET" {
		req.Header.Set("Origin", c.origin)
	}
	res, err := c.http.Do(req)
	if err != nil {
		c.t.Fatalf("%s %s: %v", method, path, err)
	}
	defer res.Body.Close()
	b, err := io.ReadAll(res.Body)
	if err != nil {
		c.t.Fatalf("%s %s: %v", method, path, err)
	}
	return res.StatusCode, b, res.Header
}

func (c *client) get(path string) []byte {
	c.t.Helper()
	status, b, _ := c.do("GET", path, nil)
	if status != http.StatusOK {
		c.t.Fatalf("GET %s: %d %s", path, status, b)
	}
	return b
}

func (c *client) post(path, body string, out any) {
	c.t.Helper()
	status, b, _ := c.do("POST", path, strings.NewReader(body))
	if status != http.StatusOK {
		c.t.Fatalf("POST %s: %d %s", path, status, b)
	}
	if out != nil {
		if err := json.Unmarshal(b, out); err != nil {
			c.t.Fatalf("POST %s: %v: %s", path, err, b)
		}
	}
}

// wantFault asks for something that is refused, and checks the name of the refusal.
func (c *client) wantFault(method, path, body string, status int, code string) {
	c.t.Helper()
	got, b, header := c.do(method, path, strings.NewReader(body))
	var f struct{ Code, Say string }
	if err := json.Unmarshal(b, &f); err != nil || got != status || f.Code != code || f.Say == "" {
		c.t.Errorf("%s %s = %d %s, want %d %q in a sentence", method, path, got, b, status, code)
	}
	if kind := header.Get("Content-Type"); kind != "application/json; charset=utf-8" {
		c.t.Errorf("%s %s: a fault of type %q", method, path, kind)
	}
}

// pair pairs the browser with a code of the server.
func (c *client) pair(r *running, label string) *client {
	c.t.Helper()
	var me struct{ Device string }
	c.post("/api/pair", fmt.Sprintf(`{"code":%q,"label":%q}`, r.pairingCode(), label), &me)
	var err error
	if c.dev, err = journal.ParseID(me.Device); err != nil {
		c.t.Fatal(err)
	}
	return c
}

// paired is a browser on the studio machine itself that was paired.
func (r *running) paired(label string) *client {
	r.t.Helper()
	return browser(r.t, r.local, nil).pair(r, label)
}

// dial opens the app's websocket.
func (c *client) dial() (*websocket.Conn, *http.Response, error) {
	c.t.Helper()
	u, err := url.Parse(c.origin)
	if err != nil {
		c.t.Fatal(err)
	}
	header := http.Header{"Origin": {c.origin}}
	for _, cookie := range c.http.Jar.Cookies(u) {
		header.Add("Cookie", cookie.String())
	}
	transport := c.http.Transport.(*http.Transport)
	d := websocket.Dialer{HandshakeTimeout: testPatience, TLSClientConfig: transport.TLSClientConfig, NetDialContext: transport.DialContext}
	return d.Dial(strings.Replace(c.origin, "http", "ws", 1)+"/api/sync", header)
}

// phone is a paired client with a log of its own, connected. ended gives the cause of the session's
// end.
func (c *client) phone() (d *host.Device, ended chan error) {
	c.t.Helper()
	ws, res, err := c.dial()
	if err != nil {
		c.t.Fatalf("open the websocket: %v (%v)", err, res)
	}
	return connectTold(c.t, ws, host.NewMemory(c.dev))
}

// connect runs a device over a websocket until the test ends.
func connect(t *testing.T, ws *websocket.Conn, memory *host.Memory) *host.Device {
	t.Helper()
	d, _ := connectTold(t, ws, memory)
	return d
}

func connectTold(t *testing.T, ws *websocket.Conn, memory *host.Memory) (d *host.Device, ended chan error) {
	t.Helper()
	d = host.New(memory, host.Options{})
	ended = make(chan error, 1)
	ctx, cancel := context.WithCancel(context.Background())
	over := make(chan struct{})
	go func() {
		defer close(over)
		ended <- d.Run(ctx, wsconn.New(ws))
	}()
	t.Cleanup(func() {
		cancel()
		_ = ws.Close()
		<-over
	})
	return d, ended
}

// wait waits until a device holds what is asked for.
func wait(t *testing.T, d *host.Device, what string, cond func(host.View) bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), testPatience)
	defer cancel()
	if err := d.Wait(ctx, cond); err != nil {
		t.Fatalf("waited for %s: %v", what, err)
	}
}

// count is how many entries a device holds of a treatment.
func count(v host.View, job journal.ID) (n int) {
	for c, es := range v.Memory.Chains {
		if c.Job == job {
			n += len(es)
		}
	}
	return n
}

// record writes one entry on a device, as of now.
func record(t *testing.T, d *host.Device, job journal.ID, kind, body string) journal.Entry {
	t.Helper()
	e, err := d.Write(journal.Draft{Job: job, At: time.Now().Format(time.RFC3339), By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)})
	if err != nil {
		t.Fatal(err)
	}
	return e
}
