package wire

import "strconv"

// Close is why the studio machine ended a connection: the websocket's close
// code and reason. The reason is a name for machines; for a bad frame it is the
// name of its Error.
type Close struct {
	Code   int
	Reason string
}

func (c *Close) Error() string { return "closed: " + c.Reason + " (" + strconv.Itoa(c.Code) + ")" }

// The close codes.
const (
	CodeGoingAway = 1001 // the studio machine stops or restarts
	CodeBadFrame  = 4400 // a frame was wrong; the reason is the error's name
	CodeDenied    = 4403 // this device may not, or may no longer
	CodeTooSlow   = 4408 // the device does not keep up, or says nothing
	CodeReplaced  = 4409 // the device connected once too often
	CodeFault     = 4500 // the studio machine's store failed
)

// The reasons, besides the names of frame errors.
var (
	GoingAway    = &Close{CodeGoingAway, "going-away"}
	NoHello      = &Close{CodeTooSlow, "no-hello"}
	TooSlow      = &Close{CodeTooSlow, "too-slow"}
	TooMany      = &Close{CodeReplaced, "too-many-sessions"}
	OutOfTurn    = &Close{CodeBadFrame, "out-of-turn"}
	Revoked      = &Close{CodeDenied, "revoked"}
	WrongDevice  = &Close{CodeDenied, "wrong-device"}
	ForeignChain = &Close{CodeDenied, "foreign-chain"}
	BadReceipt   = &Close{CodeDenied, "bad-receipt"}
	BadBlob      = &Close{CodeDenied, "bad-blob"}
	StoreFails   = &Close{CodeFault, "store-fails"}
)
