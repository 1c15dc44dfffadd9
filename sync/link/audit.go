package link

import (
	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// audit is one comparison of everything that is held here with a studio machine
// that is not the one known: restored from a backup, or set up anew. The digest
// of a Hello covers what is followed; a treatment that was closed, or that the
// other no longer knows at all, would not be missed by it.
//
// The new generation is not kept until the audit is through: a session that
// breaks before begins it again.
type audit struct {
	left       map[journal.ID]bool // treatments of which no answer came yet
	generation wire.Generation     // to be kept after
}

// beginAudit asks about every treatment that is held and not followed, unless
// no studio machine was known before.
func (l *Link) beginAudit() {
	if l.generation == (wire.Generation{}) || l.audit != nil {
		return
	}
	l.audit = &audit{left: map[journal.ID]bool{}}
	for c, k := range l.chains {
		if k.held.N > 0 && c.Job != journal.Shelf {
			l.audit.left[c.Job] = true
		}
	}
	if len(l.audit.left) > 0 {
		l.subscribe(l.audit.left)
	}
}

// audited takes an answer.
func (l *Link) audited(jobs []journal.ID) {
	if l.audit != nil {
		for _, job := range jobs {
			delete(l.audit.left, job)
		}
		l.endAudit()
	}
}

// endAudit ends it once everything was compared and has gone over.
func (l *Link) endAudit() {
	a := l.audit
	if a == nil || len(a.left) > 0 || len(l.wants) > 0 || len(l.returns) > 0 || len(l.inflight) > 0 || a.generation == (wire.Generation{}) {
		return
	}
	l.audit = nil
	l.reached(a.generation)
}

// reached takes in a generation of the summaries.
func (l *Link) reached(g wire.Generation) {
	if l.audit != nil {
		l.audit.generation = g
		l.endAudit()
		return
	}
	l.generation = g
	l.eff.Generation = &g
}
