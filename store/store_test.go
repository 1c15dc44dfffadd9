package store_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"sinkside/store"
	"sinkside/store/storetest"
)

// small asks for little room, so that tests run on a nearly full disk too.
var small = store.Options{FreeFloor: 1 << 20, Reserve: 64 << 10}

// dirs remembers the folder of each open store.
type dirs map[storetest.Store]string

func (d dirs) open(t *testing.T, dir string) storetest.Store {
	t.Helper()
	s, err := store.Open(dir, small)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	d[s] = dir
	return s
}

func TestAcceptance(t *testing.T) {
	d := dirs{}
	storetest.Run(t, storetest.Maker{
		New: func(t *testing.T) storetest.Store { return d.open(t, t.TempDir()) },
		Reopen: func(t *testing.T, s storetest.Store) storetest.Store {
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			return d.open(t, d[s])
		},
		Crash: func(t *testing.T, s storetest.Store) storetest.Store {
			dir := filepath.Join(t.TempDir(), "copy")
			copyLive(t, d[s], dir)
			return d.open(t, dir)
		},
	})
}

// copyLive copies the files of a store that is open: what a crash would leave. A crash
// leaves the files of one moment, a copy takes longer: where badger made or removed one
// meanwhile, it is made anew.
func copyLive(t *testing.T, from, to string) {
	t.Helper()
	for range 20 {
		before := filesIn(t, from)
		err := copyFiles(from, to)
		if err == nil && slices.Equal(before, filesIn(t, from)) {
			return
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			t.Fatal(err)
		}
		if err := os.RemoveAll(to); err != nil {
			t.Fatal(err)
		}
	}
	t.Fatalf("%s does not rest for as long as a copy takes", from)
}

func filesIn(t *testing.T, dir string) []string {
	t.Helper()
	var names []string
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, _ fs.DirEntry, err error) error {
		names = append(names, name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// copyFiles copies a folder. Badger's logs are sparse, and the copy is too.
func copyFiles(from, to string) error {
	return fs.WalkDir(os.DirFS(from), ".", func(name string, f fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case f.IsDir():
			return os.MkdirAll(filepath.Join(to, name), 0o700)
		case f.Name() == "LOCK":
			return nil
		}
		return copySparse(filepath.Join(from, name), filepath.Join(to, name))
	})
}

func copySparse(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	f, err := os.Create(to)
	if err != nil {
		return err
	}
	const block = 64 << 10
	zeros := make([]byte, block)
	err = f.Truncate(int64(len(data)))
	for at := 0; at < len(data) && err == nil; at += block {
		part := data[at:min(at+block, len(data))]
		if !bytes.Equal(part, zeros[:len(part)]) {
			_, err = f.WriteAt(part, int64(at))
		}
	}
	return errors.Join(err, f.Close())
}
