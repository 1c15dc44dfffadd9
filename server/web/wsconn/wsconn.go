// Package wsconn carries the frames of sync over a websocket, on either side:
// package hub's Conn for the server, package host's for a client in Go.
//
// It adds what the protocol leaves to the transport: a deadline on every read
// and write, pings that keep the read's alive, the limit of a message's size,
// and a close whose reason arrives. The websocket's own compression stays off:
// frames are deflated one by one where it pays, and its writers would cost
// megabytes a connection.
package wsconn

import (
	"context"
	"errors"
	"io"
	"net/http"
	"sync"
	"time"

	"github.com/gorilla/websocket"

	"sinkside/sync/wire"
)

// Timing is how patient a connection is.
type Timing struct {
	Ping    time.Duration // between pings
	Silence time.Duration // without a message or pong: the peer is gone
	Write   time.Duration // for one message to be taken by the kernel
	Linger  time.Duration // after Close, for the peer to read the reason
}

// DefaultTiming suits phones on a studio's Wi-Fi: a phone that walked off is
// noticed within a minute, a slow one has ten seconds for a message.
var DefaultTiming = Timing{Ping: 25 * time.Second, Silence: 60 * time.Second, Write: 10 * time.Second, Linger: 2 * time.Second}

// Conn is one websocket. Read and Write are for one goroutine each, Close for
// any.
type Conn struct {
	ws     *websocket.Conn
	timing Timing

	reading sync.Mutex // held while a message is read
	guess   int        // bytes that the next message may have
	closing sync.Once
	done    chan struct{}

	deadline sync.Mutex
	ending   bool // the read deadline is the last one
}

// New takes a websocket over.
func New(ws *websocket.Conn) *Conn { return NewTimed(ws, DefaultTiming) }

// NewTimed is New with another patience.
func NewTimed(ws *websocket.Conn, t Timing) *Conn {
	c := &Conn{ws: ws, timing: t, done: make(chan struct{})}
	c.alive()
	ws.SetPongHandler(func(string) error {
		c.alive()
		return nil
	})
	answer := ws.PingHandler()
	ws.SetPingHandler(func(data string) error {
		c.alive()
		return answer(data)
	})
	go c.pinging()
	return c
}

// Dial connects to a server's socket.
func Dial(ctx context.Context, url string, header http.Header) (*Conn, *http.Response, error) {
	d := websocket.Dialer{HandshakeTimeout: 10 * time.Second, ReadBufferSize: 16 << 10, WriteBufferSize: 64 << 10}
	return DialWith(ctx, &d, url, header)
}

// DialWith is Dial with a dialer of the caller's, for its TLS or its proxy.
func DialWith(ctx context.Context, d *websocket.Dialer, url string, header http.Header) (*Conn, *http.Response, error) {
	ws, resp, err := d.DialContext(ctx, url, header)
	if err != nil {
		return nil, resp, err
	}
	return New(ws), resp, nil
}

// alive gives the peer another while to say something, unless the end has come.
func (c *Conn) alive() {
	c.deadline.Lock()
	defer c.deadline.Unlock()
	if !c.ending {
		_ = c.ws.NetConn().SetReadDeadline(time.Now().Add(c.timing.Silence))
	}
}

// endBy lets reads go on until t at most.
func (c *Conn) endBy(t time.Time) {
	c.deadline.Lock()
	defer c.deadline.Unlock()
	c.ending = true
	_ = c.ws.NetConn().SetReadDeadline(t)
}

func (c *Conn) pinging() {
	tick := time.NewTicker(c.timing.Ping)
	defer tick.Stop()
	for {
		select {
		case <-c.done:
			return
		case now := <-tick.C:
			// A peer that cannot be written to is noticed by its silence.
			_ = c.ws.WriteControl(websocket.PingMessage, nil, now.Add(c.timing.Write))
		}
	}
}

// Read returns the next message. It fails with a *wire.Close when the peer
// closed with a reason, and with the wire error of a message that is none of
// ours; ctx ends the connection.
func (c *Conn) Read(ctx context.Context) ([]byte, error) {
	defer context.AfterFunc(ctx, func() { c.endBy(time.Now()) })()
	c.reading.Lock()
	defer c.reading.Unlock()
	msg, err := c.message()
	var closed *websocket.CloseError
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.As(err, &closed):
		return nil, &wire.Close{Code: closed.Code, Reason: closed.Text}
	case err != nil:
		return nil, err
	}
	c.alive()
	return msg, nil
}

func (c *Conn) message() ([]byte, error) {
	kind, r, err := c.ws.NextReader()
	if err != nil {
		return nil, err
	}
	if kind != websocket.BinaryMessage {
		return nil, wire.ErrNotBinary
	}
	// A message grows to at most twice its size. Those of a photograph or of a
	// day's log come one after the other; guessing saves copying them over and over.
	msg := make([]byte, 0, max(512, c.guess+16))
	defer func() { c.guess = max(len(msg), c.guess*3/4) }()
	for {
		if len(msg) == cap(msg) {
			msg = append(msg, 0)[:len(msg)]
		}
		n, err := r.Read(msg[len(msg):cap(msg)])
		msg = msg[:len(msg)+n]
		switch {
		case len(msg) > wire.MaxFrame:
			return nil, wire.ErrTooLarge
		case err == io.EOF:
			return msg, nil
		case err != nil:
			return nil, err
		}
	}
}

// Write sends a message.
func (c *Conn) Write(msg []byte) error {
	_ = c.ws.SetWriteDeadline(time.Now().Add(c.timing.Write))
	return c.ws.WriteMessage(websocket.BinaryMessage, msg)
}

// Close tells the peer why and ends the connection: Write fails from now on,
// Read once the peer has had time to read the reason. Unread messages are taken
// off the line meanwhile: left there, they would make the kernel throw the
// reason away.
func (c *Conn) Close(code int, reason string) error {
	c.closing.Do(func() {
		close(c.done)
		deadline := time.Now().Add(c.timing.Linger)
		_ = c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, reason), deadline)
		raw := c.ws.NetConn()
		_ = raw.SetWriteDeadline(time.Now())
		c.endBy(deadline)
		go c.drain(raw.Close)
	})
	return nil
}

func (c *Conn) drain(closeRaw func() error) {
	c.reading.Lock()
	defer c.reading.Unlock()
	for {
		_, r, err := c.ws.NextReader()
		if err == nil {
			_, err = io.Copy(io.Discard, r)
		}
		if err != nil {
			_ = closeRaw()
			return
		}
	}
}
