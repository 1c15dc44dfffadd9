// Package storetest is the acceptance suite of a store: what every
// implementation must do, whatever it stands on.
package storetest

import (
	"sinkside/store"
	"sinkside/sync/journal"
)

// Store is what a store does. All methods may be called at the same time; the
// slices that a callback is given are its own only until it returns.
type Store interface {
	// Append puts entries into their chains and returns a verdict for each, in
	// order. What is Stored or Known is durable when it returns. A Gap or a Fork
	// is not stored, and neither is what follows of that chain in the same call:
	// it gets the same verdict.
	Append(es []journal.Entry) ([]journal.Verdict, error)
	// KeepAside keeps entries of a refused branch. Keeping one twice is keeping
	// it once.
	KeepAside(es []journal.Entry) error
	// Aside gives all lines that were kept aside, sorted by chain, place and name.
	Aside(f func(line []byte) error) error

	// Head returns the head of a chain, the zero Head when it is empty.
	Head(c journal.Chain) (journal.Head, error)
	// Heads returns the heads of a treatment's chains, sorted.
	Heads(job journal.ID) ([]journal.ChainHead, error)
	// AllHeads gives every head, sorted by treatment and device.
	AllHeads(f func(journal.ChainHead) error) error
	// Jobs returns every treatment that has an entry, sorted; the shelf too.
	Jobs() ([]journal.ID, error)
	// Range gives the lines of a chain from place n on, in order, as far as the
	// chain went when Range was called.
	Range(c journal.Chain, from uint64, f func(line []byte) error) error
	// NameAt returns the name of one entry, the zero Name when there is none.
	NameAt(c journal.Chain, n uint64) (journal.Name, error)
	// Remove forgets a treatment, what was kept aside of it included: for samples
	// alone.
	Remove(job journal.ID) error
	// RemoveIf is Remove when may says so of the treatment's heads. Question and
	// removal are one step: an entry that comes meanwhile is seen by may, or comes
	// after the removal. may must not call the store.
	RemoveIf(job journal.ID, may func(heads []journal.ChainHead) bool) (removed bool, err error)

	// Get returns a small record, and whether there is one.
	Get(bucket, key string) (value []byte, ok bool, err error)
	Put(bucket, key string, value []byte) error
	Delete(bucket, key string) error
	// Change makes several changes at once: all or none.
	Change(cs ...store.Change) error
	// Each gives a bucket's records, sorted by key.
	Each(bucket string, f func(key string, value []byte) error) error

	// BlobBegin announces a blob of size bytes, named by its SHA-256. next is
	// the first chunk that is missing, from where its sender goes on; whole says
	// that nothing is missing and the sum was checked. An announcement need not
	// outlive a restart; chunks do.
	BlobBegin(sum [32]byte, size int64) (next int, whole bool, err error)
	// BlobChunk stores chunk i of an announced blob. Chunks may come in any order
	// and at the same time; those that do share an fsync. With the last one the
	// blob is checked against its sum: when it fails, its chunks are dropped and
	// the error is ErrBlob.
	BlobChunk(sum [32]byte, i int, data []byte) (next int, whole bool, err error)
	// BlobHas says whether the whole blob is here, and its size; 0 for a blob of
	// which nothing is here.
	BlobHas(sum [32]byte) (size int64, whole bool, err error)
	// BlobRead returns chunk i of a whole blob, checked; ErrNoBlob when it is not
	// here.
	BlobRead(sum [32]byte, i int) ([]byte, error)
	// Blobs gives all blobs of which something is here, sorted by sum.
	Blobs(f func(sum [32]byte, size int64, whole bool) error) error
	// BlobRemove forgets a blob.
	BlobRemove(sum [32]byte) error

	Close() error
}
