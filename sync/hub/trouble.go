package hub

import (
	"sync"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// trouble is that the store takes no writes: the disk is full, or fails. What
// is told of it is queued under its lock, so that the last that a device hears
// is how things stand.
type trouble struct {
	mu     sync.Mutex
	notice string // the code that was told; empty: all is well
}

// greet tells a new session of trouble that there is.
func (t *trouble) greet(s *session) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.notice != "" {
		s.sendFrame(&wire.Notice{Code: t.notice})
	}
}

// begin notes trouble and tells everyone; or, when they know already, the
// session whose entries were not kept.
func (t *trouble) begin(h *Hub, code string, s *session) {
	t.mu.Lock()
	defer t.mu.Unlock()
	switch {
	case t.notice != code:
		t.notice = code
		h.tell(&wire.Notice{Code: code})
	case s != nil:
		s.sendFrame(&wire.Notice{Code: code})
	}
}

// over ends the trouble after a write that succeeded, and tells everyone.
func (t *trouble) over(h *Hub) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.notice == "" {
		return
	}
	t.notice = ""
	h.report(journal.ID{}, "the store takes entries again", nil)
	h.tell(&wire.Notice{Code: wire.NoticeRoom})
	h.sums.again()
}

func (t *trouble) there() bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.notice != ""
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

// storeFailed notes that nothing can be kept. s is the session that noticed, if
// one did.
func (h *Hub) storeFailed(s *session, what string, err error) {
	code := wire.NoticeStoreFails
	if isFull(err) {
		code = wire.NoticeDiskFull
	}
	var dev journal.ID
	if s != nil {
		dev = s.dev
	}
	h.report(dev, what, err)
	h.trouble.begin(h, code, s)
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
		if !h.trouble.there() {
			continue
		}
		if err := h.cfg.Store.Put(bucketHub, "probe", []byte{1}); err == nil {
			h.trouble.over(h)
		}
	}
}
