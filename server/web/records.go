package web

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"time"

	"sinkside/calc/dossier"
	"sinkside/sync/journal"
)

// Records is what reading the log needs of the store.
type Records interface {
	Heads(job journal.ID) ([]journal.ChainHead, error)
	Range(c journal.Chain, from uint64, f func(line []byte) error) error
}

// Days knows in which treatments something happened on a day, so that the others need not be read:
// days since 1970 (UTC), both included. It may name too many.
type Days interface {
	Between(from, to int64) ([]journal.ID, error)
}

// treatment is one treatment read whole: its entries as written, and what they fold to.
type treatment struct {
	sum     dossier.Summary
	dossier *dossier.Dossier
	lines   map[string][]byte // by entry name
}

// readTreatment reads and folds one treatment. It is nil when the store has no entry of it.
func readTreatment(records Records, job journal.ID) (*treatment, error) {
	heads, err := records.Heads(job)
	if err != nil {
		return nil, fmt.Errorf("read treatment %s: %w", job, err)
	}
	if len(heads) == 0 {
		return nil, nil
	}
	t := &treatment{dossier: dossier.New(job), lines: map[string][]byte{}}
	for _, h := range heads {
		err := records.Range(h.Chain, 1, func(line []byte) error {
			e, err := journal.Parse(bytes.Clone(line))
			if err != nil {
				return err
			}
			t.dossier.Add(e)
			t.lines[e.Name.String()] = e.Line
			return nil
		})
		if err != nil {
			return nil, fmt.Errorf("read chain of %s in treatment %s: %w", h.Dev, job, err)
		}
	}
	t.sum = dossier.Summarise(t.dossier.State())
	return t, nil
}

// rows are the treatment's entries in the order in which they were recorded.
func (t *treatment) rows() []logRow {
	lines := t.dossier.Log(0, t.dossier.Len())
	rows := make([]logRow, len(lines))
	for i, l := range lines {
		rows[i] = logRow{t.sum, l}
	}
	return rows
}

// dayRows gathers the entries that happened on a day, "2026-03-04", of all treatments in the order
// in which they happened. The day is the author's own: the corrected time in the offset that the
// entry was written with. What was entered late belongs to the day on which it happened. lines
// holds the entries as written, by name.
func dayRows(records Records, days Days, day string) (rows []logRow, lines map[string][]byte, err error) {
	date, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return nil, nil, err
	}
	// An author's day begins up to fourteen hours before or after that of UTC, and a clock's
	// correction may move an entry by one more.
	middle := date.Unix() / (24 * 60 * 60)
	jobs, err := days.Between(middle-2, middle+2)
	if err != nil {
		return nil, nil, err
	}
	lines = map[string][]byte{}
	for _, job := range jobs {
		t, err := readTreatment(records, job)
		if err != nil {
			return nil, nil, err
		}
		if t == nil {
			continue // removed just now
		}
		for _, r := range t.rows() {
			if happened(r.line.At).Format(time.DateOnly) == day {
				rows = append(rows, r)
				lines[r.line.Entry] = t.lines[r.line.Entry]
			}
		}
	}
	slices.SortStableFunc(rows, func(a, b logRow) int {
		return cmp.Or(cmp.Compare(a.line.At.MS, b.line.At.MS), cmp.Compare(a.line.At.RecordedMS, b.line.At.RecordedMS),
			cmp.Compare(a.line.Entry, b.line.Entry))
	})
	return rows, lines, nil
}
