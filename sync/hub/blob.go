package hub

import (
	"sync"

	"sinkside/sync/wire"
)

// maxWriting is how many chunks of one session are written at the same time:
// they share an fsync, so a photograph costs few of them.
const maxWriting = 32

// maxSpoilt is how often a blob may come whole and not be what it was announced
// as.
const maxSpoilt = 3

type blobSession struct {
	wg     sync.WaitGroup
	slots  chan struct{}
	mu     sync.Mutex
	spoilt map[[32]byte]int
}

func (b *blobSession) init() {
	b.slots = make(chan struct{}, maxWriting)
	b.spoilt = map[[32]byte]int{}
}

// blobOffer asks for a blob from the first chunk that is missing.
func (s *session) blobOffer(f *wire.BlobOffer) error {
	next, whole, err := s.hub.cfg.Store.BlobBegin(f.Sum, int64(f.Size))
	switch {
	case err != nil && isFull(err):
		s.hub.storeFailed(s, "begin blob", err)
	case err != nil:
		s.hub.report(s.dev, "begin blob", err)
		return wire.BadBlob
	case whole:
		s.sendFrame(&wire.BlobHave{Sum: f.Sum})
	default:
		s.sendFrame(&wire.BlobWant{Sum: f.Sum, From: uint64(next)})
	}
	return nil
}

// blobChunk writes a chunk beside others. When all slots are taken the worker
// waits, and with it the device.
func (s *session) blobChunk(f *wire.BlobChunk) {
	s.blobs.slots <- struct{}{}
	s.blobs.wg.Go(func() {
		defer func() { <-s.blobs.slots }()
		_, whole, err := s.hub.cfg.Store.BlobChunk(f.Sum, int(f.Index), f.Data)
		switch {
		case err != nil && isFull(err):
			s.hub.storeFailed(s, "write chunk", err)
		case err != nil:
			s.spoiltBlob(f.Sum, err)
		case whole:
			s.sendFrame(&wire.BlobHave{Sum: f.Sum})
		}
	})
}

// spoiltBlob asks for a blob again that was not what its name says.
func (s *session) spoiltBlob(sum [32]byte, err error) {
	s.hub.report(s.dev, "write chunk", err)
	s.blobs.mu.Lock()
	s.blobs.spoilt[sum]++
	n := s.blobs.spoilt[sum]
	s.blobs.mu.Unlock()
	if n >= maxSpoilt {
		s.end(wire.BadBlob)
		return
	}
	s.sendFrame(&wire.BlobWant{Sum: sum})
}

// blobWant sends a blob behind everything else.
func (s *session) blobWant(f *wire.BlobWant) error {
	size, whole, err := s.hub.cfg.Store.BlobHas(f.Sum)
	if err != nil {
		return s.storeFault("read blob", err)
	}
	if !whole {
		s.sendFrame(&wire.BlobLack{Sum: f.Sum})
		return nil
	}
	s.sendFrame(&wire.BlobOffer{Sum: f.Sum, Size: uint64(size)})
	s.addBlobTask(&sendBlob{sum: f.Sum, at: f.From, end: (uint64(size) + wire.ChunkSize - 1) / wire.ChunkSize})
	return nil
}

// sendBlob is the task of sending a blob's chunks.
type sendBlob struct {
	sum     [32]byte
	at, end uint64
}

func (t *sendBlob) next(s *session) (wire.Frame, error) {
	if t.at >= t.end {
		return nil, nil
	}
	data, err := s.hub.cfg.Store.BlobRead(t.sum, int(t.at))
	if err != nil {
		return nil, err
	}
	t.at++
	return &wire.BlobChunk{Sum: t.sum, Index: t.at - 1, Data: data}, nil
}
