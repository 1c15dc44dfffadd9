package store

import (
	"crypto/sha256"
	"errors"
	"fmt"

	"github.com/dgraph-io/badger/v4"

	"sinkside/sync/journal"
)

// page is how many bytes a scan reads at once. Callbacks run between pages, with
// no transaction open, so that a slow receiver holds nothing up.
const page = 256 << 10

// pair is a key and its value in a page.
type pair struct{ key, value []byte }

// scan gives the keys with a prefix in order, with their values, from the key
// from on (nil: from the first). Key and value are f's until it returns.
func (s *Store) scan(prefix, from []byte, f func(key, value []byte) error) error {
	buf := make([]byte, 0, page)
	if from == nil {
		from = prefix
	}
	for from != nil {
		var pairs []pair
		var err error
		if pairs, from, err = s.readPage(buf, prefix, from, page); err != nil {
			return err
		}
		for _, p := range pairs {
			if err := f(p.key, p.value); err != nil {
				return err
			}
		}
	}
	return nil
}

// readPage reads pairs into buf until limit bytes are reached. next is the key
// to go on from, nil when the prefix is exhausted.
func (s *Store) readPage(buf, prefix, from []byte, limit int) (pairs []pair, next []byte, err error) {
	err = s.view(func(tx *badger.Txn) error {
		o := badger.DefaultIteratorOptions
		o.Prefix, o.PrefetchValues = prefix, false
		it := tx.NewIterator(o)
		defer it.Close()
		for it.Seek(from); it.Valid(); it.Next() {
			item := it.Item()
			if len(buf) >= limit {
				next = item.KeyCopy(nil)
				return nil
			}
			at := len(buf)
			buf = append(buf, item.Key()...)
			mid := len(buf)
			err := item.Value(func(value []byte) error {
				buf = append(buf, value...)
				return nil
			})
			if err != nil {
				return fmt.Errorf("%w: %s: %v", ErrDamaged, say(item.Key()), err)
			}
			pairs = append(pairs, pair{buf[at:mid:mid], buf[mid:len(buf):len(buf)]})
		}
		return nil
	})
	return pairs, next, err
}

// read returns the value under a key, nil when there is none.
func (s *Store) read(key []byte) (value []byte, err error) {
	err = s.view(func(tx *badger.Txn) error {
		value, err = valueOf(tx, key)
		return err
	})
	return value, err
}

func valueOf(tx *badger.Txn, key []byte) (value []byte, err error) {
	defer unreadable(&err)
	item, err := tx.Get(key)
	if errors.Is(err, badger.ErrKeyNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %s: %v", ErrDamaged, say(key), err)
	}
	value, err = item.ValueCopy(nil)
	if err != nil {
		return nil, fmt.Errorf("%w: %s: %v", ErrDamaged, say(key), err)
	}
	return value, nil
}

// say names what stands under a key, for people.
func say(key []byte) string {
	switch {
	case key[0] == kEntry && len(key) == 41:
		return sayEntry(chainOf(key), placeOf(key))
	case key[0] == kAside && len(key) == 73:
		return "kept aside: " + sayEntry(chainOf(key), placeOf(key))
	case key[0] == kRecord:
		return fmt.Sprintf("record %q", key[1:])
	case key[0] == kBlob || key[0] == kChunk:
		return fmt.Sprintf("blob %x", key[1:min(33, len(key))])
	}
	return fmt.Sprintf("key %x", key)
}

func sayEntry(c journal.Chain, n uint64) string {
	return fmt.Sprintf("entry %d of device %s in treatment %s", n, c.Dev, c.Job)
}

// Range gives the lines of a chain from place n on, in order, as far as the
// chain went when Range was called. Each is checked against its name; the first
// that is not right, or is missing, ends it with ErrDamaged. A sample that is
// removed meanwhile just ends.
func (s *Store) Range(c journal.Chain, from uint64, f func(line []byte) error) error {
	if err := s.alive(); err != nil {
		return err
	}
	last, n := s.heads.head(c).N, max(from, 1)
	damaged := func() error {
		if s.heads.head(c).N < last {
			return errDone
		}
		return fmt.Errorf("%w: %s", ErrDamaged, sayEntry(c, n))
	}
	err := errDone
	if n <= last {
		err = s.scan(chainKey(kEntry, c), entryKey(c, n), func(key, value []byte) error {
			_, line, right := lineOf(value)
			if placeOf(key) != n || !right {
				return damaged()
			}
			if err := f(line); err != nil {
				return err
			}
			if n++; n > last {
				return errDone
			}
			return nil
		})
	}
	if err == nil { // the scan ended before the chain
		err = damaged()
	}
	if err == errDone {
		return nil
	}
	return err
}

// errDone ends a scan that has given all that was asked for.
var errDone = errors.New("done")

// NameAt returns the name of one entry, the zero Name when there is none.
func (s *Store) NameAt(c journal.Chain, n uint64) (name journal.Name, err error) {
	h := s.heads.head(c)
	switch {
	case n < 1 || n > h.N:
		return journal.Name{}, s.alive()
	case n == h.N:
		return h.Name, s.alive()
	}
	err = s.view(func(tx *badger.Txn) error {
		name, _, err = nameAt(tx, c, n, h)
		return err
	})
	return name, err
}

// nameAt returns the name of the entry at place n of a chain with head h, and
// whether the entry itself is as it was written. When it is not, its name is
// taken from what follows it: the chain vouches for each of its entries.
func nameAt(tx *badger.Txn, c journal.Chain, n uint64, h journal.Head) (name journal.Name, right bool, err error) {
	value, unreadable := valueOf(tx, entryKey(c, n))
	name, _, right = lineOf(value)
	if right {
		return name, true, nil
	}
	if n == h.N {
		return h.Name, false, nil
	}
	next, err := valueOf(tx, entryKey(c, n+1))
	if err == nil {
		if _, line, right := lineOf(next); right {
			e, err := journal.Parse(line)
			return e.Prev, false, err
		}
	}
	if unreadable == nil && !name.IsZero() {
		return name, false, nil
	}
	return name, false, fmt.Errorf("%w: %s", ErrDamaged, sayEntry(c, n))
}

// Aside gives all lines that were kept aside, sorted by chain, place and name.
func (s *Store) Aside(f func(line []byte) error) error {
	return s.scan([]byte{kAside}, nil, func(key, line []byte) error {
		if err := asideRight(key, line); err != nil {
			return err
		}
		return f(line)
	})
}

// asideRight checks a line against the name in its key.
func asideRight(key, line []byte) error {
	if len(key) != 73 || [32]byte(key[41:]) != sha256.Sum256(line) {
		return fmt.Errorf("%w: %s", ErrDamaged, say(key))
	}
	return nil
}
