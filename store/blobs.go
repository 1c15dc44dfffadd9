package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"sync"

	"github.com/dgraph-io/badger/v4"
)

// incoming is what is known of blobs that are not whole yet: which chunks are
// on the disk. It can be forgotten at any time, and is then read from the keys.
type incoming struct {
	mu    sync.Mutex
	bySum map[[32]byte]*arrival
}

// arrival is one blob on its way.
type arrival struct {
	size int64
	have []bool
	left int // chunks that are missing
	next int // the first that is missing
}

func (x *incoming) forget() {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.bySum = nil
}

func (x *incoming) drop(sum [32]byte) {
	x.mu.Lock()
	defer x.mu.Unlock()
	delete(x.bySum, sum)
}

// came notes a chunk that is durable. last says that it was the last one that
// was missing; known is false when nothing is known of the blob's arrival.
func (x *incoming) came(sum [32]byte, i int) (next int, last, known bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	a := x.bySum[sum]
	if a == nil {
		return 0, false, false
	}
	if !a.have[i] {
		a.have[i] = true
		a.left--
		last = a.left == 0
	}
	return a.advance(), last, true
}

// advance moves next past the chunks that are here.
func (a *arrival) advance() int {
	for a.next < len(a.have) && a.have[a.next] {
		a.next++
	}
	return a.next
}

// arriving returns how far a blob has come: its arrival, or that it is whole.
// Both are empty for a blob that nobody announced.
func (s *Store) arriving(sum [32]byte) (a *arrival, whole bool, err error) {
	s.blobs.mu.Lock()
	defer s.blobs.mu.Unlock()
	if a := s.blobs.bySum[sum]; a != nil {
		return a, false, nil
	}
	size, whole, err := s.BlobHas(sum)
	if err != nil || size == 0 {
		return nil, false, err
	}
	if whole {
		return &arrival{size: size, next: Chunks(size)}, true, nil
	}
	a = &arrival{size: size, have: make([]bool, Chunks(size)), left: Chunks(size)}
	err = s.chunkKeys(sum, func(key []byte) {
		if i := int(binary.BigEndian.Uint32(key[33:])); i < len(a.have) && !a.have[i] {
			a.have[i] = true
			a.left--
		}
	})
	if err != nil {
		return nil, false, err
	}
	a.advance()
	if s.blobs.bySum == nil {
		s.blobs.bySum = map[[32]byte]*arrival{}
	}
	s.blobs.bySum[sum] = a
	return a, false, nil
}

// chunkKeys gives the keys of a blob's chunks, without reading the chunks.
func (s *Store) chunkKeys(sum [32]byte, f func(key []byte)) error {
	return s.view(func(tx *badger.Txn) error {
		o := badger.DefaultIteratorOptions
		o.Prefix, o.PrefetchValues = sumKey(kChunk, sum), false
		it := tx.NewIterator(o)
		defer it.Close()
		for it.Rewind(); it.Valid(); it.Next() {
			if key := it.Item().Key(); len(key) == 37 {
				f(key)
			}
		}
		return nil
	})
}

func blobValue(size int64, whole bool) []byte {
	value := binary.BigEndian.AppendUint64(nil, uint64(size))
	if whole {
		return append(value, 1)
	}
	return append(value, 0)
}

// BlobHas says whether the whole blob is here, and its size in bytes; 0 for a
// blob that nobody announced.
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

// BlobBegin announces a blob of size bytes, named by its SHA-256. next is the
// first chunk that is missing, from where its sender goes on; whole says that
// nothing is missing and the sum was checked.
func (s *Store) BlobBegin(sum [32]byte, size int64) (next int, whole bool, err error) {
	a, whole, err := s.arriving(sum)
	if err != nil {
		return 0, false, err
	}
	if a != nil {
		if err := CheckSize(size, a.size); err != nil || whole {
			return a.next, whole, err
		}
		if next, left := s.blobs.state(a); left > 0 {
			return next, false, nil
		}
		// All chunks came, but the end came before the check.
		return s.finish(sum, size)
	}
	if err := CheckSize(size, 0); err != nil {
		return 0, false, err
	}
	err = s.do(&call{cost: put(33, 9), apply: func(b *batch) error {
		// Another call may have announced it in the meantime.
		if value, err := valueOf(b.tx, sumKey(kBlob, sum)); err != nil || value != nil {
			return err
		}
		return b.set(sumKey(kBlob, sum), blobValue(size, false))
	}})
	return 0, false, err
}

func (x *incoming) state(a *arrival) (next, left int) {
	x.mu.Lock()
	defer x.mu.Unlock()
	return a.next, a.left
}

