package store

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"

	"github.com/dgraph-io/badger/v4"
)

// arriving returns how far a blob has come, nil for one that nobody announced.
func (s *Store) arriving(sum [32]byte) (*arrival, error) {
	if a := s.blobs.find(sum); a != nil {
		return a, s.alive()
	}
	size, whole, err := s.BlobHas(sum)
	if err != nil || size == 0 {
		return nil, err
	}
	a := newArrival(size)
	if a.noted, a.whole = true, whole; whole {
		a.left, a.next = 0, len(a.have)
		return a, nil
	}
	err = s.chunkKeys(sum, func(key []byte) { a.mark(int(binary.BigEndian.Uint32(key[33:]))) })
	if err != nil {
		return nil, err
	}
	return s.blobs.add(sum, a), nil
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

// BlobBegin announces a blob of size bytes, named by its SHA-256. next is the
// first chunk that is missing, from where its sender goes on; whole says that
// nothing is missing and the sum was checked. An announcement alone is not kept
// over a restart.
func (s *Store) BlobBegin(sum [32]byte, size int64) (next int, whole bool, err error) {
	a, err := s.arriving(sum)
	if err != nil {
		return 0, false, err
	}
	var before int64
	if a != nil {
		before = a.size
	}
	if err := CheckSize(size, before); err != nil {
		return 0, false, err
	}
	if a == nil {
		a = s.blobs.add(sum, newArrival(size))
	}
	next, left, whole := a.progress()
	if left == 0 && !whole { // all chunks came, but the end came before the check
		return s.finish(sum, a)
	}
	return next, whole, nil
}

// BlobChunk stores chunk i of an announced blob; it is on the disk when it
// returns. Chunks may come in any order and at the same time; those that do
// share an fsync. With the last one the blob is checked against its sum: when it
// fails, its chunks are dropped and the error is ErrBlob.
func (s *Store) BlobChunk(sum [32]byte, i int, data []byte) (next int, whole bool, err error) {
	for {
		a, err := s.arriving(sum)
		switch {
		case err != nil:
			return 0, false, err
		case a == nil:
			return 0, false, fmt.Errorf("%w: %x was not announced", ErrNoBlob, sum)
		}
		if err := CheckChunk(a.size, i, data); err != nil {
			return 0, false, err
		}
		if _, _, whole := a.progress(); whole {
			return len(a.have), true, nil
		}
		wait, here := a.claim(i, data)
		if wait != nil {
			<-wait
			continue
		}
		if !here {
			err = s.bring(sum, a, i, data)
			a.unclaim(i)
			if err == errForgotten {
				continue
			}
			if err != nil {
				return 0, false, err
			}
		}
		next, left, whole := a.progress()
		if left == 0 && !whole {
			return s.finish(sum, a)
		}
		return next, whole, nil
	}
}

// errForgotten says that the arrival of a blob was given up while a call brought
// a chunk of it: the blob was removed, became whole, or badger was opened anew.
var errForgotten = errors.New("the blob's arrival was forgotten")

// bring writes a chunk. The transaction that completes the blob also notes that
// it is whole, if the bytes that came have its sum.
func (s *Store) bring(sum [32]byte, a *arrival, i int, data []byte) error {
	size := costOfChunk(data).plus(put(33, 9)).plus(a.costOfStates())
	return s.do(&call{cost: size, apply: func(b *batch) error {
		if s.blobs.find(sum) != a {
			return errForgotten
		}
		b.chunks = append(b.chunks, chunk{chunkKey(sum, i), data})
		b.brings[a]++
		a.mu.Lock()
		complete := a.left == b.brings[a] && a.checked(sum)
		noted, states := a.noted, a.states
		a.mu.Unlock()
		switch {
		case complete:
			if err := b.whole(sum, a.size, states); err != nil {
				return err
			}
		case !noted:
			if err := b.set(sumKey(kBlob, sum), blobValue(a.size, false)); err != nil {
				return err
			}
		}
		b.then = append(b.then, func() {
			a.mu.Lock()
			a.mark(i)
			a.noted, a.whole = true, a.whole || complete
			a.mu.Unlock()
			if complete {
				s.blobs.drop(sum)
			}
		})
		return nil
	}})
}

// costOfChunk is the cost of a chunk's place in the database, and of its bytes.
func costOfChunk(data []byte) cost {
	c := put(37, 16)
	c.pack = int64(len(data))
	return c
}

// costOfStates is what whole writes besides the blob's record.
func (a *arrival) costOfStates() cost {
	one, n := put(37, len(state{})), int64(len(a.have)-1)
	return cost{keys: n * one.keys, bytes: n * one.bytes}
}

// whole notes that a blob is whole, with the states by which its chunks are
// checked when they leave.
func (b *batch) whole(sum [32]byte, size int64, states []state) error {
	for i := range Chunks(size) - 1 {
		if err := b.set(stateKey(sum, i), states[i][:]); err != nil {
			return err
		}
	}
	return b.set(sumKey(kBlob, sum), blobValue(size, true))
}

// finish reads back a blob of which all chunks are on the disk, checks it, and
// notes that it is whole or drops it. It is for blobs that came in parts, over a
// restart: of others the bytes were hashed as they came.
func (s *Store) finish(sum [32]byte, a *arrival) (next int, whole bool, err error) {
	h := sha256.New()
	states := make([]state, 0, len(a.have))
	for i := range a.have {
		data, err := s.readChunk(sum, i)
		if err != nil {
			return 0, false, err
		}
		h.Write(data)
		states = append(states, stateOf(h))
	}
	if [32]byte(h.Sum(nil)) != sum {
		if err := s.BlobRemove(sum); err != nil {
			return 0, false, err
		}
		s.blobs.add(sum, newArrival(a.size)) // it stays announced
		return 0, false, fmt.Errorf("%w: the SHA-256 of what came is not %x", ErrBlob, sum)
	}
	err = s.do(&call{cost: put(33, 9).plus(a.costOfStates()), apply: func(b *batch) error {
		b.then = append(b.then, func() { s.blobs.drop(sum) })
		return b.whole(sum, a.size, states)
	}})
	return len(a.have), err == nil, err
}
