package hub_test

import (
	"context"
	"fmt"
	"testing"

	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

// Nothing to do on reconnecting: one frame each way, below 200 bytes in all,
// whatever the size of the archive.
func TestReconnectingWithNothingToDo(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.device(1)
	for i := range 400 {
		a.note(t, job(byte(i%200)), i)
	}
	a.write(t, job(7), "close", `{}`)
	a.connect(faults{})
	a.until(t, "all there", func(v host.View) bool {
		return v.Status.Unsent == 0 && len(v.Memory.Summaries) == 200 && !v.Memory.Summaries[job(7)].Open
	})
	a.Do(func(l *link.Link, m *host.Memory) {
		l.Open(job(7))
		m.Opened = append(m.Opened, job(7))
	})
	a.until(t, "one opened", func(v host.View) bool { return v.CaughtUp[job(7)] })
	a.disconnect()

	// Over a restart of the studio machine and of the phone.
	s.close()
	s.start()
	var m *host.Memory
	a.Look(func(v host.View) { m = v.Memory.Copy() })
	a = s.deviceWith(m, host.Options{})
	near, far := pipe(faults{})
	a.connectOver(near, far)
	a.until(t, "same", func(v host.View) bool { return v.All })
	a.until(t, "nothing more follows", func(v host.View) bool { return v.Status.Phase == link.Live })
	near.st.mu.Lock()
	defer near.st.mu.Unlock()
	if near.st.messages != 2 || near.st.bytes >= 200 {
		t.Errorf("%d messages, %d bytes; want 2 below 200", near.st.messages, near.st.bytes)
	}
}

// Entries written meanwhile go right behind the hello: no round trip before
// they are safe.
func TestUnsentEntriesGoRightBehindHello(t *testing.T) {
	a := link.New(link.Config{Dev: dev(1)}, link.State{Unsent: entries(t, job(1), dev(1), journal.Head{}, "a", "b")})
	a.Start(0)
	fs := a.Take().Frames
	if len(fs) != 2 || wire.Type(fs[0].Bytes[0]) != wire.TypeHello || wire.Type(fs[1].Bytes[0]) != wire.TypePush {
		t.Errorf("%d frames behind the start", len(fs))
	}
}

// A log of several megabytes, to and from a device that cannot inflate.
func TestALargeLogCrossesInBoundedFrames(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a := s.deviceWith(host.NewMemory(dev(1)), host.Options{NoInflate: true})
	filler := fmt.Sprintf("%1500d", 0)
	var drafts []journal.Draft
	for i := range 2500 {
		drafts = append(drafts, journal.Draft{Job: job(byte(i % 3)), At: "2026-03-04T10:02:11+01:00", By: "IB", Kind: "note", BV: 1,
			Body: []byte(fmt.Sprintf(`{"text":"%s %d"}`, filler, i))})
	}
	if _, err := a.WriteAll(drafts); err != nil {
		t.Fatal(err)
	}
	a.connect(faults{}) // whose Read refuses messages over the limit
	a.until(t, "acknowledged", caughtUp)
	for _, o := range []host.Options{{}, {NoInflate: true}} {
		b := s.deviceWith(host.NewMemory(dev(2)), o)
		b.connect(faults{})
		b.until(t, "all there", func(v host.View) bool { return caughtUp(v) && total(v.Memory) == 2500 })
		b.disconnect()
	}
}

// A sample that is removed goes from devices; what someone wrote into it
// meanwhile stays.
func TestForgettingATreatment(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	if _, err := s.hub.Add(entries(t, job(1), dev(9), journal.Head{}, "sample")); err != nil {
		t.Fatal(err)
	}
	a, b := s.device(1), s.device(2)
	a.connect(faults{})
	b.connect(faults{})
	there := func(v host.View) bool { return caughtUp(v) && total(v.Memory) == 1 && len(v.Memory.Summaries) == 1 }
	a.until(t, "the sample on a", there)
	b.until(t, "the sample on b", there)
	b.disconnect()
	if err := s.store.Remove(job(1)); err != nil {
		t.Fatal(err)
	}
	s.hub.Forget(job(1))
	gone := func(v host.View) bool { return v.Memory.Summaries[job(1)].Removed && total(v.Memory) == 0 }
	a.until(t, "gone from a", gone)
	mine := b.write(t, job(1), "note", `{"text":"note 1"}`)
	b.connect(faults{})
	b.until(t, "b's note is kept", func(v host.View) bool {
		return caughtUp(v) && !v.Memory.Summaries[job(1)].Removed && total(v.Memory) == 1
	})
	a.until(t, "and seen by a", has(mine.Name))
	if es := entriesOf(t, s.store); len(es) != 1 || es[0].Name != mine.Name {
		t.Errorf("the studio holds %d entries, want b's alone", len(es))
	}
}

// Summaries that a crash kept from being written are made at the next start.
func TestSummariesThatLagBehindAreMadeAnew(t *testing.T) {
	st := memory.New()
	if _, err := st.Append(entries(t, job(1), dev(1), journal.Head{}, "a")); err != nil {
		t.Fatal(err)
	}
	s := newStudio(t, st)
	defer func() { s.close() }()
	a := s.device(2)
	a.connect(faults{})
	one := func(v host.View) bool {
		return string(v.Memory.Summaries[job(1)].Text) == `{"job":"`+job(1).String()+`","entries":1}`
	}
	a.until(t, "made at the start", func(v host.View) bool { return one(v) && total(v.Memory) == 1 })
	a.disconnect()
	s.close()
	es := entries(t, job(1), dev(1), journal.Head{}, "a", "b")
	if _, err := st.Append(es[1:]); err != nil {
		t.Fatal(err)
	}
	s.start()
	a.connect(faults{})
	a.until(t, "made anew", func(v host.View) bool { return caughtUp(v) && !one(v) && total(v.Memory) == 2 })
}

// A follower of the hub's own: Wait ends with its context.
func TestWaitEndsWithItsContext(t *testing.T) {
	a := host.New(host.NewMemory(dev(1)), host.Options{})
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := a.Wait(ctx, func(host.View) bool { return false }); err == nil {
		t.Error("Wait goes on")
	}
}
