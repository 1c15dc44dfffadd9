package hub

import (
	"context"
	"errors"
	"sync"

	"sinkside/sync/wire"
	"sinkside/sync/wire/deflate"
)

// shared is a frame that several sessions send: packed once, for those that
// can inflate and for those that cannot.
type shared struct {
	plain  []byte
	packed func() []byte
}

func share(f wire.Frame) *shared {
	plain := wire.Append(nil, f)
	return &shared{plain, sync.OnceValue(func() []byte { return wire.Pack(plain, deflate.Append) })}
}

func (f *shared) message(inflate bool) []byte {
	if inflate {
		return f.packed()
	}
	return f.plain
}

// task makes frames that a device lacks, one at a time, when the line is free.
type task interface {
	// next returns a frame to send; nil when the task is done.
	next(s *session) (wire.Frame, error)
}

// queue is what the writer has to send.
type queue struct {
	mu     sync.Mutex
	cond   *sync.Cond
	frames []*shared
	bytes  int
	tasks  []task // catching up
	blobs  []task // behind everything else
	closed bool
}

func (q *queue) init() { q.cond = sync.NewCond(&q.mu) }

func (q *queue) close(discard bool) {
	q.mu.Lock()
	q.closed = true
	if discard {
		q.frames = nil
	}
	q.mu.Unlock()
	q.cond.Signal()
}

// send queues a frame. A session whose queue is over its bound ends.
func (s *session) send(f *shared) {
	q := &s.out
	q.mu.Lock()
	if q.closed {
		q.mu.Unlock()
		return
	}
	slow := len(q.frames) >= maxQueueFrames || q.bytes+len(f.plain) > maxQueueBytes
	if !slow {
		q.frames = append(q.frames, f)
		q.bytes += len(f.plain)
	}
	q.mu.Unlock()
	if slow {
		s.drop(wire.TooSlow)
		return
	}
	q.cond.Signal()
}

func (s *session) sendFrame(f wire.Frame) { s.send(share(f)) }

// maxTasks is how many tasks of one kind may wait: a device that asks for more
// does not take what it asked for.
const maxTasks = 4096

func (s *session) addTask(t task) { s.enqueue(&s.out.tasks, t) }

func (s *session) addBlobTask(t task) { s.enqueue(&s.out.blobs, t) }

func (s *session) enqueue(tasks *[]task, t task) {
	s.out.mu.Lock()
	full := len(*tasks) >= maxTasks
	if !full {
		*tasks = append(*tasks, t)
	}
	s.out.mu.Unlock()
	if full {
		s.drop(wire.TooSlow)
		return
	}
	s.out.cond.Signal()
}

// wait returns the frames that are queued, or a task when there are none, or
// closed when the session ends.
func (q *queue) wait() (frames []*shared, t task, closed bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	for {
		switch {
		case len(q.frames) > 0:
			frames, q.frames, q.bytes = q.frames, nil, 0
			return frames, nil, false
		case q.closed:
			return nil, nil, true
		case len(q.tasks) > 0:
			return nil, q.tasks[0], false
		case len(q.blobs) > 0:
			return nil, q.blobs[0], false
		}
		q.cond.Wait()
	}
}

// finish takes a task off its list.
func (q *queue) finish(t task) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if len(q.tasks) > 0 && q.tasks[0] == t {
		q.tasks = q.tasks[1:]
	} else {
		q.blobs = q.blobs[1:]
	}
}

// writing sends until the session ends, and closes the connection.
func (s *session) writing() {
	for {
		frames, t, closed := s.out.wait()
		switch {
		case closed:
			s.hangUp()
			return
		case t != nil:
			frames = s.step(t)
		}
		for _, f := range frames {
			// The transport fails a write to a dead or slow device by its deadline.
			if err := s.conn.Write(f.message(s.inflate.Load())); err != nil {
				s.end(err)
				break
			}
		}
	}
}

func (s *session) step(t task) []*shared {
	f, err := t.next(s)
	if err != nil {
		s.hub.report(s.dev, "read store", err)
		s.end(wire.StoreFails)
		return nil
	}
	if f == nil {
		s.out.finish(t)
		return nil
	}
	return []*shared{share(f)}
}

// hangUp closes the connection with the session's reason.
func (s *session) hangUp() {
	<-s.done
	var c *wire.Close
	switch {
	case errors.As(s.cause, &c):
	case errors.Is(s.cause, context.Canceled):
		c = wire.GoingAway
	default:
		c = &wire.Close{Code: wire.CodeGoingAway, Reason: "connection-lost"}
	}
	_ = s.conn.Close(c.Code, c.Reason)
}
