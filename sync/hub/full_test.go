package hub_test

import (
	"errors"
	"slices"
	"testing"

	"sinkside/store"
	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

// A full disk: nothing is acknowledged, everyone is told, the phone keeps its
// entries and sends them by itself once there is room.
func TestAFullDiskIsSaidAndWaitedOut(t *testing.T) {
	for name, c := range map[string]struct {
		err    error
		notice string
	}{
		"full":   {store.ErrFull, wire.NoticeDiskFull},
		"broken": {errors.New("input/output error"), wire.NoticeStoreFails},
	} {
		t.Run(name, func(t *testing.T) {
			s := newStudio(t, memory.New())
			defer s.close()
			a, b := s.device(1), s.device(2)
			a.connect(faults{})
			b.connect(faults{})
			a.until(t, "a on", caughtUp)
			b.until(t, "b on", caughtUp)
			s.store.Fail(c.err)
			e := a.note(t, job(1), 1)
			told := func(v host.View) bool { return v.Status.Full && slices.Contains(v.Notices, c.notice) }
			a.until(t, "the writer is told", told)
			b.until(t, "the others are told", told)
			a.note(t, job(1), 2)
			a.Look(func(v host.View) {
				if v.Status.Unsent != 2 {
					t.Errorf("unsent %d, want both", v.Status.Unsent)
				}
			})
			late := s.device(3)
			late.connect(faults{})
			late.until(t, "who comes later is told", told)
			s.store.Fail(nil)
			a.until(t, "acknowledged by itself", func(v host.View) bool { return v.Status.Unsent == 0 && !v.Status.Full })
			b.until(t, "there for others", func(v host.View) bool { return has(e.Name)(v) && !v.Status.Full })
			if n := len(notes(t, s)); n != 2 {
				t.Errorf("%d notes stored, want 2", n)
			}
			if !s.reported(c.err) {
				t.Errorf("the log was not told of %v", c.err)
			}
		})
	}
}

// The archive of refused branches fills up too: then nothing is refused either,
// and the branch comes again.
func TestAForkOnAFullDiskIsKeptAsideLater(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	var profile *host.Memory
	a.Look(func(v host.View) { profile = v.Memory.Copy() })
	b := s.deviceWith(profile, successorOf(11))
	a.note(t, job(1), 1)
	a.connect(faults{})
	a.until(t, "acknowledged", caughtUp)
	s.store.Fail(store.ErrFull)
	refused := b.note(t, job(1), 2)
	b.connect(faults{})
	b.until(t, "told that it is full", func(v host.View) bool { return v.Status.Full })
	s.store.Fail(nil)
	if err := b.wait(); err != host.ErrSuccessor {
		t.Fatalf("session ended by %v", err)
	}
	if _, kept := asideOf(t, s.store)[refused.Name]; !kept {
		t.Error("the refused note is not in the archive")
	}
}

// A studio machine that starts on a full disk serves what it has, and says so.
func TestStartingOnAFullDisk(t *testing.T) {
	st := memory.New()
	if _, err := st.Append(entries(t, job(1), dev(9), journal.Head{}, "note 1")); err != nil {
		t.Fatal(err)
	}
	st.Fail(store.ErrFull)
	s := newStudio(t, st)
	defer s.close()
	a := s.device(1)
	a.connect(faults{})
	a.until(t, "told", func(v host.View) bool { return v.Status.Full })
	st.Fail(nil)
	a.until(t, "all there", func(v host.View) bool { return caughtUp(v) && !v.Status.Full && total(v.Memory) == 1 })
}
