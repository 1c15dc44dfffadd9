package hub

import (
	"sync"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// trouble is that the store takes no writes: the disk is full, or fails.
type trouble struct {
	mu   sync.Mutex
	name string // of the notice; empty: none
}

// code returns the notice to give, empty when all is well.
func (t *trouble) code() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.name
}

func (t *trouble) set(code string) {
	t.mu.Lock()
	t.name = code
	t.mu.Unlock()
}

// over ends the trouble after a write that succeeded, and tells everyone.
func (t *trouble) over(h *Hub) {
	t.mu.Lock()
	was := t.name
	t.name = ""
	t.mu.Unlock()
	if was == "" {
		return
	}
	h.report(journal.ID{}, "the store takes entries again", nil)
	h.tell(&wire.Notice{Code: wire.NoticeRoom})
	h.sums.again()
}

// tell sends a frame to every session.
func (h *Hub) tell(f wire.Frame) {
	frame := share(f)
	h.mu.Lock()
	defer h.mu.Unlock()
	for s := range h.sessions {
		if s.ready {
			s.send(frame)
		}
	}
}

// storeFailed notes that nothing can be kept. The device is told before its
// push is answered, so that it does not push again at once.
func (s *session) storeFailed(what string, err error, o *outcome) {
	if o != nil {
		o.failed = true
	}
	code := wire.NoticeStoreFails
	if isFull(err) {
		code = wire.NoticeDiskFull
	}
	s.hub.report(s.dev, what, err)
	s.hub.trouble.set(code)
	s.sendFrame(&wire.Notice{Code: code})
}

// probing tries the store again while it is in trouble.
func (h *Hub) probing() {
	tick := time.NewTicker(h.cfg.Probe)
	defer tick.Stop()
	for {
		select {
		case <-h.ctx.Done():
			return
		case <-tick.C:
		}
		if h.trouble.code() == "" {
			continue
		}
		if err := h.cfg.Store.Put(bucketHub, "probe", []byte{1}); err == nil {
			h.trouble.over(h)
		}
	}
}
