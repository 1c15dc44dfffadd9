package main

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/machine"
	"sinkside/store"
	"sinkside/store/storetest"
	"sinkside/sync/journal"
)

// The archive that the server is measured with: 200,000 entries of about 250
// bytes by two devices in 1,000 treatments.
const (
	archiveJobs  = 1000
	archiveChain = 100
)

// BenchmarkServerAtRest starts the real server on that archive and reports the
// time until it answers, and what is resident once it is at rest: on the first
// start, which makes each treatment's line once, and on the later ones.
func BenchmarkServerAtRest(b *testing.B) {
	dir := b.TempDir()
	fillArchive(b, filepath.Join(dir, "store"))
	m := machine.New(b, dir)
	m.Start()
	first := settledMB(b, m)
	m.Stop()
	var ready, resident float64
	for b.Loop() {
		start := time.Now()
		m.Start()
		ready = max(ready, float64(time.Since(start).Milliseconds()))
		resident = max(resident, settledMB(b, m))
		m.Stop()
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(ready, "ms-ready")
	b.ReportMetric(first, "MB-first-start")
	b.ReportMetric(resident, "MB-at-rest")
}

func fillArchive(b *testing.B, dir string) {
	b.Helper()
	s, err := store.Open(dir, store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for job := range archiveJobs {
		var es []journal.Entry
		for dev := range 2 {
			a := storetest.NewAuthor(storetest.ID(uint64(job+1)), storetest.ID(uint64(5000+dev)))
			es = append(es, a.Run(b, archiveChain, 4)...)
		}
		if _, err := s.Append(es); err != nil {
			b.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
}

// settledMB waits until the server's resident memory has stopped moving by more
// than a megabyte for three seconds, and returns it in MB.
func settledMB(b *testing.B, m *machine.Machine) float64 {
	b.Helper()
	tick := time.NewTicker(500 * time.Millisecond)
	defer tick.Stop()
	last, still := 0.0, 0
	for range 120 {
		<-tick.C
		mb := residentMB(b, m.PID())
		if mb-last < 1 && last-mb < 1 {
			still++
		} else {
			still = 0
		}
		if last = mb; still == 6 {
			break
		}
	}
	if res, err := http.Get(m.Local() + "/healthz"); err != nil || res.StatusCode != http.StatusOK {
		b.Fatalf("the server is not well: %v", err)
	}
	return last
}

func residentMB(b *testing.B, pid int) float64 {
	b.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		if kb, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(kb), "kB")))
			if err != nil {
				b.Fatal(err)
			}
			return float64(n) / 1000
		}
	}
	b.Fatal("no resident memory in the process's status")
	return 0
}
