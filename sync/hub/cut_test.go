package hub_test

import (
	"testing"

	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/link/host"
)

// A connection that is cut at any byte of any frame, either way, loses nothing
// and doubles nothing.
func TestACutAtAnyByte(t *testing.T) {
	story := func(cut int) (bytes int) {
		s := newStudio(t, memory.New())
		defer s.close()
		if _, err := s.hub.Add(entries(t, job(1), dev(9), journal.Head{}, "note 1", "note 2")); err != nil {
			t.Fatal(err)
		}
		a := s.device(1)
		a.note(t, job(1), 3)
		a.note(t, job(2), 4)
		near, far := pipe(faults{cutAfter: cut})
		a.connectOver(near, far)
		a.until(t, "cut or done", func(v host.View) bool {
			return v.Status.Phase == 0 || caughtUp(v) && total(v.Memory) == 4 && len(v.Memory.Summaries) == 2
		})
		a.disconnect()
		near.st.mu.Lock()
		bytes = near.st.bytes
		near.st.mu.Unlock()
		a.connect(faults{})
		a.until(t, "everything", func(v host.View) bool { return caughtUp(v) && total(v.Memory) == 4 })
		a.disconnect()
		if n := len(notes(t, s)); n != 4 {
			t.Fatalf("cut after %d bytes: the studio holds %d notes", cut, n)
		}
		return bytes
	}
	whole := story(0)
	for cut := 1; cut < whole+200; cut++ {
		story(cut)
	}
}
