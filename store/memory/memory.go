// Package memory is a store that keeps everything in memory, for tests of what
// stands on a store. It passes the same acceptance suite as the one on disk.
package memory

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
	"sync"

	"sinkside/store"
	"sinkside/sync/journal"
)

// Store is the store. New makes one.
type Store struct {
	mu     sync.Mutex
	closed bool
	fault  error
	chains map[journal.Chain][]journal.Entry
	aside  map[journal.Name]journal.Entry
	record map[string]map[string][]byte
	blobs  map[[32]byte]*blob
}

// New returns an empty store.
func New() *Store {
	return &Store{
		chains: map[journal.Chain][]journal.Entry{},
		aside:  map[journal.Name]journal.Entry{},
		record: map[string]map[string][]byte{},
		blobs:  map[[32]byte]*blob{},
	}
}

// Fail makes every later write fail with err and write nothing, as a full disk
// does; nil ends it.
func (s *Store) Fail(err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.fault = err
}

// Close ends the store.
func (s *Store) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = true
	return nil
}

// reading runs f with the store locked.
func (s *Store) reading(f func()) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return store.ErrClosed
	}
	f()
	return nil
}

// writing runs f with the store locked, unless writes fail.
func (s *Store) writing(f func() error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case s.closed:
		return store.ErrClosed
	case s.fault != nil:
		return s.fault
	}
	return f()
}

// Append puts entries into their chains.
func (s *Store) Append(es []journal.Entry) (verdicts []journal.Verdict, err error) {
	err = s.writing(func() error {
		nameAt := func(c journal.Chain, n uint64) (journal.Name, error) { return s.chains[c][n-1].Name, nil }
		put := func(e *journal.Entry) error {
			s.chains[e.Chain()] = append(s.chains[e.Chain()], own(*e))
			return nil
		}
		verdicts, err = store.Refused{}.Judge(es, s.head, nameAt, put)
		return err
	})
	return verdicts, err
}

// own gives the store its own copy of the line, which is all that it gives out.
func own(e journal.Entry) journal.Entry {
	e.Line, e.Body = bytes.Clone(e.Line), nil
	return e
}

func (s *Store) head(c journal.Chain) journal.Head {
	chain := s.chains[c]
	if len(chain) == 0 {
		return journal.Head{}
	}
	last := &chain[len(chain)-1]
	return journal.Head{N: last.N, Name: last.Name}
}

// KeepAside keeps entries of a refused branch.
func (s *Store) KeepAside(es []journal.Entry) error {
	return s.writing(func() error {
		for _, e := range es {
			s.aside[e.Name] = own(e)
		}
		return nil
	})
}

// Aside gives what was kept aside, sorted by chain, place and name.
func (s *Store) Aside(f func(line []byte) error) error {
	var es []journal.Entry
	err := s.reading(func() { es = slices.Collect(maps.Values(s.aside)) })
	slices.SortFunc(es, func(a, b journal.Entry) int {
		return cmp.Or(a.Chain().Compare(b.Chain()), cmp.Compare(a.N, b.N), bytes.Compare(a.Name[:], b.Name[:]))
	})
	return give(es, err, func(e journal.Entry) error { return f(bytes.Clone(e.Line)) })
}

// give calls f for each of xs, outside the lock, unless err is set.
func give[T any](xs []T, err error, f func(T) error) error {
	for i := 0; i < len(xs) && err == nil; i++ {
		err = f(xs[i])
	}
	return err
}

// Head returns the head of a chain.
func (s *Store) Head(c journal.Chain) (h journal.Head, err error) {
	err = s.reading(func() { h = s.head(c) })
	return h, err
}

func (s *Store) heads(keep func(journal.Chain) bool) (heads []journal.ChainHead, err error) {
	err = s.reading(func() { heads = s.headsOf(keep) })
	return heads, err
}

// headsOf is heads with the store locked.
func (s *Store) headsOf(keep func(journal.Chain) bool) (heads []journal.ChainHead) {
	for c := range s.chains {
		if keep(c) {
			heads = append(heads, journal.ChainHead{Chain: c, Head: s.head(c)})
		}
	}
	journal.SortHeads(heads)
	return heads
}

