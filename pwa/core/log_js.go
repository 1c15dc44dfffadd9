//go:build !library

package main

import "sinkside/pwa/core/bridge"

// The core of the log: entries, fold, watch and sync.
var core bridge.Core
