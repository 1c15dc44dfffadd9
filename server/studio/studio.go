// Package studio is the studio machine as a writer: it has a device ID and chains of its own, on
// which it notes what it did to the log itself, such as taking entries from a file.
package studio

import (
	"crypto/ed25519"
	"crypto/rand"
	"fmt"
	"sync"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// Store is what the studio machine's chains need of the store.
type Store interface {
	Head(c journal.Chain) (journal.Head, error)
	Range(c journal.Chain, from uint64, f func(line []byte) error) error
	Get(bucket, key string) ([]byte, bool, error)
	Put(bucket, key string, value []byte) error
}

// Intake takes entries in, as if a device had sent them: durable when it returns, and given to
// every device that follows the treatment.
type Intake interface {
	Append(es []journal.Entry) ([]journal.Verdict, error)
	KeepAside(es []journal.Entry) error
}

// Machine writes on the studio machine's own chains. It is safe for concurrent use.
type Machine struct {
	ID journal.ID

	store  Store
	intake Intake
	now    func() time.Time

	mu    sync.Mutex // held from reading a head until the entry after it is durable
	clock journal.Clock
}

// The record that holds the machine's device ID.
const bucket, key = "studio", "device"

// Open reads the studio machine's device ID, or makes it in a new store.
func Open(store Store, intake Intake, now func() time.Time) (*Machine, error) {
	m := &Machine{store: store, intake: intake, now: now}
	text, ok, err := store.Get(bucket, key)
	if err != nil {
		return nil, fmt.Errorf("read the studio machine's device id: %w", err)
	}
	if ok {
		if m.ID, err = journal.ParseID(string(text)); err != nil {
			return nil, fmt.Errorf("read the studio machine's device id: %w", err)
		}
		return m, nil
	}
	m.ID = journal.NewID(uint64(now().UnixMilli()), Entropy())
	if err := store.Put(bucket, key, []byte(m.ID.String())); err != nil {
		return nil, fmt.Errorf("keep the studio machine's device id: %w", err)
	}
	return m, nil
}

// Entropy is the chance part of an ID.
func Entropy() (b [10]byte) {
	_, _ = rand.Read(b[:]) // never fails, by its documentation
	return b
}

// imported drafts the entry which marks that entries from..to of a device's chain came from a file.
func (m *Machine) imported(c journal.Chain, from, to uint64, by string) (journal.Entry, error) {
	head, err := m.head(journal.Chain{Job: c.Job, Dev: m.ID})
	if err != nil {
		return journal.Entry{}, err
	}
	var w jsontext.Writer
	w.Begin('{')
	w.Key("dev")
	w.Str(c.Dev.String())
	w.Key("from")
	w.Uint(from)
	w.Key("to")
	w.Uint(to)
	w.Key("by")
	w.Str(by)
	w.End('}')
	now := m.now()
	return journal.Write(journal.Draft{Job: c.Job, At: now.Format(time.RFC3339), By: by, Kind: "imported", BV: 1, Body: w.B},
		m.ID, head, m.clock.Tick(now.UnixMilli()))
}

// head reads the head of one of the machine's chains, and moves the clock past its last entry, in
// case the machine's time was set back since.
func (m *Machine) head(own journal.Chain) (journal.Head, error) {
	head, err := m.store.Head(own)
	if err == nil && head.N > 0 {
		err = m.store.Range(own, head.N, func(line []byte) error {
			e, err := journal.Parse(line)
			m.clock.Last = max(m.clock.Last, e.T)
			return err
		})
	}
	if err != nil {
		return head, fmt.Errorf("read the studio machine's own chain: %w", err)
	}
	return head, nil
}

// ReceiptKey reads the key with which this studio machine signs receipts, or makes it in a new
// store. It stays in the store, so a store that is put back signs as before.
func ReceiptKey(store Store) (ed25519.PrivateKey, error) {
	const key = "receipt-key"
	seed, ok, err := store.Get(bucket, key)
	if err == nil && !ok {
		seed = make([]byte, ed25519.SeedSize)
		_, _ = rand.Read(seed) // never fails, by its documentation
		err = store.Put(bucket, key, seed)
	}
	if err == nil && len(seed) != ed25519.SeedSize {
		err = fmt.Errorf("it has %d bytes, want %d", len(seed), ed25519.SeedSize)
	}
	if err != nil {
		return nil, fmt.Errorf("read the key of receipts: %w", err)
	}
	return ed25519.NewKeyFromSeed(seed), nil
}
