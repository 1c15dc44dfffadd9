package hub

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"slices"
	"sync"
	"time"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// summaries is one line about each treatment, and which of them changed when.
type summaries struct {
	// Guarded by Hub.mu.
	byJob      map[journal.ID]*summary
	generation wire.Generation
	epochs     epochs

	keeping sync.Mutex // one change of generation at a time

	mu    sync.Mutex
	dirty map[journal.ID][]journal.Entry
	wake  chan struct{}
}

// summary is the line about one treatment.
type summary struct {
	wire.Summary
	generation uint64
	// heads is the digest of the treatment's heads that it was derived from:
	// after a crash, one that lags behind the log is found by it.
	heads [32]byte
}

// encode writes the record of a summary: generation (8), flags (1), heads (32),
// text.
func (s *summary) encode() []byte {
	b := binary.BigEndian.AppendUint64(nil, s.generation)
	var flags byte
	if s.Open {
		flags |= 1
	}
	if s.Removed {
		flags |= 2
	}
	b = append(b, flags)
	b = append(b, s.heads[:]...)
	return append(b, s.Text...)
}

func decodeSummary(key string, b []byte) (*summary, error) {
	job, err := journal.ParseID(key)
	if err != nil || len(b) < 41 {
		return nil, fmt.Errorf("summary record %q is not one", key)
	}
	s := &summary{generation: binary.BigEndian.Uint64(b)}
	s.Job, s.Open, s.Removed = job, b[8]&1 != 0, b[8]&2 != 0
	copy(s.heads[:], b[9:])
	s.Text = bytes.Clone(b[41:])
	return s, nil
}

