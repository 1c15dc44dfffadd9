package store

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/dgraph-io/badger/v4"

	"sinkside/sync/journal"
)

func sumOf(data []byte) [32]byte { return sha256.Sum256(data) }

// overwrite changes a value behind the store's back.
func overwrite(t *testing.T, s *Store, key, value []byte) {
	t.Helper()
	if err := s.db.Update(func(tx *badger.Txn) error { return tx.Set(key, value) }); err != nil {
		t.Fatal(err)
	}
}

// flip changes one byte of a value behind the store's back.
func flip(t *testing.T, s *Store, key []byte, at int) {
	t.Helper()
	value, err := s.read(key)
	if err != nil {
		t.Fatal(err)
	}
	value[at] ^= 4
	overwrite(t, s, key, value)
}

func drop(t *testing.T, s *Store, key []byte) {
	t.Helper()
	if err := s.db.Update(func(tx *badger.Txn) error { return tx.Delete(key) }); err != nil {
		t.Fatal(err)
	}
}

// A changed or lost entry is named, and mended by a device that still has it.
func TestDamagedEntryIsNamedAndMended(t *testing.T) {
	for _, c := range []struct {
		name   string
		n      uint64
		damage func(t *testing.T, s *Store, key []byte)
	}{
		{"a byte of the line", 2, func(t *testing.T, s *Store, key []byte) { flip(t, s, key, 60) }},
		{"a byte of the name", 3, func(t *testing.T, s *Store, key []byte) { flip(t, s, key, 5) }},
		{"a lost entry", 3, drop},
		{"a cut value", 3, func(t *testing.T, s *Store, key []byte) { overwrite(t, s, key, []byte("short")) }},
		{"a byte of the last line", 5, func(t *testing.T, s *Store, key []byte) { flip(t, s, key, 60) }},
		{"a lost last entry", 5, drop},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := openIn(t, t.TempDir(), tiny())
			d := newDevice(1, 2)
			twin := *d
			twin.head = journal.Head{}
			es := d.run(t, 5)
			wants(t, s, es, journal.Stored)
			c.damage(t, s, entryKey(d.chain, c.n))

			n := uint64(0)
			err := s.Range(d.chain, 1, func([]byte) error { n++; return nil })
			named := fmt.Sprintf("entry %d of device %s in treatment %s", c.n, d.chain.Dev, d.chain.Job)
			if !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), named) {
				t.Errorf("Range = %v, want it to name %s", err, named)
			}
			if n != c.n-1 {
				t.Errorf("Range gave %d lines before the damage, want %d", n, c.n-1)
			}
			if name, err := s.NameAt(d.chain, c.n); err != nil || name != es[c.n-1].Name {
				t.Errorf("NameAt = %v, %v: the chain vouches for its entries", name, err)
			}
			var found []error
			if err := s.Check(func(err error) { found = append(found, err) }); err != nil || len(found) != 1 {
				t.Errorf("Check found %v, %v, want this one", found, err)
			}

			// Another entry in its place is still a fork.
			other := es[c.n-1]
			other.Name = journal.Name{1}
			if v, err := s.Append([]journal.Entry{other}); err != nil || v[0] != journal.Fork {
				t.Errorf("another entry in the damaged place: %v, %v, want a fork", v, err)
			}
			wants(t, s, es, journal.Known)
			if n := length(t, s, d.chain); n != 5 {
				t.Errorf("%d lines after mending, want 5", n)
			}
		})
	}
}

func TestDamagedRecordAndAside(t *testing.T) {
	s := openIn(t, t.TempDir(), tiny())
	d := newDevice(1, 2)
	es := d.run(t, 1)
	if err := errors.Join(s.KeepAside(es), s.Put("devices", "phone", []byte("label")), s.Put("devices", "tablet", []byte("label"))); err != nil {
		t.Fatal(err)
	}
	flip(t, s, asideKey(&es[0]), 20)
	flip(t, s, recordKey("devices", "phone"), 9)
	if err := s.Aside(func([]byte) error { return nil }); !errors.Is(err, ErrDamaged) {
		t.Errorf("Aside = %v, want ErrDamaged", err)
	}
	if _, ok, err := s.Get("devices", "phone"); ok || !errors.Is(err, ErrDamaged) {
		t.Errorf("Get = %t, %v, want ErrDamaged", ok, err)
	}
	if err := s.Each("devices", func(string, []byte) error { return nil }); !errors.Is(err, ErrDamaged) {
		t.Errorf("Each = %v, want ErrDamaged", err)
	}
	if v, ok, err := s.Get("devices", "tablet"); string(v) != "label" || !ok || err != nil {
		t.Errorf("the other record = %q, %t, %v", v, ok, err)
	}
	// A right value under another's key shows as well.
	value, err := s.read(recordKey("devices", "tablet"))
	if err != nil {
		t.Fatal(err)
	}
	overwrite(t, s, recordKey("devices", "phone"), value)
	if _, ok, err := s.Get("devices", "phone"); ok || !errors.Is(err, ErrDamaged) {
		t.Errorf("Get of another's value = %t, %v, want ErrDamaged", ok, err)
	}
	count := 0
	if err := s.Check(func(error) { count++ }); err != nil || count != 2 {
		t.Errorf("Check found %d, %v, want 2", count, err)
	}
}

