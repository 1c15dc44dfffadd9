package link

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

var (
	me, other  = testID('d', 1), testID('d', 2)
	bath, rest = testID('j', 1), testID('j', 2)
	epoch      = wire.Generation{Epoch: 7, N: 3}
)

func testID(kind, n byte) journal.ID {
	return journal.NewID(1_772_600_000_000+uint64(n), [10]byte{kind, n})
}

// chainOf writes a chain of notes behind a head.
func chainOf(t testing.TB, job, dev journal.ID, head journal.Head, n int, size int) []journal.Entry {
	t.Helper()
	var es []journal.Entry
	for i := range n {
		e, err := journal.Write(journal.Draft{Job: job, At: "2026-03-04T10:02:11+01:00", By: "OT", Kind: "note", BV: 1,
			Body: []byte(fmt.Sprintf(`{"text":"%*d"}`, size, i))}, dev, head, journal.At(1_772_614_931_000+int64(i)))
		if err != nil {
			t.Fatal(err)
		}
		head = headAt(e)
		es = append(es, e)
	}
	return es
}

func headAt(e journal.Entry) journal.Head { return journal.Head{N: e.N, Name: e.Name} }

func headOf(e journal.Entry) journal.ChainHead {
	return journal.ChainHead{Chain: e.Chain(), Head: headAt(e)}
}

func receiptOf(e journal.Entry) wire.Receipt { return wire.Receipt{ChainHead: headOf(e)} }

func signed(es []journal.Entry) wire.Run {
	return wire.Run{Chain: es[0].Chain(), Entries: es, Signed: true}
}

// told gives the link frames of the studio machine.
func told(t testing.TB, l *Link, fs ...wire.Frame) {
	t.Helper()
	for _, f := range fs {
		if err := l.Receive(wire.Append(nil, f), 0); err != nil {
			t.Fatalf("Receive(%#x) = %v", f.Type(), err)
		}
	}
}

// sent takes the effects and returns the frames in them.
func sent(t testing.TB, l *Link) (out []wire.Frame) {
	t.Helper()
	for _, f := range l.Take().Frames {
		p, err := wire.Parse(f.Bytes)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, p)
	}
	return out
}

func types(fs []wire.Frame) (out []wire.Type) {
	for _, f := range fs {
		out = append(out, f.Type())
	}
	return out
}

func same() *wire.Welcome { return &wire.Welcome{Version: 1, Same: true, Generation: epoch} }

// live returns a link that is caught up, its frames taken.
func live(t testing.TB, st State) *Link {
	t.Helper()
	l := New(Config{Dev: me}, st)
	l.Start(0)
	told(t, l, same())
	l.Take()
	return l
}

func TestOffsetIsTakenHalfwayOfTheRoundTrip(t *testing.T) {
	cases := map[string]struct {
		answered int64
		want     *Offset
	}{
		"at once":       {5000, &Offset{MS: 995_000, Within: 0}},
		"in 400 ms":     {5400, &Offset{MS: 994_800, Within: 200}},
		"too slowly":    {9000, nil},
		"the clock ran": {4000, nil},
	}
	for name, c := range cases {
		l := New(Config{Dev: me}, State{})
		l.Start(5000)
		if err := l.Receive(wire.Append(nil, &wire.Welcome{Version: 1, StudioMS: 1_000_000, Same: true}), c.answered); err != nil {
			t.Fatal(err)
		}
		got := l.Take().Offset
		if (got == nil) != (c.want == nil) || got != nil && *got != *c.want {
			t.Errorf("%s: offset %+v, want %+v", name, got, c.want)
		}
	}
}

func TestHelloSpeaksOfWhatTheStudioIsKnownToHave(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 3, 1)
	theirs := chainOf(t, bath, other, journal.Head{}, 2, 1)
	closed := chainOf(t, rest, other, journal.Head{}, 1, 1)
	fresh := chainOf(t, testID('j', 3), other, journal.Head{}, 1, 1)
	l := New(Config{Dev: me, CanInflate: true}, State{
		Heads:    []journal.ChainHead{headOf(mine[2]), headOf(theirs[1]), headOf(closed[0]), headOf(fresh[0])},
		Receipts: []wire.Receipt{receiptOf(mine[1])},
		Unsent:   mine[2:],
		Open:     []journal.ID{bath}, Closed: []journal.ID{rest}, Generation: epoch,
	})
	l.Start(0)
	fs := sent(t, l)
	if !slices.Equal(types(fs), []wire.Type{wire.TypeHello, wire.TypePush}) {
		t.Fatalf("frames %x", types(fs))
	}
	hello := fs[0].(*wire.Hello)
	want := journal.Digest([]journal.ChainHead{headOf(mine[1]), headOf(theirs[1]), headOf(fresh[0])})
	if hello.Digest != want || hello.Generation != epoch || !hello.CanInflate {
		t.Errorf("hello %+v", hello)
	}
}

