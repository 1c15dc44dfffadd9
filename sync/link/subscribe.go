package link

import (
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// Open follows a treatment that a person opened although it is closed. Its log
// comes when there is a connection; Effects.CaughtUp says when it is whole.
func (l *Link) Open(job journal.ID) {
	l.opened[job] = true
	if l.phase >= Catching && !l.following[job] {
		l.subscribe(map[journal.ID]bool{job: true})
	}
}

// Close ends Open: the treatment stays in the log, and is followed no longer
// unless it is open.
func (l *Link) Close(job journal.ID) {
	delete(l.opened, job)
	if l.phase >= Catching && l.following[job] && !l.known[job] && job != journal.Shelf {
		delete(l.following, job)
		l.send(&wire.Unsubscribe{Jobs: []journal.ID{job}})
	}
}

// Dropped says that the host let go of a treatment's entries; of its own chain
// it must have kept the receipt. Nothing unsent may be dropped.
func (l *Link) Dropped(job journal.ID) {
	l.Close(job)
	for c, k := range l.chains {
		if c.Job == job {
			k.held = journal.Head{}
		}
	}
}

func (l *Link) subscribe(jobs map[journal.ID]bool) {
	for job := range jobs {
		l.following[job] = true
	}
	for _, p := range parts(l.heldOf(jobs)) {
		l.send(&wire.Subscribe{Held: p})
	}
}
