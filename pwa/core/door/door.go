// Package door is the form of what goes into a Go module in the browser and what
// comes out: named operations, each with a small JSON header and a payload, and
// an answer of the same form.
//
//	request   {"op":"fold.add","job":"01J..."}\n  lines
//	answer    {}\n
//	answer    {"error":"..."}\n                   the operation was refused
//	answer    {"error":"...","crashed":true}\n    the module must be started anew
package door

import (
	"bytes"
	"errors"

	"sinkside/sync/jsontext"
)

// Call is one request on its way through an operation.
type Call struct {
	Header  jsontext.Value  // the request's, an object
	Payload []byte          // overwritten by the next call: copy what is kept
	W       jsontext.Writer // the answer's header, an object that is open
	Body    []byte          // the answer's payload
}

// Answer carries out one request by do, which is told the operation, and writes
// the answer over out.
func Answer(out, request []byte, do func(op string, c *Call) error) []byte {
	head, payload, _ := bytes.Cut(request, []byte{'\n'})
	c := &Call{Payload: payload, W: jsontext.Writer{B: out[:0]}}
	err, crashed := c.run(head, do)
	if err != nil {
		c.W = jsontext.Writer{B: out[:0]}
		c.W.Begin('{')
		c.W.Key("error")
		c.W.Str(err.Error())
		if crashed {
			c.W.Key("crashed")
			c.W.Bool(true)
		}
		c.Body = nil
	}
	c.W.End('}')
	return append(append(c.W.B, '\n'), c.Body...)
}

// run calls the operation. A panic leaves the module in a state that nobody
// knows, so it is told apart: the worker then starts a new one.
func (c *Call) run(head []byte, do func(string, *Call) error) (err error, crashed bool) {
	defer func() {
		if p := recover(); p != nil {
			err, crashed = errors.New("the core failed: "+panicText(p)), true
		}
	}()
	if c.Header, err = jsontext.Trim(head); err != nil {
		return errors.New("request header: " + err.Error()), false
	}
	op, err := c.Text("op")
	if err != nil {
		return err, false
	}
	c.W.Begin('{')
	return do(op, c), false
}

// Text reads a member of the header that must be there and be a text.
func (c *Call) Text(key string) (string, error) {
	v, ok := jsontext.Get(c.Header, key)
	if !ok {
		return "", errors.New(key + ": missing")
	}
	s, err := v.Text()
	if err != nil {
		return "", errors.New(key + ": " + err.Error())
	}
	return s, nil
}

// NoOperation says that there is no operation of a name.
func NoOperation(op string) error { return errors.New("there is no operation " + op) }

func panicText(p any) string {
	switch p := p.(type) {
	case error:
		return p.Error()
	case string:
		return p
	}
	return "unknown"
}
