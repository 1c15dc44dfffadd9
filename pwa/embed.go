// Package pwa carries the web app that phones load: what `go run ./pwa/build`
// wrote to dist is embedded in the program that imports this package.
package pwa

import (
	"embed"
	"io/fs"
)

// A fresh clone has only the placeholder in dist, so that it compiles before the
// web app was ever built.
//
//go:embed all:dist
var dist embed.FS

// Files returns the built web app: index.html, sw.js, and under assets/ what is
// named by its hash and may be cached for ever. Beside a file that compresses
// stand its .br and .gz copies.
func Files() fs.FS {
	sub, err := fs.Sub(dist, "dist")
	if err != nil { // only for an invalid name
		panic(err)
	}
	return sub
}

// Built tells whether the web app was there when the program was compiled.
func Built() bool {
	_, err := fs.Stat(dist, "dist/index.html")
	return err == nil
}
