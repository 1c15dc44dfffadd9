package store

import (
	"errors"
	"time"

	"github.com/dgraph-io/badger/v4"
)

// tidier gives back the space of removed photographs whenever the store has
// rested for one interval.
func (s *Store) tidier() {
	defer s.ended.Done()
	tick := time.NewTicker(s.o.TidyEvery)
	defer tick.Stop()
	seen := s.writes.Load()
	for {
		select {
		case <-s.quit:
			return
		case <-tick.C:
		}
		if now := s.writes.Load(); now != seen {
			seen = now
			continue
		}
		if err := s.Tidy(); err != nil {
			s.o.Warn("tidy the store: " + err.Error())
		}
	}
}

// Tidy rewrites files of the value log of which half or more is no longer
// needed. A store at rest does it by itself.
func (s *Store) Tidy() error {
	for {
		select {
		case <-s.quit:
			return nil
		default:
		}
		err := s.tidyOne()
		switch {
		case errors.Is(err, badger.ErrNoRewrite), errors.Is(err, badger.ErrRejected):
			return nil
		case err != nil:
			return err
		}
	}
}

// tidyOne rewrites one file, which takes the room of what it keeps.
func (s *Store) tidyOne() error {
	if err := s.space.forWriting(valueLogFile); err != nil {
		return err
	}
	s.dbMu.RLock()
	defer s.dbMu.RUnlock()
	if s.db == nil {
		return s.gone
	}
	return s.db.RunValueLogGC(0.5)
}
