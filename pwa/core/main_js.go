// Command core is the part of Sinkside that runs in the browser: the same rules
// that the studio machine follows, compiled to WebAssembly. It has no main loop.
// The worker calls three exported functions and shares one buffer with them; all
// else is package bridge, or with the build tag library package desk, which know
// nothing of browsers.
package main

import "unsafe"

var (
	request []byte
	reply   []byte
)

// reserve makes room for a request of n bytes and returns where to put it. The
// place stays valid until the next reserve.
//
//go:wasmexport reserve
func reserve(n int32) unsafe.Pointer {
	if cap(request) < int(n) {
		request = make([]byte, max(int(n), 64<<10))
	}
	request = request[:cap(request)]
	return unsafe.Pointer(unsafe.SliceData(request))
}

// call carries out the request of n bytes and returns the length of the answer.
//
//go:wasmexport call
func call(n int32) int32 {
	reply = core.Call(request[:n])
	return int32(len(reply))
}

// answer returns where the answer is. It stays valid until the next call.
//
//go:wasmexport answer
func answer() unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(reply)) }

// main parks: the exported functions are called while it waits.
func main() { select {} }
