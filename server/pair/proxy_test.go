package pair

import (
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/netip"
	"net/url"
	"strings"
	"testing"
)

// proxied puts a reverse proxy in front of the studio's plain door, with a
// certificate of the same studio for its public name, as a person's own proxy
// would have one.
func (s *studio) proxied() *browser {
	s.t.Helper()
	target := &url.URL{Scheme: "http", Host: s.http}
	proxy := &httputil.ReverseProxy{Rewrite: func(r *httputil.ProxyRequest) {
		r.SetURL(target)
		r.Out.Header["X-Forwarded-For"] = r.In.Header["X-Forwarded-For"] // this one appends, as most do
		r.SetXForwarded()
	}}
	addr := s.serve(proxy, s.ca.Leaf(s.site.Addresses).TLS())
	return s.browser("https://studio.example.org", addr)
}

func behindProxy(c *Config) {
	c.Proxy = Proxy{Behind: true}
	c.Site.PublicName, c.Site.TLSPort, c.Site.TrustPort, c.Site.Fingerprint = "studio.example.org", 443, 0, ""
}

func TestBehindAProxy(t *testing.T) {
	s := open(t, behindProxy)
	b := s.proxied()
	want(t, "unpaired", b.get("/api/secret"), 401, "unpaired")
	code, err := s.devices.NewCode()
	if err != nil {
		t.Fatal(err)
	}
	got := b.post("/api/pair", `{"code":"`+code.Text+`","label":"Runa's phone"}`)
	if got.status != 200 || got.cookie.Name != secureCookie || !got.cookie.Secure {
		t.Fatalf("pair = %d %s with %+v", got.status, got.body, got.cookie)
	}
	if got := b.get("/api/secret"); got.body != "Runa's phone" {
		t.Errorf("paired: %d %s", got.status, got.body)
	}
	if got := b.get("/"); got.body != "https://studio.example.org" {
		t.Errorf("origin as seen = %s", got.body)
	}
	if got := b.post("/api/pair/new", ""); got.status != 200 || !strings.Contains(got.body, `"url":"https://studio.example.org/#/pair/`) {
		t.Errorf("new code = %d %s", got.status, got.body)
	}

	r := b.request("POST", "/api/pair/new", "")
	r.Header.Set("Origin", "https://example.com")
	refused := b.send(r)
	want(t, "another site's page", refused, 403, "wrong-origin")
	if !strings.Contains(refused.body, "X-Forwarded-Host") {
		t.Errorf("%s does not say what a proxy must pass on", refused.body)
	}
	r = b.request("GET", "/api/secret", "")
	r.Host = "rebound.example.com"
	want(t, "a rebound name", b.send(r), 421, "wrong-host")

	local := s.paired(s.local(), "Studio machine") // past the proxy, on the machine itself
	if got := local.get("/api/secret"); got.body != "Studio machine" {
		t.Errorf("past the proxy: %d %s", got.status, got.body)
	}
}

// TestWithoutBehindProxyHeadersAreIgnored has the same proxy in front of a
// server that was not told of it.
func TestWithoutBehindProxyHeadersAreIgnored(t *testing.T) {
	s := open(t, func(c *Config) { c.Site.PublicName = "studio.example.org" })
	want(t, "reading through the proxy", s.proxied().get("/api/secret"), 401, "unpaired")
	want(t, "pairing through the proxy", s.proxied().post("/api/pair", `{"code":"CDFG-HJKM"}`), 403, "wrong-origin")

	b := s.paired(s.local(), "Studio machine")
	b.header = http.Header{"X-Forwarded-Proto": {"https"}, "X-Forwarded-Host": {"studio.example.org"}}
	if got := b.get("/"); got.body != b.base {
		t.Errorf("origin as seen = %s, want %s", got.body, b.base)
	}
}

func TestEachAddressBehindAProxyIsSlowedDownAlone(t *testing.T) {
	s := open(t, behindProxy)
	from := func(addr string) *browser {
		b := s.local()
		b.base = "https://studio.example.org"
		b.client.Transport = rewrite{s.local().client.Transport, s.http}
		b.header = http.Header{"X-Forwarded-Proto": {"https"}, "X-Forwarded-Host": {"studio.example.org"}, "X-Forwarded-For": {addr}}
		return b
	}
	for range 8 {
		want(t, "a wrong code", from("203.0.113.66").post("/api/pair", `{"code":"CDFG-HJKM"}`), 400, "wrong-code")
	}
	// What stands before the last address is the sender's own invention.
	want(t, "behind an invented address", from("198.51.100.1, 203.0.113.66").post("/api/pair", `{"code":"CDFG-HJKM"}`), 429, "slow-down")
	want(t, "another address", from("203.0.113.67").post("/api/pair", `{"code":"CDFG-HJKM"}`), 400, "wrong-code")
}

