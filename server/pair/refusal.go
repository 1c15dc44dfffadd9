package pair

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"sinkside/server/pair/device"
)

// A Refusal is an answer that is not what was asked for. Code is for machines,
// Say for people.
type Refusal struct {
	Status int    `json:"-"`
	Code   string `json:"code"`
	Say    string `json:"say"`
	wait   time.Duration
	cause  error
}

func (f *Refusal) Error() string { return f.Code + ": " + f.Say }

func (f *Refusal) Unwrap() error { return f.cause }

var (
	unpaired = &Refusal{Status: http.StatusUnauthorized, Code: "unpaired",
		Say: "This device is not paired with the studio machine. Ask there for a code and enter it here."}
	revoked = &Refusal{Status: http.StatusUnauthorized, Code: "revoked",
		Say: "This device was shut out by the studio. What it has not sent can still be saved to a file; to come back it needs a new code."}
	wrongHost = &Refusal{Status: http.StatusMisdirectedRequest, Code: "wrong-host",
		Say: "This is not an address of the studio machine. Use the one that its studio page shows."}
	wrongOrigin = &Refusal{Status: http.StatusForbidden, Code: "wrong-origin",
		Say: "This was asked by a page of another address than the studio machine's own."}
	wrongOriginProxied = &Refusal{Status: http.StatusForbidden, Code: "wrong-origin",
		Say: "This was asked by a page of another address than the studio machine's own. The proxy in front must pass on the address as the browser sees it, in X-Forwarded-Host."}
	plainHTTP = &Refusal{Status: http.StatusForbidden, Code: "plain-http",
		Say: "Over plain http the studio machine answers its own browser only. Use the https address; a proxy in front must say X-Forwarded-Proto: https."}
	deviceOnly = &Refusal{Status: http.StatusForbidden, Code: "device-only",
		Say: "Only a paired device can do this, not a command."}
	wrongCode = &Refusal{Status: http.StatusBadRequest, Code: "wrong-code",
		Say: "That code is not right, was used already, or has run out. Ask for a new one on the studio machine."}
	badJSON = &Refusal{Status: http.StatusBadRequest, Code: "bad-json",
		Say: "What was sent is not readable JSON of the expected form."}
	badNonce = &Refusal{Status: http.StatusBadRequest, Code: "bad-nonce",
		Say: "A successor is asked for with a nonce of 16 to 128 characters."}
	tooLarge = &Refusal{Status: http.StatusRequestEntityTooLarge, Code: "too-large",
		Say: "What was sent is larger than this address takes."}
	tooMany = &Refusal{Status: http.StatusForbidden, Code: "too-many",
		Say: "This device has been given too many successors. Pair it anew with a code."}
	noDevice = &Refusal{Status: http.StatusNotFound, Code: "no-such-device",
		Say: "There is no such device here."}
	diskFull = &Refusal{Status: http.StatusInsufficientStorage, Code: "disk-full",
		Say: "The studio machine's disk is full. Make room there, then try again."}
	failed = &Refusal{Status: http.StatusInternalServerError, Code: "failed",
		Say: "Something went wrong on the studio machine. Its log says what; nothing recorded is lost."}
)

// refusalOf finds the words for an error of the register.
func refusalOf(err error) *Refusal {
	var slow *device.SlowDown
	var full interface{ Full() bool }
	var large *http.MaxBytesError
	var known *Refusal
	switch {
	case errors.As(err, &known):
		return known
	case errors.As(err, &slow):
		return &Refusal{Status: http.StatusTooManyRequests, Code: "slow-down", wait: slow.Wait,
			Say: fmt.Sprintf("Too many wrong codes. Try again in %d seconds.", seconds(slow.Wait))}
	case errors.As(err, &full) && full.Full():
		return diskFull.because(err)
	case errors.As(err, &large):
		return tooLarge
	case errors.Is(err, device.ErrCode):
		return wrongCode
	case errors.Is(err, device.ErrRevoked):
		return revoked
	case errors.Is(err, device.ErrUnknown):
		return unpaired
	case errors.Is(err, device.ErrNoDevice):
		return noDevice
	case errors.Is(err, device.ErrNonce):
		return badNonce
	case errors.Is(err, device.ErrTooManySuccessors):
		return tooMany
	}
	return failed.because(err)
}

// because returns a copy that carries what the log should hold.
func (f *Refusal) because(err error) *Refusal {
	g := *f
	g.cause = err
	return &g
}

// refuse answers with the refusal, and logs the cause where there is one.
func (g *Gate) refuse(w http.ResponseWriter, r *http.Request, f *Refusal) {
	if f.cause != nil {
		g.log.Error().Err(f.cause).Str("code", f.Code).Str("path", r.URL.Path).Msg("refused")
	} else {
		g.log.Debug().Str("code", f.Code).Str("path", r.URL.Path).Msg("refused")
	}
	if f.wait > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(seconds(f.wait)))
	}
	writeJSON(w, f.Status, f)
}

// seconds rounds up: who waits that long may try.
func seconds(d time.Duration) int { return int((d + time.Second - 1) / time.Second) }

// writeJSON answers with one of this package's own structs, which always encode.
func writeJSON(w http.ResponseWriter, status int, v any) {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(append(text, '\n')) // a connection that went away is nobody's fault
}
