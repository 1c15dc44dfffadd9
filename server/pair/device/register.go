// Package device keeps the studio's register of devices: who was paired, with
// which code, whose token still counts, and which device goes on for which.
//
// A device is paired once, with a code that a person typed or scanned, and from
// then on shows a token of 256 random bits. The register keeps only the
// token's SHA-256, so a copy of the store lets nobody in.
//
// A revoked device stays in the register: its name stands in the log for ever.
package device

import (
	"cmp"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"time"

	"sinkside/sync/journal"
)

// Records is where the register keeps its small records. A value that was put
// must be on disk when Put returns. Buckets used: devices, codes, keys.
type Records interface {
	Get(bucket, key string) (value []byte, found bool, err error)
	Put(bucket, key string, value []byte) error
	Delete(bucket, key string) error
	Each(bucket string, f func(key string, value []byte) error) error
}

var (
	// ErrUnknown says that a token belongs to no device here: mostly one that
	// was paired with another store, or somebody who guesses.
	ErrUnknown = errors.New("token of no known device")
	// ErrRevoked says that the token was right and its device has been revoked.
	ErrRevoked = errors.New("device was revoked")
	// ErrNoDevice says that there is no device of this id.
	ErrNoDevice = errors.New("no such device")
	// ErrCode says that a pairing code is wrong, was used, or has run out. Which
	// of them is not told, since whoever guesses would like to know.
	ErrCode = errors.New("pairing code is wrong, used or has run out")
	// ErrNonce says that a successor was asked for with a nonce that is not
	// between 16 and 128 characters.
	ErrNonce = errors.New("nonce must have 16 to 128 characters")
	// ErrTooManySuccessors says that a device asked for more successors than
	// any honest one needs.
	ErrTooManySuccessors = errors.New("device has too many successors")
)

// A Device is one paired phone, tablet or computer.
type Device struct {
	ID       journal.ID
	Label    string    // what its person called it; 1 to 60 characters
	Created  time.Time // when it was paired
	Seen     time.Time // when it last showed its token
	Revoked  time.Time // zero while it may come in
	Succeeds journal.ID
}

// IsRevoked says that the device may no longer come in.
func (d Device) IsRevoked() bool { return !d.Revoked.IsZero() }

// Options are for tests; the zero value is what a server wants.
type Options struct {
	Now  func() time.Time // time.Now when nil
	Rand io.Reader        // crypto/rand when nil
}

// A Register is safe for concurrent use. Two locks: changing is held through a
// whole change, its fsync included, and mu only while the maps are touched, so
// that a device at the gate never waits for a disk.
type Register struct {
	records Records
	now     func() time.Time
	rand    io.Reader

	changing sync.Mutex
	codes    []liveCode
	tries    limiter
	nextKey  []byte // from which successors' tokens are derived

	mu      sync.RWMutex
	devices map[journal.ID]*entry
	watches map[journal.ID]map[*context.CancelCauseFunc]struct{}
}

// Open reads the register, which is empty on a new store.
func Open(records Records, o Options) (*Register, error) {
	r := &Register{records: records, now: o.Now, rand: o.Rand, devices: map[journal.ID]*entry{},
		watches: map[journal.ID]map[*context.CancelCauseFunc]struct{}{}}
	if r.now == nil {
		r.now = time.Now
	}
	if r.rand == nil {
		r.rand = rand.Reader
	}
	if err := r.readDevices(); err != nil {
		return nil, fmt.Errorf("read the register of devices: %w", err)
	}
	if err := r.readCodes(); err != nil {
		return nil, fmt.Errorf("read the pairing codes: %w", err)
	}
	if err := r.readKey(); err != nil {
		return nil, fmt.Errorf("read the key of successors: %w", err)
	}
	return r, nil
}

// Who finds the device of a token, and notes that it was seen. The error is
// ErrUnknown or ErrRevoked; with ErrRevoked the device is returned too.
func (r *Register) Who(token string) (Device, error) {
	id, sum := splitToken(token)
	r.mu.Lock()
	defer r.mu.Unlock()
	e := r.devices[id]
	if !e.has(sum) {
		return Device{}, ErrUnknown
	}
	if e.IsRevoked() {
		return e.Device, ErrRevoked
	}
	e.Seen = r.now()
	return e.Device, nil
}

// Watch returns a context that ends, with ErrRevoked as its cause, when the
// device is revoked. The caller calls stop when it no longer looks.
func (r *Register) Watch(ctx context.Context, id journal.ID) (watched context.Context, stop func()) {
	ctx, cancel := context.WithCancelCause(ctx)
	r.mu.Lock()
	defer r.mu.Unlock()
	e := r.devices[id]
	if e == nil || e.IsRevoked() {
		cancel(ErrRevoked)
		return ctx, func() {}
	}
	if r.watches[id] == nil {
		r.watches[id] = map[*context.CancelCauseFunc]struct{}{}
	}
	r.watches[id][&cancel] = struct{}{}
	return ctx, func() {
		cancel(context.Canceled)
		r.mu.Lock()
		defer r.mu.Unlock()
		delete(r.watches[id], &cancel)
		if len(r.watches[id]) == 0 {
			delete(r.watches, id)
		}
	}
}

// List returns all devices, revoked ones too, in the order of their pairing.
func (r *Register) List() []Device {
	r.mu.RLock()
	defer r.mu.RUnlock()
	list := make([]Device, 0, len(r.devices))
	for _, e := range r.devices {
		list = append(list, e.Device)
	}
	slices.SortFunc(list, func(a, b Device) int {
		return cmp.Or(a.Created.Compare(b.Created), strings.Compare(a.ID.String(), b.ID.String()))
	})
	return list
}

// Revoke shuts a device out, from this moment on. Revoking twice keeps the
// first time. When the disk refuses, the device is shut out all the same, until
// the server starts again, and the error says that it was not kept.
func (r *Register) Revoke(id journal.ID) (Device, error) {
	r.changing.Lock()
	defer r.changing.Unlock()
	e, err := r.shutOut(id)
	if err != nil {
		return Device{}, err
	}
	if err := r.put(e); err != nil {
		return e.Device, fmt.Errorf("keep the revocation of %s: %w", id, err)
	}
	return e.Device, nil
}

func (r *Register) shutOut(id journal.ID) (entry, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	e := r.devices[id]
	if e == nil {
		return entry{}, ErrNoDevice
	}
	if !e.IsRevoked() {
		e.Revoked = r.now()
	}
	for cancel := range r.watches[id] {
		(*cancel)(ErrRevoked)
	}
	delete(r.watches, id)
	return *e, nil
}
