package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"sinkside/pwa/journey/machine"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link"
)

// killRounds is how often the server is killed. Each round ends at another
// moment of receiving, storing and answering.
const killRounds = 12

// The real server is killed, without a warning, while devices push. After each
// start every entry that it acknowledged, or showed to another device, is in
// the record, exactly as written and once; no chain has a gap. At the end
// everything that was written has arrived.
func TestKillLosesNothingAcknowledged(t *testing.T) {
	t.Cleanup(machine.Remove)
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	rnd := rand.New(rand.NewPCG(seed, 1))

	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	devices := []*author{newAuthor(t, m, "first phone", seed), newAuthor(t, m, "second phone", seed+1)}

	for round := range killRounds {
		enough := make(chan struct{}, len(devices))
		over := make(chan error, len(devices))
		for _, a := range devices {
			more := 1 + rnd.IntN(60)
			go func() { over <- a.push(more, enough) }()
		}
		<-enough
		m.Kill()
		for range devices {
			if err := <-over; err != nil {
				t.Fatalf("round %d: %v", round, err)
			}
		}
		m.Start()
		for _, a := range devices {
			a.check(reader, round, false)
		}
	}

	for _, a := range devices {
		if err := a.finish(); err != nil {
			t.Fatal(err)
		}
		a.check(reader, killRounds, true)
	}
	m.Stop()
}

// author is a phone that writes into treatments of its own, without a browser.
type author struct {
	t      *testing.T
	device *machine.Device
	dev    journal.ID
	link   *link.Link
	clock  journal.Clock
	rnd    *rand.Rand

	jobs    []journal.ID
	heads   map[journal.ID]journal.Head
	written map[journal.ID][][]byte
	acked   map[journal.ID]uint64
	shown   []journal.Entry // of others, as the server passed them on
}

func newAuthor(t *testing.T, m *machine.Machine, label string, seed uint64) *author {
	t.Helper()
	d := m.Device(label)
	dev, err := journal.ParseID(d.ID)
	if err != nil {
		t.Fatal(err)
	}
	a := &author{t: t, device: d, dev: dev, rnd: rand.New(rand.NewPCG(seed, 2)),
		link:  link.New(link.Config{Dev: dev}, link.State{}),
		heads: map[journal.ID]journal.Head{}, written: map[journal.ID][][]byte{}, acked: map[journal.ID]uint64{}}
	for i := range 3 {
		job := journal.NewID(uint64(time.Now().UnixMilli()), [10]byte{byte(seed), byte(seed >> 8), byte(i)})
		a.jobs = append(a.jobs, job)
		a.write(job, "open", fmt.Sprintf(`{"name":"Child's quilted bonnet %d"}`, i))
	}
	return a
}

func (a *author) write(job journal.ID, kind, body string) {
	now := time.Now()
	e, err := journal.Write(journal.Draft{Job: job, At: now.Format(time.RFC3339), By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)},
		a.dev, a.heads[job], a.clock.Tick(now.UnixMilli()))
	if err != nil {
		a.t.Errorf("write: %v", err)
		return
	}
	a.heads[job] = journal.Head{N: e.N, Name: e.Name}
	a.written[job] = append(a.written[job], e.Line)
	if err := a.link.Wrote(e); err != nil {
		a.t.Errorf("write: %v", err)
	}
}

// push writes and sends until the connection breaks. When the server has
// acknowledged so many more entries it says so on enough, and goes on.
func (a *author) push(more int, enough chan<- struct{}) error {
	before := a.total()
	return a.session(func() bool {
		for a.link.Status().Unsent < 40 {
			a.write(a.jobs[a.rnd.IntN(len(a.jobs))], "note", fmt.Sprintf(`{"text":"%d"}`, a.rnd.Uint64()))
		}
		if more > 0 && a.total() >= before+uint64(more) {
			more = 0
			enough <- struct{}{}
		}
		return true
	})
}

// finish sends what is left.
func (a *author) finish() error {
	return a.session(func() bool { return a.link.Status().Unsent > 0 })
}

// session speaks to the server until the connection breaks or next says no.
func (a *author) session(next func() bool) error {
	conn, _, err := websocket.DefaultDialer.Dial(a.device.Socket(), a.device.Header())
	if err != nil {
		return fmt.Errorf("dial: %w", err)
	}
	defer conn.Close()
	defer a.link.Stop()
	frames := make(chan []byte)
	quit := make(chan struct{})
	defer close(quit)
	go func() {
		defer close(frames)
		for {
			_, b, err := conn.ReadMessage()
			if err != nil {
				return // killed, as intended
			}
			select {
			case frames <- b:
			case <-quit:
				return
			}
		}
	}()
	a.link.Start(time.Now().UnixMilli())
	for next() {
		if err := a.carryOut(conn); err != nil {
			return err
		}
		b, ok := <-frames
		if !ok {
			return nil
		}
		if err := a.link.Receive(b, time.Now().UnixMilli()); err != nil {
			return fmt.Errorf("receive: %w", err)
		}
		if err := a.carryOut(conn); err != nil {
			return err
		}
	}
	return nil
}

func (a *author) carryOut(conn *websocket.Conn) error {
	e := a.link.Take()
	if e.Fork != nil {
		return fmt.Errorf("the server found a fork: %+v", e.Fork)
	}
	for _, r := range e.Receipts {
		if r.Dev == a.dev {
			a.acked[r.Job] = max(a.acked[r.Job], r.N)
		}
	}
	a.shown = append(a.shown, e.Store...)
	for _, f := range e.Frames {
		if conn.WriteMessage(websocket.BinaryMessage, f.Bytes) != nil {
			return nil // killed: the reader sees the end
		}
	}
	return nil
}

func (a *author) total() (n uint64) {
	for _, k := range a.acked {
		n += k
	}
	return n
}

// check compares the record with what was written and acknowledged.
func (a *author) check(reader *machine.Device, round int, whole bool) {
	a.t.Helper()
	for _, job := range a.jobs {
		status, record := reader.Do("GET", "/api/treatments/"+job.String()+"/log.jsonl", nil)
		if status != 200 {
			record = nil // nothing of it was acknowledged yet, or the comparison below fails
		}
		lines := bytes.Split(bytes.TrimSuffix(record, []byte("\n")), []byte("\n"))
		if len(record) == 0 {
			lines = nil
		}
		want := a.written[job]
		if len(lines) > len(want) {
			a.t.Fatalf("round %d: treatment %s has %d entries, %d were written", round, job, len(lines), len(want))
		}
		for i, l := range lines {
			if !bytes.Equal(l, want[i]) {
				a.t.Fatalf("round %d: entry %d of %s is\n%s\nwas written as\n%s", round, i+1, job, l, want[i])
			}
		}
		if n := uint64(len(lines)); n < a.acked[job] || whole && n != uint64(len(want)) {
			a.t.Fatalf("round %d: treatment %s has %d entries, %d were acknowledged, %d written", round, job, n, a.acked[job], len(want))
		}
	}
	for _, e := range a.shown {
		_, record := reader.Do("GET", "/api/treatments/"+e.Job.String()+"/log.jsonl", nil)
		if !bytes.Contains(record, append(e.Line, '\n')) {
			a.t.Fatalf("round %d: shown to another device, then lost: %s", round, e.Line)
		}
	}
	a.shown = nil
}
