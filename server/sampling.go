package main

import (
	"fmt"
	"time"

	"sinkside/server/sample"
	"sinkside/server/studio"
	"sinkside/sync/journal"
)

// sampling adds and removes the sample studio.
type sampling struct {
	store  sample.Store
	intake studio.Intake
	// removed is told of treatments that are gone; nil for nobody.
	removed func(jobs []journal.ID)
}

// Add writes the sample as of now. Added twice it is there twice.
func (s sampling) Add() (treatments, entries int, err error) {
	es, err := sample.Entries(time.Now(), studio.Entropy)
	if err != nil {
		return 0, 0, err
	}
	verdicts, err := s.intake.Append(es)
	if err != nil {
		return 0, 0, fmt.Errorf("add the sample studio: %w", err)
	}
	jobs := map[journal.ID]bool{}
	for i, v := range verdicts {
		if v != journal.Stored {
			return 0, 0, fmt.Errorf("add the sample studio: entry %d of %s: %v", es[i].N, es[i].Job, v)
		}
		jobs[es[i].Job] = true
	}
	return len(jobs), len(es), nil
}

// Remove removes every treatment in which nobody but the sample's own devices wrote.
func (s sampling) Remove() (sample.Removal, error) {
	r, err := sample.Remove(s.store)
	if s.removed != nil && len(r.Removed) > 0 {
		s.removed(r.Removed)
	}
	return r, err
}
