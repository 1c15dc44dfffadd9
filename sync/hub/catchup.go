package hub

import (
	"bytes"
	"crypto/sha256"
	"errors"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// progress is how far a device was sent a treatment, by device.
type progress struct {
	job  journal.ID
	sent map[journal.ID]uint64
}

// catchUp is the task of sending what a device lacks of treatments, until there
// is nothing left; from then on the session is live in them.
type catchUp struct {
	jobs map[journal.ID]map[journal.ID]uint64
	all  bool // what a Hello began: the shelf and all open treatments are in it
}

// catchUp begins to send what a device lacks of the treatments in known, which
// says what it holds of them.
func (s *session) catchUp(known []progress) {
	s.addTask(newCatchUp(known))
}

// catchUpAll begins to send what a device lacks of all that it follows. Of
// treatments that known does not name, it holds nothing.
func (s *session) catchUpAll(known []progress) {
	t := newCatchUp(known)
	t.all = true
	for _, id := range s.opened {
		if t.jobs[id] == nil {
			t.jobs[id] = map[journal.ID]uint64{}
		}
	}
	s.addTask(t)
}

func newCatchUp(known []progress) *catchUp {
	t := &catchUp{jobs: map[journal.ID]map[journal.ID]uint64{}}
	for _, p := range known {
		t.jobs[p.job] = p.sent
	}
	return t
}

// missing is a piece of a chain that the device lacks.
type missing struct {
	chain journal.Chain
	from  uint64
	to    uint64
}

func (t *catchUp) next(s *session) (wire.Frame, error) {
	todo, done := t.survey(s)
	if done {
		return nil, nil
	}
	var b wire.Batch
	for _, m := range todo {
		last, err := s.hub.read(&b, m)
		if err != nil {
			return nil, err
		}
		if last >= m.from {
			t.jobs[m.chain.Job][m.chain.Dev] = last
		}
		if last < m.to {
			break // the batch is full
		}
	}
	s.hub.signRuns(b.Runs)
	return &wire.Entries{Runs: b.Runs}, nil
}

// survey lists what is missing. When nothing is, the session becomes live in
// the same moment, and is told.
func (t *catchUp) survey(s *session) (todo []missing, done bool) {
	h := s.hub
	h.mu.Lock()
	defer h.mu.Unlock()
	if t.all {
		// More may have been opened meanwhile.
		for id := range h.jobs {
			if h.followed(id) && t.jobs[id] == nil && !s.live[id] {
				t.jobs[id] = map[journal.ID]uint64{}
			}
		}
	}
	for id, sent := range t.jobs {
		j := h.jobs[id]
		if j == nil {
			continue
		}
		for dev, head := range j.heads {
			if n := sent[dev]; n < head.N {
				todo = append(todo, missing{journal.Chain{Job: id, Dev: dev}, n + 1, head.N})
			}
		}
	}
	if len(todo) > 0 {
		return todo, false
	}
	caught := &wire.CaughtUp{}
	for id := range t.jobs {
		s.live[id] = true
	}
	if !t.all {
		caught.Jobs = sortedIDs(keys(t.jobs))
	}
	s.sendFrame(caught)
	return nil, true
}

func keys(m map[journal.ID]map[journal.ID]uint64) map[journal.ID]bool {
	out := make(map[journal.ID]bool, len(m))
	for id := range m {
		out[id] = true
	}
	return out
}

var errBatchFull = errors.New("batch full")

// read adds a piece of a chain to a batch and returns the last place that fit;
// from-1 when none did.
func (h *Hub) read(b *wire.Batch, m missing) (last uint64, err error) {
	last = m.from - 1
	err = h.cfg.Store.Range(m.chain, m.from, func(line []byte) error {
		if last == m.to {
			return errBatchFull
		}
		e := journal.Entry{Job: m.chain.Job, Dev: m.chain.Dev, N: last + 1, Line: bytes.Clone(line)}
		e.Name = sha256.Sum256(line)
		if !b.Add(m.chain, e) {
			return errBatchFull
		}
		last++
		return nil
	})
	if errors.Is(err, errBatchFull) {
		err = nil
	}
	return last, err
}

// signRuns gives each run the receipt for its last entry.
func (h *Hub) signRuns(runs []wire.Run) {
	for i := range runs {
		runs[i].Signed, runs[i].Sig = true, h.sign(runs[i].Head()).Sig
	}
}