// Heads returns the heads of a treatment's chains, sorted.
func (s *Store) Heads(job journal.ID) ([]journal.ChainHead, error) {
	return s.heads(func(c journal.Chain) bool { return c.Job == job })
}

// AllHeads gives every head, sorted.
func (s *Store) AllHeads(f func(journal.ChainHead) error) error {
	heads, err := s.heads(func(journal.Chain) bool { return true })
	return give(heads, err, f)
}

// Jobs returns every treatment that has an entry, sorted.
func (s *Store) Jobs() ([]journal.ID, error) {
	var jobs []journal.ID
	err := s.AllHeads(func(h journal.ChainHead) error {
		if len(jobs) == 0 || jobs[len(jobs)-1] != h.Job {
			jobs = append(jobs, h.Job)
		}
		return nil
	})
	return jobs, err
}

// Range gives the lines of a chain from place n on.
func (s *Store) Range(c journal.Chain, from uint64, f func(line []byte) error) error {
	var chain []journal.Entry
	err := s.reading(func() {
		all := s.chains[c]
		chain = all[min(max(from, 1)-1, uint64(len(all))):]
	})
	return give(chain, err, func(e journal.Entry) error { return f(bytes.Clone(e.Line)) })
}

// NameAt returns the name of one entry.
func (s *Store) NameAt(c journal.Chain, n uint64) (name journal.Name, err error) {
	err = s.reading(func() {
		if chain := s.chains[c]; n >= 1 && n <= uint64(len(chain)) {
			name = chain[n-1].Name
		}
	})
	return name, err
}

// Remove forgets a treatment.
func (s *Store) Remove(job journal.ID) error {
	_, err := s.RemoveIf(job, func([]journal.ChainHead) bool { return true })
	return err
}

// RemoveIf is Remove when may says so of the treatment's heads, in one step.
func (s *Store) RemoveIf(job journal.ID, may func(heads []journal.ChainHead) bool) (removed bool, err error) {
	err = s.writing(func() error {
		heads := s.headsOf(func(c journal.Chain) bool { return c.Job == job })
		if removed = may(heads); removed {
			maps.DeleteFunc(s.chains, func(c journal.Chain, _ []journal.Entry) bool { return c.Job == job })
			maps.DeleteFunc(s.aside, func(_ journal.Name, e journal.Entry) bool { return e.Job == job })
		}
		return nil
	})
	return removed, err
}

// Get returns a small record.
func (s *Store) Get(bucket, key string) (value []byte, ok bool, err error) {
	err = s.reading(func() {
		value, ok = s.record[bucket][key]
		value = bytes.Clone(value)
	})
	return value, ok, err
}

// Put sets a small record.
func (s *Store) Put(bucket, key string, value []byte) error {
	return s.Change(store.Change{Bucket: bucket, Key: key, Value: value})
}

// Delete removes a small record.
func (s *Store) Delete(bucket, key string) error {
	return s.Change(store.Change{Bucket: bucket, Key: key, Delete: true})
}

// Change makes several changes at once.
func (s *Store) Change(cs ...store.Change) error {
	for _, c := range cs {
		if err := store.CheckRecord(c.Bucket, c.Key, c.Value); err != nil {
			return err
		}
	}
	return s.writing(func() error {
		for _, c := range cs {
			if c.Delete {
				delete(s.record[c.Bucket], c.Key)
				continue
			}
			if s.record[c.Bucket] == nil {
				s.record[c.Bucket] = map[string][]byte{}
			}
			s.record[c.Bucket][c.Key] = append([]byte{}, c.Value...)
		}
		return nil
	})
}

// Each gives a bucket's records, sorted by key.
func (s *Store) Each(bucket string, f func(key string, value []byte) error) error {
	var keys []string
	values := map[string][]byte{}
	err := s.reading(func() {
		for key, value := range s.record[bucket] {
			keys = append(keys, key)
			values[key] = bytes.Clone(value)
		}
	})
	slices.Sort(keys)
	return give(keys, err, func(key string) error { return f(key, values[key]) })
}
