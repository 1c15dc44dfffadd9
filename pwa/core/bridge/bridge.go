// Package bridge is the way from the browser into the Go core: named operations,
// each with a small JSON header and a payload, and an answer of the same form.
//
//	request   {"op":"fold.add","job":"01J..."}\n  lines
//	answer    {}\n
//	answer    {"error":"..."}\n                   the operation was refused
//	answer    {"error":"...","crashed":true}\n    the core must be started anew
//
// The operations, with what they take and give, stand in the table ops. The
// TypeScript half is pwa/src/core/ops.ts. Nothing here knows of a browser, so
// that it is tested natively.
package bridge

import (
	"bytes"
	"errors"

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

	"reckon.list": reckonList,
	"reckon.run":  reckonRun,

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
	head, payload, _ := bytes.Cut(request, []byte{'\n'})
	k := &call{core: c, payload: payload, w: jsontext.Writer{B: c.out[:0]}}
	err, crashed := k.run(head)
	if err != nil {
		k.w = jsontext.Writer{B: c.out[:0]}
		k.w.Begin('{')
		k.w.Key("error")
		k.w.Str(err.Error())
		if crashed {
			k.w.Key("crashed")
			k.w.Bool(true)
		}
		k.body = nil
	}
	k.w.End('}')
	c.out = append(append(k.w.B, '\n'), k.body...)
	return c.out
}

// run finds and calls the operation. A panic leaves the core in a state that
// nobody knows, so it is told apart: the worker then starts a new one.
func (k *call) run(head []byte) (err error, crashed bool) {
	defer func() {
		if p := recover(); p != nil {
			err, crashed = errors.New("the core failed: "+panicText(p)), true
		}
	}()
	v, err := jsontext.Trim(head)
	if err != nil {
		return errors.New("request header: " + err.Error()), false
	}
	k.args.v = v
	name := k.args.text("op")
	if k.args.err != nil {
		return k.args.err, false
	}
	f := ops[name]
	if f == nil {
		return errors.New("there is no operation " + name), false
	}
	k.w.Begin('{')
	return f(k), false
}

func panicText(p any) string {
	switch p := p.(type) {
	case error:
		return p.Error()
	case string:
		return p
	}
	return "unknown"
}
