package store

import (
	"os"

	"golang.org/x/sys/unix"
)

// allocate gives f n bytes of the disk.
func allocate(f *os.File, n int64) error {
	if err := unix.Fallocate(int(f.Fd()), 0, 0, n); err == nil {
		return f.Sync()
	}
	return fill(f, n)
}
