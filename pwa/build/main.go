// Command build makes the web app: it compiles the Go core to WebAssembly,
// bundles the TypeScript, and writes pwa/dist with compressed copies of every
// file, ready to be embedded in the server.
//
//	go run ./pwa/build          the app, into pwa/dist
//	go run ./pwa/build -dev     the same, readable
//	go run ./pwa/build -test    the TypeScript tests, into pwa/dist-test, for node --test
//	go run ./pwa/build -types   pwa/src/core/types.gen.ts from the Go types
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

func main() {
	dev := flag.Bool("dev", false, "leave the code readable")
	test := flag.Bool("test", false, "bundle the TypeScript tests for node --test")
	types := flag.Bool("types", false, "write pwa/src/core/types.gen.ts")
	flag.Parse()
	if err := run(*dev, *test, *types); err != nil {
		fmt.Fprintln(os.Stderr, "pwa/build:", err)
		os.Exit(1)
	}
}

func run(dev, test, types bool) error {
	root, err := moduleRoot()
	if err != nil {
		return err
	}
	if types {
		return writeTypes(root)
	}
	if err := installPackages(root); err != nil {
		return err
	}
	if test {
		return bundleTests(root)
	}
	return buildApp(root, dev)
}

// moduleRoot finds the folder of go.mod, so that the command runs from anywhere
// in the tree.
func moduleRoot() (string, error) {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return "", fmt.Errorf("ask go for the module: %w", err)
	}
	mod := strings.TrimSpace(string(out))
	if mod == "" || mod == os.DevNull {
		return "", errors.New("not inside the module: run it in a clone of the repository")
	}
	return filepath.Dir(mod), nil
}

// installPackages runs npm ci when the packages are not those of the lockfile.
func installPackages(root string) error {
	pwa := filepath.Join(root, "pwa")
	lock, err := os.Stat(filepath.Join(pwa, "package-lock.json"))
	if err != nil {
		return fmt.Errorf("find the lockfile: %w", err)
	}
	have, err := os.Stat(filepath.Join(pwa, "node_modules", ".package-lock.json"))
	if err == nil && !have.ModTime().Before(lock.ModTime()) {
		return nil
	}
	cmd := exec.Command("npm", "ci", "--no-fund", "--no-audit")
	cmd.Dir, cmd.Stdout, cmd.Stderr = pwa, os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("install the npm packages (is Node with npm installed?): %w", err)
	}
	return nil
}
