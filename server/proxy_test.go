package main

import (
	"context"
	"crypto/tls"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"testing"

	"sinkside/sync/link/host"
)

func mustURL(t *testing.T, s string) *url.URL {
	t.Helper()
	u, err := url.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return u
}

// proxied puts a reverse proxy with https in front of a server's plain door. The certificate of
// net/http/httptest is for example.com, so that is the public name. tell says what the proxy tells
// of the browser.
func proxied(t *testing.T, r *running, tell func(*httputil.ProxyRequest)) *client {
	t.Helper()
	to := mustURL(t, r.local)
	front := httptest.NewTLSServer(&httputil.ReverseProxy{Rewrite: func(p *httputil.ProxyRequest) {
		p.SetURL(to)
		tell(p)
	}})
	t.Cleanup(front.Close)
	at := mustURL(t, front.URL)
	transport := &http.Transport{
		TLSClientConfig: &tls.Config{RootCAs: front.Client().Transport.(*http.Transport).TLSClientConfig.RootCAs},
		DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			var d net.Dialer
			return d.DialContext(ctx, network, at.Host)
		},
	}
	return browser(t, "https://example.com:"+at.Port(), transport)
}

func TestThroughAProxy(t *testing.T) {
	for name, tell := range map[string]func(*httputil.ProxyRequest){
		"that passes the host on": func(p *httputil.ProxyRequest) {
			p.Out.Host = p.In.Host
			p.Out.Header.Set("X-Forwarded-Proto", "https")
		},
		"that tells all it knows": func(p *httputil.ProxyRequest) { p.SetXForwarded() },
	} {
		t.Run(name, func(t *testing.T) {
			r := serveOn(t, tempData(t), "--behind-proxy", "--public-name", "example.com")
			if r.tls != "https://example.com" || r.trust != "" {
				t.Errorf("phones are sent to %q and %q, want https://example.com and no trust page", r.tls, r.trust)
			}
			c := proxied(t, r, tell)
			for _, g := range guarded {
				if g.path != "/api//me" { // redirected by the proxy's own mux
					c.wantFault(g.method, g.path, "{}", http.StatusUnauthorized, "unpaired")
				}
			}
			c.pair(r, "phone")
			for _, cookie := range c.http.Jar.Cookies(mustURL(t, c.origin)) {
				if cookie.Name != "__Host-sinkside" {
					t.Errorf("cookie %s, want the one that only https sees", cookie.Name)
				}
			}
			a, _ := c.phone()
			b, _ := r.paired("desk").phone()
			job := newJob()
			record(t, a, job, "open", `{"name":"Harbour-office signal flag"}`)
			wait(t, b, "the phone's entry on the desk", func(v host.View) bool { return count(v, job) == 1 })
			_, _, h := c.do("GET", "/", nil)
			if want := "wss" + strings.TrimPrefix(c.origin, "https"); !strings.Contains(h.Get("Content-Security-Policy"), want) {
				t.Errorf("policy %q does not name %s", h.Get("Content-Security-Policy"), want)
			}
		})
	}
}

func TestAProxyThatHidesHTTPSIsToldSo(t *testing.T) {
	r := serveOn(t, tempData(t), "--behind-proxy", "--public-name", "example.com")
	c := proxied(t, r, func(p *httputil.ProxyRequest) { p.Out.Host = p.In.Host })
	c.wantFault("GET", "/api/me", "", http.StatusForbidden, "plain-http")
}

func TestWithoutBehindProxyItsHeadersAreNotBelieved(t *testing.T) {
	r := serveOn(t, tempData(t))
	c := proxied(t, r, func(p *httputil.ProxyRequest) { p.SetXForwarded(); p.Out.Host = p.In.Host })
	c.wantFault("GET", "/api/me", "", http.StatusMisdirectedRequest, "wrong-host")
}
