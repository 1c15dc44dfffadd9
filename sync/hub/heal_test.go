package hub_test

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"strconv"
	"strings"
	"time"

	"sinkside/store/memory"
	"sinkside/sync/journal"
	"sinkside/sync/link"
	"sinkside/sync/link/host"
)

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
