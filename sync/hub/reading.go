package hub

import (
	"context"
	"errors"
	"fmt"

	"sinkside/sync/wire"
	"sinkside/sync/wire/deflate"
)

// arriving is a message that is being unpacked and parsed. A day's log is
// several large ones, which take all processors there are.
type arriving struct {
	frame wire.Frame
	err   error
	ready chan struct{} // closed when one of them is set
}

// largeMessage is from where a message is worth a goroutine, in bytes.
const largeMessage = 4 << 10

func arrive(msg []byte) *arriving {
	a := &arriving{ready: make(chan struct{})}
	parse := func() {
		a.frame, a.err = parse(msg)
		close(a.ready)
	}
	if len(msg) < largeMessage {
		parse()
	} else {
		go parse()
	}
	return a
}

// reading takes messages until the connection ends.
func (s *session) reading(ctx context.Context) {
	defer close(s.in)
	for {
		msg, err := s.conn.Read(ctx)
		if err != nil {
			s.end(lost(err))
			return
		}
		select {
		case s.in <- arrive(msg):
		case <-s.done:
			return
		}
	}
}

// frame waits for a message to be parsed. It returns nil, and the session is
// over, when it is no frame, or a is nil because no more will come.
func (s *session) frame(a *arriving) wire.Frame {
	if a == nil {
		return nil
	}
	<-a.ready
	if a.err != nil {
		s.end(a.err)
		return nil
	}
	return a.frame
}

func parse(msg []byte) (wire.Frame, error) {
	plain, err := wire.Unpack(msg, deflate.Inflate)
	if err != nil {
		return nil, badFrame(err)
	}
	f, err := wire.Parse(plain)
	if err != nil {
		return nil, badFrame(err)
	}
	return f, nil
}

func badFrame(err error) error {
	var e *wire.Error
	if errors.As(err, &e) {
		return &frameError{wire.Close{Code: wire.CodeBadFrame, Reason: e.Name}, e}
	}
	return err
}

// lost is the cause of a session that the connection ended, and not the hub;
// except that a message can be so wrong that the transport says so.
func lost(err error) error {
	var e *wire.Error
	if errors.As(err, &e) {
		return badFrame(e)
	}
	return fmt.Errorf("connection: %v", err) // not %w: a close that the device sent is not ours
}

// frameError keeps what was wrong with a frame beside the close that says so.
type frameError struct {
	close wire.Close
	err   error
}

func (e *frameError) Error() string   { return e.err.Error() }
func (e *frameError) Unwrap() []error { return []error{e.err, &e.close} }
