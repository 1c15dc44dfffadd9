package hub_test

import (
	"testing"

	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

func (d *device) arm(armed bool) {
	d.Do(func(l *link.Link, _ *host.Memory) { l.Arm(armed) })
}

func ringers(n uint64) func(host.View) bool {
	return func(v host.View) bool { return v.Ringers == n }
}

func TestArmedDevicesAreCounted(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a, b := s.device(1), s.device(2)
	a.arm(true) // before there is a session
	a.connect(faults{})
	a.until(t, "its own arm is counted", ringers(1))
	b.connect(faults{})
	b.until(t, "a newcomer is told", ringers(1))
	b.arm(true)
	a.until(t, "two", ringers(2))
	b.until(t, "two", ringers(2))
	a.arm(false)
	b.until(t, "one", ringers(1))
	a.until(t, "one", ringers(1))
	b.disconnect()
	a.until(t, "a session that ended rings no more", ringers(0))
	b.connect(faults{})
	a.until(t, "it says so again when it is back", ringers(1))
}

func TestTwoTabsOfADeviceRingOnce(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	greet := &wire.Hello{Version: wire.Version, Dev: dev(1), Digest: journal.Digest(nil)}
	one, two := s.raw(t, dev(1)), s.raw(t, dev(1))
	one.send(greet, &wire.Armed{Armed: true})
	if f := expect[*wire.Ringers](one); f.Count != 1 {
		t.Errorf("one tab = %d ringers, want 1", f.Count)
	}
	two.send(greet, &wire.Armed{Armed: true})
	if f := expect[*wire.Ringers](two); f.Count != 1 {
		t.Errorf("two tabs = %d ringers, want 1", f.Count)
	}
	other := s.device(2)
	other.arm(true)
	other.connect(faults{})
	if f := expect[*wire.Ringers](two); f.Count != 2 {
		t.Errorf("two tabs and a device = %d ringers, want 2", f.Count)
	}
	_ = one.end.Close(1001, "")
	_ = one.ended()
	other.arm(false)
	if f := expect[*wire.Ringers](two); f.Count != 1 {
		t.Errorf("after one tab closed = %d ringers, want 1", f.Count)
	}
}

// A device of version 1 is told nothing that it would not know.
func TestAnOlderDeviceIsToldNothingOfRingers(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	a.arm(true)
	a.connect(faults{})
	a.until(t, "armed", ringers(1))
	r := s.raw(t, dev(2)).send(hello(dev(2)))
	if w := expect[*wire.Welcome](r); w.Version != 1 {
		t.Errorf("welcome of version %d, want 1", w.Version)
	}
	b := s.device(3)
	b.arm(true)
	b.connect(faults{})
	a.until(t, "two", ringers(2))
	e := a.write(t, job(1), "open", `{"name":"Child's quilted bonnet"}`)
	for {
		f := r.any()
		if f.Type() == wire.TypeRingers {
			t.Fatal("a device of version 1 was told of ringers")
		}
		if es, ok := f.(*wire.Entries); ok {
			if es.Runs[0].Head().Name != e.Name {
				t.Errorf("another entry came")
			}
			return
		}
	}
}