// rewrite plays the plain hop between a proxy and the server.
type rewrite struct {
	http.RoundTripper
	addr string
}

func (w rewrite) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host = "http", w.addr
	return w.RoundTripper.RoundTrip(r)
}

func TestLook(t *testing.T) {
	trusted, err := ParseTrusted([]string{"172.18.0.0/16", "10.0.0.2"})
	if err != nil {
		t.Fatal(err)
	}
	behind := Proxy{Behind: true, Trusted: trusted}
	headers := func(proto, host, chain string) http.Header {
		return http.Header{"X-Forwarded-Proto": {proto}, "X-Forwarded-Host": {host}, "X-Forwarded-For": {chain}}
	}
	full := headers("https", "studio.example.org", "203.0.113.66")
	rows := []struct {
		name   string
		proxy  Proxy
		peer   string
		header http.Header
		want   string
	}{
		{"no proxy", Proxy{}, "127.0.0.1:4000", full, "http://backend from 127.0.0.1 direct true"},
		{"loopback proxy", behind, "127.0.0.1:4000", full, "https://studio.example.org from 203.0.113.66 direct false"},
		{"IPv6 loopback proxy", behind, "[::1]:4000", full, "https://studio.example.org from 203.0.113.66 direct false"},
		{"listed proxy", behind, "172.18.0.9:4000", full, "https://studio.example.org from 203.0.113.66 direct false"},
		{"listed proxy, mapped", behind, "[::ffff:10.0.0.2]:4000", full, "https://studio.example.org from 203.0.113.66 direct false"},
		{"a stranger who claims to be one", behind, "10.0.0.3:4000", full, "http://backend from 10.0.0.3 direct true"},
		{"past the proxy", behind, "127.0.0.1:4000", http.Header{}, "http://backend from 127.0.0.1 direct true"},
		{"two proxies", behind, "127.0.0.1:4000", headers("https", "a.example.org, studio.example.org", "198.51.100.1, 203.0.113.66, 10.0.0.2"),
			"https://studio.example.org from 203.0.113.66 direct false"},
		{"two lines", behind, "127.0.0.1:4000", http.Header{"X-Forwarded-For": {"198.51.100.1", "203.0.113.66"}},
			"http://backend from 203.0.113.66 direct false"},
		{"proxies all the way", behind, "127.0.0.1:4000", headers("https", "studio.example.org", "10.0.0.2"),
			"https://studio.example.org from 10.0.0.2 direct false"},
		{"an unreadable address", behind, "127.0.0.1:4000", headers("https", "studio.example.org", "203.0.113.66, unknown"),
			"https://studio.example.org from 127.0.0.1 direct false"},
		{"http to the proxy", behind, "127.0.0.1:4000", headers("http", "studio.example.org", "203.0.113.66"),
			"http://studio.example.org from 203.0.113.66 direct false"},
	}
	for _, row := range rows {
		r := httptest.NewRequest("GET", "http://backend/", nil)
		r.RemoteAddr, r.Header = row.peer, row.header
		s := row.proxy.look(r)
		got := s.origin() + " from " + s.from.String() + " direct " + map[bool]string{true: "true", false: "false"}[s.direct]
		if got != row.want {
			t.Errorf("%s: %s, want %s", row.name, got, row.want)
		}
	}
}

func TestParseTrustedNamesTheOneAtFault(t *testing.T) {
	if _, err := ParseTrusted([]string{"10.0.0.2", "proxy.example.org"}); err == nil || !strings.Contains(err.Error(), `"proxy.example.org"`) {
		t.Errorf("ParseTrusted = %v", err)
	}
	got, err := ParseTrusted([]string{"::ffff:10.0.0.2", "fd00::/8"})
	if err != nil || len(got) != 2 || !got[0].Contains(netip.MustParseAddr("10.0.0.2")) {
		t.Errorf("ParseTrusted = %v, %v", got, err)
	}
}
