package store

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	"sinkside/sync/journal"
)

// faults fails the named point of a write when armed.
type faults struct {
	mu    sync.Mutex
	point string
	err   error
}

func (f *faults) at(point string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if point == f.point {
		return f.err
	}
	return nil
}

func (f *faults) arm(point string, err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.point, f.err = point, err
}

// A write that fails at any point acknowledges nothing, is told by its cause, and
// leaves a store that holds whole chains and takes the same call again.
func TestFailedWrites(t *testing.T) {
	data, sum := []byte(strings.Repeat("linen ", 100)), [32]byte{}
	for _, point := range []string{"commit", "sync", "pack write", "pack sync"} {
		for _, cause := range []error{syscall.ENOSPC, syscall.EIO} {
			t.Run(fmt.Sprintf("%s %v", point, cause), func(t *testing.T) {
				f := &faults{}
				o := tiny()
				o.fault = f.at
				dir := t.TempDir()
				s := openIn(t, dir, o)
				d := newDevice(1, 2)
				es := d.run(t, 6)
				wants(t, s, es[:2], journal.Stored)
				sum = sumOf(data)
				if _, _, err := s.BlobBegin(sum, int64(len(data))); err != nil {
					t.Fatal(err)
				}

				f.arm(point, cause)
				inPack := strings.HasPrefix(point, "pack")
				_, appendErr := s.Append(es[2:4])
				_, _, chunkErr := s.BlobChunk(sum, 0, data)
				for name, err := range map[string]error{"Append": appendErr, "BlobChunk": chunkErr} {
					if inPack && name == "Append" {
						continue // it does not touch the packs
					}
					if err == nil || errors.Is(err, ErrFull) != (cause == syscall.ENOSPC) {
						t.Errorf("%s = %v", name, err)
					}
				}
				if _, err := s.BlobRead(sum, 0); !errors.Is(err, ErrNoBlob) && point != "sync" {
					t.Errorf("BlobRead after the failure = %v, want ErrNoBlob", err)
				}
				if n := length(t, s, d.chain); n < 2 {
					t.Errorf("%d lines after the failure, want the first two at least", n)
				}

				f.arm("", nil)
				if _, err := s.Append(es); err != nil {
					t.Fatalf("Append when the disk is well again: %v", err)
				}
				if _, whole, err := s.BlobChunk(sum, 0, data); err != nil || !whole {
					if next, whole, err := s.BlobBegin(sum, int64(len(data))); !whole {
						t.Fatalf("BlobBegin when the disk is well again: %d, %t, %v", next, whole, err)
					}
				}
				if err := s.Close(); err != nil {
					t.Fatal(err)
				}
				s = openIn(t, dir, tiny())
				if n := length(t, s, d.chain); n != 6 {
					t.Errorf("%d lines at the end, want 6", n)
				}
				if got, err := s.BlobRead(sum, 0); err != nil || string(got) != string(data) {
					t.Errorf("BlobRead at the end: %d bytes, %v", len(got), err)
				}
			})
		}
	}
}

// A full disk is seen before badger writes: nothing is touched, what is stored
// can be read, and writes go on when there is room again.
func TestFullDisk(t *testing.T) {
	var free atomic.Int64
	free.Store(1 << 30)
	o := Options{FreeFloor: 64 << 20, Reserve: 64 << 10, Free: func(string) (int64, error) { return free.Load(), nil }}
	dir := t.TempDir()
	s := openIn(t, dir, o)
	d := newDevice(1, 2)
	es := d.run(t, 9)
	wants(t, s, es[:3], journal.Stored)

	refused := func() {
		t.Helper()
		_, appendErr := s.Append(es[3:6])
		_, _, chunkErr := s.BlobChunk(sumOf([]byte("x")), 0, []byte("x"))
		for name, err := range map[string]error{
			"Append": appendErr, "Put": s.Put("b", "k", nil), "KeepAside": s.KeepAside(es[3:4]),
			"Remove": s.Remove(newDevice(7, 7).chain.Job), "BlobChunk": chunkErr,
		} {
			var full interface{ Full() bool }
			if !errors.Is(err, ErrFull) || !errors.As(err, &full) || !strings.Contains(err.Error(), "free 64 MB") {
				t.Errorf("%s on a full disk = %v", name, err)
			}
		}
		if n := length(t, s, d.chain); n != 3 {
			t.Errorf("%d lines, want 3", n)
		}
	}
	if _, _, err := s.BlobBegin(sumOf([]byte("x")), 1); err != nil {
		t.Fatal(err)
	}
	free.Store(60 << 20)
	refused()

	// A server that is started again on the full disk can be read from.
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	free.Store(20 << 20)
	s = openIn(t, dir, o)
	if _, _, err := s.BlobBegin(sumOf([]byte("x")), 1); err != nil {
		t.Fatal(err)
	}
	refused()

	free.Store(1 << 30)
	wants(t, s, es[:3], journal.Known)
	wants(t, s, es[3:], journal.Stored)
	if s.wounded != nil {
		t.Errorf("still not opened anew: %v", s.wounded)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}

	// With no room even for opening it says so.
	free.Store(1 << 20)
	if _, err := Open(dir, o); !errors.Is(err, ErrFull) {
		t.Errorf("Open with 1 MB free = %v, want ErrFull", err)
	}
}

