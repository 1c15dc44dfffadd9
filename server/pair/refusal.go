package pair

import (
	"errors"
	"fmt"
	"net/http"

	"sinkside/server/answer"
	"sinkside/server/pair/device"
)

// What the gate and its routes refuse, and why.
var (
	unpaired = &answer.Refusal{Status: http.StatusUnauthorized, Code: "unpaired",
		Say: "This device is not paired with the studio machine. Ask there for a code and enter it here."}
	revoked = &answer.Refusal{Status: http.StatusUnauthorized, Code: "revoked",
		Say: "This device was shut out by the studio. What it has not sent can still be saved to a file; to come back it needs a new code."}
	wrongHost = &answer.Refusal{Status: http.StatusMisdirectedRequest, Code: "wrong-host",
		Say: "This is not an address of the studio machine. Use the one that its studio page shows."}
	wrongOrigin = &answer.Refusal{Status: http.StatusForbidden, Code: "wrong-origin",
		Say: "This was asked by a page of another address than the studio machine's own."}
	wrongOriginProxied = &answer.Refusal{Status: http.StatusForbidden, Code: "wrong-origin",
		Say: "This was asked by a page of another address than the studio machine's own. The proxy in front must pass on the address as the browser sees it, in X-Forwarded-Host."}
	plainHTTP = &answer.Refusal{Status: http.StatusForbidden, Code: "plain-http",
		Say: "Over plain http the studio machine answers its own browser only. Use the https address; a proxy in front must say X-Forwarded-Proto: https."}
	deviceOnly = &answer.Refusal{Status: http.StatusForbidden, Code: "device-only",
		Say: "Only a paired device can do this, not a command."}
	wrongCode = &answer.Refusal{Status: http.StatusBadRequest, Code: "wrong-code",
		Say: "That code is not right, was used already, or has run out. Ask for a new one on the studio machine."}
	badNonce = &answer.Refusal{Status: http.StatusBadRequest, Code: "bad-nonce",
		Say: "A successor is asked for with a nonce of 16 to 128 characters."}
	tooMany = &answer.Refusal{Status: http.StatusForbidden, Code: "too-many",
		Say: "This device has been given too many successors. Pair it anew with a code."}
	noDevice = &answer.Refusal{Status: http.StatusNotFound, Code: "no-such-device",
		Say: "There is no such device here."}
)

// refusalOf finds the words for an error of the register.
func refusalOf(err error) *answer.Refusal {
	var slow *device.SlowDown
	switch {
	case errors.As(err, &slow):
		return &answer.Refusal{Status: http.StatusTooManyRequests, Code: "slow-down", Wait: slow.Wait,
			Say: fmt.Sprintf("Too many wrong codes. Try again in %d seconds.", answer.Seconds(slow.Wait))}
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
	return answer.Of(err)
}

// refuse answers with the refusal, and logs the cause of what is a fault here.
func (g *Gate) refuse(w http.ResponseWriter, r *http.Request, f *answer.Refusal) {
	if f.Status >= http.StatusInternalServerError {
		g.log.Error().Err(f.Cause).Str("code", f.Code).Str("path", r.URL.Path).Msg("refused")
	} else {
		g.log.Debug().Str("code", f.Code).Str("path", r.URL.Path).Msg("refused")
	}
	f.Write(w)
}
