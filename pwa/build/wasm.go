package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// What pwa/core can be compiled as: the core of the log, or the library of
// reckonings, a module of its own that a phone fetches after the app is up.
const (
	theLog     = ""
	theLibrary = "library"
)

// compileCore compiles pwa/core to WebAssembly, under a build tag. With -trimpath
// the same source gives the same bytes on any machine, so its hash is a build's
// identity.
//
// Nothing is inlined (-l), neither in Go's own packages: that makes the download
// smaller by a tenth and folding slower by about half, which nobody sees: a
// start folds only what is new, and a tap folds one entry.
func compileCore(root, tag string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "sinkside-core")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	name := filepath.Join(dir, "core.wasm")
	cmd := exec.Command("go", "build", "-tags", tag, "-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-gcflags", "all=-l", "-o", name, "./pwa/core")
	cmd.Dir, cmd.Stdout, cmd.Stderr = root, os.Stdout, os.Stderr
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("compile the core: %w", err)
	}
	b, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("read the core: %w", err)
	}
	return joinSegments(b)
}

// wasmExec finds the JavaScript half of Go's WebAssembly runtime. It must be of
// the Go version that compiled the core, so it comes from the tool chain and is
// never kept in the tree.
func wasmExec() (string, error) {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("ask go for its root: %w", err)
	}
	return filepath.Join(strings.TrimSpace(string(out)), "lib", "wasm", "wasm_exec.js"), nil
}
