package hub

import (
	"context"
	"crypto/ed25519"
	"fmt"
	"sync"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Config is what a Hub stands on. Store, Key and Summarise are required.
type Config struct {
	Store Store
	// Key signs receipts.
	Key ed25519.PrivateKey
	// FormerKeys signed receipts before Key did; they are still taken.
	FormerKeys []ed25519.PublicKey
	// Summarise derives the one line about a treatment that every device
	// carries. added holds what was stored since the last call for this
	// treatment, chains in order; after a restart it is nil though entries may
	// be new. Calls are not made at the same time.
	Summarise func(job journal.ID, added []journal.Entry) (Summary, error)
	// Report, if set, is told what the studio machine's log should hold. It must
	// not block.
	Report func(Event)

	// Now is the clock; nil means time.Now.
	Now func() time.Time
	// Settle is how long a treatment's summary waits for further entries, and
	// the number of armed devices for further changes; 0 means 200 ms.
	Settle time.Duration
	// Probe is how often a store that failed is tried again; 0 means 5 s.
	Probe time.Duration
	// HelloWithin is how long a new connection may be silent; 0 means 10 s.
	HelloWithin time.Duration
}

// Summary is one line about a treatment.
type Summary struct {
	Text []byte // JSON, at most wire.MaxSummary bytes
	Open bool   // every device carries the whole log
}

// Event is something for the log: a device, a thing that happened, a cause.
type Event struct {
	Dev  journal.ID
	What string
	Err  error
}

// Limits of one session, and of a device.
const (
	maxQueueBytes  = 4 << 20
	maxQueueFrames = 4096
	maxSessions    = 4 // of one device at the same time: tabs, and connections that died unnoticed
)

// Hub is the studio machine's side. New makes one; its methods may be called at
// the same time.
type Hub struct {
	cfg Config

	mu       sync.Mutex
	jobs     map[journal.ID]*job
	sessions map[*session]struct{}
	pending  []commit
	begun    uint64 // sessions so far
	ended    bool

	sums    summaries
	devices deviceLocks
	trouble trouble

	wake chan struct{} // pending is not empty
	ring chan struct{} // the number of armed devices may have changed
	stop context.CancelFunc
	ctx  context.Context
	wg   sync.WaitGroup
}

// job is what was published of a treatment.
type job struct {
	heads map[journal.ID]journal.Head // by device
	open  bool
}

// New makes a Hub over a store and starts its publishing. Summaries that are
// missing or older than the store's entries are made behind its back.
func New(cfg Config) (*Hub, error) {
	cfg.Now = orDefault(cfg.Now == nil, time.Now, cfg.Now)
	cfg.Settle = orDefault(cfg.Settle == 0, 200*time.Millisecond, cfg.Settle)
	cfg.Probe = orDefault(cfg.Probe == 0, 5*time.Second, cfg.Probe)
	cfg.HelloWithin = orDefault(cfg.HelloWithin == 0, 10*time.Second, cfg.HelloWithin)
	h := &Hub{
		cfg:      cfg,
		jobs:     map[journal.ID]*job{},
		sessions: map[*session]struct{}{},
		wake:     make(chan struct{}, 1),
		ring:     make(chan struct{}, 1),
	}
	err := cfg.Store.AllHeads(func(head journal.ChainHead) error {
		h.job(head.Job).heads[head.Dev] = head.Head
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read heads: %w", err)
	}
	if err := h.loadSummaries(); err != nil {
		return nil, err
	}
	h.ctx, h.stop = context.WithCancel(context.Background())
	h.wg.Go(h.publishing)
	h.wg.Go(h.summarising)
	h.wg.Go(h.probing)
	h.wg.Go(h.ringing)
	return h, nil
}

func orDefault[T any](unset bool, def, v T) T {
	if unset {
		return def
	}
	return v
}

// Close ends all sessions and waits for what was committed to be published.
// The store stays open.
func (h *Hub) Close() {
	h.mu.Lock()
	h.ended = true
	for s := range h.sessions {
		s.drop(wire.GoingAway)
	}
	h.mu.Unlock()
	h.stop()
	h.wg.Wait()
}

// Revoke ends the sessions of a device that may no longer connect.
func (h *Hub) Revoke(dev journal.ID) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for s := range h.sessions {
		if s.dev == dev {
			s.drop(wire.Revoked)
		}
	}
}

// Connected returns the devices that have a session.
func (h *Hub) Connected() []journal.ID {
	h.mu.Lock()
	defer h.mu.Unlock()
	seen := map[journal.ID]bool{}
	var out []journal.ID
	for s := range h.sessions {
		if !seen[s.dev] {
			seen[s.dev] = true
			out = append(out, s.dev)
		}
	}
	return out
}

// job returns a treatment's published state, new if there is none. Hub.mu is
// held, or the hub not yet shared.
func (h *Hub) job(id journal.ID) *job {
	j := h.jobs[id]
	if j == nil {
		j = &job{heads: map[journal.ID]journal.Head{}}
		h.jobs[id] = j
	}
	return j
}

// followed says whether every device carries this treatment's log.
func (h *Hub) followed(id journal.ID) bool {
	j := h.jobs[id]
	return id == journal.Shelf || j != nil && j.open
}

func (h *Hub) report(dev journal.ID, what string, err error) {
	if h.cfg.Report != nil {
		h.cfg.Report(Event{dev, what, err})
	}
}

// sign returns a receipt for a head.
func (h *Hub) sign(head journal.ChainHead) wire.Receipt {
	return wire.Receipt{ChainHead: head, Sig: [64]byte(ed25519.Sign(h.cfg.Key, wire.ReceiptText(head)))}
}

// signed tells whether this studio machine signed the receipt.
func (h *Hub) signed(r wire.Receipt) bool {
	text := wire.ReceiptText(r.ChainHead)
	if ed25519.Verify(h.cfg.Key.Public().(ed25519.PublicKey), text, r.Sig[:]) {
		return true
	}
	for _, key := range h.cfg.FormerKeys {
		if ed25519.Verify(key, text, r.Sig[:]) {
			return true
		}
	}
	return false
}

// deviceLocks let one commit of a device at a time be made and queued for
// publishing, so that its chains are published in order. Commits of different
// devices share an fsync.
type deviceLocks struct {
	mu  sync.Mutex
	dev map[journal.ID]*sync.Mutex
}

func (l *deviceLocks) lock(dev journal.ID) (unlock func()) {
	l.mu.Lock()
	if l.dev == nil {
		l.dev = map[journal.ID]*sync.Mutex{}
	}
	m := l.dev[dev]
	if m == nil {
		m = &sync.Mutex{}
		l.dev[dev] = m
	}
	l.mu.Unlock()
	m.Lock()
	return m.Unlock
}
