package wsconn

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"sinkside/sync/hub"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

var (
	_ hub.Conn  = (*Conn)(nil)
	_ host.Conn = (*Conn)(nil)
)

// serve runs serve on the server's end of each connection and returns a raw
// websocket of the client's.
func serve(t *testing.T, timing Timing, serve func(*Conn)) *websocket.Conn {
	t.Helper()
	up := websocket.Upgrader{}
	done := make(chan struct{})
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer close(done)
		ws, err := up.Upgrade(w, r, nil)
		if err != nil {
			t.Error(err)
			return
		}
		serve(NewTimed(ws, timing))
	}))
	ws, _, err := websocket.DefaultDialer.Dial(strings.Replace(srv.URL, "http", "ws", 1), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = ws.Close()
		<-done
		srv.Close()
	})
	return ws
}

func TestMessagesComeAsTheyWere(t *testing.T) {
	ws := serve(t, DefaultTiming, func(c *Conn) {
		for {
			msg, err := c.Read(context.Background())
			if err != nil || c.Write(msg) != nil {
				return
			}
		}
	})
	for _, n := range []int{0, 1, 511, 512, 513, 70_000, wire.MaxFrame} {
		want := bytes.Repeat([]byte{7, 1, 3}, n/3+1)[:n]
		if err := ws.WriteMessage(websocket.BinaryMessage, want); err != nil {
			t.Fatal(err)
		}
		if _, got, err := ws.ReadMessage(); err != nil || !bytes.Equal(got, want) {
			t.Errorf("message of %d bytes came back as %d, %v", n, len(got), err)
		}
	}
}

func TestWrongMessagesAreNamed(t *testing.T) {
	cases := map[string]struct {
		kind int
		msg  []byte
		want error
	}{
		"too large": {websocket.BinaryMessage, make([]byte, wire.MaxFrame+1), wire.ErrTooLarge},
		"text":      {websocket.TextMessage, []byte("hello"), wire.ErrNotBinary},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			got := make(chan error, 1)
			ws := serve(t, DefaultTiming, func(conn *Conn) {
				_, err := conn.Read(context.Background())
				got <- err
			})
			if err := ws.WriteMessage(c.kind, c.msg); err != nil {
				t.Fatal(err)
			}
			if err := <-got; !errors.Is(err, c.want) {
				t.Errorf("Read = %v, want %v", err, c.want)
			}
		})
	}
}

// A device that is refused in the middle of its pushes still reads why: what
// it sent and nobody read must not make the kernel reset the connection.
func TestTheReasonArrivesOverUnreadMessages(t *testing.T) {
	ws := serve(t, DefaultTiming, func(c *Conn) {
		if _, err := c.Read(context.Background()); err == nil {
			_ = c.Close(wire.Revoked.Code, wire.Revoked.Reason)
		}
	})
	go func() {
		for range 200 {
			if ws.WriteMessage(websocket.BinaryMessage, make([]byte, 10_000)) != nil {
				return
			}
		}
	}()
	_, _, err := ws.ReadMessage()
	var closed *websocket.CloseError
	if !errors.As(err, &closed) || closed.Code != wire.CodeDenied || closed.Text != "revoked" {
		t.Errorf("the device reads %v, want the close code and reason", err)
	}
}

func TestTheOtherEndsReasonIsAClose(t *testing.T) {
	got := make(chan error, 1)
	ws := serve(t, DefaultTiming, func(c *Conn) {
		_, err := c.Read(context.Background())
		got <- err
	})
	_ = ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(4408, "too-slow"), time.Now().Add(time.Second))
	var closed *wire.Close
	if err := <-got; !errors.As(err, &closed) || *closed != *wire.TooSlow {
		t.Errorf("Read = %v, want the reason", err)
	}
}

func TestASilentPeerIsGivenUp(t *testing.T) {
	got := make(chan error, 1)
	// Ours never reads, so it never answers a ping.
	serve(t, Timing{Ping: time.Hour, Silence: 20 * time.Millisecond, Write: time.Second, Linger: time.Millisecond}, func(c *Conn) {
		_, err := c.Read(context.Background())
		got <- err
	})
	if err := <-got; err == nil {
		t.Error("a silent peer was waited for")
	}
}

func TestPingsKeepAQuietConnection(t *testing.T) {
	timing := Timing{Ping: 10 * time.Millisecond, Silence: time.Second, Write: time.Second, Linger: time.Millisecond}
	ws := serve(t, timing, func(c *Conn) { _, _ = c.Read(context.Background()) })
	pings := make(chan struct{}, 100)
	answer := ws.PingHandler()
	ws.SetPingHandler(func(s string) error {
		pings <- struct{}{}
		return answer(s)
	})
	go func() { _, _, _ = ws.ReadMessage() }()
	for range 3 {
		select {
		case <-pings:
		case <-time.After(10 * time.Second):
			t.Fatal("no ping")
		}
	}
}

func TestReadEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	got := make(chan error, 1)
	serve(t, DefaultTiming, func(c *Conn) {
		_, err := c.Read(ctx)
		got <- err
	})
	cancel()
	if err := <-got; !errors.Is(err, context.Canceled) {
		t.Errorf("Read = %v, want the context's error", err)
	}
}
