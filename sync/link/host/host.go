// Package host runs a device's link in a Go program: over a connection, with
// its log in memory. Tests and the benchmark are such programs.
package host

import (
	"context"
	"errors"
	"maps"
	"slices"
	"sync"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/wire"
)

// Conn is a connection that carries messages, as in package hub.
type Conn interface {
	Read(ctx context.Context) ([]byte, error)
	Write(msg []byte) error
	Close(code int, reason string) error
}

// Memory is what a device keeps: what a phone has in its database.
type Memory struct {
	Dev        journal.ID
	Clock      journal.Clock
	Chains     map[journal.Chain][]journal.Entry
	Receipts   map[journal.Chain]wire.Receipt
	Aside      []journal.Entry
	Summaries  map[journal.ID]wire.Summary
	Generation wire.Generation
	Opened     []journal.ID
	Blobs      map[[32]byte][]byte
}

// NewMemory returns the memory of a device that has seen nothing.
func NewMemory(dev journal.ID) *Memory {
	return &Memory{
		Dev:       dev,
		Chains:    map[journal.Chain][]journal.Entry{},
		Receipts:  map[journal.Chain]wire.Receipt{},
		Summaries: map[journal.ID]wire.Summary{},
		Blobs:     map[[32]byte][]byte{},
	}
}

// Copy returns a copy: a backup of the phone.
func (m *Memory) Copy() *Memory {
	c := *m
	c.Chains = map[journal.Chain][]journal.Entry{}
	for k, es := range m.Chains {
		c.Chains[k] = slices.Clone(es)
	}
	c.Receipts, c.Summaries, c.Blobs = maps.Clone(m.Receipts), maps.Clone(m.Summaries), maps.Clone(m.Blobs)
	c.Aside, c.Opened = slices.Clone(m.Aside), slices.Clone(m.Opened)
	return &c
}

func (m *Memory) head(c journal.Chain) journal.Head {
	es := m.Chains[c]
	if len(es) == 0 {
		return journal.Head{}
	}
	return journal.Head{N: es[len(es)-1].N, Name: es[len(es)-1].Name}
}

// state is what a Link starts from.
func (m *Memory) state() link.State {
	st := link.State{Opened: m.Opened, Generation: m.Generation}
	for c, es := range m.Chains {
		if len(es) == 0 {
			continue
		}
		st.Heads = append(st.Heads, journal.ChainHead{Chain: c, Head: m.head(c)})
		if c.Dev == m.Dev {
			st.Unsent = append(st.Unsent, es[min(m.Receipts[c].N, uint64(len(es))):]...)
		}
	}
	st.Receipts = slices.Collect(maps.Values(m.Receipts))
	for id, s := range m.Summaries {
		if s.Open {
			st.Open = append(st.Open, id)
		} else {
			st.Closed = append(st.Closed, id)
		}
	}
	return st
}

// Options of a device. All may be left out.
type Options struct {
	NoInflate bool // the device cannot inflate
	Now       func() time.Time
	// Successor claims a new id after a fork; without it the device stays as it
	// is and says so in its status.
	Successor func(old journal.ID) journal.ID
	// Stored is called with entries of others as they are stored.
	Stored func([]journal.Entry)
}

// Device runs a link. Its methods may be called at the same time.
type Device struct {
	opts Options

	mu    sync.Mutex
	cond  *sync.Cond
	mem   *Memory
	link  *link.Link
	conn  *sending
	seen  map[journal.ID]bool // treatments that are caught up
	all   bool
	runs  int
	notes []string
	done  [][32]byte
	rings uint64
	down  map[[32]byte][]byte
	err   error
}

// New makes a device from its memory, which it owns from then on.
func New(mem *Memory, opts Options) *Device {
	if opts.Now == nil {
		opts.Now = time.Now
	}
	d := &Device{opts: opts, mem: mem, down: map[[32]byte][]byte{}}
	d.cond = sync.NewCond(&d.mu)
	d.restart()
	return d
}

