package hub_test

import (
	"context"
	"errors"
	"io"
	"math/rand/v2"
	"sync"
	"time"

	"sinkside/sync/wire"
)

// faults are what a connection suffers. The zero value suffers nothing.
type faults struct {
	cutAfter  int // bytes, both ways together; 0: never
	duplicate int // one message in so many is delivered twice; 0: none
	swap      int // one message in so many changes places with the next
	seed      uint64
	maxIn     int // messages that may wait to be read; 0: many
}

var errCut = errors.New("connection cut")

// wireState is what both ends of a pipe share.
type wireState struct {
	mu       sync.Mutex
	left     int
	cuts     bool
	rng      *rand.Rand
	faults   faults
	closed   chan struct{}
	once     sync.Once
	bytes    int
	messages int
	close    *wire.Close
}

// end is one end of a pipe.
type end struct {
	st   *wireState
	in   chan []byte
	peer *end
	held []byte // waits to change places with the next
}

func pipe(f faults) (near, far *end) {
	st := &wireState{left: f.cutAfter, cuts: f.cutAfter > 0, faults: f, closed: make(chan struct{}), rng: rand.New(rand.NewPCG(f.seed, 1))}
	depth := f.maxIn
	if depth == 0 {
		depth = 1024
	}
	near, far = &end{st: st, in: make(chan []byte, depth)}, &end{st: st, in: make(chan []byte, depth)}
	near.peer, far.peer = far, near
	return near, far
}

func (e *end) Read(ctx context.Context) ([]byte, error) {
	msg, err := e.read(ctx)
	if len(msg) > wire.MaxFrame {
		return nil, wire.ErrTooLarge
	}
	return msg, err
}

func (e *end) read(ctx context.Context) ([]byte, error) {
	select {
	case msg := <-e.in:
		return msg, nil
	default:
	}
	select {
	case msg := <-e.in:
		return msg, nil
	case <-e.st.closed:
		select { // what was sent before the end still arrives
		case msg := <-e.in:
			return msg, nil
		default:
		}
		if c := e.st.reason(); c != nil {
			return nil, c
		}
		return nil, io.EOF
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

func (s *wireState) reason() *wire.Close {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.close
}

func (e *end) Write(msg []byte) error {
	out, err := e.shuffle(append([]byte(nil), msg...))
	if err != nil {
		_ = e.Close(0, "")
		return err
	}
	for _, m := range out {
		select {
		case <-e.st.closed:
			return io.EOF
		case e.peer.in <- m:
		case <-time.After(2 * patience): // whoever waits for the session has failed by then
			return errors.New("nobody reads")
		}
	}
	return nil
}

// shuffle decides what of a message arrives: the byte at which the connection
// is cut takes its whole message with it.
func (e *end) shuffle(msg []byte) ([][]byte, error) {
	s := e.st
	s.mu.Lock()
	defer s.mu.Unlock()
	s.bytes += len(msg)
	s.messages++
	if s.cuts {
		if s.left -= len(msg); s.left < 0 {
			return nil, errCut
		}
	}
	out := [][]byte{msg}
	if k := s.faults.duplicate; k > 0 && s.rng.IntN(k) == 0 {
		out = append(out, msg)
	}
	if e.held != nil {
		out, e.held = append(out, e.held), nil
	} else if k := s.faults.swap; k > 0 && s.rng.IntN(k) == 0 {
		e.held = msg
		// With nothing behind it to change places with, it comes late.
		time.AfterFunc(time.Millisecond, e.release)
		return nil, nil
	}
	return out, nil
}

func (e *end) release() {
	e.st.mu.Lock()
	msg := e.held
	e.held = nil
	e.st.mu.Unlock()
	if msg != nil {
		select {
		case <-e.st.closed:
		case e.peer.in <- msg:
		}
	}
}

func (e *end) Close(code int, reason string) error {
	e.st.mu.Lock()
	if e.st.close == nil && code >= 4000 {
		e.st.close = &wire.Close{Code: code, Reason: reason}
	}
	e.st.mu.Unlock()
	e.st.once.Do(func() { close(e.st.closed) })
	return nil
}
