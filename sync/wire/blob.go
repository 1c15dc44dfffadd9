package wire

import "slices"

// Blobs are named by their SHA-256 and sent in chunks of ChunkSize, numbered
// from 0. Whoever has a blob offers it; whoever lacks it wants it from the first
// chunk that is missing.

// BlobOffer announces a blob. From a device: it can send it. From the studio
// machine: the chunks that were wanted follow.
type BlobOffer struct {
	Sum  [32]byte
	Size uint64 // bytes, from 1
}

// Type returns TypeBlobOffer.
func (f *BlobOffer) Type() Type             { return TypeBlobOffer }
func (f *BlobOffer) append(b []byte) []byte { return appendUint(append(b, f.Sum[:]...), f.Size) }

func (f *BlobOffer) read(r *reader) {
	f.Sum, f.Size = r.name(), r.uint()
	if r.err == nil && (f.Size < 1 || f.Size > MaxBlob) {
		r.fail(ErrValue, "a blob has 1 byte to 1 GiB")
	}
}

// BlobWant asks for a blob's chunks from the given one on.
type BlobWant struct {
	Sum  [32]byte
	From uint64
}

const maxChunks = MaxBlob / ChunkSize

// Type returns TypeBlobWant.
func (f *BlobWant) Type() Type             { return TypeBlobWant }
func (f *BlobWant) append(b []byte) []byte { return appendUint(append(b, f.Sum[:]...), f.From) }
func (f *BlobWant) read(r *reader)         { f.Sum, f.From = r.name(), r.chunk() }

// BlobChunk brings one chunk.
type BlobChunk struct {
	Sum   [32]byte
	Index uint64
	Data  []byte // ChunkSize bytes, or fewer when it is the last
}

// Type returns TypeBlobChunk.
func (f *BlobChunk) Type() Type { return TypeBlobChunk }

func (f *BlobChunk) append(b []byte) []byte {
	b = slices.Grow(b, len(f.Sum)+2+len(f.Data))
	return append(appendUint(append(b, f.Sum[:]...), f.Index), f.Data...)
}

func (f *BlobChunk) read(r *reader) {
	f.Sum, f.Index = r.name(), r.chunk()
	f.Data = r.bytes(len(r.b) - r.at)
	if r.err == nil && (len(f.Data) < 1 || len(f.Data) > ChunkSize) {
		r.fail(ErrCount, "a chunk has 1 byte to 128 KiB")
	}
}

func (r *reader) chunk() uint64 {
	i := r.uint()
	if i >= maxChunks {
		r.fail(ErrValue, "a chunk beyond the largest blob")
	}
	return i
}

// BlobHave says that the whole blob is on the studio machine's disk.
type BlobHave struct{ Sum [32]byte }

// Type returns TypeBlobHave.
func (f *BlobHave) Type() Type             { return TypeBlobHave }
func (f *BlobHave) append(b []byte) []byte { return append(b, f.Sum[:]...) }
func (f *BlobHave) read(r *reader)         { f.Sum = r.name() }

// BlobLack says that the studio machine does not have the blob.
type BlobLack struct{ Sum [32]byte }

// Type returns TypeBlobLack.
func (f *BlobLack) Type() Type             { return TypeBlobLack }
func (f *BlobLack) append(b []byte) []byte { return append(b, f.Sum[:]...) }
func (f *BlobLack) read(r *reader)         { f.Sum = r.name() }
