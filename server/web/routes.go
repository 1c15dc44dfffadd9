package web

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"time"

	"sinkside/server/answer"
)

// Limits of one request. An import of 16 MiB is a thousand of the largest entries and some forty
// thousand usual ones; a day's work is below half a megabyte.
const (
	maxBody      = 64 << 10
	maxImport    = 16 << 20
	bodyTime     = 15 * time.Second
	importTime   = 2 * time.Minute
	downloadTime = 10 * time.Minute
)

// budget gives one request its size and time, in place of the server-wide ones, which a websocket
// or a long download would outlive.
func budget(bytes int64, read, write time.Duration, next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		rc := http.NewResponseController(w)
		now := time.Now()
		// An error means a writer without deadlines, as in a test: the request goes on without.
		_ = rc.SetReadDeadline(now.Add(read))
		_ = rc.SetWriteDeadline(now.Add(write))
		r.Body = http.MaxBytesReader(w, r.Body, bytes)
		next(w, r)
	}
}

// bodyFault names what went wrong while a body was read.
func bodyFault(err error) *answer.Refusal {
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return answer.TooLarge.Because(err)
	case errors.Is(err, context.DeadlineExceeded) || isTimeout(err):
		return faultTooSlow.Because(err)
	}
	return answer.BadJSON.Because(err)
}

func isTimeout(err error) bool {
	var t interface{ Timeout() bool }
	return errors.As(err, &t) && t.Timeout()
}

// named answers in our form where the mux would answer in plain text: no such route below /api/,
// or a route that does not take this method.
func named(mux *http.ServeMux, files http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h, pattern := mux.Handler(r)
		if pattern != "" {
			mux.ServeHTTP(w, r)
			return
		}
		if !strings.HasPrefix(r.URL.Path, "/api/") && r.URL.Path != "/healthz" {
			files.ServeHTTP(w, r)
			return
		}
		answer := &statusOnly{header: http.Header{}}
		h.ServeHTTP(answer, r)
		if answer.status == http.StatusMethodNotAllowed {
			w.Header().Set("Allow", answer.header.Get("Allow"))
			faultMethod.Write(w)
			return
		}
		faultNoRoute.Write(w)
	})
}

// statusOnly takes in what the mux would have said.
type statusOnly struct {
	header http.Header
	status int
}

func (s *statusOnly) Header() http.Header         { return s.header }
func (s *statusOnly) WriteHeader(status int)      { s.status = status }
func (s *statusOnly) Write(b []byte) (int, error) { return len(b), nil }
