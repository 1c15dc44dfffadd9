// Package answer is what the studio machine says over HTTP: JSON, or a refusal
// with a name for programs and a sentence for people.
package answer

import (
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"time"
)

// A Refusal is an answer that is not what was asked for. Code never changes its
// meaning; Say is one sentence, or two. The cause stays on this side, for the log.
type Refusal struct {
	Status int           `json:"-"`
	Code   string        `json:"code"`
	Say    string        `json:"say"`
	Wait   time.Duration `json:"-"` // until it may be tried again; 0 where waiting does not help
	Cause  error         `json:"-"`
}

func (f *Refusal) Error() string {
	if f.Cause != nil {
		return f.Code + ": " + f.Cause.Error()
	}
	return f.Code + ": " + f.Say
}

func (f *Refusal) Unwrap() error { return f.Cause }

// Because returns a copy of f that carries the cause.
func (f *Refusal) Because(err error) *Refusal {
	g := *f
	g.Cause = err
	return &g
}

// The refusals that any route can answer with.
var (
	TooLarge = &Refusal{Status: http.StatusRequestEntityTooLarge, Code: "too-large",
		Say: "What was sent is larger than the studio machine takes in one go."}
	BadJSON = &Refusal{Status: http.StatusBadRequest, Code: "bad-json",
		Say: "What was sent is not readable JSON of the expected form."}
	DiskFull = &Refusal{Status: http.StatusInsufficientStorage, Code: "disk-full",
		Say: "The studio machine's disk is full. Make room there; nothing that was sent just now has been kept."}
	Failed = &Refusal{Status: http.StatusInternalServerError, Code: "failed",
		Say: "Something went wrong on the studio machine. Its log says what; nothing recorded is lost."}
)

// Of finds the Refusal in err, or makes one of what a store or a request's body
// says. A full disk is told by its method Full() bool, as package store has it.
func Of(err error) *Refusal {
	var known *Refusal
	var full interface{ Full() bool }
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &known):
		return known
	case errors.As(err, &full) && full.Full():
		return DiskFull.Because(err)
	case errors.As(err, &large):
		return TooLarge.Because(err)
	}
	return Failed.Because(err)
}

// Write answers with the refusal.
func (f *Refusal) Write(w http.ResponseWriter) {
	if f.Wait > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(Seconds(f.Wait)))
	}
	JSON(w, f.Status, f)
}

// Seconds rounds up: who waits that long may try.
func Seconds(d time.Duration) int { return int((d + time.Second - 1) / time.Second) }

// JSON answers with v, one of the program's own structs, which always encode.
func JSON(w http.ResponseWriter, status int, v any) {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	Text(w, status, text)
}

// Text answers with JSON that is text already.
func Text(w http.ResponseWriter, status int, text []byte) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(append(text, '\n')) // a connection that went away is nobody's fault
}
