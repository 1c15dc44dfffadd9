package summary

import (
	"bytes"
	"cmp"
	"context"
	"crypto/rand"
	"encoding/binary"
	"fmt"
	"slices"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"sinkside/store"
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Store is what the keeper needs of the studio machine's store.
type Store interface {
	AllHeads(f func(journal.ChainHead) error) error
	Heads(job journal.ID) ([]journal.ChainHead, error)
	Range(c journal.Chain, from uint64, f func(line []byte) error) error
	Get(bucket, key string) ([]byte, bool, error)
	Put(bucket, key string, value []byte) error
	Change(cs ...store.Change) error
	Each(bucket string, f func(key string, value []byte) error) error
}

// Keeper keeps the summaries. It is safe for concurrent use.
type Keeper struct {
	store Store
	log   zerolog.Logger

	work chan struct{} // has one element when something is dirty

	renewing sync.Mutex // held through a round of folding

	mu      sync.Mutex
	now     wire.Generation
	records map[journal.ID]*record
	changed func() // told of each new generation; nil for nobody
}

// pause is the time between two rounds of folding, so that a busy treatment is folded a few times
// a second at most. The first change after a quiet time does not wait.
const pause = 250 * time.Millisecond

// Open reads the summaries and finds out which ones the server's last stop left stale. Run makes
// those anew.
func Open(st Store, log zerolog.Logger) (*Keeper, error) {
	k := &Keeper{store: st, log: log, work: make(chan struct{}, 1), records: map[journal.ID]*record{}}
	if err := k.readEpoch(); err != nil {
		return nil, err
	}
	err := st.Each(bucket, func(key string, value []byte) error {
		job, r, err := readRecord(key, value)
		if err != nil {
			return fmt.Errorf("summary %s: %w", key, err)
		}
		k.records[job] = r
		k.now.N = max(k.now.N, r.Gen)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read the summaries: %w", err)
	}
	return k, k.findStale()
}

func (k *Keeper) readEpoch() error {
	value, ok, err := k.store.Get(epochBucket, epochKey)
	if err == nil && (!ok || len(value) != 8) {
		value = make([]byte, 8)
		_, _ = rand.Read(value) // never fails, by its documentation
		err = k.store.Put(epochBucket, epochKey, value)
	}
	if err != nil {
		return fmt.Errorf("read the epoch of the summaries: %w", err)
	}
	k.now.Epoch = binary.BigEndian.Uint64(value)
	return nil
}

// findStale compares what each summary was made of with what the store holds.
func (k *Keeper) findStale() error {
	counts := map[journal.ID]uint64{}
	err := k.store.AllHeads(func(h journal.ChainHead) error {
		if h.Job != journal.Shelf {
			counts[h.Job] += h.N
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("read the heads of the chains: %w", err)
	}
	for job, count := range counts {
		r := k.records[job]
		if r == nil {
			r = &record{open: true}
			k.records[job] = r
		}
		if r.Count != count {
			k.soil(r)
		}
	}
	for job, r := range k.records {
		if counts[job] == 0 && !r.Removed {
			k.soil(r)
		}
	}
	return nil
}

func (k *Keeper) soil(r *record) {
	r.dirty = true
	select {
	case k.work <- struct{}{}:
	default:
	}
}

// OnChange names who is told of each new generation. It must return at once and be set before Run.
func (k *Keeper) OnChange(f func()) { k.changed = f }

// Took is told of entries after they were stored.
func (k *Keeper) Took(es []journal.Entry) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for i := range es {
		e := &es[i]
		if e.Job == journal.Shelf {
			continue
		}
		r := k.records[e.Job]
		isNew := r == nil || r.Removed
		if isNew {
			r = &record{Gen: genOf(r), open: true}
			k.records[e.Job] = r
		}
		r.Count++
		if grew := r.widen(e); grew || isNew || decides(e.Kind) {
			k.soil(r)
		}
	}
}

func genOf(r *record) uint64 {
	if r == nil {
		return 0
	}
	return r.Gen
}

// Removed is told of sample treatments after they were removed.
func (k *Keeper) Removed(jobs []journal.ID) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, job := range jobs {
		if r := k.records[job]; r != nil {
			k.soil(r)
		}
	}
}

// Generation is the state of the summaries now.
func (k *Keeper) Generation() wire.Generation {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.now
}

// Since returns what changed after generation g, oldest change first; all of them, marked so, when
// g means nothing here.
func (k *Keeper) Since(g wire.Generation) wire.Summaries {
	k.mu.Lock()
	defer k.mu.Unlock()
	out := wire.Summaries{Generation: k.now}
	if g.Epoch != k.now.Epoch || g.N > k.now.N {
		out.Reset, g.N = true, 0
	}
	type change struct {
		gen uint64
		wire.Summary
	}
	var changes []change
	for job, r := range k.records {
		if r.Gen <= g.N || r.Removed && out.Reset {
			continue
		}
		s := wire.Summary{Job: job, Removed: r.Removed}
		if !r.Removed {
			s.Open, s.Text = r.open, r.Summary
		}
		changes = append(changes, change{r.Gen, s})
	}
	slices.SortFunc(changes, func(a, b change) int {
		return cmp.Or(cmp.Compare(a.gen, b.gen), bytes.Compare(a.Job[:], b.Job[:]))
	})
	for _, c := range changes {
		out.Items = append(out.Items, c.Summary)
	}
	return out
}

// IsOpen tells whether a treatment is open; one that was never heard of is not.
func (k *Keeper) IsOpen(job journal.ID) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	r := k.records[job]
	return r != nil && r.open && !r.Removed
}

// OpenJobs returns the open treatments, sorted.
func (k *Keeper) OpenJobs() []journal.ID {
	return k.jobs(func(r *record) bool { return r.open && !r.Removed })
}

// Between returns the treatments in which something happened on a day from from to to, days since
// 1970 (UTC), sorted. It may name a few too many, never one too few.
func (k *Keeper) Between(from, to int64) []journal.ID {
	return k.jobs(func(r *record) bool { return !r.Removed && (r.dirty || r.FromDay <= to && r.ToDay >= from) })
}

func (k *Keeper) jobs(want func(*record) bool) []journal.ID {
	k.mu.Lock()
	defer k.mu.Unlock()
	var out []journal.ID
	for job, r := range k.records {
		if want(r) {
			out = append(out, job)
		}
	}
	slices.SortFunc(out, func(a, b journal.ID) int { return bytes.Compare(a[:], b[:]) })
	return out
}

// Run makes stale summaries anew until ctx ends.
func (k *Keeper) Run(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-k.work:
		}
		if err := k.Renew(); err != nil {
			k.log.Error().Err(err).Msg("could not bring the summaries up to date; trying again")
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(pause):
		}
	}
}
