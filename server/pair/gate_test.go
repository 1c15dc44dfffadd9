package pair

import (
	"net/http"
	"strings"
	"testing"
)

func TestUnpairedNothingIsReadOrWritten(t *testing.T) {
	s := open(t, nil)
	for name, b := range map[string]*browser{"a phone": s.phone(), "this machine": s.local()} {
		for _, path := range []string{"/api/me", "/api/place", "/api/devices", "/api/secret", "/api/sync", "/api/none", "/api/pair", "/api/",
			"/api//me", "//api/me", "/x/../api/me", "/api/pair/../me", "/%61pi/me", "/api%2Fme"} {
			want(t, name+": GET "+path, b.get(path), 401, "unpaired")
		}
		for _, path := range []string{"/api/pair/new", "/api/devices/01JQ6ZV3W8M0XK5T7N4R2B9CDE/revoke", "/api/successor", "/api/none"} {
			want(t, name+": POST "+path, b.post(path, "{}"), 401, "unpaired")
		}
		if got := b.get("/healthz"); got.status != 200 {
			t.Errorf("%s: /healthz = %d", name, got.status)
		}
		if got := b.get("/"); got.status != 200 || got.body != b.base {
			t.Errorf("%s: / = %d %q, want the app, with the origin %s", name, got.status, got.body, b.base)
		}
	}
}

func TestPairedOverTLS(t *testing.T) {
	s := open(t, nil)
	code, err := s.devices.NewCode()
	if err != nil {
		t.Fatal(err)
	}
	b := s.phone()
	got := b.post("/api/pair", `{"code":"`+strings.ToLower(code.Text)+`","label":"Runa's phone"}`)
	if got.status != 200 || !strings.Contains(got.body, `"name":"Runa's phone","studio":"`+studioName+`"`) {
		t.Fatalf("pair = %d %s", got.status, got.body)
	}
	c := got.cookie
	if c == nil || c.Name != "__Host-sinkside" || !c.Secure || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode ||
		c.Path != "/" || c.Domain != "" || c.MaxAge != 400*24*3600 {
		t.Errorf("cookie %+v", c)
	}
	if strings.Contains(got.body, c.Value) {
		t.Error("the token stands in the answer, where scripts can read it")
	}
	if got := b.get("/api/secret"); got.status != 200 || got.body != "Runa's phone" {
		t.Errorf("paired: %d %s", got.status, got.body)
	}
	if got := b.get("/api/me"); got.status != 200 || got.cookie == nil || got.cookie.Value != c.Value || !strings.Contains(got.body, `"device":"01`) {
		t.Errorf("me = %d %s with cookie %v, want it begun anew", got.status, got.body, got.cookie)
	}
	want(t, "the same code again", s.phone().post("/api/pair", `{"code":"`+code.Text+`"}`), 400, "wrong-code")
}

func TestPairedOnThisMachine(t *testing.T) {
	s := open(t, nil)
	b := s.paired(s.local(), "Studio machine")
	if got := b.get("/api/me"); got.cookie == nil || got.cookie.Name != "sinkside-local" || got.cookie.Secure || !got.cookie.HttpOnly ||
		got.cookie.SameSite != http.SameSiteStrictMode {
		t.Errorf("cookie %+v", got.cookie)
	}
	// A token counts only in the cookie of its own door: what a plain page could
	// set must not speak over TLS, nor the other way round.
	phone := s.phone()
	phone.cookie = b.cookie
	want(t, "the local cookie over TLS", phone.get("/api/me"), 401, "unpaired")
	local := s.local()
	local.cookie = "__Host-sinkside=" + b.token()
	want(t, "the secure cookie over plain HTTP", local.get("/api/me"), 401, "unpaired")
}

