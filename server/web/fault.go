package web

import (
	"net/http"

	"sinkside/server/answer"
)

// What the routes here refuse, and why.
var (
	faultNoRoute = &answer.Refusal{Status: http.StatusNotFound, Code: "no-such-page",
		Say: "There is nothing at this address."}
	faultMethod = &answer.Refusal{Status: http.StatusMethodNotAllowed, Code: "wrong-method",
		Say: "This address does not take that kind of request."}
	faultTooSlow = &answer.Refusal{Status: http.StatusRequestTimeout, Code: "too-slow",
		Say: "The request did not arrive in time. Try again."}
	faultNoSocket = &answer.Refusal{Status: http.StatusBadRequest, Code: "not-a-websocket",
		Say: "This address is for the app's own connection, a websocket of a paired device."}
	faultNoTreatment = &answer.Refusal{Status: http.StatusNotFound, Code: "no-such-treatment",
		Say: "The studio machine holds no treatment of this id."}
	faultNoPhoto = &answer.Refusal{Status: http.StatusNotFound, Code: "no-such-photograph",
		Say: "This photograph is not on the studio machine, or not whole yet."}
	faultDay = &answer.Refusal{Status: http.StatusBadRequest, Code: "bad-day",
		Say: "A day is written as year, month and day, such as 2026-03-04."}
	faultNoReckoning = &answer.Refusal{Status: http.StatusNotFound, Code: "no-such-reckoning",
		Say: "There is no reckoning of this name. /api/reckon lists them."}
	faultNotUnsent = &answer.Refusal{Status: http.StatusBadRequest, Code: "not-unsent",
		Say: "This is no file of unsent entries. Take the file that the app saved under “This device”, as it is."}
	faultNeverPaired = &answer.Refusal{Status: http.StatusForbidden, Code: "never-paired",
		Say: "This file was saved by a device that has not been paired yet. Pair that device: what it holds is then sent by itself."}
	faultBusy = &answer.Refusal{Status: http.StatusConflict, Code: "busy",
		Say: "Another file is being taken in just now. Try again in a moment."}
	faultForeign = &answer.Refusal{Status: http.StatusForbidden, Code: "foreign-device",
		Say: "This file was saved by a device that was never paired with this studio machine."}
)