func TestPushesAreBoundedUntilAnswered(t *testing.T) {
	es := chainOf(t, bath, me, journal.Head{}, 200, 15_000)
	l := New(Config{Dev: me}, State{Unsent: es})
	l.Start(0)
	size, last := 0, uint64(0)
	var pushes []*wire.Push
	take := func() {
		for _, f := range sent(t, l) {
			if p, ok := f.(*wire.Push); ok {
				pushes = append(pushes, p)
				for _, e := range p.Runs[0].Entries {
					size += len(e.Line)
					last = e.N
				}
			}
		}
	}
	take()
	if size < window || size > window+wire.MaxBatch+journal.MaxLine {
		t.Errorf("%d bytes are under way, the window is %d", size, window)
	}
	for i, p := range pushes {
		if p.More != (i < len(pushes)-1) {
			t.Errorf("push %d of %d says more: %v", i+1, len(pushes), p.More)
		}
	}
	told(t, l, same())
	for i := 0; i < len(pushes); i++ {
		u := pushes[i].Runs[0]
		told(t, l, &wire.Ack{Batch: pushes[i].Batch, Receipts: []wire.Receipt{{ChainHead: u.Head()}}})
		take()
	}
	if last != 200 || l.Status().Unsent != 0 {
		t.Errorf("pushed up to %d, unsent %d", last, l.Status().Unsent)
	}
}

func TestWrongFramesEndTheSession(t *testing.T) {
	theirs := chainOf(t, bath, other, journal.Head{}, 3, 1)
	another := chainOf(t, bath, other, journal.Head{}, 3, 2)
	cases := map[string]struct {
		frames []wire.Frame
		want   error
	}{
		"no welcome first":    {[]wire.Frame{&wire.CaughtUp{}}, ErrOutOfTurn},
		"welcome twice":       {[]wire.Frame{same(), same()}, ErrOutOfTurn},
		"a frame of a device": {[]wire.Frame{same(), &wire.Heads{}}, ErrOutOfTurn},
		"a later version":     {[]wire.Frame{&wire.Welcome{Version: wire.Version + 1}}, ErrVersion},
		"an answer to no push": {[]wire.Frame{same(), &wire.Ack{Batch: 1}},
			ErrOutOfTurn},
		"a gap": {[]wire.Frame{same(), &wire.Entries{Runs: []wire.Run{signed(theirs[1:])}}}, ErrGap},
		"another branch": {[]wire.Frame{same(), &wire.Entries{Runs: []wire.Run{signed(theirs[:2])}}, &wire.Entries{Runs: []wire.Run{signed(another[2:])}}},
			ErrDiffers},
		"a chunk of nothing": {[]wire.Frame{same(), &wire.BlobChunk{Data: []byte{1}}}, ErrOutOfTurn},
	}
	for name, c := range cases {
		l := New(Config{Dev: me}, State{})
		l.Start(0)
		var err error
		for _, f := range c.frames {
			if err == nil {
				err = l.Receive(wire.Append(nil, f), 0)
			}
		}
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
	l := New(Config{Dev: me}, State{})
	if err := l.Receive(wire.Append(nil, same()), 0); !errors.Is(err, ErrOutOfTurn) {
		t.Errorf("a frame without a session: %v", err)
	}
}

func TestDuplicatesChangeNothing(t *testing.T) {
	theirs := chainOf(t, bath, other, journal.Head{}, 3, 1)
	l := live(t, State{})
	told(t, l, &wire.Entries{Runs: []wire.Run{signed(theirs)}})
	if e := l.Take(); len(e.Store) != 3 || len(e.Receipts) != 1 {
		t.Fatalf("%d entries and %d receipts to keep", len(e.Store), len(e.Receipts))
	}
	told(t, l, &wire.Entries{Runs: []wire.Run{signed(theirs[1:])}})
	if e := l.Take(); len(e.Store) != 0 {
		t.Errorf("%d entries to keep again", len(e.Store))
	}
}

// A dropped log comes back whole, own entries included, and the chain goes on
// behind the receipt.
func TestADroppedLogComesBack(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 3, 1)
	l := live(t, State{Dropped: []journal.ID{bath}, Heads: []journal.ChainHead{headOf(mine[1])},
		Receipts: []wire.Receipt{receiptOf(mine[1])}, Closed: []journal.ID{bath}})
	l.Open(bath)
	fs := sent(t, l)
	if sub, ok := fs[0].(*wire.Subscribe); !ok || len(sub.Held) != 1 || len(sub.Held[0].Heads) != 0 {
		t.Fatalf("asked by %+v", fs[0])
	}
	if err := l.Wrote(mine[2]); err != nil {
		t.Fatal(err)
	}
	l.Take()
	told(t, l, &wire.Entries{Runs: []wire.Run{signed(mine[:2])}})
	if got := l.Take().Store; len(got) != 2 {
		t.Errorf("%d entries to keep, want both that were dropped", len(got))
	}
	l.Stop()
	l.Start(0)
	hello := sent(t, l)[0].(*wire.Hello)
	if hello.Digest != journal.Digest([]journal.ChainHead{headOf(mine[1])}) {
		t.Error("the log is not held again")
	}
}

