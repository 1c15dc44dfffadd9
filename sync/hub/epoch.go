package hub

import (
	"crypto/rand"
	"encoding/binary"
	"fmt"

	"sinkside/sync/wire"
)

// epochs are the numbers of the hub's starts over this store, each with the
// first generation after it. A store that was restored from a backup lacks those
// since, and so tells a device that knows of more that it was restored.
type epochs []struct{ epoch, first uint64 }

const (
	keyEpochs = "epochs"
	maxEpochs = 1000 // starts; a device away for longer gets all summaries anew
)

// beginEpoch reads the epochs and begins one.
func (h *Hub) beginEpoch() error {
	s := &h.sums
	b, _, err := h.cfg.Store.Get(bucketHub, keyEpochs)
	if err != nil {
		return fmt.Errorf("read epochs: %w", err)
	}
	var fresh [8]byte
	_, _ = rand.Read(fresh[:]) // never fails
	b = binary.BigEndian.AppendUint64(append(b, fresh[:]...), s.generation.N+1)
	b = b[max(0, len(b)-16*maxEpochs):]
	switch err := h.cfg.Store.Put(bucketHub, keyEpochs, b); {
	case err != nil && isFull(err):
		// What is there can be read. After the next start devices compare all that
		// they hold, since this epoch will be unknown.
		h.storeFailed(nil, "keep epochs", err)
	case err != nil:
		return fmt.Errorf("keep epochs: %w", err)
	}
	for ; len(b) >= 16; b = b[16:] {
		s.epochs = append(s.epochs, struct{ epoch, first uint64 }{binary.BigEndian.Uint64(b), binary.BigEndian.Uint64(b[8:])})
	}
	s.generation.Epoch = s.epochs[len(s.epochs)-1].epoch
	return nil
}

// gave tells whether a generation is one that a hub over this store gave.
// Hub.mu is held.
func (s *summaries) gave(g wire.Generation) bool {
	for i, e := range s.epochs {
		switch {
		case e.epoch != g.Epoch:
		case i+1 < len(s.epochs):
			return g.N < s.epochs[i+1].first
		default:
			return g.N <= s.generation.N
		}
	}
	return false
}
