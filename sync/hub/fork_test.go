package hub_test

import (
	"bytes"
	"fmt"
	"testing"

	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
)

func successorOf(n byte) host.Options {
	return host.Options{Successor: func(journal.ID) journal.ID { return dev(n) }}
}

func notes(t *testing.T, s *studio) map[string]journal.Entry {
	t.Helper()
	m := map[string]journal.Entry{}
	for _, e := range entriesOf(t, s.store) {
		if _, twice := m[text(e)]; twice {
			t.Errorf("note %s is there twice", text(e))
		}
		m[text(e)] = e
	}
	return m
}

func (d *device) note(t *testing.T, job journal.ID, n int) journal.Entry {
	t.Helper()
	return d.write(t, job, "note", fmt.Sprintf(`{"text":"note %d"}`, n))
}

// Law 2: a phone that was restored writes where it had written before. It goes
// on as its successor, nothing is lost, and the archive holds what was refused.
func TestARestoredPhoneGoesOnAsItsSuccessor(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.deviceWith(host.NewMemory(dev(1)), successorOf(11))
	a.connect(faults{})
	a.note(t, job(1), 1)
	a.until(t, "acknowledged", caughtUp)
	var backup *host.Memory
	a.Look(func(v host.View) { backup = v.Memory.Copy() })
	second := a.note(t, job(1), 2)
	a.until(t, "acknowledged", caughtUp)
	a.disconnect()

	a = s.deviceWith(backup, successorOf(11))
	refused := a.note(t, job(1), 3)
	follows := a.write(t, job(1), "amend", `{"of":"`+refused.Name.String()+`","over":[],"body":{},"why":"note 4"}`)
	a.note(t, job(2), 5) // another chain, which is not refused
	a.connect(faults{})
	if err := a.wait(); err != host.ErrSuccessor {
		t.Fatalf("session ended by %v", err)
	}
	a.connect(faults{})
	a.until(t, "all under the new id", func(v host.View) bool { return caughtUp(v) && has(second.Name)(v) })

	got := notes(t, s)
	if e := got["3"]; e.Dev != dev(11) || e.N != 1 || e.Was != refused.Name {
		t.Errorf("the refused note was issued again as %s", e.Line)
	}
	if e := got["5"]; e.Dev != dev(1) {
		t.Errorf("a note of a chain that was right was issued again: %s", e.Line)
	}
	aside := asideOf(t, s.store)
	if len(aside) != 2 || aside[refused.Name].N == 0 || aside[follows.Name].N == 0 {
		t.Errorf("%d entries in the archive, want the two that were refused", len(aside))
	}
	// What refers to a refused entry by its old name says the same as written.
	found := false
	for _, e := range entriesOf(t, s.store) {
		found = found || e.Was == follows.Name && bytes.Equal(e.Body, follows.Body)
	}
	if !found {
		t.Error("the amendment was not issued again as it was")
	}
}

// A phone restored to before it wrote anything new only gets its entries back.
func TestARestoredPhoneThatWroteNothingNewIsNoFork(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	a.connect(faults{})
	a.note(t, job(1), 1)
	a.until(t, "acknowledged", caughtUp)
	var backup *host.Memory
	a.Look(func(v host.View) { backup = v.Memory.Copy() })
	second := a.note(t, job(1), 2)
	a.until(t, "acknowledged", caughtUp)
	a.disconnect()
	a = s.deviceWith(backup, host.Options{})
	a.connect(faults{})
	a.until(t, "its own entry back", func(v host.View) bool { return caughtUp(v) && has(second.Name)(v) })
	third := a.note(t, job(1), 3)
	a.until(t, "goes on", caughtUp)
	if third.N != 3 || third.Prev != second.Name {
		t.Errorf("the next entry is %s", third.Line)
	}
}

// Two copies of a profile, both connected: they go along as one until both
// write at once.
func TestCopiesOfAProfileAreToldApart(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.deviceWith(host.NewMemory(dev(1)), successorOf(11))
	a.note(t, job(1), 1)
	var profile *host.Memory
	a.Look(func(v host.View) { profile = v.Memory.Copy() })
	b := s.deviceWith(profile, successorOf(12))
	a.note(t, job(1), 2)
	b.note(t, job(1), 3)
	a.connect(faults{})
	a.until(t, "a acknowledged", caughtUp)
	b.connect(faults{})
	if err := b.wait(); err != host.ErrSuccessor {
		t.Fatalf("session ended by %v", err)
	}
	b.connect(faults{})
	all := func(v host.View) bool { return caughtUp(v) && total(v.Memory) == 3 }
	b.until(t, "b holds all", all)
	a.until(t, "a holds all", all)
	got := notes(t, s)
	if got["1"].Dev != dev(1) || got["2"].Dev != dev(1) || got["3"].Dev != dev(12) {
		t.Errorf("authors are %s, %s, %s", got["1"].Dev, got["2"].Dev, got["3"].Dev)
	}
}

