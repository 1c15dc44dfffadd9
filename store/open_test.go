package store_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"runtime"
	"strconv"
	"testing"
	"time"

	"sinkside/store"
	"sinkside/store/storetest"
	"sinkside/sync/journal"
)

// BenchmarkOpen200k opens a store of 200,000 entries of 250 bytes in 1,000
// treatments in a process of its own, and reports how long that takes until the
// heads are ready, and what is resident afterwards at rest.
func BenchmarkOpen200k(b *testing.B) {
	dir := b.TempDir()
	fill(b, dir)
	var ready, resident float64
	for b.Loop() {
		out, err := child("open", dir).Output()
		if err != nil {
			b.Fatal(err)
		}
		var ms, mb float64
		if _, err := fmt.Sscanf(string(out), "ready %f ms resident %f MB", &ms, &mb); err != nil {
			b.Fatalf("%q: %v", out, err)
		}
		ready, resident = max(ready, ms), max(resident, mb)
	}
	b.ReportMetric(ready, "ms-ready")
	b.ReportMetric(resident, "MB-resident")
}

func fill(b *testing.B, dir string) {
	s, err := store.Open(dir, small)
	if err != nil {
		b.Fatal(err)
	}
	start, peak := time.Now(), 0.0
	for job := range 100 {
		var es []journal.Entry
		for i := range 10 {
			for dev := range 2 {
				a := storetest.NewAuthor(storetest.ID(uint64(10*job+i)), storetest.ID(uint64(2000+dev)))
				es = append(es, a.Run(b, 100, 4)...)
			}
		}
		if _, err := s.Append(es); err != nil {
			b.Fatal(err)
		}
		peak = max(peak, residentMB(b))
	}
	b.Logf("200,000 entries in %v, %.0f MB resident at the most", time.Since(start), peak)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
}

// openAndMeasure runs in the child.
func openAndMeasure(dir string) error {
	start := time.Now()
	s, err := store.Open(dir, store.Options{})
	if err != nil {
		return err
	}
	heads := 0
	if err := s.AllHeads(func(journal.ChainHead) error { heads++; return nil }); err != nil {
		return err
	}
	ready := time.Since(start)
	mb, err := residentAtRest()
	if err != nil {
		return err
	}
	fmt.Printf("ready %.1f ms resident %.1f MB, %d heads\n", float64(ready.Microseconds())/1000, mb, heads)
	return s.Close()
}

// residentAtRest waits until what badger began as it opened has ended: until
// half a second of readings lies within 1 MB.
func residentAtRest() (mb float64, err error) {
	const alike, deadline = 10, 200
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	last, same := 0.0, 0
	for range deadline {
		runtime.GC()
		if mb, err = resident(); err != nil {
			return 0, err
		}
		if same++; math.Abs(mb-last) > 1 {
			last, same = mb, 0
		}
		if same == alike {
			return mb, nil
		}
		<-tick.C
	}
	return 0, fmt.Errorf("not at rest after %d readings: %.0f MB", deadline, mb)
}

func residentMB(b *testing.B) float64 {
	mb, err := resident()
	if err != nil {
		b.Fatal(err)
	}
	return mb
}

// resident is the process's resident memory in MB; 0 where the system does not
// say.
func resident() (float64, error) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0, nil
	}
	_, rest, _ := bytes.Cut(status, []byte("VmRSS:"))
	line, _, _ := bytes.Cut(rest, []byte("kB"))
	kb, err := strconv.ParseFloat(string(bytes.TrimSpace(line)), 64)
	return kb / 1024, err
}
