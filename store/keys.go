package store

import (
	"crypto/sha256"
	"encoding/binary"

	"sinkside/sync/journal"
)

// First bytes of keys; the table in the package comment says what follows.
const (
	kEntry   = 'e'
	kHead    = 'h'
	kHeads   = 'H'
	kAside   = 'a'
	kRecord  = 'r'
	kBlob    = 'b'
	kChunk   = 'c'
	kState   = 's'
	kRemoval = 'x'
)

var headsKey = []byte{kHeads}

func jobKey(kind byte, job journal.ID) []byte {
	return append([]byte{kind}, job[:]...)
}

func chainKey(kind byte, c journal.Chain) []byte {
	key := make([]byte, 0, 1+16+16+8+32)
	key = append(append(key, kind), c.Job[:]...)
	return append(key, c.Dev[:]...)
}

func entryKey(c journal.Chain, n uint64) []byte {
	return binary.BigEndian.AppendUint64(chainKey(kEntry, c), n)
}

func asideKey(e *journal.Entry) []byte {
	key := binary.BigEndian.AppendUint64(chainKey(kAside, e.Chain()), e.N)
	return append(key, e.Name[:]...)
}

// chainOf reads the chain out of a key of an entry, a head or an entry aside.
func chainOf(key []byte) (c journal.Chain) {
	copy(c.Job[:], key[1:17])
	copy(c.Dev[:], key[17:33])
	return c
}

// placeOf reads n out of a key of an entry.
func placeOf(key []byte) uint64 { return binary.BigEndian.Uint64(key[33:41]) }

func entryValue(e *journal.Entry) []byte {
	value := make([]byte, 0, len(e.Name)+len(e.Line))
	return append(append(value, e.Name[:]...), e.Line...)
}

// lineOf splits an entry's value and says whether the line still has its name.
func lineOf(value []byte) (name journal.Name, line []byte, right bool) {
	if len(value) < len(name) {
		return name, nil, false
	}
	line = value[copy(name[:], value):]
	return name, line, journal.Name(sha256.Sum256(line)) == name
}

func headValue(h journal.Head) []byte {
	return append(binary.BigEndian.AppendUint64(make([]byte, 0, 40), h.N), h.Name[:]...)
}

func headOf(value []byte) (h journal.Head, right bool) {
	if len(value) != 40 {
		return h, false
	}
	h.N = binary.BigEndian.Uint64(value)
	copy(h.Name[:], value[8:])
	return h, h.N > 0
}

func countValue(n int) []byte { return binary.BigEndian.AppendUint64(nil, uint64(n)) }

func bucketKey(bucket string) []byte {
	key := make([]byte, 0, 2+len(bucket)+64)
	return append(append(append(key, kRecord), bucket...), 0)
}

func recordKey(bucket, key string) []byte { return append(bucketKey(bucket), key...) }

// sum8 is the check of a small record: over key and value, so that a value that
// stands under another key shows too.
func sum8(key, value []byte) []byte {
	h := sha256.New()
	h.Write(key)
	h.Write(value)
	return h.Sum(nil)[:8]
}

func sumKey(kind byte, sum [32]byte) []byte {
	return append(append(make([]byte, 0, 1+32+4), kind), sum[:]...)
}

func chunkKey(sum [32]byte, i int) []byte {
	return binary.BigEndian.AppendUint32(sumKey(kChunk, sum), uint32(i))
}

func stateKey(sum [32]byte, i int) []byte {
	return binary.BigEndian.AppendUint32(sumKey(kState, sum), uint32(i))
}
