package store

import (
	"crypto/sha256"
	"encoding"
	"encoding/binary"
	"hash"
	"sync"
)

// incoming is what is known of blobs that are not whole yet. What it knows of
// chunks can be forgotten at any time, and is then read from the keys.
type incoming struct {
	mu    sync.Mutex
	bySum map[[32]byte]*arrival
}

// maxArrivals bounds the blobs that are known in memory; beyond it one is
// forgotten for each that is announced.
const maxArrivals = 4096

// forget gives up what is known of chunks on the disk, not what was announced.
func (x *incoming) forget() {
	x.mu.Lock()
	defer x.mu.Unlock()
	for sum, a := range x.bySum {
		a.mu.Lock()
		if a.noted {
			delete(x.bySum, sum)
		} else {
			x.bySum[sum] = newArrival(a.size)
		}
		a.mu.Unlock()
	}
}

func (x *incoming) drop(sum [32]byte) {
	x.mu.Lock()
	defer x.mu.Unlock()
	delete(x.bySum, sum)
}

func (x *incoming) find(sum [32]byte) *arrival {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.bySum[sum]
}

// add returns the arrival of a blob: a, or the one that is known already.
func (x *incoming) add(sum [32]byte, a *arrival) *arrival {
	x.mu.Lock()
	defer x.mu.Unlock()
	if known := x.bySum[sum]; known != nil {
		return known
	}
	if x.bySum == nil {
		x.bySum = map[[32]byte]*arrival{}
	}
	for other := range x.bySum {
		if len(x.bySum) < maxArrivals {
			break
		}
		delete(x.bySum, other)
	}
	x.bySum[sum] = a
	return a
}

// arrival is one blob on its way.
type arrival struct {
	mu     sync.Mutex
	size   int64
	noted  bool                  // the store has a record of it
	whole  bool                  // all is here and checked
	have   []bool                // chunks that are on the disk
	left   int                   // how many are not
	next   int                   // the first that is not
	claims map[int]chan struct{} // chunks that a call is bringing; closed when it ended
	early  map[int][]byte        // claimed chunks whose turn to be hashed has not come
	hash   hash.Hash             // over the chunks before hashed
	hashed int
	states []state
}

func newArrival(size int64) *arrival {
	return &arrival{
		size: size, have: make([]bool, Chunks(size)), left: Chunks(size),
		claims: map[int]chan struct{}{}, early: map[int][]byte{}, hash: sha256.New(),
	}
}

// mark notes that chunk i is on the disk.
func (a *arrival) mark(i int) {
	if i < len(a.have) && !a.have[i] {
		a.have[i] = true
		a.left--
	}
	for a.next < len(a.have) && a.have[a.next] {
		a.next++
	}
}

func (a *arrival) progress() (next, left int, whole bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.next, a.left, a.whole
}

// claim lets one call at a time bring chunk i. wait is closed when another call
// that brings it has ended; here says that the chunk is on the disk already.
func (a *arrival) claim(i int, data []byte) (wait <-chan struct{}, here bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.have[i] {
		return nil, true
	}
	if other := a.claims[i]; other != nil {
		return other, false
	}
	a.claims[i] = make(chan struct{})
	a.early[i] = data
	for data := a.early[a.hashed]; data != nil; data = a.early[a.hashed] {
		delete(a.early, a.hashed)
		a.hash.Write(data)
		a.states = append(a.states, stateOf(a.hash))
		a.hashed++
	}
	return nil, false
}

// unclaim ends a claim.
func (a *arrival) unclaim(i int) {
	a.mu.Lock()
	defer a.mu.Unlock()
	close(a.claims[i])
	delete(a.claims, i)
	delete(a.early, i)
}

// checked tells whether the bytes of all chunks, as they came, have the sum.
func (a *arrival) checked(sum [32]byte) bool {
	return a.hashed == len(a.have) && [32]byte(a.hash.Sum(nil)) == sum
}

// state is the inner state of SHA-256 at the end of a chunk. A blob's bytes are
// hashed once, as they come; with the states at its two ends a single chunk can
// be checked later against the sum of the whole.
type state [32]byte

// sha256State is how crypto/sha256 writes its state: a mark of 4 bytes, the
// state, the unfinished block, which is empty at the end of a full chunk, and
// how many bytes it has taken in.
const sha256State = 4 + 32 + 64 + 8

func stateOf(h hash.Hash) (s state) {
	text, err := h.(encoding.BinaryMarshaler).MarshalBinary()
	if err == nil && len(text) == sha256State {
		copy(s[:], text[4:])
	}
	return s
}

// resume returns a SHA-256 that has taken in n bytes, whose state was s.
func resume(s state, n int64) (hash.Hash, error) {
	h := sha256.New()
	if n == 0 {
		return h, nil
	}
	text, err := h.(encoding.BinaryMarshaler).MarshalBinary()
	if err != nil {
		return nil, err
	}
	copy(text[4:], s[:])
	binary.BigEndian.PutUint64(text[len(text)-8:], uint64(n))
	return h, h.(encoding.BinaryUnmarshaler).UnmarshalBinary(text)
}
