package web

import (
	"errors"
	"net/http"
	"runtime/debug"

	"sinkside/store"
)

// handler is a route that may fail. What it returns is told to the caller as a Fault; a cause that
// is no fault of the caller's is logged, once, here.
type handler func(w http.ResponseWriter, r *http.Request) error

func (s *Server) handle(h handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		err := h(w, r)
		if err == nil {
			return
		}
		f := asFault(err)
		if f.Status >= 500 {
			s.cfg.Log.Error().Err(err).Str("route", r.Pattern).Str("code", f.Code).Msg("request failed")
		}
		writeFault(w, f)
	}
}

// asFault finds the Fault in err, or makes one of what the store says.
func asFault(err error) *Fault {
	var f *Fault
	switch {
	case errors.As(err, &f):
		return f
	case errors.Is(err, store.ErrFull):
		return faultDiskFull.because(err)
	}
	return faultInternal.because(err)
}

// survive keeps one broken request from ending the server. The stack goes to the log; the request
// itself does not, since it may carry what a person wrote.
func (s *Server) survive(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			broken := recover()
			if broken == nil {
				return
			}
			if broken == http.ErrAbortHandler {
				panic(broken)
			}
			s.cfg.Log.Error().Interface("panic", broken).Bytes("stack", debug.Stack()).Msg("request broke off")
			writeFault(w, faultInternal)
		}()
		next.ServeHTTP(w, r)
	})
}
