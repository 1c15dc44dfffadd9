package hub_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"slices"
	"testing"

	"sinkside/store"
	"sinkside/store/memory"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

func (d *device) offer(data []byte) [32]byte {
	sum := sha256.Sum256(data)
	d.Do(func(l *link.Link, m *host.Memory) {
		m.Blobs[sum] = data
		l.Offer(sum, uint64(len(data)))
	})
	return sum
}

func done(sum [32]byte) func(host.View) bool {
	return func(v host.View) bool { return slices.Contains(v.Done, sum) }
}

func (d *device) fetchBlob(sum [32]byte) {
	d.Do(func(l *link.Link, _ *host.Memory) { l.WantBlob(sum, 0) })
}

func holds(sum [32]byte, data []byte) func(host.View) bool {
	return func(v host.View) bool { return bytes.Equal(v.Memory.Blobs[sum], data) }
}

func TestPhotographsGoUpAndDown(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a, b := s.device(1), s.device(2)
	a.connect(faults{})
	b.connect(faults{})
	for _, size := range []int{1, wire.ChunkSize, wire.ChunkSize + 1, 5*wire.ChunkSize + 77} {
		data := photo(uint64(size), size)
		sum := a.offer(data)
		a.until(t, "on the studio machine's disk", done(sum))
		if n, whole, err := s.store.BlobHas(sum); n != int64(size) || !whole || err != nil {
			t.Errorf("blob of %d bytes: the store has %d, %v, %v", size, n, whole, err)
		}
		b.fetchBlob(sum)
		b.until(t, "on the other device", holds(sum, data))
	}
	lacking := sha256.Sum256([]byte("nobody has it"))
	r := s.raw(t, dev(3)).send(hello(dev(3)), &wire.BlobWant{Sum: lacking})
	if f := expect[*wire.BlobLack](r); f.Sum != lacking {
		t.Error("another blob is lacking")
	}
}

// A connection that breaks at any byte costs the chunks that were under way, not
// the photograph.
func TestPhotographsResume(t *testing.T) {
	data := photo(3, 6*wire.ChunkSize+9)
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	sum := a.offer(data)
	// No session carries more than a part: without resuming it never arrives.
	for i := range 40 {
		near, far := pipe(faults{cutAfter: 200_000 + 13*i})
		a.connectOver(near, far)
		ctx, cancel := context.WithCancel(context.Background())
		go func() {
			_ = a.wait()
			cancel()
		}()
		err := a.Wait(ctx, done(sum))
		if err == nil {
			a.disconnect()
			break
		}
	}
	if _, whole, _ := s.store.BlobHas(sum); !whole {
		t.Fatal("the photograph did not arrive")
	}
}

func TestAnEntryIsNotHeldUpByPhotographs(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	sum := a.offer(photo(5, 100))
	a.note(t, job(1), 1)
	var order []wire.Type
	a.Do(func(l *link.Link, _ *host.Memory) {
		l.Start(0)
		e := l.Take()
		welcome := wire.Append(nil, &wire.Welcome{Version: 1, All: true})
		if err := l.Receive(welcome, 0); err != nil {
			t.Error(err)
		}
		for _, f := range append(e.Frames, l.Take().Frames...) {
			order = append(order, wire.Type(f.Bytes[0]))
		}
		l.Stop()
	})
	if !slices.Equal(order, []wire.Type{wire.TypeHello, wire.TypePush, wire.TypeBlobOffer}) {
		t.Errorf("frames go in the order %x", order)
	}
	a.connect(faults{})
	a.until(t, "both arrive", func(v host.View) bool { return done(sum)(v) && caughtUp(v) })
}

// Bytes that are not what their name says are asked for again, and not for
// ever.
func TestASpoiltPhotographEndsTheSession(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	data := photo(8, 1000)
	sum := sha256.Sum256(data)
	spoilt := append([]byte{data[0] ^ 1}, data[1:]...)
	r := s.raw(t, dev(1)).send(hello(dev(1)), &wire.BlobOffer{Sum: sum, Size: 1000})
	for range 3 {
		if f := expect[*wire.BlobWant](r); f.Sum != sum || f.From != 0 {
			t.Errorf("asked for chunk %d", f.From)
		}
		r.send(&wire.BlobChunk{Sum: sum, Data: spoilt})
	}
	var got *wire.Close
	if _, err := r.next(0); !errors.As(err, &got) || *got != *wire.BadBlob {
		t.Errorf("closed by %v, want bad-blob", err)
	}
	a := s.device(2)
	a.connect(faults{})
	a.offer(data)
	a.until(t, "the right bytes are taken", done(sum))
}

func TestPhotographsWaitForRoom(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	a.connect(faults{})
	a.until(t, "on", caughtUp)
	s.store.Fail(store.ErrFull)
	sum := a.offer(photo(4, 3*wire.ChunkSize))
	a.until(t, "told", func(v host.View) bool { return v.Status.Full })
	s.store.Fail(nil)
	a.until(t, "sent by itself", done(sum))
}
