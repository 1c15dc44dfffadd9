package hub

import (
	"errors"

	"sinkside/sync/journal"
)

// Store is what the hub needs of a store. What is said of a call in package
// store is what the hub relies on.
type Store interface {
	Append(es []journal.Entry) ([]journal.Verdict, error)
	KeepAside(es []journal.Entry) error
	Head(c journal.Chain) (journal.Head, error)
	AllHeads(f func(journal.ChainHead) error) error
	NameAt(c journal.Chain, n uint64) (journal.Name, error)
	Range(c journal.Chain, from uint64, f func(line []byte) error) error

	Get(bucket, key string) (value []byte, ok bool, err error)
	Put(bucket, key string, value []byte) error
	Each(bucket string, f func(key string, value []byte) error) error

	BlobBegin(sum [32]byte, size int64) (next int, whole bool, err error)
	BlobChunk(sum [32]byte, i int, data []byte) (next int, whole bool, err error)
	BlobHas(sum [32]byte) (size int64, whole bool, err error)
	BlobRead(sum [32]byte, i int) ([]byte, error)
}

// The hub's own buckets of small records.
const (
	bucketHub     = "hub"
	bucketSummary = "summary"
)

// isFull tells a full disk from other faults of the store: by a method, since
// the hub does not import a store.
func isFull(err error) bool {
	var f interface{ Full() bool }
	return errors.As(err, &f) && f.Full()
}
