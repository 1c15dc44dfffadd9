package store_test

import (
	"crypto/sha256"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/dgraph-io/badger/v4"

	"sinkside/store"
	"sinkside/store/storetest"
	"sinkside/sync/journal"
)

// day returns a day's log: 2,000 entries of 250 bytes over 20 treatments.
func day(b *testing.B, round int) []journal.Entry {
	var es []journal.Entry
	for job := range 20 {
		a := storetest.NewAuthor(storetest.ID(uint64(1000*round+job)), storetest.ID(1))
		es = append(es, a.Run(b, 100, 4)...)
	}
	return es
}

func openBench(b *testing.B) *store.Store {
	s, err := store.Open(b.TempDir(), small)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { s.Close() })
	return s
}

// BenchmarkAppend2000 appends a day's log in one call. Compare with
// BenchmarkPlainBatch2000.
func BenchmarkAppend2000(b *testing.B) {
	s := openBench(b)
	round := 0
	for b.Loop() {
		b.StopTimer()
		es := day(b, round)
		round++
		b.StartTimer()
		if _, err := s.Append(es); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(day(b, 0)[7].Line)), "B/entry")
}

// BenchmarkPlainBatch2000 writes the same bytes under keys of the same length as
// one plain badger transaction.
func BenchmarkPlainBatch2000(b *testing.B) {
	db, err := badger.Open(store.BadgerOptions(b.TempDir()).WithLogger(nil))
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	round := 0
	for b.Loop() {
		b.StopTimer()
		es := day(b, round)
		round++
		b.StartTimer()
		batch := db.NewWriteBatch()
		for i := range es {
			key := make([]byte, 41)
			copy(key, es[i].Job[:])
			copy(key[16:], es[i].Dev[:])
			key[33], key[34] = byte(es[i].N>>8), byte(es[i].N)
			if err := batch.Set(key, es[i].Line); err != nil {
				b.Fatal(err)
			}
		}
		if err := batch.Flush(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAppend1 appends one entry after the other, as a tap at the sink comes.
func BenchmarkAppend1(b *testing.B) {
	s := openBench(b)
	a := storetest.NewAuthor(storetest.ID(1), storetest.ID(2))
	for b.Loop() {
		if _, err := s.Append(a.Run(b, 1, 4)); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAppenders50 has 50 devices append 20 entries each, one at a time.
func BenchmarkAppenders50(b *testing.B) {
	s := openBench(b)
	round := 0
	for b.Loop() {
		b.StopTimer()
		var work [][]journal.Entry
		for dev := range 50 {
			work = append(work, storetest.NewAuthor(storetest.ID(uint64(round)), storetest.ID(uint64(dev))).Run(b, 20, 4))
		}
		round++
		b.StartTimer()
		var wg sync.WaitGroup
		for _, es := range work {
			wg.Go(func() {
				for i := range es {
					if _, err := s.Append(es[i : i+1]); err != nil {
						b.Error(err)
					}
				}
			})
		}
		wg.Wait()
	}
}

const photos, photoSize = 40, 300_000

// BenchmarkBlobs40 stores 40 photographs of 300 KB, up to 32 chunks on their way
// at a time. Compare with BenchmarkPlainFile12MB.
func BenchmarkBlobs40(b *testing.B) {
	s := openBench(b)
	round := uint64(0)
	for b.Loop() {
		b.StopTimer()
		var data [][]byte
		var sums [][32]byte
		for i := range photos {
			d, sum := storetest.Photo(round<<8|uint64(i), photoSize)
			data, sums = append(data, d), append(sums, sum)
		}
		round++
		b.StartTimer()
		window := make(chan struct{}, 32)
		var wg sync.WaitGroup
		for i := range data {
			if _, _, err := s.BlobBegin(sums[i], photoSize); err != nil {
				b.Fatal(err)
			}
			for c := range store.Chunks(photoSize) {
				window <- struct{}{}
				wg.Go(func() {
					defer func() { <-window }()
					if _, _, err := s.BlobChunk(sums[i], c, storetest.Chunk(data[i], c)); err != nil {
						b.Error(err)
					}
				})
			}
		}
		wg.Wait()
	}
}

// BenchmarkPlainFile12MB writes the same bytes to one file, hashing each
// photograph, with one fsync.
func BenchmarkPlainFile12MB(b *testing.B) {
	dir := b.TempDir()
	var data [][]byte
	for i := range photos {
		d, _ := storetest.Photo(uint64(i), photoSize)
		data = append(data, d)
	}
	for b.Loop() {
		f, err := os.Create(filepath.Join(dir, "plain"))
		if err != nil {
			b.Fatal(err)
		}
		for _, d := range data {
			sha256.Sum256(d)
			if _, err := f.Write(d); err != nil {
				b.Fatal(err)
			}
		}
		if err := f.Sync(); err != nil {
			b.Fatal(err)
		}
		f.Close()
		b.StopTimer()
		os.Remove(f.Name())
		b.StartTimer()
	}
}
