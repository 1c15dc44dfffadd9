package hub

import (
	"context"
	"sync"
	"sync/atomic"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Conn is a connection that carries messages. Read and Write are called by one
// goroutine each, Close by any; it makes the others return. Deadlines are the
// transport's part, and so is the limit of wire.MaxFrame bytes for a message:
// Read returns wire.ErrTooLarge for a larger one, and wire.ErrNotBinary for one
// of text.
type Conn interface {
	Read(ctx context.Context) ([]byte, error)
	Write(msg []byte) error
	Close(code int, reason string) error
}

// session is one connection of one device.
type session struct {
	hub  *Hub
	conn Conn
	dev  journal.ID
	// number grows with each session of the hub. Guarded by Hub.mu.
	number uint64
	in     chan *arriving
	out    queue

	inflate atomic.Bool // the device takes deflated frames

	// Guarded by Hub.mu.
	live     map[journal.ID]bool // sent everything published; what is new follows
	explicit map[journal.ID]bool // opened by a person
	sumLive  bool                // the same, of the summaries
	ready    bool                // greeted
	rings    bool                // its version has Armed and Ringers
	armed    bool                // the device would ring
	ringers  uint64              // as last told

	// The worker's own.
	greeted bool
	opened  []journal.ID             // by a person, as the Hello said
	heads   []wire.Held              // of a Heads that goes on
	acked   map[journal.Chain]uint64 // own chains: acknowledged in this session
	wanted  map[journal.Chain]journal.Head
	forked  map[journal.Chain]uint64     // own chains: first refused place
	back    map[journal.Chain]*returning // others' chains on their way back
	blobs   blobSession

	closing sync.Once
	cause   error
	done    chan struct{} // closed when cause is set
}

// Serve runs a session of a device until the connection ends or ctx does, and
// says why: a *wire.Close when the hub ended it, else the transport's error.
func (h *Hub) Serve(ctx context.Context, conn Conn, dev journal.ID) error {
	s := &session{
		hub: h, conn: conn, dev: dev,
		in:       make(chan *arriving, 6),
		live:     map[journal.ID]bool{},
		explicit: map[journal.ID]bool{},
		acked:    map[journal.Chain]uint64{},
		wanted:   map[journal.Chain]journal.Head{},
		forked:   map[journal.Chain]uint64{},
		back:     map[journal.Chain]*returning{},
		done:     make(chan struct{}),
	}
	s.out.init()
	s.blobs.init()
	if !h.enter(s) {
		_ = conn.Close(wire.GoingAway.Code, wire.GoingAway.Reason)
		return wire.GoingAway
	}
	defer h.leave(s)

	hello := time.AfterFunc(h.cfg.HelloWithin, func() { s.drop(wire.NoHello) })
	defer hello.Stop()
	unwatch := context.AfterFunc(ctx, func() { s.drop(context.Cause(ctx)) })
	defer unwatch()

	var wg sync.WaitGroup
	wg.Go(s.writing)
	wg.Go(func() { s.working(hello) })
	s.reading(ctx)
	wg.Wait()
	s.blobs.wg.Wait()
	return s.cause
}

// enter adds a session; the oldest one of a device that has too many ends.
func (h *Hub) enter(s *session) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.ended {
		return false
	}
	n := 0
	var oldest *session
	for other := range h.sessions {
		if other.dev == s.dev {
			n++
			if oldest == nil || other.number < oldest.number {
				oldest = other
			}
		}
	}
	if n >= maxSessions {
		oldest.drop(wire.TooMany)
	}
	h.begun++
	s.number = h.begun
	h.sessions[s] = struct{}{}
	h.wg.Add(1)
	return true
}

func (h *Hub) leave(s *session) {
	h.mu.Lock()
	delete(h.sessions, s)
	if s.armed {
		h.countRingers()
	}
	h.mu.Unlock()
	h.wg.Done()
}

// end ends the session, once: the writer sends what was queued, which may say
// more of the cause, and closes the connection.
func (s *session) end(cause error) {
	s.closing.Do(func() {
		s.cause = cause
		close(s.done)
		s.out.close(false)
	})
}

// drop ends the session at once: nothing that was queued is sent any more.
func (s *session) drop(cause error) {
	s.closing.Do(func() {
		s.cause = cause
		close(s.done)
		s.out.close(true)
		// Not here: the caller may hold Hub.mu, and the writer may sit in a write.
		s.hub.wg.Go(s.hangUp)
	})
}

// working handles frames in order. Pushes that wait together are kept together.
func (s *session) working(hello *time.Timer) {
	var next wire.Frame
	for !s.over() {
		f := next
		next = nil
		if f == nil {
			if f = s.frame(<-s.in); f == nil {
				continue // over
			}
		}
		if p, ok := f.(*wire.Push); ok && s.greeted {
			pushes := []*wire.Push{p}
			pushes, next = s.morePushes(pushes)
			s.keep(pushes)
			continue
		}
		if err := s.handle(f); err != nil {
			s.end(err)
		}
		if s.greeted {
			hello.Stop()
		}
	}
}

func (s *session) over() bool {
	select {
	case <-s.done:
		return true
	default:
		return false
	}
}

// Pushes that follow each other closely are kept by one call of the store.
const (
	maxTogether = 16                    // about two megabytes
	moreWithin  = 20 * time.Millisecond // for one that was said to be right behind
)

// morePushes adds the pushes that are there already, and those that the device
// says are right behind, unless they take long: what came is not to be lost
// with a connection that breaks. It returns the frame that came instead.
func (s *session) morePushes(pushes []*wire.Push) ([]*wire.Push, wire.Frame) {
	for len(pushes) < maxTogether {
		f := s.soon(pushes[len(pushes)-1].More)
		p, ok := f.(*wire.Push)
		if !ok {
			return pushes, f
		}
		pushes = append(pushes, p)
	}
	return pushes, nil
}

// soon returns the next frame, if there is one, or comes soon; else nil.
func (s *session) soon(wait bool) wire.Frame {
	select {
	case a := <-s.in:
		return s.frame(a)
	default:
	}
	if !wait {
		return nil
	}
	timer := time.NewTimer(moreWithin)
	defer timer.Stop()
	select {
	case a := <-s.in:
		return s.frame(a)
	case <-timer.C:
		return nil
	}
}

func (s *session) handle(f wire.Frame) error {
	if hello, ok := f.(*wire.Hello); ok != !s.greeted {
		return wire.OutOfTurn
	} else if ok {
		return s.hello(hello)
	}
	switch f := f.(type) {
	case *wire.Heads:
		return s.takeHeads(f)
	case *wire.Subscribe:
		return s.subscribe(f)
	case *wire.Unsubscribe:
		s.unsubscribe(f)
	case *wire.BlobOffer:
		return s.blobOffer(f)
	case *wire.BlobChunk:
		s.blobChunk(f)
	case *wire.BlobWant:
		return s.blobWant(f)
	case *wire.Armed:
		return s.arm(f)
	case *wire.Skipped:
	default:
		return wire.OutOfTurn
	}
	return nil
}
