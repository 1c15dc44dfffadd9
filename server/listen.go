package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"syscall"
	"time"

	"github.com/rs/zerolog"
)

// Limits of a connection. A route that needs more or less sets its own; a websocket has its own.
const (
	headerTime = 10 * time.Second
	readTime   = time.Minute
	writeTime  = 5 * time.Minute // the first download, on bad radio
	idleTime   = 2 * time.Minute
	maxHeader  = 16 << 10
)

// door is one listener and what answers there.
type door struct {
	net.Listener
	srv *http.Server
}

// openDoor listens on addr; flag is how a person chooses another.
func openDoor(ctx context.Context, addr, flag string) (*door, error) {
	var lc net.ListenConfig
	l, err := lc.Listen(ctx, "tcp", addr)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, &failure{fmt.Sprintf("another program already listens on %s. Stop it, or choose another address with %s.", addr, flag), err}
	case errors.Is(err, syscall.EACCES):
		return nil, &failure{fmt.Sprintf("this user may not listen on %s. Choose a port above 1023 with %s.", addr, flag), err}
	case errors.Is(err, syscall.EADDRNOTAVAIL):
		return nil, &failure{fmt.Sprintf("this machine has no address %s. Choose another with %s.", addr, flag), err}
	case err != nil:
		return nil, &failure{fmt.Sprintf("cannot listen on %s (%s): %v.", addr, flag, err), err}
	}
	return &door{Listener: l}, nil
}

func (d *door) port() int { return d.Addr().(*net.TCPAddr).Port }

// here is the plain door's origin as a command or a browser on this machine reaches it.
func (d *door) here() string { return "http://" + d.addrHere().String() }

func (d *door) addrHere() netip.AddrPort {
	at := d.Addr().(*net.TCPAddr).AddrPort()
	addr := at.Addr().Unmap()
	if addr.IsUnspecified() {
		addr = netip.MustParseAddr("127.0.0.1")
	}
	return netip.AddrPortFrom(addr, at.Port())
}

// serve answers at the door until close. With a TLS configuration the door speaks https. What goes
// wrong later than that comes back on failed.
func (d *door) serve(h http.Handler, conf *tls.Config, log zerolog.Logger, failed chan<- error) {
	d.srv = &http.Server{
		Handler: h, TLSConfig: conf, ErrorLog: handshakeLog(log),
		ReadHeaderTimeout: headerTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime, MaxHeaderBytes: maxHeader,
	}
	go func() {
		var err error
		if conf == nil {
			err = d.srv.Serve(d.Listener)
		} else {
			err = d.srv.ServeTLS(d.Listener, "", "")
		}
		if !errors.Is(err, http.ErrServerClosed) {
			failed <- fmt.Errorf("serve on %s: %w", d.Addr(), err)
		}
	}()
}

// close lets requests under way finish for a few seconds.
func (d *door) close(ctx context.Context) error {
	if d == nil {
		return nil
	}
	if d.srv == nil {
		return d.Listener.Close()
	}
	if err := d.srv.Shutdown(ctx); err != nil {
		return d.srv.Close()
	}
	return nil
}
