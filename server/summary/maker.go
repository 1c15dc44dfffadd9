package summary

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"sync"

	"sinkside/calc/dossier"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Store is what a Maker needs of the studio machine's store.
type Store interface {
	Jobs() ([]journal.ID, error)
	Heads(job journal.ID) ([]journal.ChainHead, error)
	Range(c journal.Chain, from uint64, f func(line []byte) error) error
	Put(bucket, key string, value []byte) error
	Delete(bucket, key string) error
	Each(bucket string, f func(key string, value []byte) error) error
}

const bucket = "days"

// Maker makes summaries. It is safe for concurrent use, as long as one Summarise runs at a time.
type Maker struct {
	store Store

	mu    sync.Mutex
	lines map[journal.ID]line
}

// line is what is known of one treatment.
type line struct {
	days span
	hub.Summary
	made bool // Summary is the one that follows from all entries told of
}

// NewMaker reads on which days something happened; it folds nothing.
func NewMaker(st Store) (*Maker, error) {
	m := &Maker{store: st, lines: map[journal.ID]line{}}
	err := st.Each(bucket, func(key string, value []byte) error {
		job, err := journal.ParseID(key)
		var days span
		if err == nil {
			err = json.Unmarshal(value, &days)
		}
		if err != nil {
			return fmt.Errorf("days of %s: %w", key, err)
		}
		m.lines[job] = line{days: days}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read the days of the treatments: %w", err)
	}
	return m, nil
}

// Summarise returns a treatment's line after added was stored, as the hub asks for it. With added
// nil it folds whatever the store holds.
func (m *Maker) Summarise(job journal.ID, added []journal.Entry) (hub.Summary, error) {
	old := m.line(job)
	if old.made && added != nil && !old.changedBy(added) {
		return old.Summary, nil
	}
	l, err := m.fold(job)
	if err != nil {
		return hub.Summary{}, err
	}
	if l.days != old.days {
		if err := m.keepDays(job, l.days); err != nil {
			return hub.Summary{}, err
		}
	}
	m.mu.Lock()
	m.lines[job] = l
	m.mu.Unlock()
	return l.Summary, nil
}

func (m *Maker) line(job journal.ID) line {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.lines[job]
}

// changedBy tells whether entries can change the line: by what they say, or by their day.
func (l line) changedBy(added []journal.Entry) bool {
	days := l.days
	for i := range added {
		days.take(&added[i])
		switch added[i].Kind {
		case "begin", "end", "reading", "note", "imported":
		default:
			return true
		}
	}
	return days != l.days
}

func (m *Maker) fold(job journal.ID) (line, error) {
	l := line{made: true}
	heads, err := m.store.Heads(job)
	if err != nil {
		return l, fmt.Errorf("read treatment %s: %w", job, err)
	}
	d := dossier.New(job)
	for _, h := range heads {
		err := m.store.Range(h.Chain, 1, func(text []byte) error {
			e, err := journal.Parse(bytes.Clone(text))
			if err == nil {
				d.Add(e)
				l.days.take(&e)
			}
			return err
		})
		if err != nil {
			return l, fmt.Errorf("read treatment %s: %w", job, err)
		}
	}
	for _, entry := range d.Log(0, d.Len()) {
		l.days.include(entry.At.MS)
		l.days.include(entry.At.RecordedMS)
	}
	sum := dossier.Summarise(d.State())
	l.Open, l.Text = sum.Open, text(sum)
	return l, nil
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

func (m *Maker) keepDays(job journal.ID, days span) error {
	value, err := json.Marshal(days)
	if err == nil {
		err = m.store.Put(bucket, job.String(), value)
	}
	if err != nil {
		return fmt.Errorf("keep the days of %s: %w", job, err)
	}
	return nil
}

// Forget drops what is known of a treatment that was removed.
func (m *Maker) Forget(job journal.ID) error {
	m.mu.Lock()
	delete(m.lines, job)
	m.mu.Unlock()
	if err := m.store.Delete(bucket, job.String()); err != nil {
		return fmt.Errorf("forget the days of %s: %w", job, err)
	}
	return nil
}

// Gone returns the treatments that had a line and are no longer in the store: samples that a
// command removed while no server ran, or that one removed just before it was killed.
func (m *Maker) Gone() ([]journal.ID, error) {
	jobs, err := m.store.Jobs()
	if err != nil {
		return nil, fmt.Errorf("list treatments: %w", err)
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	var gone []journal.ID
	for job := range m.lines {
		if _, there := slices.BinarySearchFunc(jobs, job, compare); !there {
			gone = append(gone, job)
		}
	}
	slices.SortFunc(gone, compare)
	return gone, nil
}

func compare(a, b journal.ID) int { return bytes.Compare(a[:], b[:]) }

// Between returns the treatments in which something happened on a day from from to to, days since
// 1970 (UTC), sorted. It may name a few too many, never one too few, as far as the hub has asked
// for lines: what arrived in the last fraction of a second can be missing.
func (m *Maker) Between(from, to int64) ([]journal.ID, error) {
	jobs, err := m.store.Jobs()
	if err != nil {
		return nil, fmt.Errorf("list treatments: %w", err)
	}
	return slices.DeleteFunc(jobs, func(job journal.ID) bool {
		days := m.line(job).days
		return job == journal.Shelf || days != (span{}) && (days.From > to || days.To < from)
	}), nil
}
