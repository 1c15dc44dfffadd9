package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"time"
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
		if err := s.Tidy(); err != nil && !errors.Is(err, ErrClosed) {
			s.o.Warn("tidy the store: " + err.Error())
		}
		seen = s.writes.Load()
	}
}

// Tidy moves the chunks out of packs of which less than half is still needed,
// and deletes packs of which nothing is. A store at rest does it by itself.
func (s *Store) Tidy() error {
	for {
		pack, empty, err := s.worstPack()
		if err != nil || pack == 0 {
			return err
		}
		if !empty {
			if err := s.emptyPack(pack); err != nil {
				return err
			}
		}
		if err := os.Remove(s.packs.path(pack)); err != nil {
			return fmt.Errorf("delete an empty pack: %w", err)
		}
	}
}

// worstPack finds a closed pack of which less than half is needed; 0 for none.
func (s *Store) worstPack() (pack uint32, empty bool, err error) {
	// The number is read first: what is written from here on goes into later packs,
	// or into this one, which is left alone.
	now := s.packs.now.Load()
	all, err := s.packs.numbers()
	if err != nil {
		return 0, false, err
	}
	needed, err := s.neededBytes()
	if err != nil {
		return 0, false, err
	}
	for _, n := range all {
		if n >= now {
			break
		}
		info, err := os.Stat(s.packs.path(n))
		if err != nil {
			return 0, false, err
		}
		if needed[n] < info.Size()/2 {
			return n, needed[n] == 0, nil
		}
	}
	return 0, false, nil
}

// neededBytes adds up, for each pack, the chunks that keys point to.
func (s *Store) neededBytes() (map[uint32]int64, error) {
	needed := map[uint32]int64{}
	err := s.scan([]byte{kChunk}, nil, func(_, value []byte) error {
		if at, right := placeOfChunk(value); right {
			needed[at.pack] += packHead + int64(at.length)
		}
		return nil
	})
	return needed, err
}

// emptyPack moves the chunks that are still needed out of a pack.
func (s *Store) emptyPack(pack uint32) error {
	return s.scan([]byte{kChunk}, nil, func(key, value []byte) error {
		at, right := placeOfChunk(value)
		if !right || at.pack != pack {
			return nil
		}
		data, err := s.packs.read(at)
		if err != nil {
			return fmt.Errorf("move %s: %w", say(key), err)
		}
		return s.move(bytes.Clone(key), bytes.Clone(value), data)
	})
}

// move writes a chunk anew, unless it was removed in the meantime.
func (s *Store) move(key, old, data []byte) error {
	return s.do(&call{cost: costOfChunk(data), apply: func(b *batch) error {
		value, err := valueOf(b.tx, key)
		if err != nil || !bytes.Equal(value, old) {
			return err
		}
		b.chunks = append(b.chunks, chunk{key, data})
		return nil
	}})
}
