package summary

import (
	"bytes"
	"errors"
	"fmt"

	"sinkside/calc/dossier"
	"sinkside/store"
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// batch is how many treatments are folded before their lines are written down: enough to share an
// fsync, few enough to stay small in memory.
const batch = 64

// Renew makes every stale summary anew and writes down those that changed. What fails stays stale.
func (k *Keeper) Renew() error {
	k.renewing.Lock()
	defer k.renewing.Unlock()
	for {
		dirty := k.takeDirty()
		if len(dirty) == 0 {
			return nil
		}
		if err := k.renew(dirty); err != nil {
			k.giveBack(dirty)
			return err
		}
	}
}

func (k *Keeper) renew(jobs []journal.ID) error {
	all := make([]made, 0, len(jobs))
	for _, job := range jobs {
		m, err := k.fold(job)
		if err != nil {
			return err
		}
		all = append(all, m)
	}
	return k.keep(all)
}

// made is a treatment's line as it follows from the store, and what it was made of.
type made struct {
	job   journal.ID
	count int
	text  []byte
	open  bool
	days  span
}

func (k *Keeper) takeDirty() []journal.ID {
	dirty := k.jobs(func(r *record) bool { return r.dirty })
	dirty = dirty[:min(len(dirty), batch)]
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, job := range dirty {
		k.records[job].dirty = false
	}
	return dirty
}

func (k *Keeper) giveBack(jobs []journal.ID) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, job := range jobs {
		k.soil(k.records[job])
	}
}

// fold reads a treatment from the store. It holds no lock, so entries may come meanwhile; they
// soil the record again.
func (k *Keeper) fold(job journal.ID) (made, error) {
	m := made{job: job}
	heads, err := k.store.Heads(job)
	if err != nil {
		return m, fmt.Errorf("read treatment %s: %w", job, err)
	}
	d := dossier.New(job)
	for _, h := range heads {
		err := k.store.Range(h.Chain, 1, func(line []byte) error {
			e, err := journal.Parse(bytes.Clone(line))
			d.Add(e)
			return err
		})
		if err != nil {
			return m, fmt.Errorf("read treatment %s: %w", job, err)
		}
	}
	if m.count = d.Len(); m.count == 0 {
		return m, nil
	}
	for _, l := range d.Log(0, d.Len()) {
		m.days.include(l.At.MS)
		m.days.include(l.At.RecordedMS)
	}
	sum := dossier.Summarise(d.State())
	m.open, m.text = sum.Open, text(sum)
	return m, nil
}

// text is the line as devices get it. A name of several thousand letters is cut to fit; the whole
// one stays in the treatment.
func text(sum dossier.Summary) []byte {
	b := sum.AppendJSON(nil)
	if len(b) > wire.MaxSummary {
		sum.Name, sum.Number = cut(sum.Name), cut(sum.Number)
		b = sum.AppendJSON(nil)
	}
	return b
}

// cut leaves at most 200 letters, which JSON writes in no more than 1,200 bytes.
func cut(s string) string {
	if letters := []rune(s); len(letters) > 200 {
		return string(letters[:199]) + "…"
	}
	return s
}

// keep writes down the lines, those that a device would see differently under the next generation.
// The lock is not held while the disk works: nobody who stores an entry waits for a summary.
func (k *Keeper) keep(all []made) error {
	k.mu.Lock()
	next := k.now.N
	changes := make([]store.Change, 0, len(all))
	var err error
	for _, m := range all {
		r := k.records[m.job]
		if r.update(m) {
			r.Gen = k.now.N + 1
		}
		next = max(next, r.Gen)
		c, e := r.change(m.job)
		changes, err = append(changes, c), errors.Join(err, e)
	}
	k.mu.Unlock()
	if err == nil {
		err = k.store.Change(changes...)
	}
	if err != nil {
		return fmt.Errorf("keep the summaries: %w", err)
	}
	k.announce(next)
	return nil
}

func (k *Keeper) announce(next uint64) {
	k.mu.Lock()
	isNew := next != k.now.N
	k.now.N = next
	k.mu.Unlock()
	if isNew && k.changed != nil {
		k.changed()
	}
}

// update puts what was made into the record and tells whether a device would see a difference.
func (r *record) update(m made) bool {
	r.Count, r.kept = uint64(m.count), uint64(m.count)
	if m.count == 0 {
		gone := !r.Removed
		*r = record{Gen: r.Gen, Removed: true}
		return gone
	}
	differs := r.Removed || !bytes.Equal(r.Summary, m.text)
	r.Summary, r.open, r.Removed = m.text, m.open, false
	r.FromDay, r.ToDay = m.days.from, m.days.to
	return differs
}

// Flush writes down how many entries stand behind each line, so that the next start finds nothing
// stale.
func (k *Keeper) Flush() error {
	if err := k.Renew(); err != nil {
		return err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	var changes []store.Change
	for job, r := range k.records {
		if r.Count == r.kept {
			continue
		}
		c, err := r.change(job)
		if err != nil {
			return err
		}
		changes = append(changes, c)
		r.kept = r.Count
	}
	if len(changes) == 0 {
		return nil
	}
	return k.store.Change(changes...)
}
