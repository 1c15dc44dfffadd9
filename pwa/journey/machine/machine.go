// Package machine runs the real server for tests: the binary that people run,
// on a data folder and addresses of the test's own, to be stopped, killed,
// moved and asked.
package machine

import (
	"bytes"
	"context"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// Patience is how long the server may take to come up or to end.
const Patience = 30 * time.Second

// The stable name under which phones know the studio machine, and what it is called.
const (
	Name   = "marram.local"
	Studio = "Marram House Textile Studio"
)

// Machine is one studio machine: a data folder, and while it runs a process.
type Machine struct {
	Dir  string // data folder
	Addr string // loopback address that stands for the machine's place on the LAN
	// Ports stay the same when the server is started again: they are part
	// of the origin to which a phone's storage belongs.
	HTTP, TLS, Trust int

	t      testing.TB
	binary string
	args   []string
	cmd    *exec.Cmd
	ended  chan error
	out    *output
}

// New prepares a studio machine on a data folder; Start starts it. Further
// arguments go to `sinkside serve`.
func New(t testing.TB, dir string, args ...string) *Machine {
	t.Helper()
	m := &Machine{Dir: dir, Addr: "127.0.0.1", t: t, binary: Binary(t), args: args, out: &output{}}
	ports := freePorts(t, 3)
	m.HTTP, m.TLS, m.Trust = ports[0], ports[1], ports[2]
	t.Cleanup(func() {
		m.Kill()
		if t.Failed() {
			t.Logf("the server said:\n%s", m.out)
		}
	})
	return m
}

var binary struct {
	mu   sync.Mutex
	path string
}

// Binary is the path of the server as people run it, built once a test run
// into the repository's folder for caches.
func Binary(t testing.TB) string {
	t.Helper()
	binary.mu.Lock()
	defer binary.mu.Unlock()
	if binary.path != "" {
		return binary.path
	}
	dir := filepath.Join(Root(), ".cache", "journey")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(dir, "sinkside-"+strconv.Itoa(os.Getpid()))
	cmd := exec.Command("go", "build", "-o", fresh, "./server")
	cmd.Dir = Root()
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("build the server: %v: %s", err, out)
	}
	// Other packages' tests may do the same at this moment: each puts a whole file there.
	path := filepath.Join(dir, "sinkside")
	if err := os.Rename(fresh, path); err != nil {
		t.Fatal(err)
	}
	binary.path = path
	return path
}

// Root is the folder of the repository.
func Root() string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "..", "..", "..")
}

// freePorts finds ports that nobody listens on, below those that systems give
// to outgoing connections: one of them could take the port of a server that is
// down for a moment.
func freePorts(t testing.TB, n int) (ports []int) {
	t.Helper()
	for range 1000 {
		port := 10_000 + rand.IntN(20_000)
		l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
		if err != nil {
			continue
		}
		defer l.Close() // all are held until the last is found, so they differ
		if ports = append(ports, port); len(ports) == n {
			return ports
		}
	}
	t.Fatal("no free ports")
	return nil
}

// Start starts the server and waits until it is ready.
func (m *Machine) Start() {
	m.t.Helper()
	at := func(port int) string { return net.JoinHostPort(m.Addr, strconv.Itoa(port)) }
	args := append([]string{"serve", "--data", m.Dir,
		"--listen", net.JoinHostPort("127.0.0.1", strconv.Itoa(m.HTTP)), "--tls-listen", at(m.TLS), "--trust-listen", at(m.Trust),
		"--name", strings.TrimSuffix(Name, ".local"), "--no-mdns", "--studio", Studio}, m.args...)
	cmd := exec.Command(m.binary, args...)
	cmd.Stdout, cmd.Stderr = m.out, m.out
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	m.ended = make(chan error, 1)
	started := make(chan error, 1)
	go func() {
		// The parent-death signal follows the thread that started the
		// process, so this one waits for it to the end.
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := cmd.Start()
		started <- err
		if err == nil {
			m.ended <- cmd.Wait()
		}
	}()
	if err := <-started; err != nil {
		m.t.Fatalf("start the server: %v", err)
	}
	m.cmd = cmd
	m.awaitReady()
}

