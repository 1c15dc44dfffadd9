//go:build !linux

package store

import "os"

// allocate gives f n bytes of the disk.
func allocate(f *os.File, n int64) error { return fill(f, n) }