// Without a successor the device says that it needs one, and keeps everything.
func TestAForkWaitsForItsSuccessor(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	var profile *host.Memory
	a.Look(func(v host.View) { profile = v.Memory.Copy() })
	b := s.deviceWith(profile, host.Options{})
	a.note(t, job(1), 1)
	a.connect(faults{})
	a.until(t, "acknowledged", caughtUp)
	b.note(t, job(1), 2)
	b.note(t, job(2), 3)
	b.connect(faults{})
	b.until(t, "told of the fork", func(v host.View) bool { return v.Status.Forked && v.Status.Unsent == 1 })
	b.note(t, job(2), 4)
	b.Look(func(v host.View) {
		if v.Status.Unsent != 2 {
			t.Errorf("unsent %d, want what was refused and what was written since", v.Status.Unsent)
		}
	})
	if got := notes(t, s); len(got) != 2 || got["3"].Name.IsZero() {
		t.Errorf("the studio holds %d notes, want the first and the one of the right chain", len(got))
	}
}

// An entry that is refused a second time keeps a name that is known.
func TestRedraftLeadsFirstNamesOn(t *testing.T) {
	first := entries(t, job(1), dev(1), journal.Head{}, "note 1")
	heads := map[journal.ID]journal.Head{}
	second, err := link.Reissue(first, dev(2), heads)
	if err != nil {
		t.Fatal(err)
	}
	refers, err := journal.Write(journal.Draft{Job: job(1), At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: "strike", BV: 1,
		Body: []byte(`{"of":"` + first[0].Name.String() + `","why":"taken back"}`)}, dev(2), heads[job(1)], journal.At(5))
	if err != nil {
		t.Fatal(err)
	}
	third, err := link.Reissue(append(second, refers), dev(3), map[journal.ID]journal.Head{})
	if err != nil {
		t.Fatal(err)
	}
	if third[0].Was != second[0].Name || !bytes.Contains(third[1].Body, []byte(second[0].Name.String())) {
		t.Errorf("a reference to a name that nobody knows: %s", third[1].Line)
	}
	if third[0].T != first[0].T || third[0].At != first[0].At || !bytes.Equal(third[0].Body, first[0].Body) {
		t.Errorf("issued again it says something else: %s", third[0].Line)
	}
}

// What a studio machine lost comes back from whoever holds it: from its author,
// and, by the receipt, from a device that does not know the author any more.
func TestARestoredStudioGetsItsEntriesBack(t *testing.T) {
	s := newStudio(t, memory.New())
	a, b := s.device(1), s.device(2)
	a.connect(faults{})
	b.connect(faults{})
	for i := range 300 {
		a.note(t, job(byte(1+i%2)), i)
	}
	a.until(t, "acknowledged", caughtUp)
	backup := copyStore(t, s.store)
	for i := range 300 {
		a.note(t, job(byte(1+i%3)), 1000+i)
	}
	closed := a.write(t, job(2), "close", `{}`)
	a.until(t, "acknowledged", caughtUp)
	b.until(t, "b holds all", func(v host.View) bool {
		sum, ok := v.Memory.Summaries[job(2)]
		return caughtUp(v) && has(closed.Name)(v) && ok && !sum.Open
	})
	want := headsOf(t, s.store)
	s.close()
	a.disconnect()
	b.disconnect()

	s.store = backup
	s.start()
	defer s.close()
	b.connect(faults{})
	b.until(t, "compared", func(v host.View) bool {
		return caughtUp(v) && len(v.Memory.Summaries) == 3 && !v.Memory.Summaries[job(2)].Open
	})
	c := s.device(3)
	c.Do(func(l *link.Link, m *host.Memory) {
		m.Opened = append(m.Opened, job(2))
		l.Open(job(2))
	})
	c.connect(faults{})
	c.until(t, "everything on a fresh device", func(v host.View) bool { return caughtUp(v) && total(v.Memory) == 601 })
	if got := headsOf(t, s.store); len(got) != len(want) {
		t.Errorf("%d chains came back, want %d", len(got), len(want))
	} else {
		for c, h := range want {
			if got[c] != h {
				t.Errorf("chain %v came back to %d, want %d", c, got[c].N, h.N)
			}
		}
	}
}
