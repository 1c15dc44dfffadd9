package main

import (
	"os"
	"runtime/debug"
)

// keepSmall bounds what the garbage collector lets the heap grow to, for a machine that has other
// work: the server stands in a studio's cupboard, on a small board often enough. The bound is soft
// and far above what the server needs at rest; beside it stand badger's memory maps, 20 to 45 MB.
// GOMEMLIMIT in the environment wins.
func keepSmall() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(52 << 20)
	}
}
