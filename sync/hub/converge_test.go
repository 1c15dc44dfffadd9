package hub_test

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"pgregory.net/rapid"

	"sinkside/store"
	"sinkside/store/memory"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
)

// world is a studio and its phones under a random story. Whatever happens to
// them, once they can talk again all hold the same, everything that was written
// is in it, and nothing twice.
type world struct {
	t       *rapid.T
	studio  *studio
	phones  []*phone
	written int             // notes are numbered: the text says which
	gone    map[string]bool // notes that only a phone held that was restored since
	backups map[int]*host.Memory
	before  *memory.Store // what the studio machine will be restored to
	nextID  atomic.Int64
	lost    bool // the studio machine was restored: its archive of refused branches too
}

type phone struct{ *device }

func newWorld(t *rapid.T) *world {
	w := &world{t: t, gone: map[string]bool{}, backups: map[int]*host.Memory{}}
	w.nextID.Store(100)
	w.studio = &studio{store: memory.New()}
	w.startHub()
	for i := range rapid.IntRange(2, 4).Draw(t, "phones") {
		w.phones = append(w.phones, w.phone(host.NewMemory(dev(byte(i+1)))))
	}
	return w
}

func (w *world) startHub() {
	w.studio.standings = nil
	h, err := hub.New(hub.Config{
		Store: w.studio.store, Key: testKey, Summarise: w.studio.summarise,
		Settle: 100 * time.Microsecond, Probe: time.Millisecond,
	})
	if err != nil {
		w.t.Fatal(err)
	}
	w.studio.hub = h
}

func (w *world) phone(m *host.Memory) *phone {
	return &phone{w.studio.deviceWith(m, host.Options{
		NoInflate: m.Dev == dev(2), // one old browser among them
		Successor: func(journal.ID) journal.ID {
			return journal.NewID(1_772_700_000_000, [10]byte{'s', byte(w.nextID.Add(1))})
		},
	})}
}

func (w *world) pick() (int, *phone) {
	i := rapid.IntRange(0, len(w.phones)-1).Draw(w.t, "phone")
	return i, w.phones[i]
}

// The things that happen.
func (w *world) actions() map[string]func() {
	return map[string]func(){
		"write":          w.write,
		"write a lot":    w.writeMany,
		"connect":        w.connect,
		"connect well":   func() { _, p := w.pick(); w.meet(p, faults{}) },
		"disconnect":     func() { _, p := w.pick(); p.disconnect() },
		"let it run":     w.letRun,
		"kill":           w.kill,
		"back phone up":  func() { i, p := w.pick(); w.backups[i] = p.memory() },
		"restore phone":  w.restorePhone,
		"copy profile":   w.copyProfile,
		"restart studio": w.restartStudio,
		"disk full":      func() { w.studio.store.Fail(store.ErrFull) },
		"disk has room":  func() { w.studio.store.Fail(nil) },
		"back studio up": func() { w.before = copyStore(w.t, w.studio.store) },
		"restore studio": w.restoreStudio,
	}
}

func (w *world) write() {
	_, p := w.pick()
	w.writeOn(p)
}

func (w *world) writeOn(p *phone) {
	w.written++
	p.write(w.t, job(byte(rapid.IntRange(1, 3).Draw(w.t, "job"))), "note", fmt.Sprintf(`{"text":"note %d"}`, w.written))
}

func (w *world) writeMany() {
	_, p := w.pick()
	for range rapid.IntRange(5, 40).Draw(w.t, "notes") {
		w.writeOn(p)
	}
}

func (w *world) connect() {
	_, p := w.pick()
	w.meet(p, faults{
		cutAfter:  rapid.IntRange(0, 6000).Draw(w.t, "cut after"),
		duplicate: rapid.SampledFrom([]int{0, 0, 3}).Draw(w.t, "duplicates"),
		swap:      rapid.SampledFrom([]int{0, 0, 4}).Draw(w.t, "swaps"),
		seed:      rapid.Uint64().Draw(w.t, "seed"),
	})
}

func (w *world) meet(p *phone, f faults) {
	p.disconnect()
	p.connect(f)
}

