package link

import "sinkside/sync/wire"

// Arm says whether this device would ring. The studio machine is told now, and
// again in each session; one of an earlier version does not count.
func (l *Link) Arm(armed bool) {
	if l.armed == armed {
		return
	}
	l.armed = armed
	if l.phase >= Catching {
		l.tellArmed()
	}
}

func (l *Link) tellArmed() {
	if l.rings {
		l.send(&wire.Armed{Armed: l.armed})
	}
}
