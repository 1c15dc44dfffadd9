package bridge

import (
	"encoding/base64"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link"
	"sinkside/sync/wire"
)

// effects answers with what the link wants done:
//
//	frames:[{size deflate}]         in the payload, one behind the other
//	store:[{job dev n name}]        their lines behind the frames, each with a line end
//	t                               a clock reading after them, capped by law 7; absent without store
//	drop:[{job dev}] receipts:[{job dev n name sig}]
//	forget summaries:[{job open removed text}] generation
//	fetch:[{job dev from to}] fork:[{job from}] offset_ms caught_up:[job] all_caught_up notices:[text]
//	read:[{blob index}] sent:[blob]: of photographs
//	ringers: devices that are armed, where that has changed
//	phase: 0 off, 1 greeting, 2 catching, 3 live; full
//
// A list that is empty is left out.
func (k *call) effects() error {
	now := k.args.int("now")
	if k.args.err != nil {
		return k.args.err
	}
	l := k.core.link
	e := l.Take()
	w := &k.w
	list(w, "frames", e.Frames, func(f *link.Frame) {
		w.Key("size")
		w.Int(int64(len(f.Bytes)))
		w.Key("deflate")
		w.Bool(f.Deflate)
		k.body = append(k.body, f.Bytes...)
	})
	k.entries("store", e.Store)
	k.body = appendLines(k.body, e.Store)
	if len(e.Store) > 0 {
		text(w, "t", clockAfter(e.Store, now).String())
	}
	list(w, "drop", e.Drop, func(c *journal.Chain) { writeChain(w, *c) })
	list(w, "receipts", e.Receipts, func(r *wire.Receipt) {
		writeChain(w, r.Chain)
		writeHead(w, r.Head)
		text(w, "sig", base64.RawURLEncoding.EncodeToString(r.Sig[:]))
	})
	writeSummaries(w, &e)
	list(w, "fetch", e.Fetch, func(r *link.Range) {
		writeChain(w, r.Chain)
		w.Key("from")
		w.Uint(r.From)
		w.Key("to")
		w.Uint(r.To)
	})
	if e.Fork != nil {
		list(w, "fork", e.Fork.Chains, func(c *link.ForkedChain) {
			text(w, "job", c.Chain.Job.String())
			w.Key("from")
			w.Uint(c.From)
		})
	}
	if e.Offset != nil {
		w.Key("offset_ms")
		w.Int(e.Offset.MS)
	}
	texts(w, "caught_up", e.CaughtUp, journal.ID.String)
	flag(w, "all_caught_up", e.AllCaughtUp)
	texts(w, "notices", e.Notices, func(s string) string { return s })
	list(w, "read", e.Blobs.Read, func(r *link.ChunkRef) {
		text(w, "blob", journal.Name(r.Sum).String())
		w.Key("index")
		w.Uint(r.Index)
	})
	texts(w, "sent", e.Blobs.Done, func(s [32]byte) string { return journal.Name(s).String() })
	if e.Ringers != nil {
		w.Key("ringers")
		w.Uint(*e.Ringers)
	}
	st := l.Status()
	w.Key("phase")
	w.Int(int64(st.Phase))
	flag(w, "full", st.Full)
	return nil
}

func writeSummaries(w *jsontext.Writer, e *link.Effects) {
	flag(w, "forget", e.ForgetSummaries)
	list(w, "summaries", e.Summaries, func(s *wire.Summary) {
		text(w, "job", s.Job.String())
		flag(w, "open", s.Open)
		flag(w, "removed", s.Removed)
		text(w, "text", string(s.Text))
	})
	if e.Generation != nil {
		text(w, "generation", generationText(*e.Generation))
	}
}

// clockAfter is what a device's clock must be past once it holds es (law 7).
func clockAfter(es []journal.Entry, now int64) journal.Time {
	var c journal.Clock
	for i := range es {
		c.Receive(es[i].T, now)
	}
	return c.Last
}

// entries writes where entries stand; their lines go into the payload.
func (k *call) entries(key string, es []journal.Entry) {
	list(&k.w, key, es, func(e *journal.Entry) {
		writeChain(&k.w, e.Chain())
		writeHead(&k.w, journal.Head{N: e.N, Name: e.Name})
	})
}

func writeChain(w *jsontext.Writer, c journal.Chain) {
	text(w, "job", c.Job.String())
	text(w, "dev", c.Dev.String())
}

func text(w *jsontext.Writer, key, s string) {
	w.Key(key)
	w.Str(s)
}

func flag(w *jsontext.Writer, key string, set bool) {
	if set {
		w.Key(key)
		w.Bool(true)
	}
}

// list writes an array of objects, whose members f writes.
func list[T any](w *jsontext.Writer, key string, items []T, f func(*T)) {
	if len(items) == 0 {
		return
	}
	w.Key(key)
	w.Begin('[')
	for i := range items {
		w.Begin('{')
		f(&items[i])
		w.End('}')
	}
	w.End(']')
}

func texts[T any](w *jsontext.Writer, key string, items []T, f func(T) string) {
	if len(items) == 0 {
		return
	}
	w.Key(key)
	w.Begin('[')
	for _, it := range items {
		w.Str(f(it))
	}
	w.End(']')
}