// loadSummaries reads the records and finds those that lag behind the log.
func (h *Hub) loadSummaries() error {
	s := &h.sums
	s.byJob = map[journal.ID]*summary{}
	s.dirty = map[journal.ID][]journal.Entry{}
	s.wake = make(chan struct{}, 1)
	err := h.cfg.Store.Each(bucketSummary, func(key string, value []byte) error {
		sum, err := decodeSummary(key, value)
		if err != nil {
			return err
		}
		s.byJob[sum.Job] = sum
		s.generation.N = max(s.generation.N, sum.generation)
		if j := h.jobs[sum.Job]; j != nil {
			j.open = sum.Open
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("read summaries: %w", err)
	}
	if err := h.beginEpoch(); err != nil {
		return err
	}
	for id := range h.jobs {
		if sum := s.byJob[id]; sum == nil || sum.heads != h.digest([]journal.ID{id}) {
			s.changed(id, nil)
		}
	}
	return nil
}

// changed notes that a treatment's summary is to be derived again.
func (s *summaries) changed(id journal.ID, added []journal.Entry) {
	if id == journal.Shelf {
		return
	}
	s.mu.Lock()
	s.dirty[id] = append(s.dirty[id], added...)
	s.mu.Unlock()
	s.again()
}

// again has what is dirty looked at.
func (s *summaries) again() {
	select {
	case s.wake <- struct{}{}:
	default:
	}
}

func (s *summaries) take() map[journal.ID][]journal.Entry {
	s.mu.Lock()
	defer s.mu.Unlock()
	dirty := s.dirty
	s.dirty = map[journal.ID][]journal.Entry{}
	return dirty
}

// summarising derives summaries a moment after a treatment changed. It keeps
// out of the way of entries: the second device has those already.
func (h *Hub) summarising() {
	settle := time.NewTimer(h.cfg.Settle)
	defer settle.Stop()
	for {
		select {
		case <-h.ctx.Done():
			return
		case <-h.sums.wake:
		}
		settle.Reset(h.cfg.Settle)
		select {
		case <-h.ctx.Done():
			return // what is dirty is found again by its heads
		case <-settle.C:
		}
		h.summarise()
	}
}

func (h *Hub) summarise() {
	dirty := h.sums.take()
	fresh := make([]*summary, 0, len(dirty))
	for id, added := range dirty {
		h.mu.Lock()
		heads := h.digest([]journal.ID{id})
		gone := h.jobs[id] == nil
		h.mu.Unlock()
		if gone {
			continue
		}
		sum, err := h.cfg.Summarise(id, added)
		if err == nil && len(sum.Text) > wire.MaxSummary {
			err = fmt.Errorf("text of %d bytes, at most %d", len(sum.Text), wire.MaxSummary)
		}
		if err != nil {
			h.report(journal.ID{}, "summarise "+id.String(), err)
			continue
		}
		fresh = append(fresh, &summary{Summary: wire.Summary{Job: id, Open: sum.Open, Text: sum.Text}, heads: heads})
	}
	h.keepSummaries(fresh)
}

// Forget takes a treatment out that the store has removed: a sample. Devices
// are told that it is gone.
func (h *Hub) Forget(id journal.ID) {
	h.mu.Lock()
	delete(h.jobs, id)
	for s := range h.sessions {
		delete(s.live, id)
	}
	h.mu.Unlock()
	h.keepSummaries([]*summary{{Summary: wire.Summary{Job: id, Removed: true}}})
}

// keepSummaries gives what changed the next generations, keeps them, and tells
// every device: in this order, or a generation could be given twice.
func (h *Hub) keepSummaries(fresh []*summary) {
	h.sums.keeping.Lock()
	defer h.sums.keeping.Unlock()
	h.mu.Lock()
	n := h.sums.generation.N
	// What was removed while it was being summarised stays removed.
	fresh = slices.DeleteFunc(fresh, func(sum *summary) bool { return !sum.Removed && h.jobs[sum.Job] == nil })
	for _, sum := range fresh {
		if old := h.sums.byJob[sum.Job]; old != nil && old.Open == sum.Open && old.Removed == sum.Removed && bytes.Equal(old.Text, sum.Text) {
			sum.generation = old.generation
			continue
		}
		n++
		sum.generation = n
	}
	h.mu.Unlock()

	kept := h.putSummaries(fresh)
	h.mu.Lock()
	defer h.mu.Unlock()
	changed := kept[:0]
	for _, sum := range kept {
		old := h.sums.byJob[sum.Job]
		h.sums.byJob[sum.Job] = sum
		if j := h.jobs[sum.Job]; j != nil {
			j.open = sum.Open
		}
		if old == nil || old.generation != sum.generation {
			changed = append(changed, sum)
		}
	}
	h.tellSummaries(changed)
}

// putSummaries keeps records, together so that they share an fsync, and returns
// those that were kept. The others are tried again when the store is well.
func (h *Hub) putSummaries(fresh []*summary) (kept []*summary) {
	errs := make([]error, len(fresh))
	slots := make(chan struct{}, 32)
	var wg sync.WaitGroup
	for i, sum := range fresh {
		slots <- struct{}{}
		wg.Go(func() {
			errs[i] = h.cfg.Store.Put(bucketSummary, sum.Job.String(), sum.encode())
			<-slots
		})
	}
	wg.Wait()
	for i, sum := range fresh {
		if errs[i] == nil {
			kept = append(kept, sum)
			continue
		}
		h.storeFailed(nil, "keep summary", errs[i])
		h.sums.mu.Lock()
		if _, waits := h.sums.dirty[sum.Job]; !waits {
			h.sums.dirty[sum.Job] = nil
		}
		h.sums.mu.Unlock()
	}
	return kept
}

// tellSummaries sends what changed to everyone who has the rest. Hub.mu is held.
func (h *Hub) tellSummaries(changed []*summary) {
	if len(changed) == 0 {
		return
	}
	for _, f := range h.summaryFrames(changed, false) {
		frame := share(f)
		for s := range h.sessions {
			if s.sumLive {
				s.send(frame)
			}
		}
	}
}

// summaryFrames fills frames with summaries, oldest change first, and moves the
// generation on to the last. Hub.mu is held.
func (h *Hub) summaryFrames(sums []*summary, reset bool) []*wire.Summaries {
	slices.SortFunc(sums, func(a, b *summary) int { return int(a.generation) - int(b.generation) })
	f := &wire.Summaries{Reset: reset, Generation: wire.Generation{Epoch: h.sums.generation.Epoch}}
	out := []*wire.Summaries{f}
	size := 0
	for _, sum := range sums {
		if size > 0 && size+len(sum.Text) > wire.MaxBatch {
			f = &wire.Summaries{Generation: f.Generation}
			out = append(out, f)
			size = 0
		}
		f.Items = append(f.Items, sum.Summary)
		f.Generation.N = sum.generation
		size += len(sum.Text) + 24
	}
	h.sums.generation.N = max(h.sums.generation.N, f.Generation.N)
	return out
}

// welcomeSummaries begins to send the summaries that changed since a device's
// generation. Hub.mu is held.
func (s *session) welcomeSummaries(theirs wire.Generation) {
	switch sums := &s.hub.sums; {
	case !sums.gave(theirs):
		s.addTask(&sendSummaries{reset: true})
	case theirs.N == sums.generation.N:
		s.sumLive = true
	default:
		s.addTask(&sendSummaries{since: theirs.N})
	}
}

// sendSummaries is the task of sending the summaries that changed since.
type sendSummaries struct {
	since uint64
	reset bool
}

func (t *sendSummaries) next(s *session) (wire.Frame, error) {
	h := s.hub
	h.mu.Lock()
	defer h.mu.Unlock()
	var sums []*summary
	for _, sum := range h.sums.byJob {
		if sum.generation > t.since {
			sums = append(sums, sum)
		}
	}
	if len(sums) == 0 && !t.reset {
		s.sumLive = true
		return nil, nil
	}
	f := h.summaryFrames(sums, t.reset)[0]
	if len(f.Items) == 0 {
		f.Generation = h.sums.generation
	}
	t.since, t.reset = f.Generation.N, false
	return f, nil
}
