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

// begin notes trouble, and says whether it is news.
func (t *trouble) begin(code string) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	was := t.name
	t.name = code
	return was != code
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

// storeFailed notes that nothing can be kept, and tells everyone once. It
// returns the notice.
func (h *Hub) storeFailed(dev journal.ID, what string, err error) (notice *wire.Notice, told bool) {
	notice = &wire.Notice{Code: wire.NoticeStoreFails}
	if isFull(err) {
		notice.Code = wire.NoticeDiskFull
	}
	h.report(dev, what, err)
	told = h.trouble.begin(notice.Code)
	if told {
		h.tell(notice)
	}
	return notice, told
}

// storeFailed also tells this device, when the others know already: it has to
// know why its entries were not kept.
func (s *session) storeFailed(what string, err error) {
	if notice, told := s.hub.storeFailed(s.dev, what, err); !told {
		s.sendFrame(notice)
	}
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
