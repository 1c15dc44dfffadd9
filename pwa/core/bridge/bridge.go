// Package bridge is the way from the browser into the Go core: named operations
// in the form of package door. What they take and give stands at each; the
// TypeScript half is pwa/src/core/ops.ts. Nothing here knows of a browser, so
// that it is tested natively.
package bridge

import (
	"sinkside/pwa/core/door"
	"sinkside/sync/jsontext"
	"sinkside/sync/link"
)

// Core holds what the browser's core knows between calls. Its zero value is
// ready.
type Core struct {
	folds map[string]*fold
	link  *link.Link // nil before link.new
	out   []byte
}

// call is one request on its way through an operation.
type call struct {
	core    *Core
	args    args
	payload []byte          // overwritten by the next call: copy what is kept
	w       jsontext.Writer // the answer's header, an object that is open
	body    []byte          // the answer's payload
}

type op func(*call) error

var ops = map[string]op{
	"stamp":      stamp,
	"check":      check,
	"fold.add":   foldAdd,
	"fold.state": foldState,
	"fold.asof":  foldAsOf,
	"fold.log":   foldLog,
	"fold.drop":  foldDrop,
	"fold.hours": foldHours,

	"reckon.run": reckonRun,

	"link.new":     linkNew,
	"link.start":   linkStart,
	"link.stop":    linkStop,
	"link.receive": linkReceive,
	"link.wrote":   linkWrote,
	"link.fetched": linkFetched,
	"link.open":    linkOpen,
	"link.close":   linkClose,
	"link.arm":     linkArm,
	"link.offer":   linkOffer,
	"link.chunk":   linkChunk,
	"reissue":      reissue,
	"sum":          sum,
}

// Call carries out one request. The answer is valid until the next call.
func (c *Core) Call(request []byte) []byte {
	c.out = door.Answer(c.out, request, func(name string, d *door.Call) error {
		f := ops[name]
		if f == nil {
			return door.NoOperation(name)
		}
		k := &call{core: c, args: args{v: d.Header}, payload: d.Payload, w: d.W}
		err := f(k)
		d.W, d.Body = k.w, k.body
		return err
	})
	return c.out
}
