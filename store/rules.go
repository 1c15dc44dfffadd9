package store

import (
	"fmt"
	"strings"

	"sinkside/sync/journal"
)

// Refused is what a call of Append has refused so far, by chain.
type Refused map[journal.Chain]journal.Verdict

// Judge applies the law of chains to entries of one call of Append, for any
// store. head and nameAt say what stands in the store, earlier entries of the
// same call included; put is called for each entry that is to be stored.
//
// Once an entry of a chain is a Gap or a Fork, which refused then holds, nothing
// that follows of that chain in the call is stored, since it follows from what
// was refused; it gets the same verdict. What is Known stays Known.
func (refused Refused) Judge(
	es []journal.Entry,
	head func(journal.Chain) journal.Head,
	nameAt func(journal.Chain, uint64) (journal.Name, error),
	put func(*journal.Entry) error,
) ([]journal.Verdict, error) {
	verdicts := make([]journal.Verdict, len(es))
	for i := range es {
		e, c := &es[i], es[i].Chain()
		var err error
		v := journal.Extend(head(c), e, func(n uint64) (name journal.Name) {
			name, err = nameAt(c, n)
			return name
		})
		before, stopped := refused[c]
		switch {
		case err != nil || v == journal.Known:
		case stopped:
			v = before
		case v == journal.Stored:
			err = put(e)
		default:
			refused[c] = v
		}
		if err != nil {
			return nil, err
		}
		verdicts[i] = v
	}
	return verdicts, nil
}

// CheckRecord checks the limits of a small record, for any store.
func CheckRecord(bucket, key string, value []byte) error {
	switch {
	case bucket == "" || strings.IndexByte(bucket, 0) >= 0:
		return fmt.Errorf("%w: bucket %q: want a name without a zero byte", ErrRecord, bucket)
	case key == "":
		return fmt.Errorf("%w: bucket %s: the key is empty", ErrRecord, bucket)
	case len(bucket) > MaxKey || len(key) > MaxKey:
		return fmt.Errorf("%w: bucket %.20s: bucket or key over %d bytes", ErrRecord, bucket, MaxKey)
	case len(value) > MaxRecord:
		return fmt.Errorf("%w: bucket %s: value of %d bytes, at most %d", ErrRecord, bucket, len(value), MaxRecord)
	}
	return nil
}

// CheckSize checks the size of a blob, for any store. before is the size under
// which it was announced already, 0 if it was not.
func CheckSize(size, before int64) error {
	switch {
	case size < 1 || size > MaxBlob:
		return fmt.Errorf("%w: size %d bytes, want 1 to %d", ErrBlob, size, int64(MaxBlob))
	case before != 0 && size != before:
		return fmt.Errorf("%w: size %d bytes, announced before as %d", ErrBlob, size, before)
	}
	return nil
}

// CheckChunk checks chunk i of a blob of size bytes, for any store.
func CheckChunk(size int64, i int, data []byte) error {
	want := ChunkLen(size, i)
	switch {
	case want == 0:
		return fmt.Errorf("%w: chunk %d of a blob of %d chunks", ErrBlob, i, Chunks(size))
	case len(data) != want:
		return fmt.Errorf("%w: chunk %d has %d bytes, want %d", ErrBlob, i, len(data), want)
	}
	return nil
}
