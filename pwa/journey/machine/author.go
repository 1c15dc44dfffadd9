package machine

import (
	"errors"
	"fmt"
	"time"

	"github.com/gorilla/websocket"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link"
)

// Author is a device that writes and sends entries without a browser: the
// device's side of the protocol on a websocket, with its log in memory.
type Author struct {
	*Device
	Dev     journal.ID
	Written map[journal.ID][][]byte // own lines by treatment, in order
	Acked   map[journal.ID]uint64   // last place of each own chain that has a receipt
	Shown   []journal.Entry         // entries of others that the studio machine passed on
	heads   map[journal.ID]journal.Head
	link    *link.Link
	clock   journal.Clock
}

// Author pairs a device that writes.
func (m *Machine) Author(label string) *Author {
	m.t.Helper()
	d := m.Device(label)
	dev, err := journal.ParseID(d.ID)
	if err != nil {
		m.t.Fatal(err)
	}
	return &Author{Device: d, Dev: dev, link: link.New(link.Config{Dev: dev}, link.State{}),
		heads: map[journal.ID]journal.Head{}, Written: map[journal.ID][][]byte{}, Acked: map[journal.ID]uint64{}}
}

// NewJob makes an id for a treatment.
func NewJob(n byte) journal.ID {
	now := time.Now()
	return journal.NewID(uint64(now.UnixMilli()), [10]byte{n, byte(now.UnixNano()), byte(now.UnixNano() >> 8)})
}

// Write writes an entry that happened at a time; it is sent in the next session.
func (a *Author) Write(job journal.ID, at time.Time, kind, body string) journal.Name {
	e, err := journal.Write(journal.Draft{Job: job, At: at.Format(time.RFC3339), By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)},
		a.Dev, a.heads[job], a.clock.Tick(time.Now().UnixMilli()))
	if err == nil {
		err = a.link.Wrote(e)
	}
	if err != nil {
		a.t.Errorf("write: %v", err)
		return journal.Name{}
	}
	a.heads[job] = journal.Head{N: e.N, Name: e.Name}
	a.Written[job] = append(a.Written[job], e.Line)
	return e.Name
}

// Unsent is how many entries have no receipt yet.
func (a *Author) Unsent() int { return a.link.Status().Unsent }

// Total is how many entries have a receipt.
func (a *Author) Total() (n uint64) {
	for _, k := range a.Acked {
		n += k
	}
	return n
}

// Send opens a session and sends until nothing is unsent.
func (a *Author) Send() {
	a.t.Helper()
	err := a.Session(func() bool { return a.Unsent() > 0 })
	if err == nil && a.Unsent() > 0 {
		err = errors.New("the session ended early")
	}
	if err != nil {
		a.t.Fatalf("send: %v", err)
	}
}

// Session speaks with the server until next says no or the connection breaks,
// which is no error. next is asked before each frame is awaited and may write.
func (a *Author) Session(next func() bool) error {
	conn, refused, err := websocket.DefaultDialer.Dial(a.Socket(), a.Header())
	switch {
	case err != nil && refused != nil:
		return fmt.Errorf("dial: %w: %s", err, refused.Status)
	case err != nil:
		return nil // the server is away
	}
	defer conn.Close()
	defer a.link.Stop()
	quit := make(chan struct{})
	defer close(quit)
	frames := receive(conn, quit)
	a.link.Start(time.Now().UnixMilli())
	for next() {
		if err := a.carryOut(conn); err != nil {
			return err
		}
		frame, ok := <-frames
		if !ok {
			return nil
		}
		if err := a.link.Receive(frame, time.Now().UnixMilli()); err != nil {
			return fmt.Errorf("receive: %w", err)
		}
		if err := a.carryOut(conn); err != nil {
			return err
		}
	}
	return nil
}

// receive passes frames on until the connection ends or quit is closed.
func receive(conn *websocket.Conn, quit <-chan struct{}) <-chan []byte {
	frames := make(chan []byte)
	go func() {
		defer close(frames)
		for {
			_, frame, err := conn.ReadMessage()
			if err != nil {
				return
			}
			select {
			case frames <- frame:
			case <-quit:
				return
			}
		}
	}()
	return frames
}

func (a *Author) carryOut(conn *websocket.Conn) error {
	e := a.link.Take()
	if e.Fork != nil {
		return fmt.Errorf("the server found a fork: %+v", e.Fork)
	}
	for _, r := range e.Receipts {
		if r.Dev == a.Dev {
			a.Acked[r.Job] = max(a.Acked[r.Job], r.N)
		}
	}
	a.Shown = append(a.Shown, e.Store...)
	for _, f := range e.Frames {
		if conn.WriteMessage(websocket.BinaryMessage, f.Bytes) != nil {
			return nil // broken: the reader sees the end
		}
	}
	return nil
}