// Every byte of a photograph's chunks is checked when it leaves.
func TestDamagedPack(t *testing.T) {
	s := openIn(t, t.TempDir(), tiny())
	data := bytes.Repeat([]byte("warp and weft "), 30_000)
	sum := sumOf(data)
	bringAll(t, s, data, sum)
	path := s.packs.path(s.packs.now.Load())
	pack, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := range Chunks(int64(len(data))) {
		value, err := s.read(chunkKey(sum, i))
		if err != nil {
			t.Fatal(err)
		}
		at, _ := placeOfChunk(value)
		for _, offset := range []int64{at.offset, at.offset + int64(at.length) - 1} {
			bad := bytes.Clone(pack)
			bad[offset] ^= 1
			if err := os.WriteFile(path, bad, 0o600); err != nil {
				t.Fatal(err)
			}
			for j := range Chunks(int64(len(data))) {
				_, err := s.BlobRead(sum, j)
				if errors.Is(err, ErrDamaged) != (j == i) {
					t.Errorf("byte %d of chunk %d changed: BlobRead(%d) = %v", offset-at.offset, i, j, err)
				}
			}
		}
	}
	// A pack that is cut or gone is noticed too.
	for _, pack := range [][]byte{pack[:len(pack)/2], {}} {
		if err := os.WriteFile(path, pack, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := s.BlobRead(sum, Chunks(int64(len(data)))-1); !errors.Is(err, ErrDamaged) {
			t.Errorf("BlobRead from a cut pack = %v, want ErrDamaged", err)
		}
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if _, err := s.BlobRead(sum, 0); !errors.Is(err, ErrDamaged) {
		t.Errorf("BlobRead without the pack = %v, want ErrDamaged", err)
	}
}

// Heads that are lost are found again: a chain must never seem empty.
func TestLostHeads(t *testing.T) {
	for _, c := range []struct {
		name   string
		damage func(t *testing.T, s *Store, c journal.Chain)
	}{
		{"one head lost", func(t *testing.T, s *Store, c journal.Chain) { drop(t, s, chainKey(kHead, c)) }},
		{"one head cut", func(t *testing.T, s *Store, c journal.Chain) { overwrite(t, s, chainKey(kHead, c), []byte("cut")) }},
		{"the count lost", func(t *testing.T, s *Store, _ journal.Chain) { drop(t, s, headsKey) }},
		{"the count cut", func(t *testing.T, s *Store, _ journal.Chain) { overwrite(t, s, headsKey, []byte{1}) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			s := openIn(t, dir, tiny())
			a, b := newDevice(1, 2), newDevice(1, 3)
			es := a.run(t, 300)
			wants(t, s, es, journal.Stored)
			wants(t, s, b.run(t, 2), journal.Stored)
			c.damage(t, s, a.chain)
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			for range 2 {
				said := ""
				o := tiny()
				o.Warn = func(sentence string) { said = sentence }
				s = openIn(t, dir, o)
				wants(t, s, es, journal.Known)
				if h, err := s.Head(b.chain); err != nil || h != b.head {
					t.Errorf("the other head = %v, %v, want %v", h, err, b.head)
				}
				if err := s.Close(); err != nil {
					t.Fatal(err)
				}
				if (said != "") == (c.name == "") {
					t.Errorf("warning = %q", said)
				}
				c.name = "" // the second time all is well
			}
		})
	}
}

// A process killed between making a file and filling it leaves it empty. That
// loses nothing and stands in nobody's way.
func TestFilesLeftEmptyByAKill(t *testing.T) {
	dir := t.TempDir()
	s := openIn(t, dir, tiny())
	es := newDevice(1, 2).run(t, 30)
	wants(t, s, es, journal.Stored)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"00098.mem", "00099.mem", "000099.vlog"} {
		if err := os.WriteFile(filepath.Join(s.dbDir(), name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s = openIn(t, dir, tiny())
	wants(t, s, es, journal.Known)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// Whatever byte of a table on the disk changes, the store gives out the right
// bytes or says that it is damaged.
func TestChangedTable(t *testing.T) {
	dir := t.TempDir()
	s := openIn(t, dir, tiny())
	d := newDevice(1, 2)
	es := d.run(t, 200)
	wants(t, s, es, journal.Stored)
	if err := errors.Join(s.Put("b", "k", []byte("value")), s.Close()); err != nil {
		t.Fatal(err)
	}
	tables, err := filepath.Glob(filepath.Join(dir, "db", "*.sst"))
	if err != nil || len(tables) != 1 {
		t.Fatalf("tables = %v, %v, want one", tables, err)
	}
	table, err := os.ReadFile(tables[0])
	if err != nil {
		t.Fatal(err)
	}
	const places = 40
	noticed := 0
	for i := range places {
		bad := bytes.Clone(table)
		bad[i*(len(table)-1)/(places-1)] ^= 0x10
		if err := os.WriteFile(tables[0], bad, 0o600); err != nil {
			t.Fatal(err)
		}
		if readsRight(t, dir, d.chain, es) {
			noticed++
		}
	}
	if noticed < places/2 {
		t.Errorf("%d of %d changes noticed; the rest should have been in places that do not matter", noticed, places)
	}
}

// readsRight opens a store and reads the chain: every line must be right, or
// the damage be noticed, which it returns.
func readsRight(t *testing.T, dir string, c journal.Chain, es []journal.Entry) (noticed bool) {
	t.Helper()
	s, err := Open(dir, tiny())
	if err != nil {
		if !errors.Is(err, ErrDamaged) {
			t.Errorf("Open = %v, want ErrDamaged", err)
		}
		return true
	}
	defer s.Close()
	n := 0
	err = s.Range(c, 1, func(line []byte) error {
		if !bytes.Equal(line, es[n].Line) {
			t.Errorf("line %d = %.60s, want %.60s", n+1, line, es[n].Line)
		}
		n++
		return nil
	})
	if err == nil && n == len(es) {
		return false
	}
	if h, _ := s.Head(c); err == nil && h.N != uint64(n) {
		t.Errorf("%d lines, head at %d, and no error", n, h.N)
	}
	return true
}
