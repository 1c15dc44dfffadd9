package memory

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"slices"

	"sinkside/store"
)

// blob is a blob being received, or a whole one.
type blob struct {
	size   int64
	whole  bool
	chunks map[int][]byte
}

// next is the first chunk that is missing.
func (b *blob) next() int {
	for i := 0; ; i++ {
		if b.chunks[i] == nil {
			return i
		}
	}
}

// right tells whether the chunks' bytes have the sum.
func (b *blob) right(sum [32]byte) bool {
	h := sha256.New()
	for i := range store.Chunks(b.size) {
		h.Write(b.chunks[i])
	}
	return [32]byte(h.Sum(nil)) == sum
}

// BlobBegin announces a blob.
func (s *Store) BlobBegin(sum [32]byte, size int64) (next int, whole bool, err error) {
	err = s.writing(func() error {
		b := s.blobs[sum]
		var before int64
		if b != nil {
			before = b.size
		}
		if err := store.CheckSize(size, before); err != nil {
			return err
		}
		if b == nil {
			b = &blob{size: size, chunks: map[int][]byte{}}
			s.blobs[sum] = b
		}
		next, whole = b.next(), b.whole
		return nil
	})
	return next, whole, err
}

// BlobChunk stores one chunk.
func (s *Store) BlobChunk(sum [32]byte, i int, data []byte) (next int, whole bool, err error) {
	err = s.writing(func() error {
		b := s.blobs[sum]
		if b == nil {
			return store.ErrNoBlob
		}
		if err := store.CheckChunk(b.size, i, data); err != nil {
			return err
		}
		if b.chunks[i] == nil {
			b.chunks[i] = bytes.Clone(data)
		}
		next = b.next()
		if next == store.Chunks(b.size) && !b.whole {
			if !b.right(sum) {
				b.chunks = map[int][]byte{}
				next = 0
				return fmt.Errorf("%w: the SHA-256 of what came is not %x", store.ErrBlob, sum)
			}
			b.whole = true
		}
		whole = b.whole
		return nil
	})
	return next, whole, err
}

// BlobHas says whether the whole blob is here.
func (s *Store) BlobHas(sum [32]byte) (size int64, whole bool, err error) {
	err = s.reading(func() {
		if b := s.blobs[sum]; b != nil && len(b.chunks) > 0 {
			size, whole = b.size, b.whole
		}
	})
	return size, whole, err
}

// BlobRead returns one chunk.
func (s *Store) BlobRead(sum [32]byte, i int) (data []byte, err error) {
	err = s.reading(func() {
		if b := s.blobs[sum]; b != nil && b.whole {
			data = bytes.Clone(b.chunks[i])
		}
	})
	if err == nil && data == nil {
		err = store.ErrNoBlob
	}
	return data, err
}

// Blobs gives all blobs of which something is here, sorted by sum.
func (s *Store) Blobs(f func(sum [32]byte, size int64, whole bool) error) error {
	var sums [][32]byte
	state := map[[32]byte]blob{}
	err := s.reading(func() {
		for sum, b := range s.blobs {
			if len(b.chunks) > 0 {
				sums = append(sums, sum)
				state[sum] = *b
			}
		}
	})
	slices.SortFunc(sums, func(a, b [32]byte) int { return bytes.Compare(a[:], b[:]) })
	return give(sums, err, func(sum [32]byte) error { return f(sum, state[sum].size, state[sum].whole) })
}

// BlobRemove forgets a blob.
func (s *Store) BlobRemove(sum [32]byte) error {
	return s.writing(func() error {
		delete(s.blobs, sum)
		return nil
	})
}
