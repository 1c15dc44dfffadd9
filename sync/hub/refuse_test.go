package hub_test

import (
	"context"
	"crypto/ed25519"
	"errors"
	"strings"
	"testing"
	"time"

	"sinkside/store/memory"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

// raw is a client that says what it likes.
type raw struct {
	t    *testing.T
	end  *end
	done chan error
}

func (s *studio) raw(t *testing.T, dev journal.ID) *raw { return s.rawOver(t, dev, faults{}) }

func (s *studio) rawOver(t *testing.T, dev journal.ID, f faults) *raw {
	near, far := pipe(f)
	r := &raw{t, near, make(chan error, 1)}
	go func() { r.done <- s.hub.Serve(context.Background(), far, dev) }()
	t.Cleanup(func() { _ = near.Close(1001, "") })
	return r
}

// ended waits for the session's end and says what Serve returned.
func (r *raw) ended() (err error) {
	r.t.Helper()
	within(r.t, "Serve to return", func() { err = <-r.done })
	return err
}

func (r *raw) send(fs ...wire.Frame) *raw {
	for _, f := range fs {
		r.sendBytes(wire.Append(nil, f))
	}
	return r
}

func (r *raw) sendBytes(msg []byte) { _ = r.end.Write(msg) }

// next returns the next frame of a type, or the error that ended the session.
func (r *raw) next(t wire.Type) (wire.Frame, error) {
	r.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	for {
		f, err := r.frame(ctx)
		if err != nil || f.Type() == t {
			return f, err
		}
	}
}

// frame returns the next frame, or the error that ended the session.
func (r *raw) frame(ctx context.Context) (wire.Frame, error) {
	r.t.Helper()
	msg, err := r.end.Read(ctx)
	if err != nil {
		return nil, err
	}
	f, err := parseMessage(msg)
	if err != nil {
		r.t.Fatal(err)
	}
	return f, nil
}

func expect[F wire.Frame](r *raw) F {
	r.t.Helper()
	var want F
	f, err := r.next(want.Type())
	if err != nil {
		r.t.Fatalf("waited for a frame of type %#x: %v", want.Type(), err)
	}
	return f.(F)
}

func hello(dev journal.ID) *wire.Hello {
	return &wire.Hello{Version: 1, Dev: dev, Digest: journal.Digest(nil)}
}

// entries writes a chain of notes.
func entries(t fataler, job, dev journal.ID, head journal.Head, texts ...string) []journal.Entry {
	var es []journal.Entry
	for i, text := range texts {
		e, err := journal.Write(journal.Draft{Job: job, At: "2026-03-04T10:02:11+01:00", By: "OT", Kind: "note", BV: 1,
			Body: []byte(`{"text":"` + text + `"}`)}, dev, head, journal.At(1_772_614_931_000+int64(i)))
		if err != nil {
			t.Fatal(err)
		}
		head = journal.Head{N: e.N, Name: e.Name}
		es = append(es, e)
	}
	return es
}

func run(es []journal.Entry) wire.Run { return wire.Run{Chain: es[0].Chain(), Entries: es} }

func TestBadSessionsEndWithAName(t *testing.T) {
	mine, others := entries(t, job(1), dev(1), journal.Head{}, "a", "b"), entries(t, job(1), dev(9), journal.Head{}, "c")
	forged := run(others)
	forged.Signed = true
	broken := wire.Append(nil, &wire.Push{Batch: 1, Runs: []wire.Run{run(mine)}})
	broken[len(broken)-1] = '!'
	gone := run(mine)
	gone.Entries = []journal.Entry{mine[1], mine[0]}

	cases := map[string]struct {
		say  func(r *raw)
		want *wire.Close
	}{
		"another device's hello":   {func(r *raw) { r.send(hello(dev(2))) }, wire.WrongDevice},
		"no hello first":           {func(r *raw) { r.send(&wire.Heads{}) }, wire.OutOfTurn},
		"a push first":             {func(r *raw) { r.send(&wire.Push{Batch: 1, Runs: []wire.Run{run(mine)}}) }, wire.OutOfTurn},
		"hello twice":              {func(r *raw) { r.send(hello(dev(1)), hello(dev(1))) }, wire.OutOfTurn},
		"armed in version 1":       {func(r *raw) { r.send(hello(dev(1)), &wire.Armed{Armed: true}) }, wire.OutOfTurn},
		"a frame of ours":          {func(r *raw) { r.send(hello(dev(1)), &wire.CaughtUp{}) }, wire.OutOfTurn},
		"an unknown frame":         {func(r *raw) { r.sendBytes([]byte{0x2f, 1}) }, &wire.Close{Code: 4400, Reason: "unknown-type"}},
		"an empty message":         {func(r *raw) { r.sendBytes(nil) }, &wire.Close{Code: 4400, Reason: "empty"}},
		"what does not inflate":    {func(r *raw) { r.sendBytes([]byte{0x85, 0xff}) }, &wire.Close{Code: 4400, Reason: "cannot-inflate"}},
		"too large a frame":        {func(r *raw) { r.sendBytes(make([]byte, wire.MaxFrame+1)) }, &wire.Close{Code: 4400, Reason: "too-large"}},
		"a broken line":            {func(r *raw) { r.send(hello(dev(1))); r.sendBytes(broken) }, &wire.Close{Code: 4400, Reason: "bad-entry"}},
		"a chain in another order": {func(r *raw) { r.send(hello(dev(1)), &wire.Push{Batch: 1, Runs: []wire.Run{gone}}) }, &wire.Close{Code: 4400, Reason: "bad-run"}},
		"another device's chain":   {func(r *raw) { r.send(hello(dev(1)), &wire.Push{Batch: 1, Runs: []wire.Run{run(others)}}) }, wire.ForeignChain},
		"a forged receipt":         {func(r *raw) { r.send(hello(dev(1)), &wire.Push{Batch: 1, Runs: []wire.Run{forged}}) }, wire.BadReceipt},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			s := newStudio(t, memory.New())
			defer s.close()
			r := s.raw(t, dev(1))
			c.say(r)
			_, err := r.next(0)
			var got *wire.Close
			if !errors.As(err, &got) || *got != *c.want {
				t.Errorf("closed by %v, want %v", err, c.want)
			}
			if err := r.ended(); err == nil || !strings.Contains(err.Error(), c.want.Reason) {
				t.Errorf("Serve = %v, want one that says %s", err, c.want.Reason)
			}
			if len(entriesOf(t, s.store)) > 0 {
				t.Error("something was stored")
			}
			// The studio machine is well.
			a := s.device(1)
			a.write(t, job(1), "note", `{"text":"after it"}`)
			a.connect(faults{})
			a.until(t, "acknowledged", caughtUp)
		})
	}
}

