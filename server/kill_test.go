package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"net/http"
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/machine"
	"sinkside/sync/journal"
)

// killRounds is how often the server is killed. Each round ends at another
// moment of receiving, storing and answering.
const killRounds = 12

// The real server is killed, without a warning, while devices push. After each
// start every entry that it acknowledged, or showed to another device, is in
// the record, exactly as written and once; no chain has a gap. At the end
// everything that was written has arrived.
func TestKillLosesNothingAcknowledged(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	rnd := rand.New(rand.NewPCG(seed, 1))

	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	devices := []*pusher{newPusher(m, "first phone", seed), newPusher(m, "second phone", seed+1)}

	for round := range killRounds {
		enough := make(chan struct{}, len(devices))
		over := make(chan error, len(devices))
		for _, p := range devices {
			more := 1 + rnd.IntN(60)
			go func() { over <- p.push(more, enough) }()
		}
		<-enough
		m.Kill()
		for range devices {
			if err := <-over; err != nil {
				t.Fatalf("round %d: %v", round, err)
			}
		}
		m.Start()
		for _, p := range devices {
			p.check(t, reader, round, false)
		}
	}

	for _, p := range devices {
		p.Send()
		p.check(t, reader, killRounds, true)
		t.Logf("%s: %d entries acknowledged over %d kills", p.Dev, p.Total(), killRounds)
	}
	m.Stop()
}

// pusher is a phone that writes into treatments of its own.
type pusher struct {
	*machine.Author
	rnd  *rand.Rand
	jobs []journal.ID
}

func newPusher(m *machine.Machine, label string, seed uint64) *pusher {
	p := &pusher{Author: m.Author(label), rnd: rand.New(rand.NewPCG(seed, 2))}
	for i := range 3 {
		job := machine.NewJob(byte(i))
		p.jobs = append(p.jobs, job)
		p.Write(job, time.Now(), "open", fmt.Sprintf(`{"name":"Child's quilted bonnet %d"}`, i))
	}
	return p
}

// push writes and sends until the connection breaks. When the server has
// acknowledged so many more entries it says so on enough, and goes on.
func (p *pusher) push(more int, enough chan<- struct{}) error {
	before := p.Total()
	return p.Session(func() bool {
		for p.Unsent() < 40 {
			// Mostly short notes, and some long enough that the store has tables to write.
			text := strings.Repeat("the fringe is stiff; ", 1+p.rnd.IntN(4)*p.rnd.IntN(2)*150)
			p.Write(p.jobs[p.rnd.IntN(len(p.jobs))], time.Now(), "note", fmt.Sprintf(`{"text":"%d %s"}`, p.rnd.Uint64(), text))
		}
		if more > 0 && p.Total() >= before+uint64(more) {
			more = 0
			enough <- struct{}{}
		}
		return true
	})
}

// check compares the record with what was written, acknowledged and shown.
func (p *pusher) check(t *testing.T, reader *machine.Device, round int, whole bool) {
	t.Helper()
	for _, job := range p.jobs {
		got, want := kept(reader, job), p.Written[job]
		if len(got) > len(want) {
			t.Fatalf("round %d: treatment %s has %d entries, %d were written", round, job, len(got), len(want))
		}
		for i, line := range got {
			if !bytes.Equal(line, want[i]) {
				t.Fatalf("round %d: entry %d of %s is\n%s\nwas written as\n%s", round, i+1, job, line, want[i])
			}
		}
		if n := uint64(len(got)); n < p.Acked[job] || whole && n != uint64(len(want)) {
			t.Fatalf("round %d: treatment %s has %d entries, %d were acknowledged, %d written", round, job, n, p.Acked[job], len(want))
		}
	}
	logs := map[journal.ID][][]byte{}
	for _, e := range p.Shown {
		if logs[e.Job] == nil {
			logs[e.Job] = kept(reader, e.Job)
		}
		if e.N > uint64(len(logs[e.Job])) || !bytes.Equal(logs[e.Job][e.N-1], e.Line) {
			t.Fatalf("round %d: shown to another device, then lost: %s", round, e.Line)
		}
	}
	p.Shown = nil
}

// kept is the log of a treatment with one author; none while nothing of it
// was kept.
func kept(reader *machine.Device, job journal.ID) [][]byte {
	status, b := reader.Do("GET", "/api/treatments/"+job.String()+"/log.jsonl", nil)
	if status != http.StatusOK || len(b) == 0 {
		return nil
	}
	return bytes.Split(bytes.TrimSuffix(b, []byte("\n")), []byte("\n"))
}