// BlobChunk stores chunk i of an announced blob; it is on the disk when it
// returns. Chunks may come in any order and at the same time; those that do
// share an fsync. With the last one the blob is read back and checked against
// its sum: when it fails, its chunks are dropped and the error is ErrBlob.
func (s *Store) BlobChunk(sum [32]byte, i int, data []byte) (next int, whole bool, err error) {
	a, whole, err := s.arriving(sum)
	switch {
	case err != nil:
		return 0, false, err
	case a == nil:
		return 0, false, fmt.Errorf("%w: %x was not announced", ErrNoBlob, sum)
	}
	if err := CheckChunk(a.size, i, data); err != nil {
		return 0, false, err
	}
	if whole {
		return a.next, true, nil
	}
	key, value := chunkKey(sum, i), make([]byte, 0, 32+len(data))
	own := sha256.Sum256(data)
	value = append(append(value, own[:]...), data...)
	err = s.do(&call{cost: put(len(key), len(value)), apply: func(b *batch) error {
		return b.chunk(sum, key, value)
	}})
	if err != nil {
		return 0, false, err
	}
	next, last, known := s.blobs.came(sum, i)
	switch {
	case !known: // it became whole, or was removed, in the meantime
		return s.BlobBegin(sum, a.size)
	case last:
		return s.finish(sum, a.size)
	}
	return next, false, nil
}

// chunk puts a chunk, unless it is here: the first one counts.
func (b *batch) chunk(sum [32]byte, key, value []byte) error {
	known, err := valueOf(b.tx, sumKey(kBlob, sum))
	if err != nil {
		return err
	}
	if known == nil {
		return fmt.Errorf("%w: %x was removed", ErrNoBlob, sum)
	}
	if _, err := b.tx.Get(key); err == nil {
		return nil
	}
	return b.set(key, value)
}

// finish checks a blob of which all chunks are here, and notes that it is whole
// or drops it.
func (s *Store) finish(sum [32]byte, size int64) (next int, whole bool, err error) {
	right, err := s.verify(sum, size)
	if err != nil {
		return 0, false, err
	}
	if !right {
		if err := s.dropBlob(sum, blobValue(size, false)); err != nil {
			return 0, false, err
		}
		return 0, false, fmt.Errorf("%w: the SHA-256 of what came is not %x", ErrBlob, sum)
	}
	err = s.do(&call{cost: put(33, 9), apply: func(b *batch) error {
		return b.set(sumKey(kBlob, sum), blobValue(size, true))
	}})
	if err != nil {
		return 0, false, err
	}
	s.blobs.drop(sum)
	return Chunks(size), true, nil
}

// verify reads a blob back and tells whether it has its sum.
func (s *Store) verify(sum [32]byte, size int64) (bool, error) {
	h := sha256.New()
	for i := range Chunks(size) {
		value, err := s.read(chunkKey(sum, i))
		if err != nil || len(value) < 32 {
			return false, err
		}
		h.Write(value[32:])
	}
	return [32]byte(h.Sum(nil)) == sum, nil
}

// BlobRead returns chunk i of a blob, checked; ErrNoBlob when it is not here.
func (s *Store) BlobRead(sum [32]byte, i int) ([]byte, error) {
	value, err := s.read(chunkKey(sum, i))
	switch {
	case err != nil:
		return nil, err
	case value == nil:
		return nil, fmt.Errorf("%w: chunk %d of %x", ErrNoBlob, i, sum)
	case len(value) < 32 || [32]byte(value[:32]) != sha256.Sum256(value[32:]):
		return nil, fmt.Errorf("%w: chunk %d of blob %x", ErrDamaged, i, sum)
	}
	return value[32:], nil
}

// Blobs gives all announced blobs, sorted by sum.
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

// BlobRemove forgets a blob. Its space comes back when the store is at rest.
func (s *Store) BlobRemove(sum [32]byte) error { return s.dropBlob(sum, nil) }

// dropBlob removes a blob's chunks, and puts left in place of what was known of
// it, or nothing. The largest blob's chunk keys fit into one transaction.
func (s *Store) dropBlob(sum [32]byte, left []byte) error {
	return s.do(&call{alone: func() error {
		tx := s.db.NewTransaction(true)
		defer tx.Discard()
		var err error
		del := func(key []byte) {
			if err == nil {
				err = tx.Delete(bytes.Clone(key))
			}
		}
		if e := s.chunkKeys(sum, del); e != nil {
			return e
		}
		if del(sumKey(kBlob, sum)); err == nil && left != nil {
			err = tx.Set(sumKey(kBlob, sum), left)
		}
		if err == nil {
			err = s.commit(tx)
		}
		if err == nil {
			s.blobs.drop(sum)
		}
		return err
	}})
}
