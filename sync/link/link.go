package link

import (
	"bytes"
	"errors"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// window is how many bytes of entries may be unanswered: more than a day's log,
// so that a push never waits for a round trip, and a bound for the studio
// machine's queue.
const window = 1 << 20

// The errors of a session, besides those of package wire. Each ends the
// connection.
var (
	// ErrOutOfTurn: a frame came that does not belong here.
	ErrOutOfTurn = errors.New("frame out of turn")
	// ErrVersion: the studio machine speaks no version that this device knows.
	ErrVersion = errors.New("unknown protocol version")
	// ErrGap: an entry came whose predecessor is not here. The next session's
	// heads mend it.
	ErrGap = errors.New("entry without its predecessor")
	// ErrDiffers: an entry came that is not the one held in its place. The next
	// session's heads find where the chain parts.
	ErrDiffers = errors.New("chain differs from the one held")
	// ErrWrote: Wrote was given entries that do not follow from what it was
	// given before.
	ErrWrote = errors.New("written entries do not follow")
)

// Config is what does not change while a Link lives.
type Config struct {
	Dev        journal.ID
	CanInflate bool // the host can inflate raw deflate
}

// State is what the host kept of earlier sessions.
type State struct {
	// Heads of every chain in the host's log, own unsent entries included.
	Heads []journal.ChainHead
	// Dropped names treatments whose entries were let go; Heads need not say
	// anything of them, the receipt of the own chain says where it goes on.
	Dropped []journal.ID
	// Receipts, the last one of each chain.
	Receipts []wire.Receipt
	// Unsent holds own entries beyond their chain's receipt, in order.
	Unsent []journal.Entry
	// Open and Closed name the treatments of which a summary is kept, by what it
	// calls them.
	Open, Closed []journal.ID
	// Opened names closed treatments that a person opened: at most
	// wire.MaxOpened.
	Opened     []journal.ID
	Generation wire.Generation
}

// Link is one device's side. Its methods must not be called at the same time.
type Link struct {
	cfg        Config
	chains     map[journal.Chain]*chain
	own        map[journal.ID]*ownChain
	known      map[journal.ID]bool // treatments with a summary; true: open
	opened     map[journal.ID]bool
	generation wire.Generation
	blobs      blobs
	armed      bool // this device would ring

	// One session.
	phase     Phase
	helloMS   int64
	following map[journal.ID]bool // known: the studio machine sends what is new of these
	batch     uint64              // number of the last push
	inflight  map[uint64]*push
	inBytes   int
	full      bool
	returns   []giveBack
	wants     map[journal.Chain]journal.Head // fetches that wait for the host
	audit     *audit
	rings     bool // the studio machine counts who would ring

	frozen bool // a fork was given to the host
	eff    Effects
}

// chain is what the host holds of a chain, from its first entry on.
type chain struct {
	held    journal.Head
	receipt *wire.Receipt
	// parted: another device's chain of which the studio machine holds another
	// branch. Ours is on its way there; what comes of theirs does not fit yet.
	parted bool
}

// New makes a Link in phase Off.
func New(cfg Config, st State) *Link {
	l := &Link{
		cfg:        cfg,
		chains:     map[journal.Chain]*chain{},
		own:        map[journal.ID]*ownChain{},
		known:      setOf(st.Open),
		opened:     setOf(st.Opened),
		generation: st.Generation,
	}
	for _, id := range st.Closed {
		l.known[id] = false
	}
	dropped := setOf(st.Dropped)
	for _, h := range st.Heads {
		if !dropped[h.Job] {
			l.chain(h.Chain).held = h.Head
		}
	}
	for i := range st.Receipts {
		r := &st.Receipts[i]
		l.chain(r.Chain).receipt = r
		if r.Dev == cfg.Dev {
			l.ownChain(r.Job).acked = r.Head
		}
	}
	for _, e := range st.Unsent {
		if o := l.ownChain(e.Job); e.Dev == cfg.Dev && e.N == o.next() {
			o.unsent = append(o.unsent, e)
		}
	}
	l.reset()
	return l
}

func setOf(ids []journal.ID) map[journal.ID]bool {
	m := make(map[journal.ID]bool, len(ids))
	for _, id := range ids {
		m[id] = true
	}
	return m
}

func (l *Link) chain(c journal.Chain) *chain {
	k := l.chains[c]
	if k == nil {
		k = &chain{}
		l.chains[c] = k
	}
	return k
}

// Take returns the effects since the last Take.
func (l *Link) Take() Effects {
	e := l.eff
	l.eff = Effects{}
	return e
}

// Status says how the session stands.
func (l *Link) Status() Status {
	s := Status{Phase: l.phase, Full: l.full}
	for _, o := range l.own {
		s.Unsent += len(o.unsent)
		s.Forked = s.Forked || o.forkAt > 0
	}
	return s
}

// Start begins a session on a new connection: Hello, and what was not
// acknowledged right behind it. nowMS is the device's clock, Unix milliseconds.
func (l *Link) Start(nowMS int64) {
	l.reset()
	l.phase, l.helloMS = Greeting, nowMS
	held := l.followed()
	l.send(&wire.Hello{
		Version: wire.Version, Dev: l.cfg.Dev, CanInflate: l.cfg.CanInflate,
		Digest: journal.Digest(flat(held)), Generation: l.generation, Opened: l.openedSorted(),
	})
	l.pump()
}

// Stop says that the connection is gone.
func (l *Link) Stop() { l.reset() }

func (l *Link) reset() {
	l.phase, l.full, l.rings = Off, false, false
	l.following = map[journal.ID]bool{}
	l.batch, l.inBytes = 0, 0
	l.inflight = map[uint64]*push{}
	l.returns = nil
	l.wants = map[journal.Chain]journal.Head{}
	l.audit = nil
	for _, o := range l.own {
		o.restart(l.frozen)
	}
	l.blobs.restart()
	// What was not taken yet belonged to the connection that is gone.
	l.eff.Frames, l.eff.Fetch, l.eff.Blobs.Read = nil, nil, nil
}

func (l *Link) send(f wire.Frame) {
	b := wire.Append(nil, f)
	l.eff.Frames = append(l.eff.Frames, Frame{Bytes: b, Deflate: len(b) >= wire.WorthDeflating && f.Type().Compressible()})
}

func (l *Link) openedSorted() []journal.ID {
	ids := make([]journal.ID, 0, len(l.opened))
	for id := range l.opened {
		ids = append(ids, id)
	}
	journal.SortBy(ids, func(a, b *journal.ID) int { return bytes.Compare(a[:], b[:]) })
	return ids[:min(len(ids), wire.MaxOpened)]
}

// followed returns what this device holds of the treatments that it follows,
// sorted: the shelf, the open ones and the opened ones; and those of which no
// summary came yet, or the studio machine lost all.
func (l *Link) followed() []wire.Held {
	jobs := map[journal.ID]bool{journal.Shelf: true}
	for id, open := range l.known {
		if open {
			jobs[id] = true
		}
	}
	for c, k := range l.chains {
		if _, known := l.known[c.Job]; !known && k.held.N > 0 {
			jobs[c.Job] = true
		}
	}
	for _, id := range l.openedSorted() {
		jobs[id] = true
	}
	return l.heldOf(jobs)
}

// heldOf returns what this device holds of treatments as far as the studio
// machine is known to have it: own chains up to their receipt.
func (l *Link) heldOf(jobs map[journal.ID]bool) []wire.Held {
	byJob := map[journal.ID][]wire.DevHead{}
	for c, k := range l.chains {
		h := k.held
		if c.Dev == l.cfg.Dev && h.N > l.ownChain(c.Job).acked.N {
			h = l.ownChain(c.Job).acked
		}
		if jobs[c.Job] && h.N > 0 {
			byJob[c.Job] = append(byJob[c.Job], wire.DevHead{Dev: c.Dev, Head: h})
		}
	}
	out := make([]wire.Held, 0, len(jobs))
	for job := range jobs {
		heads := byJob[job]
		journal.SortBy(heads, func(a, b *wire.DevHead) int { return bytes.Compare(a.Dev[:], b.Dev[:]) })
		out = append(out, wire.Held{Job: job, Heads: heads})
	}
	journal.SortBy(out, func(a, b *wire.Held) int { return bytes.Compare(a.Job[:], b.Job[:]) })
	return out
}

func flat(held []wire.Held) []journal.ChainHead {
	var out []journal.ChainHead
	for _, h := range held {
		for _, d := range h.Heads {
			out = append(out, journal.ChainHead{Chain: journal.Chain{Job: h.Job, Dev: d.Dev}, Head: d.Head})
		}
	}
	return out
}
