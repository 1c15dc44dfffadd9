package hub_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
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
	w.studio = &studio{t: t, store: memory.New()}
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
	w.studio.close()
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
	w.studio.close()
	for _, p := range w.phones {
		p.disconnect()
	}
	w.studio.store, w.before = w.before, nil
	w.lost = true
	w.startHub()
}

// Laws 1 and 2 over the wire: union, chains, forks and their healing, whatever
// the connections do, whoever is restored from a backup.
func TestAllComeToHoldTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newWorld(t)
		defer func() {
			w.studio.close()
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