func (m *Machine) awaitReady() {
	m.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), Patience)
	defer cancel()
	tick := time.NewTicker(10 * time.Millisecond)
	defer tick.Stop()
	for {
		req, err := http.NewRequestWithContext(ctx, "GET", m.Local()+"/healthz", nil)
		if err != nil {
			m.t.Fatal(err)
		}
		if res, err := http.DefaultClient.Do(req); err == nil {
			res.Body.Close()
			if res.StatusCode == http.StatusOK {
				return
			}
		}
		select {
		case err := <-m.ended:
			m.cmd = nil
			m.t.Fatalf("the server ended at its start: %v\n%s", err, m.out)
		case <-ctx.Done():
			m.t.Fatalf("the server is not ready after %v:\n%s", Patience, m.out)
		case <-tick.C:
		}
	}
}

// Stop ends the server in order, as ctrl-C does.
func (m *Machine) Stop() {
	m.t.Helper()
	if m.cmd == nil {
		return
	}
	if err := m.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		m.t.Fatalf("stop the server: %v", err)
	}
	select {
	case err := <-m.ended:
		m.cmd = nil
		if err != nil {
			m.t.Errorf("the server ended with %v", err)
		}
	case <-time.After(Patience):
		m.t.Fatalf("the server did not stop within %v", Patience)
	}
}

// Kill ends the server with SIGKILL. It does nothing to a stopped one.
func (m *Machine) Kill() {
	if m.cmd == nil {
		return
	}
	m.cmd.Process.Kill() // it may have ended by itself
	<-m.ended
	m.cmd = nil
}

// URL is the address that phones are given.
func (m *Machine) URL() string { return "https://" + Name + ":" + strconv.Itoa(m.TLS) }

// Local is the address for the studio machine's own browser.
func (m *Machine) Local() string { return "http://127.0.0.1:" + strconv.Itoa(m.HTTP) }

// TrustURL is the plain address that leads a new phone through trusting the
// studio machine.
func (m *Machine) TrustURL() string { return "http://" + Name + ":" + strconv.Itoa(m.Trust) + "/" }

// Hosts resolves the studio's name as mDNS would now.
func (m *Machine) Hosts() map[string]string { return map[string]string{Name: m.Addr} }

// Run runs another command of the binary, `sinkside pair` for instance, and
// returns what it printed.
func (m *Machine) Run(args ...string) string {
	m.t.Helper()
	var out, problems bytes.Buffer
	cmd := exec.Command(m.binary, args...)
	cmd.Stdout, cmd.Stderr = &out, &problems
	if err := cmd.Run(); err != nil {
		m.t.Fatalf("sinkside %v: %v\n%s%s", args, err, &out, &problems)
	}
	return out.String()
}

// output keeps what the server wrote.
type output struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (o *output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.b.Write(p)
}

func (o *output) String() string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.b.String()
}

// RootCertificate fetches the certificate that the plain HTTP page of the
// studio machine offers to phones.
func (m *Machine) RootCertificate() []byte {
	m.t.Helper()
	res, err := http.Get("http://" + net.JoinHostPort(m.Addr, strconv.Itoa(m.Trust)) + "/sinkside.crt")
	if err != nil {
		m.t.Fatalf("fetch the root certificate: %v", err)
	}
	defer res.Body.Close()
	b, err := io.ReadAll(res.Body)
	if err != nil || res.StatusCode != http.StatusOK {
		m.t.Fatalf("fetch the root certificate: %s %v", res.Status, err)
	}
	return b
}

// PID is the process of the running server.
func (m *Machine) PID() int { return m.cmd.Process.Pid }
