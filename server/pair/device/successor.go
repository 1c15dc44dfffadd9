package device

import (
	"crypto/sha256"
	"crypto/subtle"
	"fmt"

	"sinkside/sync/journal"
)

// maxSuccessors bounds what a stolen token can fill the register with: the
// successors of one paired device, their own successors included. A phone
// restored from a backup needs one.
const maxSuccessors = 32

// Successor gives a device that found its chain forked a new id and token, once
// per nonce: asked again with the same nonce, by the device or by its successor
// whose phone did not live to note the answer, it gives the same ones.
//
// The old device stays in the register as it is: after a copied profile its
// first owner still writes with it.
func (r *Register) Successor(id journal.ID, nonce string) (next Device, token string, err error) {
	if len(nonce) < 16 || len(nonce) > 128 {
		return Device{}, "", ErrNonce
	}
	r.changing.Lock()
	defer r.changing.Unlock()
	sum := digest(sha256.Sum256([]byte(nonce)))
	old, found, count, err := r.lookForSuccessor(id, sum)
	switch {
	case err != nil:
		return Device{}, "", err
	case found != nil && found.IsRevoked():
		return Device{}, "", ErrRevoked
	case found != nil:
		token, _ := tokenOf(found.ID, r.successorSecret(found.ID, nonce))
		return found.Device, token, nil
	case count >= maxSuccessors:
		return Device{}, "", ErrTooManySuccessors
	}
	newID, err := r.newID()
	if err != nil {
		return Device{}, "", err
	}
	e := entry{Device: Device{ID: newID, Label: old.Label, Created: r.now(), Seen: r.now(), Succeeds: old.ID}, nonce: sum}
	e.seenKept = e.Seen
	token, e.token = tokenOf(newID, r.successorSecret(newID, nonce))
	if err := r.add(e); err != nil {
		return Device{}, "", err
	}
	return e.Device, token, nil
}

// lookForSuccessor returns the device that asks, the successor that this nonce
// already made (nil: none yet), and how many its line has.
func (r *Register) lookForSuccessor(id journal.ID, nonce digest) (old entry, found *entry, count int, err error) {
	r.mu.RLock()
	defer r.mu.RUnlock()
	e := r.devices[id]
	if e == nil {
		return entry{}, nil, 0, ErrNoDevice
	}
	if e.IsRevoked() {
		return entry{}, nil, 0, ErrRevoked
	}
	first := r.firstOf(e)
	for _, other := range r.devices {
		if other.Succeeds != (journal.ID{}) && r.firstOf(other) == first {
			count++
		}
		mine := other.Succeeds == id || other.ID == id && other.Succeeds != (journal.ID{})
		if mine && subtle.ConstantTimeCompare(other.nonce[:], nonce[:]) == 1 {
			same := *other
			found = &same
		}
	}
	return *e, found, count, nil
}

// firstOf follows successors back to the device that was paired with a code.
func (r *Register) firstOf(e *entry) journal.ID {
	for range maxSuccessors {
		before := r.devices[e.Succeeds]
		if before == nil {
			break
		}
		e = before
	}
	return e.ID
}

// add keeps a new device on disk, then lets it in.
func (r *Register) add(e entry) error {
	if err := r.put(e); err != nil {
		return fmt.Errorf("keep the new device: %w", err)
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.devices[e.ID] = &e
	return nil
}