// restart makes the link again from what is kept.
func (d *Device) restart() {
	d.link = link.New(link.Config{Dev: d.mem.Dev, CanInflate: !d.opts.NoInflate}, d.mem.state())
	d.seen, d.all = map[journal.ID]bool{}, false
}

// ErrSuccessor ends a connection after which the device has another id.
var ErrSuccessor = errors.New("device goes on under a successor id")

// Run is one session: it returns when the connection ends, with the cause.
func (d *Device) Run(ctx context.Context, conn Conn) error {
	d.mu.Lock()
	d.conn = newSending(conn, d.opts.NoInflate)
	out := d.conn
	d.all, d.err = false, nil
	d.runs++
	d.rings = 0
	d.link.Start(d.opts.Now().UnixMilli())
	d.apply()
	d.cond.Broadcast()
	d.mu.Unlock()

	written := make(chan struct{})
	go func() {
		defer close(written)
		out.run()
	}()
	err := d.receive(ctx, conn)
	d.mu.Lock()
	if d.err != nil {
		err = d.err
	}
	d.link.Stop()
	d.conn = nil
	d.cond.Broadcast()
	d.mu.Unlock()
	out.close()
	_ = conn.Close(wire.CodeGoingAway, "done")
	<-written
	return err
}

func (d *Device) receive(ctx context.Context, conn Conn) error {
	for {
		msg, err := conn.Read(ctx)
		if err != nil {
			return err
		}
		plain, err := wire.Unpack(msg, inflate)
		if err != nil {
			return err
		}
		d.mu.Lock()
		err = d.link.Receive(plain, d.opts.Now().UnixMilli())
		d.apply()
		if err == nil {
			err = d.err
		}
		d.cond.Broadcast()
		d.mu.Unlock()
		if err != nil {
			return err
		}
	}
}

// Write records an entry, durable as far as memory is.
func (d *Device) Write(dr journal.Draft) (journal.Entry, error) {
	es, err := d.WriteAll([]journal.Draft{dr})
	if err != nil {
		return journal.Entry{}, err
	}
	return es[0], nil
}

// WriteAll records entries at once.
func (d *Device) WriteAll(drafts []journal.Draft) ([]journal.Entry, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	es := make([]journal.Entry, 0, len(drafts))
	for _, dr := range drafts {
		c := journal.Chain{Job: dr.Job, Dev: d.mem.Dev}
		e, err := journal.Write(dr, d.mem.Dev, d.mem.head(c), d.mem.Clock.Tick(d.opts.Now().UnixMilli()))
		if err != nil {
			return nil, err
		}
		d.mem.Chains[c] = append(d.mem.Chains[c], e)
		es = append(es, e)
	}
	err := d.link.Wrote(es...)
	d.apply()
	d.cond.Broadcast()
	return es, err
}

// Do calls f with the link, for what Device has no method of its own.
func (d *Device) Do(f func(l *link.Link, m *Memory)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	f(d.link, d.mem)
	d.apply()
	d.cond.Broadcast()
}

// View is what Wait's condition sees.
type View struct {
	Status   link.Status
	Memory   *Memory
	CaughtUp map[journal.ID]bool
	All      bool       // caught up with everything in this session
	Notices  []string   // of all sessions
	Sessions int        // how many were begun
	Done     [][32]byte // blobs that are whole on the studio machine's disk
	Ringers  uint64     // devices that are armed, as the session says
}

func (d *Device) view() View {
	return View{d.link.Status(), d.mem, d.seen, d.all, d.notes, d.runs, d.done, d.rings}
}

// Look calls f with what the device holds.
func (d *Device) Look(f func(View)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	f(d.view())
}

// Wait waits until cond holds, and returns ctx's error when it does not.
func (d *Device) Wait(ctx context.Context, cond func(View) bool) error {
	stop := context.AfterFunc(ctx, func() {
		d.mu.Lock()
		defer d.mu.Unlock()
		d.cond.Broadcast()
	})
	defer stop()
	d.mu.Lock()
	defer d.mu.Unlock()
	for !cond(d.view()) {
		if err := ctx.Err(); err != nil {
			return err
		}
		d.cond.Wait()
	}
	return nil
}
