package hub_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/gorilla/websocket"

	"sinkside/server/web/wsconn"
	"sinkside/store"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/link/host"
)

// house is a studio machine with a store on disk.
type house struct {
	store *store.Store
	hub   *hub.Hub
	srv   *httptest.Server
}

// open opens a house for a benchmark.
func open(b *testing.B) *house {
	b.Helper()
	h, err := openHouse(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	return h
}

func openHouse(dir string) (*house, error) {
	st, err := store.Open(filepath.Join(dir, "data"), store.Options{})
	if err != nil {
		return nil, err
	}
	h := &house{store: st}
	h.hub, err = hub.New(hub.Config{Store: st, Key: testKey, Summarise: openSummary})
	if err != nil {
		return nil, err
	}
	up := websocket.Upgrader{ReadBufferSize: 4 << 10, WriteBufferSize: 4 << 10, WriteBufferPool: &sync.Pool{}}
	h.srv = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		dev, err := journal.ParseID(r.URL.Query().Get("dev"))
		if err != nil {
			http.Error(w, "no device", http.StatusUnauthorized)
			return
		}
		ws, err := up.Upgrade(w, r, nil)
		if err == nil {
			_ = h.hub.Serve(context.WithoutCancel(r.Context()), wsconn.New(ws), dev)
		}
	}))
	return h, nil
}

func openSummary(job journal.ID, _ []journal.Entry) (hub.Summary, error) {
	return hub.Summary{Text: []byte(`{"job":"` + job.String() + `","open":true}`), Open: true}, nil
}

func (h *house) close(b *testing.B) {
	h.hub.Close()
	h.srv.Close()
	if err := h.store.Close(); err != nil {
		b.Error(err)
	}
}

// join connects a phone and returns its line and a function that ends it.
func join(b *testing.B, url string, d *host.Device, id journal.ID) (l line, leave func()) {
	ctx, cancel := context.WithCancel(context.Background())
	conn, _, err := wsconn.Dial(ctx, strings.Replace(url, "http", "ws", 1)+"?dev="+id.String(), nil)
	if err != nil {
		b.Fatal(err)
	}
	l = line{conn, &atomic.Int64{}, &atomic.Int64{}}
	done := make(chan struct{})
	go func() {
		defer close(done)
		_ = d.Run(ctx, l)
	}()
	return l, func() {
		cancel()
		<-done
	}
}

// houseDir is where a process of its own keeps its house.
const houseDir = "SINKSIDE_BENCH_HOUSE"

// TestMain makes this program a studio machine when a benchmark starts it as
// one: it says its address and stays until its input ends.
func TestMain(m *testing.M) {
	dir := os.Getenv(houseDir)
	if dir == "" {
		os.Exit(m.Run())
	}
	h, err := openHouse(dir)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println(h.srv.URL)
	_, _ = io.Copy(io.Discard, os.Stdin)
	h.hub.Close()
	_ = h.store.Close()
}

// apart starts a house in a process of its own. leave ends it and returns the
// most memory that it had resident, in megabytes; 0 where the system does not say.
func apart(b *testing.B) (url string, leave func() float64) {
	b.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), houseDir+"="+b.TempDir())
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		b.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		b.Fatal(err)
	}
	url, err = bufio.NewReader(out).ReadString('\n')
	if err != nil {
		b.Fatal(err)
	}
	return strings.TrimSpace(url), func() float64 {
		mb := resident(cmd.Process.Pid)
		_ = in.Close()
		if err := cmd.Wait(); err != nil {
			b.Error(err)
		}
		return mb
	}
}

// resident returns the most megabytes that a process had resident.
func resident(pid int) float64 {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	for l := range strings.Lines(string(status)) {
		var kb float64
		if n, _ := fmt.Sscanf(l, "VmHWM: %f kB", &kb); n == 1 {
			return kb / 1024
		}
	}
	return 0
}
