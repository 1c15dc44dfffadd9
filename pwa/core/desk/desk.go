// Package desk is the way from the browser into the library of reckonings. The
// library is a WebAssembly module of its own, which knows of no log: it is
// fetched after the app is up, started when somebody first asks for a reckoning,
// and if it should fail, no entry is touched. What is watched at the sink is
// reckoned in the core of the log, which carries those few reckonings itself.
//
// The price is Go's runtime, which a phone then keeps twice, some 390 KB with
// Brotli. It is paid where nobody waits for it.
package desk

import (
	"sinkside/calc/reckoning/library"
	"sinkside/pwa/core/door"
)

// Desk answers requests. Its zero value is ready.
type Desk struct{ out []byte }

// Call carries out one request. The answer is valid until the next call.
//
//	list                             out  payload: [Reckoning]
//	run   name; payload: the inputs  out  payload: Result, or {"problems":[Problem]}
func (d *Desk) Call(request []byte) []byte {
	d.out = door.Answer(d.out, request, func(op string, c *door.Call) error {
		switch op {
		case "list":
			c.Body = library.All().Append(nil)
		case "run":
			name, err := c.Text("name")
			if err != nil {
				return err
			}
			c.Body, _ = library.All().Answer(nil, name, c.Payload)
		default:
			return door.NoOperation(op)
		}
		return nil
	})
	return d.out
}
