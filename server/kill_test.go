package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"net/http"
	"strings"
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
		t.Logf("%s: %d entries acknowledged over %d kills", a.device.ID, a.total(), killRounds)
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
			// Mostly short notes, and some long enough that the store has tables to write.
			text := strings.Repeat("the fringe is stiff; ", 1+a.rnd.IntN(4)*a.rnd.IntN(2)*150)
			a.write(a.jobs[a.rnd.IntN(len(a.jobs))], "note", fmt.Sprintf(`{"text":"%d %s"}`, a.rnd.Uint64(), text))
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
	conn, refused, err := websocket.DefaultDialer.Dial(a.device.Socket(), a.device.Header())
	switch {
	case err != nil && refused != nil:
		return fmt.Errorf("dial: %w: %s", err, refused.Status)
	case err != nil:
		return nil // killed before it could answer
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

// check compares the record with what was written, acknowledged and shown.
func (a *author) check(reader *machine.Device, round int, whole bool) {
	a.t.Helper()
	for _, job := range a.jobs {
		got, want := kept(reader, job), a.written[job]
		if len(got) > len(want) {
			a.t.Fatalf("round %d: treatment %s has %d entries, %d were written", round, job, len(got), len(want))
		}
		for i, line := range got {
			if !bytes.Equal(line, want[i]) {
				a.t.Fatalf("round %d: entry %d of %s is\n%s\nwas written as\n%s", round, i+1, job, line, want[i])
			}
		}
		if n := uint64(len(got)); n < a.acked[job] || whole && n != uint64(len(want)) {
			a.t.Fatalf("round %d: treatment %s has %d entries, %d were acknowledged, %d written", round, job, n, a.acked[job], len(want))
		}
	}
	logs := map[journal.ID][][]byte{}
	for _, e := range a.shown {
		if logs[e.Job] == nil {
			logs[e.Job] = kept(reader, e.Job)
		}
		if e.N > uint64(len(logs[e.Job])) || !bytes.Equal(logs[e.Job][e.N-1], e.Line) {
			a.t.Fatalf("round %d: shown to another device, then lost: %s", round, e.Line)
		}
	}
	a.shown = nil
}

// kept is the log of a treatment with one author; none while nothing of it
// was kept.
func kept(reader *machine.Device, job journal.ID) [][]byte {
	status, b := reader.Do("GET", "/api/treatments/"+job.String()+"/log.jsonl", nil)
	if status != http.StatusOK || len(b) == 0 {
		return nil
	}
	return bytes.Split(bytes.TrimSuffix(b, []byte("\n")), []byte("\n"))
}
