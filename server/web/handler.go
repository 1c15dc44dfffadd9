package web

import (
	"net/http"
	"runtime/debug"

	"sinkside/server/answer"
)

// handler is a route that may fail. What it returns is told to the caller as a refusal; a cause that
// is no fault of the caller's is logged, once, here.
type handler func(w http.ResponseWriter, r *http.Request) error

func (s *Server) handle(h handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		err := h(w, r)
		if err == nil {
			return
		}
		f := answer.Of(err)
		if f.Status >= 500 {
			s.cfg.Log.Error().Err(err).Str("route", r.Pattern).Str("code", f.Code).Msg("request failed")
		}
		f.Write(w)
	}
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
			answer.Failed.Write(w)
		}()
		next.ServeHTTP(w, r)
	})
}
