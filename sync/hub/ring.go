package hub

import (
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// arm notes whether a session's device would ring.
func (s *session) arm(f *wire.Armed) error {
	h := s.hub
	h.mu.Lock()
	defer h.mu.Unlock()
	if !s.rings {
		return wire.OutOfTurn
	}
	if s.armed != f.Armed {
		s.armed = f.Armed
		h.countRingers()
	}
	return nil
}

// countRingers has the ringers counted anew soon.
func (h *Hub) countRingers() {
	select {
	case h.ring <- struct{}{}:
	default:
	}
}

// ringing tells devices how many of them are armed when that has changed. It
// waits a moment first: a device that connects anew is one device all the time.
func (h *Hub) ringing() {
	for {
		select {
		case <-h.ring:
		case <-h.ctx.Done():
			return
		}
		settle := time.NewTimer(h.cfg.Settle)
		select {
		case <-settle.C:
		case <-h.ctx.Done():
			settle.Stop()
			return
		}
		h.tellRingers()
	}
}

// tellRingers tells every session that was told another number, or none.
func (h *Hub) tellRingers() {
	h.mu.Lock()
	defer h.mu.Unlock()
	n := h.ringers()
	var f *shared
	for s := range h.sessions {
		if !s.rings || s.ringers == n {
			continue
		}
		if f == nil {
			f = share(&wire.Ringers{Count: n})
		}
		s.ringers = n
		s.send(f)
	}
}

// ringers counts the devices that are armed, each once however many sessions it
// has. Hub.mu is held.
func (h *Hub) ringers() uint64 {
	armed := map[journal.ID]bool{}
	for s := range h.sessions {
		if s.armed {
			armed[s.dev] = true
		}
	}
	return uint64(len(armed))
}

// greetRingers tells a session that begins. One that says nothing of it takes
// nobody to be armed. Hub.mu is held.
func (h *Hub) greetRingers(s *session, version uint64) {
	s.rings = version >= wire.VersionRings
	if n := h.ringers(); s.rings && n > 0 {
		s.ringers = n
		s.sendFrame(&wire.Ringers{Count: n})
	}
}
