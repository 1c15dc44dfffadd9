package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"sinkside/sync/journal"
)

const smallDisk = 64 << 20

// smallDiskOf makes a disk of 64 MB below the test's folder where the machine
// lets it, and otherwise a folder that counts as one.
func smallDiskOf(t *testing.T) (dir string, free func(string) (int64, error)) {
	t.Helper()
	dir = t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=64m"); err != nil {
		t.Logf("no disk of its own here (%v): a folder stands for it", err)
		return dir, func(string) (int64, error) { return smallDisk - used(t, dir), nil }
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir, freeBytes
}

// used adds up what the files below dir take on the disk.
func used(t *testing.T, dir string) (n int64) {
	err := filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		var st syscall.Stat_t
		if err == nil && syscall.Lstat(path, &st) == nil { // it may be gone just now
			n += st.Blocks * 512
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
	return n
}

// occupy takes n bytes of the disk, or what there is.
func occupy(t *testing.T, path string, n int64) {
	t.Helper()
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := fill(f, n); err != nil && !errors.Is(err, syscall.ENOSPC) {
		t.Fatal(err)
	}
}

// settled returns how many bytes are free once that has not changed for half a
// second: badger, rearranging its files in the background, gives some back.
func settled(t *testing.T, disk string, free func(string) (int64, error)) int64 {
	t.Helper()
	deadline := time.Now().Add(time.Minute)
	last, since := int64(-1), time.Now()
	for tick := time.Tick(20 * time.Millisecond); time.Now().Before(deadline); <-tick {
		now, err := free(disk)
		switch {
		case err != nil:
			t.Fatal(err)
		case now != last:
			last, since = now, time.Now()
		case time.Since(since) > 500*time.Millisecond:
			return now
		}
	}
	t.Fatal("the free space goes on changing")
	return 0
}

// A disk is written until it is full, then filled to its last byte by something
// else. The store is closed and opened on it, and goes on when there is room.
func TestSmallDisk(t *testing.T) {
	disk, free := smallDiskOf(t)
	dir, other, last := filepath.Join(disk, "store"), filepath.Join(disk, "other"), filepath.Join(disk, "last")
	o := Options{FreeFloor: 24 << 20, Reserve: 12 << 20, Free: free}
	occupy(t, other, 20<<20)

	s := openIn(t, dir, o)
	d := newDevice(1, 2)
	written := uint64(0)
	for written < 1_000_000 {
		before := *d
		if _, err := s.Append(d.run(t, 1000)); errors.Is(err, ErrFull) {
			*d = before
			break
		} else if err != nil {
			t.Fatal(err)
		}
		written += 1000
	}
	t.Logf("%d entries until the disk was full", written)
	holds := func() {
		t.Helper()
		if n := length(t, s, d.chain); n != written || n == 0 {
			t.Fatalf("%d lines, want %d", n, written)
		}
	}
	refuses := func() {
		t.Helper()
		next := *d
		if _, err := s.Append(next.run(t, 10)); !errors.Is(err, ErrFull) {
			t.Fatalf("Append on a full disk = %v, want ErrFull", err)
		}
	}
	holds()
	occupy(t, last, settled(t, disk, free))
	refuses()
	holds()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	s = openIn(t, dir, o) // on what the reserve left
	refuses()
	holds()
	occupy(t, last, settled(t, disk, free))
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, o); !errors.Is(err, ErrFull) {
		t.Fatalf("Open without a byte left = %v, want ErrFull", err)
	}
	for _, path := range []string{other, last} {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
	s = openIn(t, dir, o)
	holds()
	more := d.run(t, 3000)
	wants(t, s, more, journal.Stored)
	written += 3000
	if n := length(t, s, d.chain); n != written {
		t.Errorf("%d lines when there is room again, want %d", n, written)
	}
	if _, err := os.Stat(filepath.Join(dir, "reserve")); err != nil {
		t.Errorf("the reserve was not taken again: %v", err)
	}
	if err := s.Check(func(damage error) { t.Error(damage) }); err != nil {
		t.Error(err)
	}
}