// Calls that wait while a transaction is made durable share the next one.
func TestGroupCommit(t *testing.T) {
	var syncs atomic.Int64
	held := make(chan struct{})
	o := tiny()
	o.fault = func(point string) error {
		if point == "commit" && syncs.Add(1) == 1 {
			<-held
		}
		return nil
	}
	s := openIn(t, t.TempDir(), o)
	const devices, each = 40, 10
	var ready, done sync.WaitGroup
	ready.Add(devices)
	for i := range devices {
		es := newDevice(1, uint64(i)).run(t, each)
		done.Go(func() {
			ready.Done()
			for j := range es {
				if _, err := s.Append(es[j : j+1]); err != nil {
					t.Error(err)
				}
			}
		})
	}
	ready.Wait()
	close(held)
	done.Wait()
	if n := syncs.Load(); n > devices*each/4 {
		t.Errorf("%d calls took %d syncs, want them shared", devices*each, n)
	}
}

// A call that fails by itself does not take others in the same transaction down.
func TestOneBadCallAmongMany(t *testing.T) {
	s := openIn(t, t.TempDir(), tiny())
	good, bad := newDevice(1, 2), newDevice(1, 3)
	bads := bad.run(t, 3)
	wants(t, s, bads, journal.Stored)
	// An entry whose bytes and whose neighbours are gone: nothing vouches for it.
	for n := uint64(1); n <= 2; n++ {
		overwrite(t, s, entryKey(bad.chain, n), make([]byte, 40))
	}
	calls := make([]*call, 3)
	parts := [][]journal.Entry{good.run(t, 2), bads[:1], nil}
	parts[2] = good.run(t, 2)
	for i := range calls {
		calls[i] = &call{done: make(chan error, 1), apply: func(b *batch) error {
			_, err := b.append(parts[i], Refused{})
			return err
		}}
	}
	s.dbMu.RLock()
	s.write(calls)
	s.dbMu.RUnlock()
	for i, want := range []error{nil, ErrDamaged, nil} {
		if err := <-calls[i].done; !errors.Is(err, want) {
			t.Errorf("call %d = %v, want %v", i, err, want)
		}
	}
	if n := length(t, s, good.chain); n != 4 {
		t.Errorf("%d lines of the others, want 4", n)
	}
}

// A removal that was cut off is finished when the store is opened, or before the
// next write.
func TestRemovalCutOff(t *testing.T) {
	for _, again := range []string{"open", "write"} {
		t.Run(again, func(t *testing.T) {
			f := &faults{}
			o := tiny()
			count := 0
			o.fault = func(point string) error {
				if point == "commit" && f.at("removal") != nil {
					if count++; count > 1 {
						return syscall.EIO
					}
				}
				return nil
			}
			dir := t.TempDir()
			s := openIn(t, dir, o)
			sample, real := newDevice(1, 2), newDevice(2, 2)
			es := sample.run(t, 5)
			wants(t, s, es, journal.Stored)
			wants(t, s, real.run(t, 2), journal.Stored)
			f.arm("removal", syscall.EIO)
			if err := s.Remove(sample.chain.Job); err == nil {
				t.Fatal("Remove gave no error")
			}
			f.arm("", nil)
			if again == "open" {
				if err := s.Close(); err != nil {
					t.Fatal(err)
				}
				s = openIn(t, dir, tiny())
			}
			wants(t, s, es[:1], journal.Stored)
			if n := length(t, s, sample.chain); n != 1 {
				t.Errorf("%d lines of the sample, want the new one", n)
			}
			if n := length(t, s, real.chain); n != 2 {
				t.Errorf("%d lines of the other, want 2", n)
			}
			if value, err := s.read(entryKey(sample.chain, 2)); value != nil || err != nil {
				t.Errorf("an old entry is left: %q, %v", value, err)
			}
		})
	}
}