func TestWroteTakesOnlyWhatFollows(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 3, 1)
	l := New(Config{Dev: me}, State{Heads: []journal.ChainHead{headOf(mine[0])}, Unsent: mine[:1]})
	for name, e := range map[string]journal.Entry{"a gap": mine[2], "again": mine[0], "another's": chainOf(t, bath, other, journal.Head{}, 1, 1)[0]} {
		if err := l.Wrote(e); !errors.Is(err, ErrWrote) {
			t.Errorf("%s: Wrote = %v", name, err)
		}
	}
	if err := l.Wrote(mine[1], mine[2]); err != nil || l.Status().Unsent != 3 {
		t.Errorf("Wrote = %v, unsent %d", err, l.Status().Unsent)
	}
}

func TestWhatWasAskedInASessionThatIsOverIsPassedOver(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 2, 1)
	l := live(t, State{Heads: []journal.ChainHead{headOf(mine[1])}, Receipts: []wire.Receipt{receiptOf(mine[1])}, Open: []journal.ID{bath}})
	told(t, l, &wire.Want{Heads: []journal.ChainHead{{Chain: mine[0].Chain()}}})
	l.Offer(sha256.Sum256([]byte("x")), 1)
	told(t, l, &wire.BlobWant{Sum: sha256.Sum256([]byte("x"))})
	l.Stop()
	if e := l.Take(); len(e.Frames)+len(e.Fetch)+len(e.Blobs.Read) != 0 {
		t.Errorf("left of a session that is over: %+v", e)
	}
	l.Fetched(mine[0].Chain(), mine)
	l.Chunk(sha256.Sum256([]byte("x")), 0, []byte("x"))
	if e := l.Take(); len(e.Frames) != 0 || l.Status().Unsent != 0 {
		t.Errorf("%d frames, unsent %d", len(e.Frames), l.Status().Unsent)
	}
}

// The studio machine lost entries that it had acknowledged: they count as unsent
// again, and go over.
func TestWhatTheStudioLostGoesOverAgain(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 4, 1)
	c := mine[0].Chain()
	l := live(t, State{Heads: []journal.ChainHead{headOf(mine[3])}, Receipts: []wire.Receipt{receiptOf(mine[3])}, Open: []journal.ID{bath}})
	told(t, l, &wire.Want{Heads: []journal.ChainHead{headOf(mine[1])}})
	if got := l.Take().Fetch; len(got) != 1 || got[0] != (Range{c, 2, 4}) {
		t.Fatalf("asked the host for %+v", got)
	}
	l.Fetched(c, mine[1:])
	push := sent(t, l)[0].(*wire.Push)
	if l.Status().Unsent != 2 || push.Runs[0].Entries[0].N != 3 || push.Runs[0].Head() != headOf(mine[3]) {
		t.Errorf("unsent %d, pushed %+v", l.Status().Unsent, push.Runs[0].Head())
	}
}

// Neither side holds what lies between: the device needs a successor.
func TestWhatNobodyHoldsNeedsASuccessor(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 4, 1)
	c := mine[0].Chain()
	l := live(t, State{Dropped: []journal.ID{bath}, Receipts: []wire.Receipt{receiptOf(mine[2])}, Unsent: mine[3:], Open: []journal.ID{bath}})
	told(t, l, &wire.Want{Heads: []journal.ChainHead{headOf(mine[0])}}, &wire.Ack{Batch: 1})
	l.Take()
	l.Fetched(c, nil)
	told(t, l, &wire.Ack{Batch: 2})
	if f := l.Take().Fork; f == nil || !slices.Equal(f.Chains, []ForkedChain{{c, 4}}) {
		t.Errorf("fork %+v, want one from place 4 on", f)
	}
}

