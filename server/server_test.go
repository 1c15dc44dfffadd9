package main

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"io"
	"net/http"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"sinkside/sync/journal"
)

// testPatience is long because the race detector and other tests share the machine.
const testPatience = 30 * time.Second

// said collects an output that another goroutine writes.
type said struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *said) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *said) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

// until waits for a condition, and ends the test when it does not come.
func until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	late := time.NewTimer(testPatience)
	defer late.Stop()
	look := time.NewTicker(2 * time.Millisecond)
	defer look.Stop()
	for !ok() {
		select {
		case <-late.C:
			t.Fatalf("waited %v for %s", testPatience, what)
		case <-look.C:
		}
	}
}

// running is `sinkside serve` in this process.
type running struct {
	t                 *testing.T
	dir               string
	local, tls, trust string // origins; empty when off
	out, log          *said
	stop              context.CancelFunc
	code              chan int
}

var (
	localLink = regexp.MustCompile(`This machine's browser:\s+(http://[^/\s]+)/#/pair/(\S+)`)
	phoneLink = regexp.MustCompile(`Phones:\s+(https://[^/\s]+)/#/pair/(\S+)`)
	trustLink = regexp.MustCompile(`A new phone first:\s+(http://\S+)`)
)

// serveOn starts the server on a data folder, on free ports, and waits until it has greeted.
func serveOn(t *testing.T, dir string, args ...string) *running {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	r := &running{t: t, dir: dir, out: &said{}, log: &said{}, stop: stop, code: make(chan int, 1)}
	args = append([]string{"serve", "--data", dir, "--no-mdns", "--log-format", "json", "--log-level", "debug"}, args...)
	given := strings.Join(args, " ")
	for _, listen := range []string{"--listen", "--tls-listen", "--trust-listen"} {
		elsewhere := listen != "--listen" && strings.Contains(given, "--behind-proxy") || listen == "--trust-listen" && strings.Contains(given, "--tls-cert")
		if !elsewhere && !strings.Contains(given, listen+" ") {
			args = append(args, listen, "127.0.0.1:0")
		}
	}
	go func() { r.code <- run(ctx, args, streams{nil, r.out, r.log}) }()
	t.Cleanup(func() { r.end() })
	until(t, "the server's greeting", func() bool {
		select {
		case code := <-r.code:
			t.Fatalf("the server ended at its start with %d:\n%s", code, r.log)
		default:
		}
		return strings.Contains(r.out.String(), "Stop: ctrl-C")
	})
	find := func(re *regexp.Regexp) string {
		if m := re.FindStringSubmatch(r.out.String()); m != nil {
			return m[1]
		}
		return ""
	}
	r.local, r.tls, r.trust = find(localLink), find(phoneLink), find(trustLink)
	return r
}

// end stops the server as ctrl-C does and returns its exit code.
func (r *running) end() int {
	r.stop()
	select {
	case code := <-r.code:
		r.code <- code
		return code
	case <-time.After(testPatience):
		r.t.Errorf("the server did not stop within %v", testPatience)
		return -1
	}
}

// command runs another command on the same data folder.
func (r *running) command(args ...string) string {
	r.t.Helper()
	var out, problems bytes.Buffer
	if code := run(context.Background(), append(args, "--data", r.dir), streams{nil, &out, &problems}); code != 0 {
		r.t.Fatalf("sinkside %s: exit %d: %s", strings.Join(args, " "), code, &problems)
	}
	return out.String()
}

// code asks for a one-time code.
func (r *running) pairingCode() string {
	r.t.Helper()
	var t ticket
	if err := json.Unmarshal([]byte(r.command("pair", "--json")), &t); err != nil {
		r.t.Fatal(err)
	}
	return t.Code
}

// trusting is a transport that trusts the studio's certificate and finds its name at its port, as a
// phone does after the trust page and mDNS.
func (r *running) trusting() *http.Transport {
	r.t.Helper()
	trust, err := url.Parse(r.trust)
	if err != nil {
		r.t.Fatal(err)
	}
	res, err := http.Get("http://127.0.0.1:" + trust.Port() + "/sinkside.crt")
	if err != nil {
		r.t.Fatal(err)
	}
	defer res.Body.Close()
	der, err := io.ReadAll(res.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	pool := x509.NewCertPool()
	if !pool.AppendCertsFromPEM(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})) {
		r.t.Fatal("the trust page's certificate cannot be read")
	}
	return &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, DialContext: dialHere}
}

var newJob = func() func() journal.ID {
	var mu sync.Mutex
	var n byte
	return func() journal.ID {
		mu.Lock()
		defer mu.Unlock()
		n++
		return journal.NewID(uint64(time.Now().UnixMilli()), [10]byte{9: n})
	}
}()

func tempData(t *testing.T) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "data")
}
