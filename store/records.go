package store

import (
	"bytes"
	"fmt"
)

// Get returns a small record, and whether there is one.
func (s *Store) Get(bucket, key string) (value []byte, ok bool, err error) {
	at := recordKey(bucket, key)
	kept, err := s.read(at)
	if err != nil || kept == nil {
		return nil, false, err
	}
	value, err = checkRecord(at, kept)
	return value, err == nil, err
}

// checkRecord takes the check off a record's value.
func checkRecord(key, kept []byte) ([]byte, error) {
	if len(kept) < 8 || !bytes.Equal(kept[:8], sum8(key, kept[8:])) {
		return nil, fmt.Errorf("%w: %s", ErrDamaged, say(key))
	}
	return kept[8:], nil
}

// Put sets a small record.
func (s *Store) Put(bucket, key string, value []byte) error {
	return s.Change(Change{Bucket: bucket, Key: key, Value: value})
}

// Delete removes a small record, if there is one.
func (s *Store) Delete(bucket, key string) error {
	return s.Change(Change{Bucket: bucket, Key: key, Delete: true})
}

// Change makes several changes of small records at once: all or none. The later
// of two changes of one record counts.
func (s *Store) Change(cs ...Change) error {
	var size cost
	for _, c := range cs {
		if err := CheckRecord(c.Bucket, c.Key, c.Value); err != nil {
			return err
		}
		size = size.plus(put(2+len(c.Bucket)+len(c.Key), 8+len(c.Value)))
	}
	if !s.fits(size) {
		return fmt.Errorf("%w: %d changes of %d bytes at once are more than one transaction takes", ErrRecord, len(cs), size.bytes)
	}
	return s.do(&call{cost: size, apply: func(b *batch) error {
		for _, c := range cs {
			key := recordKey(c.Bucket, c.Key)
			err := b.tx.Delete(key)
			if !c.Delete {
				err = b.set(key, append(sum8(key, c.Value), c.Value...))
			}
			if err != nil {
				return err
			}
		}
		return nil
	}})
}

// Each gives a bucket's records, sorted by key.
func (s *Store) Each(bucket string, f func(key string, value []byte) error) error {
	prefix := bucketKey(bucket)
	return s.scan(prefix, nil, func(key, kept []byte) error {
		value, err := checkRecord(key, kept)
		if err != nil {
			return err
		}
		return f(string(key[len(prefix):]), value)
	})
}
