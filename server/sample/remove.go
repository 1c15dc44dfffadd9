package sample

import (
	"fmt"

	"sinkside/sync/journal"
)

// Store is what removing needs of the studio machine's store.
type Store interface {
	Jobs() ([]journal.ID, error)
	// RemoveIf removes a treatment when may says so of its heads, in one step.
	RemoveIf(job journal.ID, may func(heads []journal.ChainHead) bool) (removed bool, err error)
}

// Removal says what became of the sample treatments.
type Removal struct {
	Removed []journal.ID // held nothing but the sample's own entries
	Kept    []journal.ID // somebody wrote in it: a real record now
}

// Remove takes the sample out of the store. Doing it twice does nothing more.
func Remove(s Store) (Removal, error) {
	var r Removal
	jobs, err := s.Jobs()
	if err != nil {
		return r, fmt.Errorf("list treatments: %w", err)
	}
	for _, job := range jobs {
		var ours, others int
		removed, err := s.RemoveIf(job, func(heads []journal.ChainHead) bool {
			ours, others = authors(heads)
			return ours > 0 && others == 0
		})
		switch {
		case err != nil:
			return r, fmt.Errorf("remove treatment %s: %w", job, err)
		case removed:
			r.Removed = append(r.Removed, job)
		case ours > 0:
			r.Kept = append(r.Kept, job)
		}
	}
	return r, nil
}

// authors counts the chains of sample devices and of all others.
func authors(heads []journal.ChainHead) (ours, others int) {
	for _, h := range heads {
		if IsDevice(h.Dev) {
			ours++
		} else {
			others++
		}
	}
	return ours, others
}
