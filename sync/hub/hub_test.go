package hub_test

import (
	"testing"

	"sinkside/store/memory"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
)

func TestAnEntryReachesTheOtherDevice(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a, b := s.device(1), s.device(2)
	a.connect(faults{})
	b.connect(faults{})
	b.until(t, "b caught up", caughtUp)
	e := a.write(t, job(1), "open", `{"name":"Child's quilted bonnet"}`)
	a.until(t, "acknowledged", caughtUp)
	b.until(t, "entry on b", has(e.Name))
	b.until(t, "receipt on b", func(v host.View) bool { return v.Memory.Receipts[e.Chain()].Name == e.Name })
	b.until(t, "summary on b", func(v host.View) bool { return v.Memory.Summaries[job(1)].Open })

	c := s.device(3)
	c.connect(faults{})
	c.until(t, "c caught up", func(v host.View) bool { return caughtUp(v) && has(e.Name)(v) })
}

func TestAClosedTreatmentComesWhenOpened(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	a.connect(faults{})
	a.write(t, job(1), "open", `{"name":"Harbour-office signal flag"}`)
	closed := a.write(t, job(1), "close", `{}`)
	a.until(t, "closed", func(v host.View) bool {
		sum, ok := v.Memory.Summaries[job(1)]
		return ok && !sum.Open && v.Status.Unsent == 0
	})
	b := s.device(2)
	b.connect(faults{})
	b.until(t, "caught up", caughtUp)
	b.Look(func(v host.View) {
		if has(closed.Name)(v) {
			t.Error("a closed treatment came unasked")
		}
	})
	b.Do(func(l *link.Link, _ *host.Memory) { l.Open(job(1)) })
	b.until(t, "opened one", func(v host.View) bool { return v.CaughtUp[job(1)] && has(closed.Name)(v) })
	late := a.write(t, job(1), "note", `{"text":"frame returned"}`)
	b.until(t, "what is new of it", has(late.Name))

	// Opened again, it comes to those who did not ask.
	c := s.device(3)
	c.connect(faults{})
	c.until(t, "caught up", caughtUp)
	a.write(t, job(1), "reopen", `{}`)
	c.until(t, "reopened one", func(v host.View) bool { return has(late.Name)(v) && v.Memory.Summaries[job(1)].Open })
}
