package hub

import (
	"bytes"
	"fmt"
	"slices"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// commit is what one call of the store added, each chain in order.
type commit struct {
	entries []journal.Entry
	from    *session // nil: the studio machine itself
}

// commit queues what was stored for publishing. The device lock is held, so
// that a chain's commits queue in order.
func (h *Hub) commit(c commit) {
	h.mu.Lock()
	h.pending = append(h.pending, c)
	h.mu.Unlock()
	select {
	case h.wake <- struct{}{}:
	default:
	}
}

// Add stores entries that did not come from a device's session, such as a file
// that was imported, and publishes what was new. They go to the store in one
// call, whoever wrote them, so that what belongs together is kept together. It
// returns the store's verdicts.
func (h *Hub) Add(es []journal.Entry) ([]journal.Verdict, error) {
	var devs []journal.ID
	for i := range es {
		devs = append(devs, es[i].Dev)
	}
	slices.SortFunc(devs, func(a, b journal.ID) int { return bytes.Compare(a[:], b[:]) })
	for _, dev := range slices.Compact(devs) {
		defer h.devices.lock(dev)()
	}
	verdicts, err := h.cfg.Store.Append(es)
	if err != nil {
		return nil, fmt.Errorf("append: %w", err)
	}
	var fresh []journal.Entry
	for i, v := range verdicts {
		if v == journal.Stored {
			fresh = append(fresh, es[i])
		}
	}
	if len(fresh) > 0 {
		h.commit(commit{entries: fresh})
	}
	return verdicts, nil
}

// When many devices write at the same time, the hub gathers their commits for a
// moment before it publishes again, so that each device gets a few large frames
// instead of a thousand small ones. What one or two people write goes out at
// once.
const (
	manyCommits = 4
	gatherFor   = 4 * time.Millisecond
)

// publishing publishes commits until the hub closes. Those that wait together
// share their frames.
func (h *Hub) publishing() {
	for {
		select {
		case <-h.wake:
		case <-h.ctx.Done():
			h.publish()
			return
		}
		if h.publish() < manyCommits {
			continue
		}
		gather := time.NewTimer(gatherFor)
		select {
		case <-gather.C:
		case <-h.ctx.Done():
			gather.Stop()
		}
	}
}

// news is what is new of one treatment.
type news struct {
	job     journal.ID
	entries []journal.Entry
	from    *session // whose it is alone; nil when several wrote
	frames  []*shared
}

// publish publishes what waits, and returns how many commits that were.
func (h *Hub) publish() int {
	h.mu.Lock()
	commits := h.pending
	h.pending = nil
	byJob := gather(commits)
	for _, n := range byJob {
		if h.hasReader(n) {
			h.mu.Unlock()
			n.build(h)
			h.mu.Lock()
		}
	}
	for _, n := range byJob {
		h.deliver(n)
	}
	h.mu.Unlock()
	for _, n := range byJob {
		h.sums.changed(n.job, n.entries)
	}
	return len(commits)
}

func gather(commits []commit) []*news {
	var out []*news
	at := map[journal.ID]*news{}
	for _, c := range commits {
		for _, e := range c.entries {
			n := at[e.Job]
			if n == nil {
				n = &news{job: e.Job, from: c.from}
				at[e.Job] = n
				out = append(out, n)
			}
			if n.from != c.from {
				n.from = nil
			}
			n.entries = append(n.entries, e)
		}
	}
	return out
}

// build makes the frames, chain by chain, each run with its receipt.
func (n *news) build(h *Hub) {
	if n.frames != nil {
		return
	}
	byChain := slices.Clone(n.entries)
	slices.SortStableFunc(byChain, func(a, b journal.Entry) int { return a.Chain().Compare(b.Chain()) })
	var b wire.Batch
	flush := func() {
		h.signRuns(b.Runs)
		n.frames = append(n.frames, share(&wire.Entries{Runs: b.Runs}))
		b = wire.Batch{}
	}
	for _, e := range byChain {
		if !b.Add(e.Chain(), e) {
			flush()
			b.Add(e.Chain(), e)
		}
	}
	flush()
}

// hasReader says whether a session besides the author's will be sent this.
// Hub.mu is held.
func (h *Hub) hasReader(n *news) bool {
	fresh := h.isNew(n.job)
	for s := range h.sessions {
		if s != n.from && (s.live[n.job] || fresh && s.ready) {
			return true
		}
	}
	return false
}

// isNew says that nothing was published of a treatment yet.
func (h *Hub) isNew(id journal.ID) bool {
	j := h.jobs[id]
	return j == nil || len(j.heads) == 0
}

// deliver moves the published heads on and queues the frames for every session
// that is live in the treatment. A new treatment is open, and everyone who is
// connected has all there was of it: nothing. Hub.mu is held.
func (h *Hub) deliver(n *news) {
	fresh := h.isNew(n.job)
	j := h.job(n.job)
	if fresh {
		j.open = true
	}
	for _, e := range n.entries {
		if head := j.heads[e.Dev]; e.N == head.N+1 {
			j.heads[e.Dev] = journal.Head{N: e.N, Name: e.Name}
		}
	}
	for s := range h.sessions {
		if fresh && s.ready {
			s.live[n.job] = true
		}
		if !s.live[n.job] || s == n.from {
			continue
		}
		n.build(h)
		for _, f := range n.frames {
			s.send(f)
		}
	}
}
