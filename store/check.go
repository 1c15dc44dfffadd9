package store

import (
	"errors"
	"fmt"

	"sinkside/sync/journal"
)

// Check reads everything in the store and tells found of each thing that is not
// as it was written. It fails only where it cannot go on. It takes about as long
// as reading the folder does.
func (s *Store) Check(found func(damage error)) error {
	if err := s.checkTables(found); err != nil {
		return err
	}
	for _, h := range s.heads.all() {
		if err := s.checkChain(h, found); err != nil {
			return err
		}
	}
	if err := s.checkAll(kAside, found, asideRight); err != nil {
		return err
	}
	if err := s.checkAll(kRecord, found, func(key, value []byte) error {
		_, err := checkRecord(key, value)
		return err
	}); err != nil {
		return err
	}
	return s.checkAll(kBlob, found, func(key, value []byte) error { return s.checkBlob([32]byte(key[1:33]), value) })
}

// checkTables has badger check its own files: what is unreadable there would
// not show as a key at all.
func (s *Store) checkTables(found func(error)) error {
	s.dbMu.RLock()
	defer s.dbMu.RUnlock()
	if s.db == nil {
		return s.gone
	}
	verify := func() (err error) {
		defer unreadable(&err)
		return s.db.VerifyChecksum()
	}
	if err := verify(); err != nil {
		found(fmt.Errorf("%w: a file of the database (%v)", ErrDamaged, err))
	}
	return nil
}

// checkChain goes on behind each entry that is damaged.
func (s *Store) checkChain(h journal.ChainHead, found func(error)) error {
	for n := uint64(1); n <= h.N; n++ {
		err := s.Range(h.Chain, n, func([]byte) error {
			n++
			return nil
		})
		switch {
		case errors.Is(err, ErrDamaged):
			found(err)
		case err != nil:
			return err
		}
	}
	return nil
}

func (s *Store) checkAll(kind byte, found func(error), check func(key, value []byte) error) error {
	return s.scan([]byte{kind}, nil, func(key, value []byte) error {
		err := check(key, value)
		if errors.Is(err, ErrDamaged) {
			found(err)
			return nil
		}
		return err
	})
}

func (s *Store) checkBlob(sum [32]byte, value []byte) error {
	size, whole, err := readBlobValue(sum, value)
	if err != nil || !whole {
		return err
	}
	for i := range Chunks(size) {
		if _, err := s.BlobRead(sum, i); err != nil {
			return err
		}
	}
	return nil
}