func TestTokensThatDoNotCount(t *testing.T) {
	s := open(t, nil)
	b := s.paired(s.phone(), "Runa's phone")
	other := s.paired(s.phone(), "Osk's tablet")
	id, _, _ := strings.Cut(b.token(), ".")
	_, otherSecret, _ := strings.Cut(other.token(), ".")
	for name, cookie := range map[string]string{
		"cut":              b.cookie[:len(b.cookie)-2],
		"another's secret": "__Host-sinkside=" + id + "." + otherSecret,
		"empty":            "__Host-sinkside=",
		"another name":     "sinkside=" + b.token(),
	} {
		thief := s.phone()
		thief.cookie = cookie
		want(t, name, thief.get("/api/secret"), 401, "unpaired")
	}
	for name, header := range map[string]string{"Basic": "Basic " + b.token(), "bare": b.token(), "wrong": "Bearer " + id + "." + otherSecret} {
		thief := s.phone()
		thief.cookie = b.cookie // a header that does not count is not made good by a cookie
		thief.header.Set("Authorization", header)
		want(t, "Authorization "+name, thief.get("/api/secret"), 401, "unpaired")
	}
}

func TestBearerNeedsNoOrigin(t *testing.T) {
	s := open(t, nil)
	b := s.paired(s.phone(), "Follower")
	client := s.phone()
	client.header.Set("Authorization", "Bearer "+b.token())
	if got := client.get("/api/secret"); got.status != 200 || got.body != "Follower" {
		t.Errorf("GET with a bearer token = %d %s", got.status, got.body)
	}
	r := client.request("POST", "/api/pair/new", "")
	r.Header.Del("Origin")
	if got := client.send(r); got.status != 200 {
		t.Errorf("POST with a bearer token = %d %s", got.status, got.body)
	}
}

func TestRevokedDeviceIsOutAtOnce(t *testing.T) {
	s := open(t, nil)
	lost := s.paired(s.phone(), "Lost phone")
	keeper := s.paired(s.local(), "Studio machine")
	list := s.devices.List()

	standing := make(chan reply, 1)
	go func() { standing <- lost.send(lost.request("GET", "/api/sync", "")) }()
	if got := keeper.post("/api/devices/"+list[0].ID.String()+"/revoke", ""); got.status != 200 || !strings.Contains(got.body, `"revoked_ms":1`) {
		t.Fatalf("revoke = %d %s", got.status, got.body)
	}
	if got := <-standing; got.body != "revoked" && got.code() != "revoked" {
		t.Errorf("what stood open ended with %d %q", got.status, got.body)
	}
	want(t, "the lost phone", lost.get("/api/secret"), 401, "revoked")
	if got := keeper.get("/api/secret"); got.status != 200 {
		t.Errorf("the other device: %d %s", got.status, got.body)
	}
	want(t, "nobody", keeper.post("/api/devices/01JQ6ZV3W8M0XK5T7N4R2B9CDE/revoke", ""), 404, "no-such-device")
	want(t, "no id", keeper.post("/api/devices/everyone/revoke", ""), 404, "no-such-device")
}

// TestOpenConnectionEndsWithItsDevice is TestRevokedDeviceIsOutAtOnce's standing
// request alone, revoked only once it surely stands.
func TestOpenConnectionEndsWithItsDevice(t *testing.T) {
	s := open(t, nil)
	b := s.paired(s.phone(), "Lost phone")
	res, err := b.client.Do(b.request("GET", "/api/sync", "")) // returns when the headers came
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	if _, err := s.devices.Revoke(s.devices.List()[0].ID); err != nil {
		t.Fatal(err)
	}
	text := make([]byte, 16)
	n, _ := res.Body.Read(text)
	if string(text[:n]) != "revoked" {
		t.Errorf("it ended with %q, want the reason", text[:n])
	}
}

