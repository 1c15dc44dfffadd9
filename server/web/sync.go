package web

import (
	"context"
	"errors"
	"net/http"
	"sync"

	"github.com/gorilla/websocket"

	"sinkside/server/pair"
	"sinkside/server/pair/device"
	"sinkside/server/web/wsconn"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
)

// Hub is what serves a device's session: package hub's.
type Hub interface {
	Serve(ctx context.Context, conn hub.Conn, dev journal.ID) error
	// Revoke ends a device's sessions and tells it why.
	Revoke(dev journal.ID)
}

// upgrader takes a websocket over. The guard has compared the request's Origin with our own
// address already. Messages are compressed by the protocol itself where it pays; the websocket's
// own compression would cost megabytes a connection.
var upgrader = websocket.Upgrader{
	ReadBufferSize: 4 << 10, WriteBufferSize: 4 << 10, WriteBufferPool: &sync.Pool{},
	HandshakeTimeout: bodyTime,
	CheckOrigin:      func(*http.Request) bool { return true },
	Error: func(w http.ResponseWriter, _ *http.Request, status int, reason error) {
		f := faultNoSocket.Because(reason)
		f.Status = status
		f.Write(w)
	},
}

// sync answers GET /api/sync: it hands the websocket to the hub with the device that Guard found,
// until either ends. A device whose pairing ends meanwhile is told so.
func (s *Server) sync(w http.ResponseWriter, r *http.Request) error {
	d, ok := pair.From(r.Context())
	if !ok {
		return faultNoSocket
	}
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return nil // Upgrade has answered
	}
	s.sessions.Add(1)
	defer s.sessions.Done()
	ctx, cancel := context.WithCancelCause(context.WithoutCancel(r.Context()))
	defer cancel(nil)
	stop := context.AfterFunc(r.Context(), func() {
		if errors.Is(context.Cause(r.Context()), device.ErrRevoked) {
			s.cfg.Hub.Revoke(d.ID)
			return
		}
		cancel(context.Cause(r.Context()))
	})
	defer stop()
	s.cfg.Log.Debug().Stringer("device", d.ID).Msg("session begins")
	err = s.cfg.Hub.Serve(ctx, wsconn.New(ws), d.ID)
	s.cfg.Log.Debug().Stringer("device", d.ID).AnErr("cause", err).Msg("session ended")
	return nil
}

// Wait returns once no session is left: after the hub was closed.
func (s *Server) Wait() { s.sessions.Wait() }
