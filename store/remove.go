package store

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/dgraph-io/badger/v4"

	"sinkside/sync/journal"
)

// Remove forgets a treatment, what was kept aside of it included. It is for
// samples alone: nothing else that was recorded is ever removed.
//
// The treatment is gone once its heads are, in one transaction that also notes
// that the removal has begun. Its entries follow in as many as they need; one
// that is cut off is finished before the next write, or when the store is opened.
func (s *Store) Remove(job journal.ID) error {
	_, err := s.RemoveIf(job, func([]journal.ChainHead) bool { return true })
	return err
}

// RemoveIf is Remove when may says so of the treatment's heads. Question and
// removal are one step: what a phone stores meanwhile is either seen by may or
// comes after, so nobody's entry goes with the sample. may must not call the
// store.
func (s *Store) RemoveIf(job journal.ID, may func(heads []journal.ChainHead) bool) (removed bool, err error) {
	err = s.do(&call{alone: func() error {
		tx := s.db.NewTransaction(true)
		defer tx.Discard()
		heads := s.heads.ofJob(job)
		if removed = may(heads); !removed {
			return nil
		}
		for _, h := range heads {
			if err := tx.Delete(chainKey(kHead, h.Chain)); err != nil {
				return err
			}
		}
		if err := tx.Set(headsKey, countValue(s.heads.chains()-len(heads))); err != nil {
			return err
		}
		if err := tx.Set(jobKey(kRemoval, job), nil); err != nil {
			return err
		}
		if err := s.commit(tx); err != nil {
			return fmt.Errorf("remove treatment %s: %w", job, err)
		}
		s.heads.remove(job)
		s.removals = append(s.removals, job)
		return s.finishRemovals()
	}})
	return removed, err
}

// loadRemovals finds the removals that were begun and not finished.
func (s *Store) loadRemovals() error {
	s.removals = nil
	err := s.scan([]byte{kRemoval}, nil, func(key, _ []byte) error {
		s.removals = append(s.removals, journal.ID(key[1:17]))
		return nil
	})
	if err != nil {
		return fmt.Errorf("look for removals: %w", err)
	}
	return nil
}

// finishRemovals deletes what is left of removed treatments.
func (s *Store) finishRemovals() error {
	for len(s.removals) > 0 {
		job := s.removals[0]
		for _, prefix := range [][]byte{jobKey(kEntry, job), jobKey(kAside, job), jobKey(kRemoval, job)} {
			if err := s.deleteAll(prefix); err != nil {
				return fmt.Errorf("remove treatment %s: %w", job, err)
			}
		}
		s.removals = slices.Delete(s.removals, 0, 1)
	}
	return nil
}

// deleteAll deletes every key with a prefix, some thousand a transaction.
func (s *Store) deleteAll(prefix []byte) error {
	for {
		keys, err := s.someKeys(prefix, 4000)
		if err != nil || len(keys) == 0 {
			return err
		}
		tx := s.db.NewTransaction(true)
		for _, key := range keys {
			if err := tx.Delete(key); err != nil {
				tx.Discard()
				return err
			}
		}
		if err := s.commit(tx); err != nil {
			return err
		}
	}
}

// someKeys returns the first keys with a prefix, at most n.
func (s *Store) someKeys(prefix []byte, n int) (keys [][]byte, err error) {
	err = s.view(func(tx *badger.Txn) error {
		o := badger.DefaultIteratorOptions
		o.Prefix, o.PrefetchValues = prefix, false
		it := tx.NewIterator(o)
		defer it.Close()
		for it.Rewind(); it.Valid() && len(keys) < n; it.Next() {
			keys = append(keys, bytes.Clone(it.Item().Key()))
		}
		return nil
	})
	return keys, err
}