func TestARefusalIsSaidBeforeTheEnd(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	r := s.raw(t, dev(1)).send(hello(dev(1)), &wire.Push{Batch: 7, Runs: []wire.Run{run(entries(t, job(1), dev(9), journal.Head{}, "c"))}})
	ack := expect[*wire.Ack](r)
	if ack.Batch != 7 || len(ack.Receipts) != 0 || len(ack.Refusals) != 1 || ack.Refusals[0].Code != wire.CodeForeign {
		t.Errorf("answered %+v, want a refusal of a foreign chain", ack)
	}
}

func TestASilentConnectionEnds(t *testing.T) {
	s := &studio{t: t, store: memory.New()}
	h, err := hub.New(hub.Config{Store: s.store, Key: testKey, Summarise: s.summarise, HelloWithin: time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	defer h.Close()
	s.hub = h
	r := s.raw(t, dev(1))
	_, err = r.next(0)
	var got *wire.Close
	if !errors.As(err, &got) || *got != *wire.NoHello {
		t.Errorf("closed by %v, want no-hello", err)
	}
}

func TestRevocationEndsSessions(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	a, b := s.device(1), s.device(2)
	a.connect(faults{})
	b.connect(faults{})
	a.until(t, "a on", caughtUp)
	b.until(t, "b on", caughtUp)
	if n := len(s.hub.Connected()); n != 2 {
		t.Errorf("%d devices are connected, want 2", n)
	}
	s.hub.Revoke(dev(1))
	var got *wire.Close
	if err := a.wait(); !errors.As(err, &got) || *got != *wire.Revoked {
		t.Errorf("the revoked device reads %v", err)
	}
	b.write(t, job(1), "note", `{"text":"still here"}`)
	b.until(t, "the other goes on", caughtUp)
}

func TestTheOldestOfTooManySessionsEnds(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	var rs []*raw
	for range 4 {
		r := s.raw(t, dev(1)).send(hello(dev(1)))
		expect[*wire.Welcome](r)
		rs = append(rs, r)
	}
	r := s.raw(t, dev(1)).send(hello(dev(1)))
	expect[*wire.Welcome](r)
	var got *wire.Close
	if _, err := rs[0].next(0); !errors.As(err, &got) || *got != *wire.TooMany {
		t.Errorf("the oldest session reads %v", err)
	}
}

func TestCloseSaysGoodbye(t *testing.T) {
	s := newStudio(t, memory.New())
	a := s.device(1)
	a.connect(faults{})
	a.write(t, job(1), "note", `{"text":"before"}`)
	a.until(t, "acknowledged", caughtUp)
	s.close()
	if err := a.wait(); err == nil {
		t.Error("the session goes on after Close")
	}
	r := s.raw(t, dev(1))
	if err := r.ended(); !errors.Is(err, wire.GoingAway) {
		t.Errorf("Serve after Close = %v", err)
	}
}

// A device that does not read is dropped; others do not wait for it, and it
// gets everything when it comes back.
func TestASlowDeviceIsDroppedAndResumes(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	slow := s.rawOver(t, dev(2), faults{maxIn: 1}).send(hello(dev(2)))
	expect[*wire.Welcome](slow)
	a := s.device(1)
	a.connect(faults{})
	text := strings.Repeat("x", 12_000)
	for range 600 {
		a.write(t, job(1), "note", `{"text":"`+text+`"}`)
	}
	a.until(t, "acknowledged", caughtUp)
	if err := slow.ended(); !errors.Is(err, wire.TooSlow) {
		t.Errorf("the slow session ended by %v", err)
	}
	back := s.device(2)
	back.connect(faults{})
	back.until(t, "everything", func(v host.View) bool { return caughtUp(v) && total(v.Memory) == 600 })
}

// Receipts that a former key signed are taken. Those that no key of ours did
// are refused, and the device stops giving that chain back.
func TestReceiptsOfFormerKeys(t *testing.T) {
	older := ed25519.NewKeyFromSeed([]byte("an older key of the same studio."))
	for name, former := range map[string][]ed25519.PublicKey{"known": {older.Public().(ed25519.PublicKey)}, "unknown": nil} {
		t.Run(name, func(t *testing.T) {
			first := &studio{t: t, store: memory.New()}
			h, err := hub.New(hub.Config{Store: first.store, Key: older, Summarise: first.summarise, Settle: time.Millisecond})
			if err != nil {
				t.Fatal(err)
			}
			first.hub = h
			a, b := first.device(1), first.device(2)
			e := a.write(t, job(1), "note", `{"text":"from the first studio machine"}`)
			a.connect(faults{})
			b.connect(faults{})
			a.until(t, "acknowledged", caughtUp)
			b.until(t, "held by b", func(v host.View) bool { return has(e.Name)(v) && len(v.Memory.Summaries) == 1 })
			h.Close()
			a.disconnect()
			b.disconnect()

			// Another studio machine, and the author never comes again.
			second := &studio{t: t, store: memory.New()}
			if second.hub, err = hub.New(hub.Config{Store: second.store, Key: testKey, FormerKeys: former, Summarise: second.summarise, Settle: time.Millisecond}); err != nil {
				t.Fatal(err)
			}
			defer second.close()
			b.studio = second
			var before wire.Generation
			b.Look(func(v host.View) { before = v.Memory.Generation })
			b.connect(faults{})
			mine := b.write(t, job(2), "note", `{"text":"from b"}`)
			b.until(t, "everything compared", func(v host.View) bool { return caughtUp(v) && v.Memory.Generation.Epoch != before.Epoch })
			got := map[journal.Name]bool{}
			for _, e := range entriesOf(t, second.store) {
				got[e.Name] = true
			}
			if !got[mine.Name] || got[e.Name] != (former != nil) {
				t.Errorf("the second studio machine holds b's own: %v, a's: %v", got[mine.Name], got[e.Name])
			}
			if !b.connected() {
				t.Error("the session ended")
			}
		})
	}
}

// A device that asks for ever more without taking any of it is ended.
func TestAskingIsBounded(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	blob := photo(1, 10)
	a := s.device(9)
	a.connect(faults{})
	sum := a.offer(blob)
	a.until(t, "the blob is there", done(sum))
	for name, f := range map[string]wire.Frame{
		"blobs": &wire.BlobWant{Sum: sum},
		"heads": &wire.Heads{More: true, Held: manyHeld(2000)},
	} {
		t.Run(name, func(t *testing.T) {
			r := s.rawOver(t, dev(1), faults{maxIn: 1}).send(hello(dev(1)))
			expect[*wire.Welcome](r)
			msg := wire.Append(nil, f)
			for end := time.Now().Add(patience); ; {
				if time.Now().After(end) {
					t.Fatal("asked for ever")
				}
				select {
				case err := <-r.done:
					if !errors.Is(err, wire.TooSlow) && !errors.Is(err, wire.OutOfTurn) {
						t.Errorf("ended by %v", err)
					}
					return
				default:
					r.sendBytes(msg)
				}
			}
		})
	}
}

func manyHeld(n int) (held []wire.Held) {
	for i := range n {
		held = append(held, wire.Held{Job: journal.ID{15: byte(i), 14: byte(i >> 8)}})
	}
	return held
}

// Chains of others are held until their receipt comes; a device that never sends
// one fills no more than it may, however many chains it claims.
func TestGivingBackIsBounded(t *testing.T) {
	s := newStudio(t, memory.New())
	defer s.close()
	const chains, pushes = 5, 32 // 4 MiB each: no chain is too long by itself
	heads := &wire.Heads{Held: []wire.Held{{Job: job(1)}}}
	text := strings.Repeat("x", 16_000)
	texts := []string{text, text, text, text, text, text, text, text}
	held := make([][][]journal.Entry, chains)
	for c := range held {
		head := journal.Head{}
		for range pushes {
			es := entries(t, job(1), dev(byte(10+c)), head, texts...)
			last := es[len(es)-1]
			head = journal.Head{N: last.N, Name: last.Name}
			held[c] = append(held[c], es)
		}
		heads.Held[0].Heads = append(heads.Held[0].Heads, wire.DevHead{Dev: dev(byte(10 + c)), Head: head})
	}
	r := s.raw(t, dev(1)).send(hello(dev(1)))
	expect[*wire.Welcome](r)
	r.send(heads)
	expect[*wire.Want](r)
	refused := 0
	for c := range held {
		for i, es := range held[c] {
			r.send(&wire.Push{Batch: uint64(c*pushes + i + 1), Runs: []wire.Run{run(es)}})
			for _, no := range expect[*wire.Ack](r).Refusals {
				if no.Code != wire.CodeTooMuch {
					t.Fatalf("refused with %v", no.Code)
				}
				refused++
			}
		}
	}
	if refused == 0 {
		t.Error("20 MiB of others' entries were held without a receipt")
	}
}