// A studio machine that is not the one known is compared with everything that
// is held, and its generation is kept only once that is through.
func TestAnotherStudioIsComparedWithEverything(t *testing.T) {
	closed := chainOf(t, rest, other, journal.Head{}, 2, 1)
	l := live(t, State{Heads: []journal.ChainHead{headOf(closed[1])}, Receipts: []wire.Receipt{receiptOf(closed[1])},
		Closed: []journal.ID{rest}, Generation: wire.Generation{Epoch: 1, N: 9}})
	told(t, l, &wire.Summaries{Generation: epoch, Reset: true})
	e := l.Take()
	if len(e.Frames) != 1 || wire.Type(e.Frames[0].Bytes[0]) != wire.TypeSubscribe || e.Generation != nil || !e.ForgetSummaries {
		t.Fatalf("effects %+v", e)
	}
	told(t, l, &wire.Want{Heads: []journal.ChainHead{{Chain: closed[0].Chain()}}}, &wire.CaughtUp{Jobs: []journal.ID{rest}})
	if e := l.Take(); e.Generation != nil || len(e.Fetch) != 1 {
		t.Fatalf("generation %v before the entries are given back, %d fetches", e.Generation, len(e.Fetch))
	}
	l.Fetched(closed[0].Chain(), closed)
	push := sent(t, l)[0].(*wire.Push)
	if !push.Runs[0].Signed {
		t.Error("given back without the receipt")
	}
	told(t, l, &wire.Ack{Batch: push.Batch, Receipts: []wire.Receipt{receiptOf(closed[1])}})
	if e := l.Take(); e.Generation == nil || *e.Generation != epoch {
		t.Errorf("generation %v after all is through", e.Generation)
	}
}

func TestAFreshDeviceComparesNothing(t *testing.T) {
	l := New(Config{Dev: me}, State{})
	l.Start(0)
	l.Take()
	told(t, l, &wire.Welcome{Version: 1, All: true}, &wire.Summaries{Generation: epoch, Reset: true})
	if e := l.Take(); len(e.Frames) != 0 || e.Generation == nil {
		t.Errorf("effects %+v", e)
	}
}

// A fork that was not settled when the connection broke is no fork if the studio
// machine takes the entries in the next session.
func TestAForkIsForgottenWithItsSession(t *testing.T) {
	mine := chainOf(t, bath, me, journal.Head{}, 1, 1)
	l := New(Config{Dev: me}, State{Unsent: mine})
	l.Start(0)
	told(t, l, &wire.Welcome{Version: 1}, &wire.Entries{Runs: []wire.Run{signed(chainOf(t, bath, me, journal.Head{}, 1, 2))}})
	if !l.Status().Forked {
		t.Fatal("another entry in its place was not noticed")
	}
	l.Stop()
	l.Start(0)
	l.Take()
	told(t, l, same(), &wire.Ack{Batch: 1, Receipts: []wire.Receipt{receiptOf(mine[0])}})
	if e := l.Take(); e.Fork != nil || l.Status() != (Status{Phase: Live}) {
		t.Errorf("fork %+v, status %+v", e.Fork, l.Status())
	}
}

func TestArmIsSaidInEachSessionThatKnowsIt(t *testing.T) {
	l := New(Config{Dev: me}, State{})
	l.Arm(true)
	for version, want := range map[uint64][]wire.Type{
		1:            {},
		wire.Version: {wire.TypeArmed},
	} {
		l.Start(0)
		l.Take()
		told(t, l, &wire.Welcome{Version: version, Same: true, Generation: epoch})
		if got := types(sent(t, l)); !slices.Equal(got, want) {
			t.Errorf("after a welcome of version %d it sends %x, want %x", version, got, want)
		}
		l.Arm(true)
		if got := sent(t, l); len(got) > 0 {
			t.Errorf("said twice: %v", got)
		}
		l.Stop()
	}
	l.Start(0)
	l.Take()
	told(t, l, &wire.Welcome{Version: wire.Version, Same: true, Generation: epoch}, &wire.Ringers{Count: 2})
	l.Arm(false)
	e := l.Take()
	if e.Ringers == nil || *e.Ringers != 2 || len(e.Frames) != 2 {
		t.Errorf("effects %+v, want two ringers, and that it was armed and is no more", e)
	}
}
