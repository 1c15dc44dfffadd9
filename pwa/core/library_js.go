//go:build library

package main

import "sinkside/pwa/core/desk"

// The library of reckonings, a module of its own.
var core desk.Desk
