package summary

import (
	"encoding/json"
	"fmt"
	"time"

	"sinkside/calc/dossier"
	"sinkside/store"
	"sinkside/sync/journal"
)

// bucket holds the records; the epoch stands with the machine's own records.
const (
	bucket      = "summary"
	epochBucket = "studio"
	epochKey    = "epoch"
)

const dayMS = 86_400_000

// record is what is kept of one treatment.
type record struct {
	Gen     uint64          `json:"gen"`
	Count   uint64          `json:"count"`
	FromDay int64           `json:"from_day"`
	ToDay   int64           `json:"to_day"`
	Removed bool            `json:"removed"`
	Summary json.RawMessage `json:"summary,omitempty"` // as devices get it

	open  bool
	dirty bool   // entries came that it was not made of
	kept  uint64 // Count as it stands on disk
}

func readRecord(key string, value []byte) (journal.ID, *record, error) {
	job, err := journal.ParseID(key)
	if err != nil {
		return job, nil, err
	}
	var r record
	if err := json.Unmarshal(value, &r); err != nil {
		return job, nil, err
	}
	r.kept = r.Count
	if !r.Removed {
		var s dossier.Summary
		if err := json.Unmarshal(r.Summary, &s); err != nil {
			return job, nil, err
		}
		r.open = s.Open
	}
	return job, &r, nil
}

func (r *record) change(job journal.ID) (store.Change, error) {
	value, err := json.Marshal(r)
	if err != nil {
		return store.Change{}, fmt.Errorf("write the summary of %s: %w", job, err)
	}
	return store.Change{Bucket: bucket, Key: job.String(), Value: value}, nil
}

// widen takes in when an entry happened by its own clock and when it was recorded, and tells
// whether the days grew. Corrections of clocks are the fold's business.
func (r *record) widen(e *journal.Entry) bool {
	days := span{r.FromDay, r.ToDay}
	days.include(e.T.WallMS())
	if at, err := time.Parse(time.RFC3339Nano, e.At); err == nil {
		days.include(at.UnixMilli())
	}
	grew := days != span{r.FromDay, r.ToDay}
	r.FromDay, r.ToDay = days.from, days.to
	return grew
}

// span is a run of days since 1970 (UTC); the zero span is empty.
type span struct{ from, to int64 }

func (s *span) include(ms int64) {
	day := ms / dayMS
	if *s == (span{}) {
		*s = span{day, day}
	}
	s.from, s.to = min(s.from, day), max(s.to, day)
}

// decides tells whether an entry of this kind can change a treatment's line by what it says. Of
// the others only the day can.
func decides(kind string) bool {
	switch kind {
	case "begin", "end", "reading", "note", "imported":
		return false
	}
	return true
}
