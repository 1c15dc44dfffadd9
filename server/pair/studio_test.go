package pair

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"io"
	"log"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"sinkside/server/answer"
	"sinkside/server/pair/authority"
	"sinkside/server/pair/device"
	"sinkside/store/memory"
)

const studioName = "Marram House Textile Studio"

// studio is a whole studio machine: register, authority, gate, and both doors.
type studio struct {
	t       *testing.T
	gate    *Gate
	devices *device.Register
	records *memory.Store
	ca      *authority.Authority
	site    Site
	log     *ledger
	http    string // address of the loopback door
	tls     string // address of the door for phones
}

// ledger is a log that a test reads.
type ledger struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *ledger) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(b)
}

func (l *ledger) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// open starts a studio. change may be nil.
func open(t *testing.T, change func(*Config)) *studio {
	t.Helper()
	s := &studio{t: t, records: memory.New(), log: &ledger{}}
	var err error
	if s.devices, err = device.Open(s.records, device.Options{}); err != nil {
		t.Fatal(err)
	}
	if s.ca, err = authority.Open(authority.Options{Dir: t.TempDir(), Name: "marram", PublicName: "studio.example.org"}); err != nil {
		t.Fatal(err)
	}
	addresses := func() []netip.Addr { return []netip.Addr{netip.MustParseAddr("192.168.7.20")} }
	s.site = Site{Name: s.ca.HostName(), TLSPort: 8743, LocalPort: 8780, TrustPort: 8781,
		Addresses: addresses, Fingerprint: s.ca.Fingerprint().String()}
	config := Config{Studio: studioName, Devices: s.devices, Site: s.site, Log: zerolog.New(s.log).Level(zerolog.TraceLevel)}
	if change != nil {
		change(&config)
	}
	if s.gate, err = New(config); err != nil {
		t.Fatal(err)
	}
	mux := http.NewServeMux()
	s.gate.Mount(mux)
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) { _, _ = io.WriteString(w, "ok") })
	mux.HandleFunc("GET /api/secret", func(w http.ResponseWriter, r *http.Request) {
		d, _ := From(r.Context())
		_, _ = io.WriteString(w, d.Label)
	})
	mux.HandleFunc("GET /api/sync", func(w http.ResponseWriter, r *http.Request) { // stands until the device is revoked
		w.WriteHeader(http.StatusOK)
		_ = http.NewResponseController(w).Flush()
		<-r.Context().Done()
		if context.Cause(r.Context()) == device.ErrRevoked {
			_, _ = io.WriteString(w, "revoked")
		}
	})
	mux.HandleFunc("GET /", func(w http.ResponseWriter, r *http.Request) { _, _ = io.WriteString(w, Origin(r.Context())) })
	s.http = s.serve(s.gate.Guard(mux), nil)
	s.tls = s.serve(s.gate.Guard(mux), s.ca.Leaf(addresses).TLS())
	return s
}

// serve listens on a free port until the test ends.
func (s *studio) serve(h http.Handler, c *tls.Config) (addr string) {
	s.t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		s.t.Fatal(err)
	}
	if c != nil {
		listener = tls.NewListener(listener, c)
	}
	server := &http.Server{Handler: h, ErrorLog: log.New(io.Discard, "", 0)}
	done := make(chan error, 1)
	go func() { done <- server.Serve(listener) }()
	s.t.Cleanup(func() {
		_ = server.Close()
		<-done
	})
	return listener.Addr().String()
}

// browser is a client that behaves like one where it matters here: it trusts
// the root alone, finds every name at the given address, keeps a cookie for the
// door that set it, and sends an Origin with what changes something.
type browser struct {
	t      *testing.T
	base   string // "https://marram.local:8743"
	client *http.Client
	cookie string // "name=value"
	header http.Header
}

func (s *studio) browser(base, addr string) *browser {
	roots := x509.NewCertPool()
	root, err := x509.ParseCertificate(s.ca.Root())
	if err != nil {
		s.t.Fatal(err)
	}
	roots.AddCert(root)
	transport := &http.Transport{
		TLSClientConfig: &tls.Config{RootCAs: roots},
		DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, network, addr)
		},
	}
	s.t.Cleanup(transport.CloseIdleConnections)
	return &browser{t: s.t, base: base, header: http.Header{}, client: &http.Client{Transport: transport, Timeout: 20 * time.Second,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
}

// phone comes over TLS by the stable name, local by this machine's own browser.
func (s *studio) phone() *browser { return s.browser("https://marram.local:8743", s.tls) }
func (s *studio) local() *browser { return s.browser("http://127.0.0.1:8780", s.http) }

// reply is an answer, read to its end.
type reply struct {
	status int
	body   string
	header http.Header
	cookie *http.Cookie
}

func (r reply) code() string {
	var refusal answer.Refusal
	if json.Unmarshal([]byte(r.body), &refusal) != nil || refusal.Say == "" {
		return "no refusal: " + r.body
	}
	return refusal.Code
}

func (b *browser) request(method, path, body string) *http.Request {
	b.t.Helper()
	r, err := http.NewRequest(method, b.base+path, strings.NewReader(body))
	if err != nil {
		b.t.Fatal(err)
	}
	if method != http.MethodGet {
		r.Header.Set("Origin", b.base)
	}
	if b.cookie != "" {
		r.Header.Set("Cookie", b.cookie)
	}
	for name, values := range b.header {
		r.Header[name] = values
	}
	return r
}

func (b *browser) send(r *http.Request) reply {
	b.t.Helper()
	res, err := b.client.Do(r)
	if err != nil {
		b.t.Fatalf("%s %s: %v", r.Method, r.URL, err)
	}
	defer res.Body.Close()
	text, err := io.ReadAll(res.Body)
	if err != nil {
		b.t.Fatalf("%s %s: %v", r.Method, r.URL, err)
	}
	out := reply{status: res.StatusCode, body: strings.TrimSpace(string(text)), header: res.Header}
	for _, c := range res.Cookies() {
		out.cookie = c
		b.cookie = c.Name + "=" + c.Value
	}
	return out
}

func (b *browser) get(path string) reply { return b.send(b.request("GET", path, "")) }

func (b *browser) post(path, body string) reply { return b.send(b.request("POST", path, body)) }

// paired pairs the browser with a fresh code.
func (s *studio) paired(b *browser, label string) *browser {
	s.t.Helper()
	code, err := s.devices.NewCode()
	if err != nil {
		s.t.Fatal(err)
	}
	if got := b.post("/api/pair", `{"code":"`+code.Text+`","label":"`+label+`"}`); got.status != 200 {
		s.t.Fatalf("pair = %d %s", got.status, got.body)
	}
	return b
}

func (b *browser) token() string {
	_, value, _ := strings.Cut(b.cookie, "=")
	return value
}

// want fails unless the reply is this refusal.
func want(t *testing.T, what string, got reply, status int, code string) {
	t.Helper()
	if got.status != status || got.code() != code {
		t.Errorf("%s: %d %s, want %d %s", what, got.status, got.body, status, code)
	}
}
