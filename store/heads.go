package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"sort"
	"sync"

	"github.com/dgraph-io/badger/v4"

	"sinkside/sync/journal"
)

// index is every chain's head, in memory: about 100 bytes a chain. It holds what
// is durable, never what is on its way.
type index struct {
	mu    sync.RWMutex
	jobs  []journal.ID // sorted
	byJob map[journal.ID][]journal.ChainHead
	count int
}

// find returns where c stands, or belongs, among its treatment's heads.
func find(heads []journal.ChainHead, c journal.Chain) (int, bool) {
	i := sort.Search(len(heads), func(i int) bool { return heads[i].Chain.Compare(c) >= 0 })
	return i, i < len(heads) && heads[i].Chain == c
}

func (x *index) head(c journal.Chain) journal.Head {
	x.mu.RLock()
	defer x.mu.RUnlock()
	if i, ok := find(x.byJob[c.Job], c); ok {
		return x.byJob[c.Job][i].Head
	}
	return journal.Head{}
}

func (x *index) set(heads map[journal.Chain]journal.Head) {
	x.mu.Lock()
	defer x.mu.Unlock()
	for c, h := range heads {
		x.setOne(journal.ChainHead{Chain: c, Head: h})
	}
}

// replace puts heads in place of all that the index held.
func (x *index) replace(heads map[journal.Chain]journal.Head) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.jobs, x.byJob, x.count = nil, map[journal.ID][]journal.ChainHead{}, 0
	for c, h := range heads {
		x.setOne(journal.ChainHead{Chain: c, Head: h})
	}
}

func (x *index) setOne(h journal.ChainHead) {
	heads := x.byJob[h.Job]
	i, ok := find(heads, h.Chain)
	switch {
	case ok:
		heads[i] = h
		return
	case len(heads) == 0:
		at, _ := slices.BinarySearchFunc(x.jobs, h.Job, compareID)
		x.jobs = slices.Insert(x.jobs, at, h.Job)
	}
	x.byJob[h.Job] = slices.Insert(heads, i, h)
	x.count++
}

func (x *index) remove(job journal.ID) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.count -= len(x.byJob[job])
	delete(x.byJob, job)
	if at, ok := slices.BinarySearchFunc(x.jobs, job, compareID); ok {
		x.jobs = slices.Delete(x.jobs, at, at+1)
	}
}

func (x *index) ofJob(job journal.ID) []journal.ChainHead {
	x.mu.RLock()
	defer x.mu.RUnlock()
	return slices.Clone(x.byJob[job])
}

func (x *index) all() []journal.ChainHead {
	x.mu.RLock()
	defer x.mu.RUnlock()
	heads := make([]journal.ChainHead, 0, x.count)
	for _, job := range x.jobs {
		heads = append(heads, x.byJob[job]...)
	}
	return heads
}

func (x *index) allJobs() []journal.ID {
	x.mu.RLock()
	defer x.mu.RUnlock()
	return slices.Clone(x.jobs)
}

func (x *index) chains() int {
	x.mu.RLock()
	defer x.mu.RUnlock()
	return x.count
}

func compareID(a, b journal.ID) int { return bytes.Compare(a[:], b[:]) }

// loadHeads reads the heads that are kept beside the entries. If one is missing
// or unreadable, the heads are found again from the entries: a chain that seemed
// empty would be written over.
func (s *Store) loadHeads() error {
	heads, whole, err := s.readHeads()
	if err != nil {
		return fmt.Errorf("read the heads of chains: %w", err)
	}
	if !whole {
		s.o.Warn("the heads of chains were damaged and are found again from the entries")
		err := s.findHeads(heads)
		if err == nil && !s.space.low() { // else the next time
			err = s.writeHeads(heads)
		}
		if err != nil {
			return fmt.Errorf("find the heads of chains again: %w", err)
		}
	}
	s.heads.replace(heads)
	return nil
}

func (s *Store) readHeads() (heads map[journal.Chain]journal.Head, whole bool, err error) {
	heads, whole = map[journal.Chain]journal.Head{}, true
	err = s.scan([]byte{kHead}, nil, func(key, value []byte) error {
		h, right := headOf(value)
		if len(key) != 33 || !right {
			whole = false
			return nil
		}
		heads[chainOf(key)] = h
		return nil
	})
	if err != nil {
		return nil, false, err
	}
	count, err := s.countOfHeads()
	return heads, whole && count == len(heads), err
}

// countOfHeads returns how many heads there should be, -1 when that is lost.
func (s *Store) countOfHeads() (n int, err error) {
	err = s.view(func(tx *badger.Txn) error {
		item, err := tx.Get(headsKey)
		if errors.Is(err, badger.ErrKeyNotFound) {
			if n, err = s.anyEntry(tx); err != nil || n == 0 {
				return err
			}
			n = -1
			return nil
		}
		if err != nil {
			return err
		}
		return item.Value(func(value []byte) error {
			n = -1
			if len(value) == 8 {
				n = int(binary.BigEndian.Uint64(value))
			}
			return nil
		})
	})
	return n, err
}

// anyEntry returns 1 when there is an entry, 0 in a new store.
func (s *Store) anyEntry(tx *badger.Txn) (int, error) {
	o := badger.DefaultIteratorOptions
	o.PrefetchValues, o.Prefix = false, []byte{kEntry}
	it := tx.NewIterator(o)
	defer it.Close()
	if it.Rewind(); it.Valid() {
		return 1, nil
	}
	return 0, nil
}

// findHeads completes heads with the last entry of each chain.
func (s *Store) findHeads(heads map[journal.Chain]journal.Head) error {
	return s.scan([]byte{kEntry}, nil, func(key, value []byte) error {
		if len(key) != 41 || len(value) < 32 {
			return nil
		}
		if c, n := chainOf(key), placeOf(key); n > heads[c].N {
			heads[c] = journal.Head{N: n, Name: journal.Name(value[:32])}
		}
		return nil
	})
}

func (s *Store) writeHeads(heads map[journal.Chain]journal.Head) error {
	batch := s.db.NewWriteBatch()
	defer batch.Cancel()
	for c, h := range heads {
		if err := batch.Set(chainKey(kHead, c), headValue(h)); err != nil {
			return err
		}
	}
	if err := batch.Set(headsKey, countValue(len(heads))); err != nil {
		return err
	}
	return batch.Flush()
}

// Head returns the head of a chain, the zero Head when it is empty.
func (s *Store) Head(c journal.Chain) (journal.Head, error) {
	return s.heads.head(c), s.alive()
}

// Heads returns the heads of a treatment's chains, sorted.
func (s *Store) Heads(job journal.ID) ([]journal.ChainHead, error) {
	return s.heads.ofJob(job), s.alive()
}

// AllHeads gives every head, sorted by treatment and device.
func (s *Store) AllHeads(f func(journal.ChainHead) error) error {
	if err := s.alive(); err != nil {
		return err
	}
	for _, h := range s.heads.all() {
		if err := f(h); err != nil {
			return err
		}
	}
	return nil
}

// Jobs returns every treatment that has an entry, sorted; the shelf too.
func (s *Store) Jobs() ([]journal.ID, error) { return s.heads.allJobs(), s.alive() }

// alive returns why the store cannot be used, if so.
func (s *Store) alive() error {
	s.dbMu.RLock()
	defer s.dbMu.RUnlock()
	if s.db == nil {
		return s.gone
	}
	return nil
}
