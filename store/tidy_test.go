package store

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// Space of removed photographs comes back when the store is at rest, and the
// photographs that stay can be read meanwhile and after.
func TestTidy(t *testing.T) {
	o := tiny()
	o.TidyEvery = 20 * time.Millisecond
	dir := t.TempDir()
	s := openIn(t, dir, o)
	s.packs.size = 1 << 20
	photo := func(n int) ([]byte, [32]byte) {
		data := make([]byte, 200_000)
		for i := range data {
			data[i] = byte(i * (n + 3) >> 5)
		}
		return data, sumOf(data)
	}
	const count = 20
	for n := range count {
		data, sum := photo(n)
		bringAll(t, s, data, sum)
	}
	before := packBytes(t, s)
	for n := range count {
		if _, sum := photo(n); n%5 != 0 {
			if err := s.BlobRemove(sum); err != nil {
				t.Fatal(err)
			}
		}
	}
	deadline := time.After(20 * time.Second)
	for packBytes(t, s) > before/2 {
		select {
		case <-deadline:
			t.Fatalf("packs have %d bytes, had %d", packBytes(t, s), before)
		case <-time.After(5 * time.Millisecond):
		}
		for n := 0; n < count; n += 5 {
			readAll(t, s, n, photo)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	s = openIn(t, dir, tiny())
	for n := 0; n < count; n += 5 {
		readAll(t, s, n, photo)
	}
}

func bringAll(t *testing.T, s *Store, data []byte, sum [32]byte) {
	t.Helper()
	if _, _, err := s.BlobBegin(sum, int64(len(data))); err != nil {
		t.Fatal(err)
	}
	for i := range Chunks(int64(len(data))) {
		if _, _, err := s.BlobChunk(sum, i, data[i*ChunkSize:min((i+1)*ChunkSize, len(data))]); err != nil {
			t.Fatal(err)
		}
	}
}

func readAll(t *testing.T, s *Store, n int, photo func(int) ([]byte, [32]byte)) {
	t.Helper()
	data, sum := photo(n)
	for i := range Chunks(int64(len(data))) {
		got, err := s.BlobRead(sum, i)
		if err != nil || string(got) != string(data[i*ChunkSize:min((i+1)*ChunkSize, len(data))]) {
			t.Fatalf("photograph %d chunk %d: %d bytes, %v", n, i, len(got), err)
		}
	}
}

func packBytes(t *testing.T, s *Store) (n int64) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(s.packs.dir, "*.pack"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if info, err := os.Stat(f); err == nil { // it may be deleted just now
			n += info.Size()
		}
	}
	return n
}
