package store

import (
	"encoding/binary"
	"fmt"
	"io"
)

// readChunk returns a chunk's bytes as they are on the disk, unchecked; nil when
// it is not here or cannot be found in its pack.
func (s *Store) readChunk(sum [32]byte, i int) ([]byte, error) {
	key := chunkKey(sum, i)
	for range 3 { // a pack whose chunks were moved in the meantime is looked up again
		value, err := s.read(key)
		if err != nil {
			return nil, err
		}
		at, right := placeOfChunk(value)
		if !right {
			return nil, nil
		}
		data, err := s.packs.read(at)
		switch {
		case err == io.EOF:
			return nil, nil
		case err != errMoved:
			return data, err
		}
	}
	return nil, nil
}

func blobValue(size int64, whole bool) []byte {
	value := binary.BigEndian.AppendUint64(make([]byte, 0, 9), uint64(size))
	if whole {
		return append(value, 1)
	}
	return append(value, 0)
}

// BlobHas says whether the whole blob is here, and its size in bytes; 0 for a
// blob of which nothing is here.
func (s *Store) BlobHas(sum [32]byte) (size int64, whole bool, err error) {
	value, err := s.read(sumKey(kBlob, sum))
	if err != nil || value == nil {
		return 0, false, err
	}
	return readBlobValue(sum, value)
}

func readBlobValue(sum [32]byte, value []byte) (size int64, whole bool, err error) {
	if len(value) == 9 {
		size = int64(binary.BigEndian.Uint64(value))
	}
	if size < 1 || size > MaxBlob {
		return 0, false, fmt.Errorf("%w: size of blob %x", ErrDamaged, sum)
	}
	return size, value[8] == 1, nil
}

// BlobRead returns chunk i of a whole blob, checked against the sum; ErrNoBlob
// when the blob is not here or not whole, or has no such chunk.
func (s *Store) BlobRead(sum [32]byte, i int) ([]byte, error) {
	size, whole, err := s.BlobHas(sum)
	switch {
	case err != nil:
		return nil, err
	case !whole || ChunkLen(size, i) == 0:
		return nil, fmt.Errorf("%w: chunk %d of %x", ErrNoBlob, i, sum)
	}
	data, err := s.readChunk(sum, i)
	if err != nil {
		return nil, err
	}
	right, err := s.chunkRight(sum, size, i, data)
	if err != nil {
		return nil, err
	}
	if !right {
		return nil, fmt.Errorf("%w: chunk %d of blob %x", ErrDamaged, i, sum)
	}
	return data, nil
}

// chunkRight takes SHA-256 from its state before chunk i over the chunk's bytes,
// and tells whether that leads to the state after it, or to the sum.
func (s *Store) chunkRight(sum [32]byte, size int64, i int, data []byte) (bool, error) {
	if len(data) != ChunkLen(size, i) {
		return false, nil
	}
	before, err := s.stateBefore(sum, i)
	if err != nil {
		return false, err
	}
	h, err := resume(before, int64(i)*ChunkSize)
	if err != nil {
		return false, err
	}
	h.Write(data)
	if i == Chunks(size)-1 {
		return [32]byte(h.Sum(nil)) == sum, nil
	}
	want, err := s.stateBefore(sum, i+1)
	return stateOf(h) == want, err
}

// stateBefore returns the state of SHA-256 before chunk i.
func (s *Store) stateBefore(sum [32]byte, i int) (st state, err error) {
	if i == 0 {
		return st, nil
	}
	value, err := s.read(stateKey(sum, i-1))
	copy(st[:], value)
	return st, err
}

// Blobs gives all blobs of which something is here, sorted by sum.
func (s *Store) Blobs(f func(sum [32]byte, size int64, whole bool) error) error {
	return s.scan([]byte{kBlob}, nil, func(key, value []byte) error {
		sum := [32]byte(key[1:33])
		size, whole, err := readBlobValue(sum, value)
		if err != nil {
			return err
		}
		return f(sum, size, whole)
	})
}

// BlobRemove forgets a blob. Its space comes back when the store is at rest. Cut
// off in the middle, it leaves a blob that is not whole.
func (s *Store) BlobRemove(sum [32]byte) error {
	return s.do(&call{alone: func() error {
		size, _, err := s.BlobHas(sum)
		if err == nil && size == 0 {
			s.blobs.drop(sum)
		}
		if err != nil || size == 0 {
			return err
		}
		if err := s.commitOne(sumKey(kBlob, sum), blobValue(size, false)); err != nil {
			return err
		}
		for _, prefix := range [][]byte{sumKey(kState, sum), sumKey(kChunk, sum), sumKey(kBlob, sum)} {
			if err := s.deleteAll(prefix); err != nil {
				return err
			}
		}
		s.blobs.drop(sum)
		return nil
	}})
}
