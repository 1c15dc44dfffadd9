package storetest

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"sinkside/store"
)

// Photo returns n bytes that do not compress, and their sum.
func Photo(seed uint64, n int) (data []byte, sum [32]byte) {
	r := rand.New(rand.NewPCG(seed, 1))
	data = make([]byte, n)
	for i := range data {
		data[i] = byte(r.Uint32())
	}
	return data, sha256.Sum256(data)
}

// Chunk returns chunk i of data.
func Chunk(data []byte, i int) []byte {
	return data[i*store.ChunkSize : min((i+1)*store.ChunkSize, len(data))]
}

func begins(t testing.TB, s Store, sum [32]byte, size, next int, whole bool) {
	t.Helper()
	n, w, err := s.BlobBegin(sum, int64(size))
	if n != next || w != whole || err != nil {
		t.Fatalf("BlobBegin = %d, %t, %v, want %d, %t", n, w, err, next, whole)
	}
}

func takes(t testing.TB, s Store, sum [32]byte, data []byte, i, next int, whole bool) {
	t.Helper()
	n, w, err := s.BlobChunk(sum, i, Chunk(data, i))
	if n != next || w != whole || err != nil {
		t.Fatalf("BlobChunk(%d) = %d, %t, %v, want %d, %t", i, n, w, err, next, whole)
	}
}

// has wants a blob to be whole and right.
func has(t testing.TB, s Store, sum [32]byte, data []byte) {
	t.Helper()
	if size, whole, err := s.BlobHas(sum); size != int64(len(data)) || !whole || err != nil {
		t.Fatalf("BlobHas = %d, %t, %v, want %d and whole", size, whole, err, len(data))
	}
	for i := range store.Chunks(int64(len(data))) {
		got, err := s.BlobRead(sum, i)
		must(t, err)
		if !bytes.Equal(got, Chunk(data, i)) {
			t.Fatalf("chunk %d differs", i)
		}
	}
}

func blobBecomesWhole(t *testing.T, m Maker) {
	s := m.New(t)
	for _, n := range []int{1, 100, store.ChunkSize - 1, store.ChunkSize, store.ChunkSize + 1, 3*store.ChunkSize + 50_000} {
		data, sum := Photo(uint64(n), n)
		if size, whole, err := s.BlobHas(sum); size != 0 || whole || err != nil {
			t.Errorf("BlobHas before = %d, %t, %v", size, whole, err)
		}
		begins(t, s, sum, n, 0, false)
		chunks := store.Chunks(int64(n))
		for i := range chunks {
			takes(t, s, sum, data, i, i+1, i == chunks-1)
		}
		has(t, s, sum, data)
		begins(t, s, sum, n, chunks, true)
		takes(t, s, sum, data, 0, chunks, true)
		if _, err := s.BlobRead(sum, chunks); !errors.Is(err, store.ErrNoBlob) {
			t.Errorf("reading behind the end = %v, want ErrNoBlob", err)
		}
	}
}

func blobGoesOn(t *testing.T, m Maker) {
	s := m.New(t)
	data, sum := Photo(1, 4*store.ChunkSize+10)
	begins(t, s, sum, len(data), 0, false)
	takes(t, s, sum, data, 0, 1, false)
	takes(t, s, sum, data, 1, 2, false)
	takes(t, s, sum, data, 1, 2, false)
	begins(t, s, sum, len(data), 2, false)
	if m.Reopen != nil {
		s = m.Reopen(t, s)
		begins(t, s, sum, len(data), 2, false)
	}
	takes(t, s, sum, data, 2, 3, false)
	if m.Crash != nil {
		s = m.Crash(t, s)
		begins(t, s, sum, len(data), 3, false)
	}
	takes(t, s, sum, data, 3, 4, false)
	takes(t, s, sum, data, 4, 5, true)
	has(t, s, sum, data)
}

func chunksInAnyOrder(t *testing.T, m Maker) {
	s := m.New(t)
	data, sum := Photo(1, 3*store.ChunkSize+10)
	begins(t, s, sum, len(data), 0, false)
	takes(t, s, sum, data, 2, 0, false)
	takes(t, s, sum, data, 0, 1, false)
	takes(t, s, sum, data, 3, 1, false)
	if m.Reopen != nil {
		s = m.Reopen(t, s)
	}
	begins(t, s, sum, len(data), 1, false)
	takes(t, s, sum, data, 1, 4, true)
	has(t, s, sum, data)
}

