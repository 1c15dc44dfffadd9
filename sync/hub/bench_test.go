package hub_test

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
)

// The benchmarks run a hub over the store on disk behind a real websocket on
// loopback, and the phones in the same process:
//
//	go test -run xxx -bench . -benchtime 5x ./sync/hub

// line counts what a websocket client writes and reads, frames alone.
type line struct {
	host.Conn
	sent, got *atomic.Int64
}

func (l line) Write(msg []byte) error {
	l.sent.Add(int64(len(msg)))
	return l.Conn.Write(msg)
}

func (l line) Read(ctx context.Context) ([]byte, error) {
	msg, err := l.Conn.Read(ctx)
	l.got.Add(int64(len(msg)))
	return msg, err
}

func until(b *testing.B, d *host.Device, cond func(host.View) bool) {
	b.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	if err := d.Wait(ctx, cond); err != nil {
		b.Fatal(err)
	}
}

// day makes the drafts of a day at the sink: baths, readings and notes over so
// many treatments, of about 250 bytes a line.
func day(entries, treatments int) []journal.Draft {
	rng := rand.New(rand.NewPCG(1, 2))
	words := strings.Fields("water runs clear at the fold second tray slight bleed from the red thread none on blotter soil lifts near hem warm again after top up drained rinsed turned face down supported on net edges flat")
	at := time.Date(2026, 3, 4, 8, 30, 0, 0, time.FixedZone("", 3600))
	temp, ph, cond := 18.5, 6.9, 310
	out := make([]journal.Draft, entries)
	for i := range out {
		at = at.Add(time.Duration(3+rng.IntN(25)) * time.Second)
		temp, ph, cond = temp+float64(rng.IntN(5)-2)/10, ph+float64(rng.IntN(3)-1)/100, cond+rng.IntN(9)-4
		d := journal.Draft{Job: job(byte(i * 7 % treatments)), At: at.Format(time.RFC3339), By: []string{"RV", "OT", "IB"}[rng.IntN(3)], BV: 1}
		switch k := rng.IntN(10); {
		case k == 0:
			d.Kind, d.Body = "begin", jsontext.Value(fmt.Sprintf(`{"what":"rinse","liquid":"Deionised water","litres":%d,"target_s":%d}`, 8+rng.IntN(8), 60*(5+rng.IntN(10))))
		case k < 4:
			d.Kind, d.Body = "reading", jsontext.Value(fmt.Sprintf(`{"q":"temperature","value":%.1f,"unit":"degC"}`, temp))
		case k < 6:
			d.Kind, d.Body = "reading", jsontext.Value(fmt.Sprintf(`{"q":"ph","value":%.2f,"unit":"pH"}`, ph))
		case k < 7:
			d.Kind, d.Body = "reading", jsontext.Value(fmt.Sprintf(`{"q":"conductivity","value":%d,"unit":"uS/cm"}`, cond))
		default:
			var text []string
			for range 6 + rng.IntN(8) {
				text = append(text, words[rng.IntN(len(words))])
			}
			d.Kind, d.Body = "note", jsontext.Value(`{"text":"`+strings.Join(text, " ")+`"}`)
		}
		out[i] = d
	}
	return out
}

func lineBytes(es []journal.Entry) (n int) {
	for i := range es {
		n += len(es[i].Line)
	}
	return n
}

// BenchmarkDay: a day's log, from connecting until it is durable; then a fresh
// device gets it.
func BenchmarkDay(b *testing.B) {
	var plains, ups, downs []time.Duration
	var upBytes, downBytes, entryBytes int
	for b.Loop() {
		h := open(b)
		a := host.New(host.NewMemory(dev(1)), host.Options{})
		es, err := a.WriteAll(day(2000, 20))
		if err != nil {
			b.Fatal(err)
		}
		entryBytes = lineBytes(es)
		plains = append(plains, plain(b, es))

		start := time.Now()
		l, leave := join(b, h.srv.URL, a, dev(1))
		until(b, a, func(v host.View) bool { return v.Status.Unsent == 0 })
		ups = append(ups, time.Since(start))
		upBytes = int(l.sent.Load() + l.got.Load())

		fresh := host.New(host.NewMemory(dev(2)), host.Options{})
		start = time.Now()
		l, leaveFresh := join(b, h.srv.URL, fresh, dev(2))
		until(b, fresh, caughtUp)
		downs = append(downs, time.Since(start))
		downBytes = int(l.sent.Load() + l.got.Load())
		leave()
		leaveFresh()
		h.close(b)
	}
	b.ReportMetric(ms(median(plains)), "ms/plain")
	b.ReportMetric(ms(median(ups)), "ms/push")
	b.ReportMetric(ms(median(downs)), "ms/fresh")
	b.ReportMetric(ms(median(ups))/ms(median(plains)), "x-plain")
	b.ReportMetric(100*float64(upBytes)/float64(entryBytes), "%-push-bytes")
	b.ReportMetric(100*float64(downBytes)/float64(entryBytes), "%-fresh-bytes")
	b.ReportMetric(float64(entryBytes)/2000, "B/entry")
}