func TestWrongHost(t *testing.T) {
	s := open(t, nil)
	b := s.paired(s.phone(), "Runa's phone")
	local := s.paired(s.local(), "Studio machine")
	rows := []struct {
		name string
		b    *browser
		host string
		ok   bool
		code string
		stat int
	}{
		{"stable name", b, "marram.local:8743", true, "", 0},
		{"another port, as a container maps it", b, "marram.local", true, "", 0},
		{"capitals", b, "MARRAM.local:8743", true, "", 0},
		{"own address", b, "192.168.7.20:8743", true, "", 0},
		{"localhost", b, "localhost:8743", true, "", 0},
		{"IPv6 loopback", local, "[::1]:8780", true, "", 0},
		{"a rebound name", b, "rebound.example.com:8743", false, "wrong-host", 421},
		{"a rebound name on loopback", local, "rebound.example.com:8780", false, "wrong-host", 421},
		{"a name below ours", b, "x.marram.local", false, "wrong-host", 421},
		{"a name around ours", b, "marram.local.example.com", false, "wrong-host", 421},
		{"localhost of another", local, "localhost.example.com", false, "wrong-host", 421},
		{"127 in a name", local, "127.0.0.1.example.com", false, "wrong-host", 421},
		{"a neighbour's address", b, "192.168.7.21:8743", false, "wrong-host", 421},
		{"the public name, which this site has not", b, "studio.example.org", false, "wrong-host", 421},
		{"plain HTTP by the stable name", local, "marram.local:8780", false, "plain-http", 403},
		{"plain HTTP by address", local, "192.168.7.20:8780", false, "plain-http", 403},
	}
	for _, row := range rows {
		r := row.b.request("GET", "/api/secret", "")
		r.Host = row.host
		got := row.b.send(r)
		if row.ok && got.status != 200 {
			t.Errorf("%s: %d %s, want it let in", row.name, got.status, got.body)
		}
		if !row.ok {
			want(t, row.name, got, row.stat, row.code)
		}
		r = row.b.request("GET", "/", "")
		r.Host = row.host
		if got := row.b.send(r); (got.status == 200) != row.ok {
			t.Errorf("%s: the app itself = %d", row.name, got.status)
		}
	}
}

func TestWrongOrigin(t *testing.T) {
	s := open(t, nil)
	b := s.paired(s.phone(), "Runa's phone")
	local := s.paired(s.local(), "Studio machine")
	rows := []struct {
		name    string
		b       *browser
		headers map[string]string // "" takes it away
		ok      bool
	}{
		{"own", b, nil, true},
		{"own, in capitals", b, map[string]string{"Origin": "HTTPS://Marram.local:8743"}, true},
		{"own, on this machine", local, nil, true},
		{"another site", b, map[string]string{"Origin": "https://example.com"}, false},
		{"another port of this machine", local, map[string]string{"Origin": "http://127.0.0.1:9999"}, false},
		{"another scheme", b, map[string]string{"Origin": "http://marram.local:8743"}, false},
		{"a longer name", b, map[string]string{"Origin": "https://marram.local:8743.example.com"}, false},
		{"the trust page", b, map[string]string{"Origin": "http://marram.local:8781"}, false},
		{"null, as from a sandbox or a file", b, map[string]string{"Origin": "null"}, false},
		{"none, with a cookie", b, map[string]string{"Origin": ""}, false},
		{"none, and the browser says cross-site", b, map[string]string{"Origin": "", "Cookie": "", "Sec-Fetch-Site": "cross-site"}, false},
	}
	for _, row := range rows {
		for _, what := range []string{"POST", "PUT", "DELETE", "PATCH", "websocket"} {
			method, path := what, "/api/pair/new"
			if what == "websocket" {
				method, path = "GET", "/api/secret"
			}
			r := row.b.request(method, path, "")
			r.Header.Set("Origin", row.b.base)
			if what == "websocket" {
				r.Header.Set("Connection", "Upgrade")
				r.Header.Set("Upgrade", "websocket")
			}
			for name, value := range row.headers {
				r.Header.Set(name, value)
				if value == "" {
					r.Header.Del(name)
				}
			}
			got := row.b.send(r)
			refused := got.status == 403 && got.code() == "wrong-origin"
			if refused == row.ok {
				t.Errorf("%s %s: %d %s, want let in %v", row.name, what, got.status, got.body, row.ok)
			}
		}
	}
	r := b.request("POST", "/api/pair/new", "")
	r.Header["Origin"] = []string{b.base, "https://example.com"}
	want(t, "two origins", b.send(r), 403, "wrong-origin")
}

func TestGateNeedsItsParts(t *testing.T) {
	if _, err := New(Config{Studio: studioName}); err == nil {
		t.Error("New without a register succeeded")
	}
}
