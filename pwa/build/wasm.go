package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// seldom lists packages whose code runs seldom or for moments: not inlined it is
// slower by a fifth and saves 50 KB of the download. What reads and hashes
// thousands of lines at a start (jsontext, journal) is not among them.
var seldom = []string{
	"calc/reckoning", "calc/unit", "calc/water", "calc/rinse", "calc/air", "calc/drying", "calc/dossier", "calc/watch",
	"sync/wire", "sync/link", "pwa/core/bridge",
}

// compileCore compiles the Go core to WebAssembly. With -trimpath the same
// source gives the same bytes on any machine, so its hash is a build's identity.
func compileCore(root string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "sinkside-core")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	name := filepath.Join(dir, "core.wasm")
	args := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-o", name}
	for _, pkg := range seldom {
		args = append(args, "-gcflags=sinkside/"+pkg+"=-l")
	}
	cmd := exec.Command("go", append(args, "./pwa/core")...)
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