// BenchmarkIdle: reconnecting with nothing to do, over an archive.
func BenchmarkIdle(b *testing.B) {
	h := open(b)
	defer h.close(b)
	a := host.New(host.NewMemory(dev(1)), host.Options{})
	if _, err := a.WriteAll(day(4000, 200)); err != nil {
		b.Fatal(err)
	}
	_, leave := join(b, h.srv.URL, a, dev(1))
	until(b, a, func(v host.View) bool { return v.Status.Unsent == 0 && len(v.Memory.Summaries) == 200 })
	leave()
	var took []time.Duration
	var bytes int64
	for n := 2; b.Loop(); n++ {
		start := time.Now()
		l, leave := join(b, h.srv.URL, a, dev(1))
		until(b, a, func(v host.View) bool { return v.All && v.Sessions == n })
		took = append(took, time.Since(start))
		bytes = l.sent.Load() + l.got.Load()
		leave()
	}
	b.ReportMetric(ms(median(took)), "ms/reconnect")
	b.ReportMetric(float64(bytes), "B/reconnect")
}

// BenchmarkLive: from an entry's writing on one device until it is on another.
func BenchmarkLive(b *testing.B) {
	h := open(b)
	defer h.close(b)
	arrived := make(chan struct{}, 64)
	a := host.New(host.NewMemory(dev(1)), host.Options{})
	o := host.New(host.NewMemory(dev(2)), host.Options{Stored: func([]journal.Entry) { arrived <- struct{}{} }})
	_, leaveA := join(b, h.srv.URL, a, dev(1))
	defer leaveA()
	_, leaveO := join(b, h.srv.URL, o, dev(2))
	defer leaveO()
	until(b, a, caughtUp)
	until(b, o, caughtUp)
	var took, echo []time.Duration
	bare := bareEcho(b)
	n := 0
	for b.Loop() {
		for _, d := range day(300, 3) {
			start := time.Now()
			if _, err := a.Write(d); err != nil {
				b.Fatal(err)
			}
			<-arrived
			took = append(took, time.Since(start))
			n++
			echo = append(echo, bare())
		}
	}
	b.ReportMetric(ms(quantile(took, .5)), "ms/p50")
	b.ReportMetric(ms(quantile(took, .99)), "ms/p99")
	b.ReportMetric(ms(quantile(echo, .5)), "ms/echo-p50")
	b.ReportMetric(ms(quantile(echo, .99)), "ms/echo-p99")
}

// BenchmarkFifty: 50 devices each write 20 entries at once; until all have all
// 1,000 and theirs are acknowledged. The studio machine is a process of its own.
func BenchmarkFifty(b *testing.B) {
	const devices, each = 50, 20
	var took []time.Duration
	var most float64
	for b.Loop() {
		url, leaveHouse := apart(b)
		var ds []*host.Device
		var leaves []func()
		for i := range devices {
			d := host.New(host.NewMemory(dev(byte(i+1))), host.Options{})
			_, leave := join(b, url, d, dev(byte(i+1)))
			until(b, d, caughtUp)
			ds, leaves = append(ds, d), append(leaves, leave)
		}
		drafts := day(each, 5)
		start := time.Now()
		var wg sync.WaitGroup
		for _, d := range ds {
			wg.Go(func() {
				for _, dr := range drafts {
					if _, err := d.Write(dr); err != nil {
						b.Error(err)
					}
				}
				until(b, d, func(v host.View) bool { return v.Status.Unsent == 0 && total(v.Memory) == devices*each })
			})
		}
		wg.Wait()
		took = append(took, time.Since(start))
		for _, leave := range leaves {
			leave()
		}
		most = max(most, leaveHouse())
	}
	b.ReportMetric(ms(median(took)), "ms/all-have-all")
	b.ReportMetric(most, "MB-server")
}

func total(m *host.Memory) (n int) {
	for _, es := range m.Chains {
		n += len(es)
	}
	return n
}

// BenchmarkBlobs: 40 photographs of 300 KB, durable, against a stream into one
// file.
func BenchmarkBlobs(b *testing.B) {
	const count, size = 40, 300 << 10
	var files, ups []time.Duration
	for b.Loop() {
		h := open(b)
		mem := host.NewMemory(dev(1))
		photos := make([][]byte, count)
		for i := range photos {
			photos[i] = photo(uint64(i), size)
			mem.Blobs[sha256.Sum256(photos[i])] = photos[i]
		}
		files = append(files, intoFile(b, photos))
		d := host.New(mem, host.Options{})
		start := time.Now()
		_, leave := join(b, h.srv.URL, d, dev(1))
		d.Do(func(l *link.Link, m *host.Memory) {
			for sum, data := range m.Blobs {
				l.Offer(sum, uint64(len(data)))
			}
		})
		until(b, d, func(v host.View) bool { return len(v.Done) == count })
		ups = append(ups, time.Since(start))
		leave()
		h.close(b)
	}
	b.ReportMetric(ms(median(files)), "ms/file")
	b.ReportMetric(ms(median(ups)), "ms/blobs")
	b.ReportMetric(ms(median(ups))/ms(median(files)), "x-file")
}

func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

func median(ds []time.Duration) time.Duration { return quantile(ds, .5) }

func quantile(ds []time.Duration, q float64) time.Duration {
	ds = slices.Clone(ds)
	slices.Sort(ds)
	return ds[min(int(q*float64(len(ds))), len(ds)-1)]
}

func photo(seed uint64, size int) []byte {
	rng := rand.New(rand.NewPCG(seed, 7))
	b := make([]byte, 0, size+8)
	for len(b) < size {
		b = binary.LittleEndian.AppendUint64(b, rng.Uint64())
	}
	return b[:size]
}
