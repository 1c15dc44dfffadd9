// Command bench measures what the project promises to reach, on this machine,
// and prints each figure beside its promise. Ratios are taken within one run,
// since machines differ and are noisy; nothing fails by a number.
//
//	go run ./server/bench [PACKAGE...]
//
// The measurements are Go benchmarks beside the code that they measure; this
// command runs them and reads their metrics.
package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
)

// run is one go test -bench call.
type run struct {
	pkg, bench, times string
}

var runs = []run{
	{"./pwa/journey/bench", ".", "1x"},
	{"./sync/hub", ".", "20x"},
	{"./server", "ServerAtRest", "3x"},
}

// promise is a figure that a benchmark reports, and what it should be at most.
type promise struct {
	bench, metric string
	say, unit     string
	most          float64 // 0: printed for comparison
}

var promises = []promise{
	{"TapToDurable", "durable-p50-ms", "tap to durable on the phone, half of the taps", "ms", 0},
	{"TapToDurable", "durable-p99-ms", "tap to durable on the phone, 99 of 100", "ms", 50},
	{"OfflineColdStart/page", "clock-ms", "offline cold start, page 4x slower: running clock painted", "ms", 500},
	{"OfflineColdStart/page", "usable-ms", "offline cold start, page 4x slower: sink usable", "ms", 1500},
	{"OfflineColdStart/all", "clock-ms", "the same with every thread 4x slower: clock painted", "ms", 500},
	{"OfflineColdStart/all", "usable-ms", "the same with every thread 4x slower: sink usable", "ms", 1500},
	{"SinkAtRest", "%-renderer", "a sink at rest, its clock running, of one core: page and worker", "%", 3},
	{"SinkAtRest", "%-browser", "  the whole browser, which paints without a graphics chip here", "%", 0},
	{"ReadingToCurve/page", "drawn-p50-ms", "a reading kept until drawn in the curve, page 4x slower: half", "ms", 100},
	{"ReadingToCurve/page", "drawn-worst-ms", "  the slowest of 25", "ms", 100},
	{"ReadingToCurve/all", "drawn-p50-ms", "the same with every thread 4x slower: half", "ms", 100},
	{"Reckoning/plain", "half-ms", "a reckoning in the phone's library, the call included: half of them within", "ms", 2},
	{"Reckoning/plain", "slowest-ms", "  the slowest of them", "ms", 2},
	{"Reckoning/plain", "first-call-ms", "  the slowest first call, while the browser still compiles", "ms", 0},
	{"Reckoning/plain", "layout-ms", "  40 pieces laid out", "ms", 200},
	{"Reckoning/plain", "first-ms", "  the library fetched, started and listed", "ms", 0},
	{"Reckoning/all", "slowest-ms", "the slowest with every thread 4x slower", "ms", 2},
	{"Reckoning/all", "layout-ms", "  40 pieces laid out", "ms", 200},
	{"FirstDownload", "KB", "all that a phone downloads at first", "KB", 900},
	{"Day", "ms/plain", "2,000 entries as one plain stream into one batch", "ms", 0},
	{"Day", "ms/push", "2,000 entries by sync, durable", "ms", 0},
	{"Day", "x-plain", "  ratio", "x", 2},
	{"Day", "%-push-bytes", "  on the wire, of the entries' bytes", "%", 30},
	{"Day", "ms/fresh", "a fresh device gets them", "ms", 0},
	{"Day", "%-fresh-bytes", "  on the wire, of the entries' bytes", "%", 30},
	{"Idle", "B/reconnect", "reconnecting with nothing to do, frames", "B", 200},
	{"Idle", "ms/reconnect", "  one round trip", "ms", 0},
	{"Live", "ms/p50", "live, device to device, half", "ms", 10},
	{"Live", "ms/p99", "live, device to device, 99 of 100", "ms", 25},
	{"Live", "ms/echo-p50", "  a bare echo with an fsync, half", "ms", 0},
	{"Live", "ms/echo-p99", "  a bare echo with an fsync, 99 of 100", "ms", 0},
	{"Fifty", "ms/all-have-all", "50 devices x 20 entries, all have all", "ms", 1000},
	{"Fifty", "MB-server", "  the server's most resident", "MB", 100},
	{"Blobs", "x-file", "40 photographs' chunks, against a plain stream into one file", "x", 1.5},
	{"ServerAtRest", "ms-ready", "server with 200,000 entries, ready", "ms", 1000},
	{"ServerAtRest", "MB-first-start", "  resident at rest, the first start", "MB", 100},
	{"ServerAtRest", "MB-at-rest", "  resident at rest, later starts", "MB", 100},
}

func main() {
	got := map[string]float64{}
	failed := false
	for _, r := range runs {
		if len(os.Args) > 1 && !slices.Contains(os.Args[1:], r.pkg) {
			continue
		}
		fmt.Fprintf(os.Stderr, "measuring %s\n", r.pkg)
		if err := measure(r, got); err != nil {
			fmt.Fprintf(os.Stderr, "bench: %s: %v\n", r.pkg, err)
			failed = true
		}
	}
	print(os.Stdout, got)
	if failed {
		os.Exit(1)
	}
}

// measure runs one package's benchmarks and adds their metrics to got, by
// benchmark and metric.
func measure(r run, got map[string]float64) error {
	cmd := exec.Command("go", "test", r.pkg, "-run", "^$", "-bench", r.bench, "-benchtime", r.times, "-timeout", "20m")
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	var said strings.Builder
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if !read(lines.Text(), got) {
			said.WriteString(lines.Text() + "\n")
		}
	}
	if err := cmd.Wait(); err != nil {
		return fmt.Errorf("%w\n%s", err, said.String())
	}
	return nil
}

// read takes a line such as "BenchmarkLive-2  20  7.9 ms/p50  3.1 ms/echo-p50".
func read(line string, got map[string]float64) bool {
	fields := strings.Fields(line)
	if len(fields) < 4 || !strings.HasPrefix(fields[0], "Benchmark") {
		return false
	}
	name := strings.TrimPrefix(fields[0], "Benchmark")
	if at := strings.LastIndex(name, "-"); at > 0 {
		name = name[:at]
	}
	for i := 2; i+1 < len(fields); i += 2 {
		v, err := strconv.ParseFloat(fields[i], 64)
		if err != nil {
			return false
		}
		got[name+" "+fields[i+1]] = v
	}
	return true
}

func print(w io.Writer, got map[string]float64) {
	for _, p := range promises {
		v, ok := got[p.bench+" "+p.metric]
		if !ok {
			continue
		}
		row := fmt.Sprintf("%-64s %9s %-3s", p.say, strconv.FormatFloat(v, 'f', places(v), 64), p.unit)
		if p.most > 0 {
			verdict := "reached"
			if v > p.most {
				verdict = "NOT REACHED"
			}
			row += fmt.Sprintf("  at most %g: %s", p.most, verdict)
		}
		fmt.Fprintln(w, row)
	}
}

func places(v float64) int {
	if v < 10 {
		return 2
	}
	return 0
}
