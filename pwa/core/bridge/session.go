package bridge

import (
	"bytes"
	"encoding/base64"
	"errors"
	"strconv"
	"strings"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link"
	"sinkside/sync/wire"
)

var errNoLink = errors.New("no link was made")

// linkNew makes the link from what the database holds, and forgets an earlier
// one.
//
//	in   dev inflate heads:[{job dev n name}] receipts:[{job dev n name sig}]
//	     open:[job] closed:[job] opened:[job] dropped:[job] generation; payload: own lines without
//	     a receipt
func linkNew(k *call) error {
	a := &k.args
	cfg := link.Config{Dev: a.id("dev"), CanInflate: a.bool("inflate")}
	var st link.State
	each(a, "heads", func(a *args) { st.Heads = append(st.Heads, a.chainHead()) })
	each(a, "receipts", func(a *args) {
		st.Receipts = append(st.Receipts, wire.Receipt{ChainHead: a.chainHead(), Sig: a.signature("sig")})
	})
	st.Open, st.Closed, st.Opened, st.Dropped = a.ids("open"), a.ids("closed"), a.ids("opened"), a.ids("dropped")
	st.Generation = a.generation("generation")
	if a.err != nil {
		return a.err
	}
	var err error
	if st.Unsent, err = parseLines(k.payload); err != nil {
		return err
	}
	k.core.link = link.New(cfg, st)
	return k.effects()
}

// linkStart begins a session on a new connection.
//
//	in   now
//	out  effects
func linkStart(k *call) error {
	now := k.args.int("now")
	return k.onLink(func(l *link.Link) error { l.Start(now); return nil })
}

// linkStop says that the connection is gone.
func linkStop(k *call) error {
	return k.onLink(func(l *link.Link) error { l.Stop(); return nil })
}

// linkReceive takes a plain frame. An error ends the connection.
//
//	in   now; payload: the frame
//	out  effects
func linkReceive(k *call) error {
	now := k.args.int("now")
	frame := bytes.Clone(k.payload) // entries refer to it
	return k.onLink(func(l *link.Link) error { return l.Receive(frame, now) })
}

// linkWrote says that entries of this device are durable.
//
//	in   now; payload: lines
//	out  effects
func linkWrote(k *call) error {
	es, err := parseLines(k.payload)
	if err != nil {
		return err
	}
	return k.onLink(func(l *link.Link) error { return l.Wrote(es...) })
}

// linkFetched answers an effect's fetch.
//
//	in   job dev now; payload: lines
//	out  effects
func linkFetched(k *call) error {
	c := journal.Chain{Job: k.args.id("job"), Dev: k.args.id("dev")}
	es, err := parseLines(k.payload)
	if err != nil {
		return err
	}
	return k.onLink(func(l *link.Link) error { l.Fetched(c, es); return nil })
}

// linkOpen follows a treatment that a person opened.
//
//	in   job now
//	out  effects
func linkOpen(k *call) error {
	job := k.args.id("job")
	return k.onLink(func(l *link.Link) error { l.Open(job); return nil })
}

// linkClose follows a treatment no longer by hand.
//
//	in   job dropped (its lines were let go of too) now
//	out  effects
func linkClose(k *call) error {
	job, dropped := k.args.id("job"), k.args.bool("dropped")
	return k.onLink(func(l *link.Link) error {
		if dropped {
			l.Dropped(job)
		} else {
			l.Close(job)
		}
		return nil
	})
}

// linkArm says whether this device would ring.
//
//	in   armed now
//	out  effects
func linkArm(k *call) error {
	armed := k.args.bool("armed")
	return k.onLink(func(l *link.Link) error { l.Arm(armed); return nil })
}

// reissue writes entries of a refused branch again under a successor id.
//
//	in   dev heads:[{job dev n name}] (where its chains stand); payload: the old lines
//	out  entries:[{job dev n name}]; payload: the new lines, in the same order
func reissue(k *call) error {
	a := &k.args
	dev := a.id("dev")
	heads := map[journal.ID]journal.Head{}
	each(a, "heads", func(a *args) { h := a.chainHead(); heads[h.Job] = h.Head })
	if a.err != nil {
		return a.err
	}
	old, err := parseLines(k.payload)
	if err != nil {
		return err
	}
	es, err := link.Reissue(old, dev, heads)
	if err != nil {
		return err
	}
	k.entries("entries", es)
	k.body = appendLines(nil, es)
	return nil
}

// onLink calls f on the link and answers with what is to be done.
func (k *call) onLink(f func(*link.Link) error) error {
	if k.args.err != nil {
		return k.args.err
	}
	if k.core.link == nil {
		return errNoLink
	}
	if err := f(k.core.link); err != nil {
		return err
	}
	return k.effects()
}

func parseLines(payload []byte) (es []journal.Entry, err error) {
	for line := range bytes.SplitSeq(bytes.Clone(payload), []byte{'\n'}) {
		if len(line) == 0 {
			continue
		}
		e, err := journal.Parse(line)
		if err != nil {
			return nil, err
		}
		es = append(es, e)
	}
	return es, nil
}

func appendLines(b []byte, es []journal.Entry) []byte {
	for i := range es {
		b = append(append(b, es[i].Line...), '\n')
	}
	return b
}

// each reads an array of objects; f reads one.
func each(a *args, key string, f func(*args)) {
	v, ok := a.get(key)
	if !ok {
		return
	}
	a.fail(key, jsontext.Elements(v, func(_ int, v jsontext.Value) error {
		one := args{v: v}
		f(&one)
		return one.err
	}))
}

func (a *args) ids(key string) (out []journal.ID) {
	v, ok := a.get(key)
	if !ok {
		return nil
	}
	a.fail(key, jsontext.Elements(v, func(_ int, v jsontext.Value) error {
		s, err := v.Text()
		if err != nil {
			return err
		}
		id, err := journal.ParseID(s)
		out = append(out, id)
		return err
	}))
	return out
}

func (a *args) chainHead() journal.ChainHead {
	return journal.ChainHead{
		Chain: journal.Chain{Job: a.id("job"), Dev: a.id("dev")},
		Head:  journal.Head{N: uint64(a.int("n")), Name: a.name("name")},
	}
}

func (a *args) signature(key string) (sig [64]byte) {
	b, err := base64.RawURLEncoding.DecodeString(a.text(key))
	if err == nil && len(b) != len(sig) {
		err = errors.New("expected 64 bytes")
	}
	a.fail(key, err)
	copy(sig[:], b)
	return sig
}

// A generation crosses as "EPOCH.N"; both may be beyond what JavaScript counts
// exactly. Empty is the zero Generation.
func (a *args) generation(key string) (g wire.Generation) {
	s := a.text(key)
	if a.err != nil || s == "" {
		return g
	}
	epoch, n, _ := strings.Cut(s, ".")
	var err1, err2 error
	g.Epoch, err1 = strconv.ParseUint(epoch, 10, 64)
	g.N, err2 = strconv.ParseUint(n, 10, 64)
	a.fail(key, errors.Join(err1, err2))
	return g
}

func generationText(g wire.Generation) string {
	return strconv.FormatUint(g.Epoch, 10) + "." + strconv.FormatUint(g.N, 10)
}
