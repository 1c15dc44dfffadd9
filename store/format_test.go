package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"sinkside/sync/journal"
)

func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	s := openIn(t, dir, tiny())
	d := newDevice(1, 2)
	wants(t, s, d.run(t, 2), journal.Stored)

	_, err := Open(dir, tiny())
	if !errors.Is(err, ErrInUse) || !strings.Contains(err.Error(), fmt.Sprint("number ", os.Getpid())) {
		t.Errorf("a second Open = %v, want ErrInUse naming the process", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}

	format := filepath.Join(dir, "format")
	for _, c := range []struct {
		text string
		want error
	}{
		{"sinkside store 2\n", ErrNewer},
		{"sinkside store 0\n", ErrForeign},
		{"something else\n", ErrForeign},
		{"", ErrForeign},
	} {
		if err := os.WriteFile(format, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(dir, tiny()); !errors.Is(err, c.want) {
			t.Errorf("Open with format %q = %v, want %v", c.text, err, c.want)
		}
	}
	if err := os.Remove(format); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, tiny()); !errors.Is(err, ErrForeign) {
		t.Errorf("Open of a database without a format = %v, want ErrForeign", err)
	}
	if err := os.WriteFile(format, []byte("sinkside store 1\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s = openIn(t, dir, tiny())
	if n := length(t, s, d.chain); n != 2 {
		t.Errorf("%d lines after all that, want 2", n)
	}
}

// A process that was killed when badger had just made a file leaves it empty.
func TestOpenWithEmptyFiles(t *testing.T) {
	for _, name := range []string{"00007.mem", "000007.vlog", "000007.sst", "MANIFEST-REWRITE"} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			s := openIn(t, dir, tiny())
			d := newDevice(1, 2)
			wants(t, s, d.run(t, 3), journal.Stored)
			if err := errors.Join(s.Close(), os.WriteFile(filepath.Join(dir, "db", name), nil, 0o600)); err != nil {
				t.Fatal(err)
			}
			for range 2 {
				s = openIn(t, dir, tiny())
				wants(t, s, d.run(t, 3), journal.Stored)
				if n := length(t, s, d.chain); n != d.head.N {
					t.Errorf("%d lines, want %d", n, d.head.N)
				}
				if err := s.Close(); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
}

// An older store is brought up step by step, and a step that was cut off is done
// again.
func TestMigration(t *testing.T) {
	dir := t.TempDir()
	s := openIn(t, dir, tiny())
	if err := s.Put("b", "k", []byte("old")); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	var done []int
	cut := errors.New("cut off")
	fail := true
	later := tiny()
	later.format = 3
	later.steps = map[int]migration{
		1: func(*Store) error { done = append(done, 1); return nil },
		2: func(s *Store) error {
			done = append(done, 2)
			if fail {
				return cut
			}
			return s.commitOne(recordKey("b", "k"), append(sum8(recordKey("b", "k"), []byte("new")), "new"...))
		},
	}
	if _, err := Open(dir, later); !errors.Is(err, cut) {
		t.Fatalf("Open = %v, want the step's error", err)
	}
	fail = false
	s = openIn(t, dir, later)
	if v, _, err := s.Get("b", "k"); string(v) != "new" || err != nil {
		t.Errorf("record = %q, %v, want new", v, err)
	}
	if fmt.Sprint(done) != "[1 2 2]" {
		t.Errorf("steps = %v, want 1, then 2 twice", done)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, tiny()); !errors.Is(err, ErrNewer) {
		t.Errorf("the older program opens it: %v, want ErrNewer", err)
	}
	lost := later
	lost.format, lost.steps = 4, map[int]migration{}
	if _, err := Open(dir, lost); !errors.Is(err, ErrForeign) {
		t.Errorf("a program without the step = %v, want ErrForeign", err)
	}
}

// A folder that may not be written is not damaged, and nobody should restore a
// backup over it. Root may write everywhere, so the disk's answer is given here.
func TestOpenTellsAFolderThatMayNotBeWrittenFromADamagedOne(t *testing.T) {
	dir := t.TempDir()
	if err := openIn(t, dir, tiny()).Close(); err != nil {
		t.Fatal(err)
	}
	for _, answer := range []error{syscall.EROFS, syscall.EACCES} {
		o := tiny()
		o.fault = func(point string) error {
			if point == "try" {
				return &fs.PathError{Op: "open", Path: dir, Err: answer}
			}
			return nil
		}
		_, err := Open(dir, o)
		if !errors.Is(err, ErrNoAccess) || errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), dir) {
			t.Errorf("Open where the disk says %q = %v, want ErrNoAccess naming the folder", answer, err)
		}
	}
}
