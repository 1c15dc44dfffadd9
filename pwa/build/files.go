package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// assets is the folder of files that carry their hash in their name, so that
// they may be cached for ever.
const assets = "assets/"

// files is the web app in memory: paths inside dist, with slashes, to content.
type files map[string][]byte

func (f files) names() []string { return slices.Sorted(maps.Keys(f)) }

// hashOf returns 16 hexadecimal digits of the SHA-256 of b.
func hashOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:8])
}

// addHashed adds name as assets/STEM-HASH.EXT and returns that path.
func (f files) addHashed(name string, b []byte) string {
	ext := path.Ext(name)
	p := assets + strings.TrimSuffix(name, ext) + "-" + hashOf(b) + ext
	f[p] = b
	return p
}

// addStatic adds what browsers look for under a fixed name: the app's manifest
// and its icons.
func (f files) addStatic(root string) error {
	src := filepath.Join(root, "pwa", "src")
	for _, pattern := range []string{"*.webmanifest", "icons/*.svg", "icons/*.png", "icons/*.ico"} {
		found, err := filepath.Glob(filepath.Join(src, pattern))
		if err != nil {
			return err
		}
		for _, name := range found {
			b, err := os.ReadFile(name)
			if err != nil {
				return fmt.Errorf("copy the icons: %w", err)
			}
			rel, err := filepath.Rel(src, name)
			if err != nil {
				return err
			}
			f[filepath.ToSlash(rel)] = b
		}
	}
	return nil
}

// write replaces what dir holds by the files and their compressed copies. The
// placeholder stays: it lets a fresh clone compile.
func (f files) write(dir string, copies map[string]packed) error {
	if err := empty(dir); err != nil {
		return fmt.Errorf("clear dist: %w", err)
	}
	put := func(name string, b []byte) error {
		p := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			return err
		}
		return os.WriteFile(p, b, 0o644)
	}
	for name, b := range f {
		err := put(name, b)
		if c := copies[name]; err == nil && c.br != nil {
			err = errors.Join(put(name+".br", c.br), put(name+".gz", c.gz))
		}
		if err != nil {
			return fmt.Errorf("write dist: %w", err)
		}
	}
	return nil
}

func empty(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, e := range entries {
		if e.Name() != ".keep" {
			err = errors.Join(err, os.RemoveAll(filepath.Join(dir, e.Name())))
		}
	}
	return err
}
