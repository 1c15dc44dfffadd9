package web

import (
	"encoding/json"
	"net/http"
)

// Fault is what a person or a program is told when a request cannot be done.
// Code is for programs and never changes its meaning; Say is one sentence for people.
// The cause stays on this side, for the log.
type Fault struct {
	Status int    `json:"-"`
	Code   string `json:"code"`
	Say    string `json:"say"`
	Cause  error  `json:"-"`
}

func (f *Fault) Error() string {
	if f.Cause != nil {
		return f.Code + ": " + f.Cause.Error()
	}
	return f.Code
}

func (f *Fault) Unwrap() error { return f.Cause }

// because returns a copy of f that carries the cause.
func (f *Fault) because(err error) *Fault {
	g := *f
	g.Cause = err
	return &g
}

// The faults that any route can answer with.
var (
	faultNoRoute = &Fault{Status: http.StatusNotFound, Code: "no-such-page",
		Say: "There is nothing at this address."}
	faultMethod = &Fault{Status: http.StatusMethodNotAllowed, Code: "wrong-method",
		Say: "This address does not take that kind of request."}
	faultTooLarge = &Fault{Status: http.StatusRequestEntityTooLarge, Code: "too-large",
		Say: "What was sent is larger than the studio machine takes in one go."}
	faultBadJSON = &Fault{Status: http.StatusBadRequest, Code: "bad-json",
		Say: "What was sent is not readable JSON of the expected form."}
	faultTooSlow = &Fault{Status: http.StatusRequestTimeout, Code: "too-slow",
		Say: "The request did not arrive in time. Try again."}
	faultInternal = &Fault{Status: http.StatusInternalServerError, Code: "failed",
		Say: "Something went wrong on the studio machine. Its log says what; nothing recorded is lost."}
	faultNoSocket = &Fault{Status: http.StatusBadRequest, Code: "not-a-websocket",
		Say: "This address is for the app's own connection, a websocket of a paired device."}
	faultNoTreatment = &Fault{Status: http.StatusNotFound, Code: "no-such-treatment",
		Say: "The studio machine holds no treatment of this id."}
	faultDay = &Fault{Status: http.StatusBadRequest, Code: "bad-day",
		Say: "A day is written as year, month and day, such as 2026-03-04."}
	faultNoReckoning = &Fault{Status: http.StatusNotFound, Code: "no-such-reckoning",
		Say: "There is no reckoning of this name. /api/reckon lists them."}
	faultNotUnsent = &Fault{Status: http.StatusBadRequest, Code: "not-unsent",
		Say: "This is no file of unsent entries. Take the file that the app saved under “This device”, as it is."}
	faultForeign = &Fault{Status: http.StatusForbidden, Code: "foreign-device",
		Say: "This file was saved by a device that was never paired with this studio machine."}
	faultDiskFull = &Fault{Status: http.StatusInsufficientStorage, Code: "disk-full",
		Say: "The studio machine's disk is full. Make room there; nothing that was sent just now has been kept."}
)

func writeFault(w http.ResponseWriter, f *Fault) {
	writeJSON(w, f.Status, f)
}

// writeJSON answers with v. What it is given are structs of this package, so encoding cannot fail;
// a connection that went away is nobody's fault.
func writeJSON(w http.ResponseWriter, status int, v any) {
	b, err := json.Marshal(v)
	if err != nil {
		status, b = http.StatusInternalServerError, []byte(`{"code":"failed","say":"Something went wrong on the studio machine."}`)
	}
	h := w.Header()
	h.Set("Content-Type", "application/json; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(append(b, '\n'))
}