// letRun waits until a phone's session has nothing more to do, or ended.
func (w *world) letRun() {
	_, p := w.pick()
	if !p.connected() {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	_ = p.Wait(ctx, func(v host.View) bool {
		return caughtUp(v) || v.Status.Phase == link.Off || v.Status.Full
	})
}

// kill makes a phone's process end; its database stays.
func (w *world) kill() {
	i, p := w.pick()
	p.disconnect()
	w.phones[i] = w.phone(p.memory())
}

func (p *phone) memory() (m *host.Memory) {
	p.Look(func(v host.View) { m = v.Memory.Copy() })
	return m
}

// restorePhone takes a phone back to its backup. What it wrote since and sent
// to nobody is gone with it, which no sync can help.
func (w *world) restorePhone() {
	i, p := w.pick()
	m := w.backups[i]
	if m == nil {
		return
	}
	p.disconnect()
	now := p.memory()
	w.phones[i] = w.phone(m.Copy())
	for c, es := range now.Chains {
		if c.Dev == now.Dev {
			for _, e := range es {
				w.gone[text(e)] = true
			}
		}
	}
}

// copyProfile makes a second phone of a first, id included.
func (w *world) copyProfile() {
	_, p := w.pick()
	if len(w.phones) < 6 {
		w.phones = append(w.phones, w.phone(p.memory()))
	}
}

func (w *world) restartStudio() {
	w.studio.hub.Close()
	for _, p := range w.phones {
		p.disconnect()
	}
	w.studio.store.Fail(nil)
	w.startHub()
}

// restoreStudio takes the studio machine back to its backup. What it had
// acknowledged since comes back from the phones.
func (w *world) restoreStudio() {
	if w.before == nil {
		return
	}
	w.studio.hub.Close()
	for _, p := range w.phones {
		p.disconnect()
	}
	w.studio.store, w.before = w.before, nil
	w.lost = true
	w.startHub()
}

// heal lets everyone talk until all hold what the studio machine holds.
func (w *world) heal() {
	w.studio.store.Fail(nil)
	for deadline := time.Now().Add(patience); ; {
		want := func() map[journal.Chain]journal.Head { return headsOf(w.t, w.studio.store) }
		atRest := true
		for _, p := range w.phones {
			if !p.connected() {
				w.meet(p, faults{})
			}
			ctx, cancel := context.WithDeadline(context.Background(), deadline)
			err := p.Wait(ctx, func(v host.View) bool {
				return v.Status.Phase == link.Off || caughtUp(v) && maps.Equal(want(), held(v.Memory))
			})
			cancel()
			p.Look(func(v host.View) {
				if err != nil {
					w.t.Fatalf("phone %s does not come to rest: %+v\nholds  %v\nstudio %v", v.Memory.Dev, v.Status, held(v.Memory), want())
				}
				atRest = atRest && v.Status.Phase != link.Off
			})
		}
		if atRest && w.same() {
			return
		}
	}
}

// same tells whether every phone holds what the studio machine holds.
func (w *world) same() bool {
	want := headsOf(w.t, w.studio.store)
	for _, p := range w.phones {
		equal := false
		p.Look(func(v host.View) { equal = caughtUp(v) && maps.Equal(want, held(v.Memory)) })
		if !equal {
			return false
		}
	}
	return true
}

func headsOf(t fataler, st *memory.Store) map[journal.Chain]journal.Head {
	m := map[journal.Chain]journal.Head{}
	err := st.AllHeads(func(h journal.ChainHead) error {
		m[h.Chain] = h.Head
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func held(m *host.Memory) map[journal.Chain]journal.Head {
	out := map[journal.Chain]journal.Head{}
	for c, es := range m.Chains {
		if len(es) > 0 {
			out[c] = journal.Head{N: es[len(es)-1].N, Name: es[len(es)-1].Name}
		}
	}
	return out
}

// entriesOf returns what a store holds in its chains, and checks these.
func entriesOf(t fataler, st *memory.Store) []journal.Entry {
	var es []journal.Entry
	var log journal.Log
	err := st.AllHeads(func(h journal.ChainHead) error {
		return st.Range(h.Chain, 1, func(line []byte) error {
			e, err := journal.Parse(bytes.Clone(line))
			if v := log.Add(e); err == nil && v != journal.Stored {
				t.Fatalf("entry %d of a chain in the store is a %s", e.N, v)
			}
			es = append(es, e)
			return err
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	return es
}

// copyStore returns a backup: chains and small records, not what lies aside.
func copyStore(t fataler, st *memory.Store) *memory.Store {
	c := memory.New()
	if _, err := c.Append(entriesOf(t, st)); err != nil {
		t.Fatal(err)
	}
	for _, bucket := range []string{"hub", "summary"} {
		if err := st.Each(bucket, func(k string, v []byte) error { return c.Put(bucket, k, v) }); err != nil {
			t.Fatal(err)
		}
	}
	return c
}

// text is the number of a note.
func text(e journal.Entry) string {
	return strings.TrimSuffix(strings.TrimPrefix(string(e.Body), `{"text":"note `), `"}`)
}

// check is what must hold once all have talked.
func (w *world) check() {
	inChains := map[string][]journal.Entry{}
	for _, e := range entriesOf(w.t, w.studio.store) {
		inChains[text(e)] = append(inChains[text(e)], e)
	}
	aside := asideOf(w.t, w.studio.store)
	kept := map[string]bool{}
	for _, e := range aside {
		kept[text(e)] = true
	}
	for i := 1; i <= w.written; i++ {
		n := strconv.Itoa(i)
		es := inChains[n]
		switch {
		case len(es) == 0 && w.lost && kept[n]:
			// The studio machine was taken back to before it, and a copy of its
			// author's profile wrote in its place: people find it in the archive.
		case len(es) == 0 && !w.gone[n]:
			w.t.Fatalf("note %d is lost\n%s", i, w.whereIs(n))
		case len(es) > 1 && !sameOrigin(es):
			w.t.Fatalf("note %d is there %d times: %s", i, len(es), es[1].Line)
		}
	}
	for _, es := range inChains {
		for _, e := range es {
			if _, ok := aside[e.Was]; !ok && !e.Was.IsZero() && !w.lost {
				w.t.Fatalf("the archive lacks what entry %s was", e.Line)
			}
		}
	}
}

// asideOf returns a store's archive of refused branches.
func asideOf(t fataler, st *memory.Store) map[journal.Name]journal.Entry {
	m := map[journal.Name]journal.Entry{}
	err := st.Aside(func(line []byte) error {
		e, err := journal.Parse(bytes.Clone(line))
		m[e.Name] = e
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// whereIs says where a note is still to be found.
func (w *world) whereIs(note string) string {
	var out []string
	for i, p := range w.phones {
		p.Look(func(v host.View) {
			for c, es := range v.Memory.Chains {
				for _, e := range es {
					if text(e) == note {
						out = append(out, fmt.Sprintf("phone %d holds it in %v, whose receipt is %d: %s", i, c, v.Memory.Receipts[c].N, e.Line))
					}
				}
			}
			for _, e := range v.Memory.Aside {
				if text(e) == note {
					out = append(out, fmt.Sprintf("phone %d (%s) put it aside: %s", i, v.Memory.Dev, e.Line))
				}
			}
		})
	}
	return strings.Join(out, "\n")
}

// sameOrigin tells whether entries are one that several copies of a profile
// issued again, each as its successor: what was says so.
func sameOrigin(es []journal.Entry) bool {
	for _, e := range es {
		if e.Was.IsZero() || e.Was != es[0].Was {
			return false
		}
	}
	return true
}

// Laws 1 and 2 over the wire: union, chains, forks and their healing, whatever
// the connections do, whoever is restored from a backup.
func TestAllComeToHoldTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newWorld(t)
		defer func() {
			w.studio.hub.Close()
			for _, p := range w.phones {
				p.disconnect()
			}
		}()
		actions := w.actions()
		names := slices.Sorted(maps.Keys(actions))
		for range rapid.IntRange(1, 30).Draw(t, "length") {
			actions[rapid.SampledFrom(names).Draw(t, "then")]()
		}
		w.heal()
		w.check()
	})
}
