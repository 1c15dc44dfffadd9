package main

import (
	"os"
	"path/filepath"
	"testing"
)

func TestTypesAreFresh(t *testing.T) {
	want, err := generateTypes()
	if err != nil {
		t.Fatal(err)
	}
	root, err := moduleRoot()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(root, typesFile))
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("%s is stale: run go run ./pwa/build -types", typesFile)
	}
}
