package main

import (
	"os"
	"runtime/debug"
)

// keepSmall sets the garbage collector for a machine that has other work: the server stands in a
// studio's cupboard, on a small board often enough. The limit is soft; beside it stand badger's
// memory maps. GOMEMLIMIT and GOGC in the environment win.
func keepSmall() {
	const limit, percent = 64 << 20, 50
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(limit)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(percent)
	}
}