func wrongBlobIsDropped(t *testing.T, m Maker) {
	s := m.New(t)
	data, sum := Photo(1, 2*store.ChunkSize+10)
	begins(t, s, sum, len(data), 0, false)
	bad := bytes.Clone(data)
	bad[store.ChunkSize+7] ^= 1
	takes(t, s, sum, bad, 0, 1, false)
	takes(t, s, sum, bad, 1, 2, false)
	if _, whole, err := s.BlobChunk(sum, 2, Chunk(bad, 2)); whole || !errors.Is(err, store.ErrBlob) {
		t.Fatalf("the last chunk of a wrong blob: %t, %v, want ErrBlob", whole, err)
	}
	if _, whole, _ := s.BlobHas(sum); whole {
		t.Error("a wrong blob is whole")
	}
	begins(t, s, sum, len(data), 0, false)
	for i := range 3 {
		takes(t, s, sum, data, i, i+1, i == 2)
	}
	has(t, s, sum, data)
}

func chunkLimits(t *testing.T, m Maker) {
	s := m.New(t)
	data, sum := Photo(1, store.ChunkSize+10)
	for _, size := range []int64{-1, 0, store.MaxBlob + 1} {
		if _, _, err := s.BlobBegin(sum, size); !errors.Is(err, store.ErrBlob) {
			t.Errorf("BlobBegin of %d bytes = %v, want ErrBlob", size, err)
		}
	}
	if _, _, err := s.BlobChunk(sum, 0, Chunk(data, 0)); !errors.Is(err, store.ErrNoBlob) {
		t.Errorf("a chunk of a blob nobody announced = %v, want ErrNoBlob", err)
	}
	begins(t, s, sum, len(data), 0, false)
	if _, _, err := s.BlobBegin(sum, int64(len(data)+1)); !errors.Is(err, store.ErrBlob) {
		t.Errorf("announcing another size = %v, want ErrBlob", err)
	}
	for _, c := range []struct {
		i    int
		data []byte
	}{{0, nil}, {0, data[:100]}, {0, data}, {1, Chunk(data, 0)}, {2, nil}, {-1, Chunk(data, 0)}} {
		if _, _, err := s.BlobChunk(sum, c.i, c.data); !errors.Is(err, store.ErrBlob) {
			t.Errorf("chunk %d of %d bytes = %v, want ErrBlob", c.i, len(c.data), err)
		}
	}
	begins(t, s, sum, len(data), 0, false)
}

func manyBlobs(t *testing.T, m Maker) {
	s := m.New(t)
	const count, size = 12, 300_000
	var photos [][]byte
	var sums [][32]byte
	for i := range count {
		data, sum := Photo(uint64(i), size)
		photos, sums = append(photos, data), append(sums, sum)
		begins(t, s, sum, size, 0, false)
	}
	var wg sync.WaitGroup
	for i := range photos {
		for c := range store.Chunks(size) {
			wg.Go(func() {
				if _, _, err := s.BlobChunk(sums[i], c, Chunk(photos[i], c)); err != nil {
					t.Errorf("photo %d chunk %d: %v", i, c, err)
				}
			})
		}
	}
	wg.Wait()
	for i := range photos {
		has(t, s, sums[i], photos[i])
	}
	var listed [][32]byte
	must(t, s.Blobs(func(sum [32]byte, n int64, whole bool) error {
		if n != size || !whole {
			t.Errorf("listed with %d bytes, whole %t", n, whole)
		}
		listed = append(listed, sum)
		return nil
	}))
	slices.SortFunc(sums, func(a, b [32]byte) int { return bytes.Compare(a[:], b[:]) })
	if !slices.Equal(listed, sums) {
		t.Errorf("listed %d blobs, want %d, sorted", len(listed), count)
	}
}

func blobIsRemoved(t *testing.T, m Maker) {
	s := m.New(t)
	data, sum := Photo(1, 2*store.ChunkSize)
	begins(t, s, sum, len(data), 0, false)
	takes(t, s, sum, data, 0, 1, false)
	for range 2 { // with a chunk, and with none
		must(t, s.BlobRemove(sum))
		begins(t, s, sum, len(data), 0, false)
	}
	must(t, s.BlobRemove(sum))
	if _, _, err := s.BlobChunk(sum, 1, Chunk(data, 1)); !errors.Is(err, store.ErrNoBlob) {
		t.Errorf("a chunk of a removed blob = %v, want ErrNoBlob", err)
	}
	begins(t, s, sum, len(data), 0, false)
	takes(t, s, sum, data, 0, 1, false)
	takes(t, s, sum, data, 1, 2, true)
	for range 2 {
		must(t, s.BlobRemove(sum))
	}
	if _, err := s.BlobRead(sum, 0); !errors.Is(err, store.ErrNoBlob) {
		t.Errorf("reading a removed blob = %v, want ErrNoBlob", err)
	}
}
