package hub_test

import (
	"context"
	"crypto/ed25519"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"sinkside/store/memory"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link/host"
)

// patience is how long a test waits for what must come.
const patience = 20 * time.Second

var testKey = ed25519.NewKeyFromSeed([]byte("Marram House Textile Studio, 32b"))

// id makes an ID that is the same in every run.
func id(kind, n byte) journal.ID {
	return journal.NewID(1_772_600_000_000+uint64(n), [10]byte{kind, n})
}

func job(n byte) journal.ID { return id('j', n) }
func dev(n byte) journal.ID { return id('d', n) }

// studio is a studio machine in a test: a hub over a store in memory.
type studio struct {
	t     fataler
	store *memory.Store
	hub   *hub.Hub

	standings map[journal.ID]*standing // summarise's own

	mu     sync.Mutex
	events []hub.Event
}

func newStudio(t testing.TB, store *memory.Store) *studio {
	t.Helper()
	s := &studio{t: t, store: store}
	s.start()
	return s
}

func (s *studio) start() {
	s.standings = nil
	h, err := hub.New(hub.Config{
		Store: s.store, Key: testKey,
		Summarise: s.summarise,
		Report: func(e hub.Event) {
			s.mu.Lock()
			defer s.mu.Unlock()
			s.events = append(s.events, e)
		},
		Settle: time.Millisecond, Probe: 5 * time.Millisecond,
	})
	if err != nil {
		s.t.Fatal(err)
	}
	s.hub = h
}

// within runs f, which must end: a hub that hangs fails its test, not the whole
// run by its time limit.
func within(t fataler, what string, f func()) {
	t.Helper()
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		f()
	}()
	select {
	case <-ended:
	case <-time.After(patience):
		t.Errorf("waited in vain: %s", what)
	}
}

// close ends the hub.
func (s *studio) close() {
	s.t.Helper()
	within(s.t, "the hub to end", s.hub.Close)
}

// reported tells whether the hub gave its log this cause.
func (s *studio) reported(cause error) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.ContainsFunc(s.events, func(e hub.Event) bool { return errors.Is(e.Err, cause) })
}

// standing is whether a treatment is open, and since when.
type standing struct {
	closed bool
	since  journal.Time
}

func (w *standing) take(e *journal.Entry) {
	if (e.Kind == "close" || e.Kind == "reopen") && e.T > w.since {
		w.closed, w.since = e.Kind == "close", e.T
	}
}

// summarise counts entries, and says open until the entry that came last closes
// it: a stand-in for the fold.
func (s *studio) summarise(job journal.ID, added []journal.Entry) (hub.Summary, error) {
	if s.standings == nil {
		s.standings = map[journal.ID]*standing{}
	}
	w := s.standings[job]
	if w == nil || added == nil {
		w = &standing{}
		s.standings[job] = w
	}
	count := uint64(0)
	heads, err := s.store.Heads(job)
	if err != nil {
		return hub.Summary{}, err
	}
	for _, h := range heads {
		count += h.N
		if added == nil {
			err := s.store.Range(h.Chain, 1, func(line []byte) error {
				e, err := journal.Parse(line)
				w.take(&e)
				return err
			})
			if err != nil {
				return hub.Summary{}, err
			}
		}
	}
	for i := range added {
		w.take(&added[i])
	}
	text := fmt.Sprintf(`{"job":"%s","entries":%d}`, job, count)
	return hub.Summary{Text: []byte(text), Open: !w.closed}, nil
}

// device is a device in a test and its connection, if it has one.
type device struct {
	*host.Device
	studio *studio // the one that it connects to
	cancel context.CancelFunc
	ended  chan error
	mu     sync.Mutex
}

func (s *studio) device(n byte) *device { return s.deviceWith(host.NewMemory(dev(n)), host.Options{}) }

func (s *studio) deviceWith(mem *host.Memory, o host.Options) *device {
	return &device{Device: host.New(mem, o), studio: s}
}

func (d *device) id() (id journal.ID) {
	d.Look(func(v host.View) { id = v.Memory.Dev })
	return id
}

// connect starts a session; the connection breaks after limit bytes, if there
// is a limit.
func (d *device) connect(faults faults) {
	near, far := pipe(faults)
	d.connectOver(near, far)
}

func (d *device) connectOver(near, far *end) {
	ctx, cancel := context.WithCancel(context.Background())
	d.mu.Lock()
	d.cancel, d.ended = cancel, make(chan error, 1)
	ended := d.ended
	d.mu.Unlock()
	me, h := d.id(), d.studio.hub
	before := 0
	d.Look(func(v host.View) { before = v.Sessions })
	go func() { _ = h.Serve(ctx, far, me) }()
	go func() {
		ended <- d.Run(ctx, near)
		cancel()
	}()
	within(d.studio.t, "the session to begin", func() {
		_ = d.Wait(ctx, func(v host.View) bool { return v.Sessions > before })
	})
}

// disconnect ends the session, if there is one, and waits for its end.
func (d *device) disconnect() {
	if d.cancel != nil {
		d.cancel()
		_ = d.wait()
	}
}

// wait waits for the session's end and says why it ended.
func (d *device) wait() (err error) {
	within(d.studio.t, "the session to end", func() {
		err = <-d.ended
		d.ended <- err
	})
	return err
}

func (d *device) connected() bool {
	if d.ended == nil {
		return false
	}
	select {
	case err := <-d.ended:
		d.ended <- err
		return false
	default:
		return true
	}
}

func (d *device) write(t fataler, job journal.ID, kind, body string) journal.Entry {
	t.Helper()
	e, err := d.Write(journal.Draft{Job: job, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: kind, BV: 1, Body: jsontext.Value(body)})
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// fataler is a test or a property.
type fataler interface {
	Helper()
	Errorf(string, ...any)
	Fatal(...any)
	Fatalf(string, ...any)
}

// until waits for a condition on what a device holds.
func (d *device) until(t testing.TB, what string, cond func(host.View) bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if err := d.Wait(ctx, cond); err != nil {
		d.Look(func(v host.View) {
			t.Fatalf("waited in vain: %s; status %+v, chains %v", what, v.Status, lengths(v.Memory))
		})
	}
}

func lengths(m *host.Memory) map[string]int {
	out := map[string]int{}
	for c, es := range m.Chains {
		out[c.Job.String()[20:]+"/"+c.Dev.String()[20:]] = len(es)
	}
	return out
}

func caughtUp(v host.View) bool { return v.All && v.Status.Unsent == 0 }

func has(name journal.Name) func(host.View) bool {
	return func(v host.View) bool {
		for _, es := range v.Memory.Chains {
			for _, e := range es {
				if e.Name == name {
					return true
				}
			}
		}
		return false
	}
}
