package storetest

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"sinkside/store"
)

func change(bucket, key string) store.Change {
	return store.Change{Bucket: bucket, Key: key, Value: []byte(bucket + "/" + key)}
}

func gone(bucket, key string) store.Change {
	return store.Change{Bucket: bucket, Key: key, Delete: true}
}

// bucket reads all of a bucket, and wants it sorted.
func bucket(t testing.TB, s Store, name string) map[string]string {
	t.Helper()
	out, keys := map[string]string{}, []string{}
	must(t, s.Each(name, func(key string, value []byte) error {
		out[key] = string(value)
		keys = append(keys, key)
		return nil
	}))
	if !slices.IsSorted(keys) || len(keys) != len(out) {
		t.Errorf("Each(%s) gave keys %q, want them sorted and once", name, keys)
	}
	return out
}

func recordsAreKept(t *testing.T, m Maker) {
	s := m.New(t)
	if v, ok, err := s.Get("devices", "a"); v != nil || ok || err != nil {
		t.Errorf("Get in an empty store = %q, %t, %v", v, ok, err)
	}
	must(t, s.Put("devices", "b", []byte("second")))
	must(t, s.Put("devices", "a", []byte("first")))
	must(t, s.Put("devices", "é \x00 key", nil))
	must(t, s.Put("device", "s", []byte("of another bucket")))
	must(t, s.Put("devices", "a", []byte("first again")))
	want := map[string]string{"a": "first again", "b": "second", "é \x00 key": ""}
	if got := bucket(t, s, "devices"); !maps.Equal(got, want) {
		t.Errorf("bucket = %q, want %q", got, want)
	}
	if v, ok, err := s.Get("devices", "é \x00 key"); len(v) != 0 || !ok || err != nil {
		t.Errorf("an empty record = %q, %t, %v, want it there", v, ok, err)
	}
	for range 2 {
		must(t, s.Delete("devices", "b"))
	}
	if _, ok, err := s.Get("devices", "b"); ok || err != nil {
		t.Errorf("a deleted record: %t, %v", ok, err)
	}
	// Over several pages.
	var many []store.Change
	for i := range 600 {
		many = append(many, store.Change{Bucket: "many", Key: ID(uint64(i)).String(), Value: []byte(strings.Repeat("x", 1000))})
	}
	must(t, s.Change(many...))
	if got := bucket(t, s, "many"); len(got) != 600 {
		t.Errorf("bucket has %d records, want 600", len(got))
	}
}

func recordLimits(t *testing.T, m Maker) {
	s := m.New(t)
	long := strings.Repeat("k", store.MaxKey)
	for _, c := range []struct {
		name, bucket, key string
		size              int
		right             bool
	}{
		{"no bucket", "", "k", 1, false},
		{"no key", "b", "", 1, false},
		{"zero byte in the bucket", "b\x00", "k", 1, false},
		{"bucket too long", long + "b", "k", 1, false},
		{"key too long", "b", long + "k", 1, false},
		{"value too long", "b", "k", store.MaxRecord + 1, false},
		{"all as long as they may be", long, long, store.MaxRecord, true},
	} {
		err := s.Put(c.bucket, c.key, make([]byte, c.size))
		if c.right != (err == nil) || err != nil && !errors.Is(err, store.ErrRecord) {
			t.Errorf("%s: Put = %v", c.name, err)
		}
	}
	if v, ok, err := s.Get(long, long); len(v) != store.MaxRecord || !ok || err != nil {
		t.Errorf("the largest record: %d bytes, %t, %v", len(v), ok, err)
	}
}

func changesGoTogether(t *testing.T, m Maker) {
	s := m.New(t)
	must(t, s.Change(change("codes", "483 102"), change("other", "x")))
	must(t, s.Change(gone("codes", "483 102"), change("devices", "phone"), gone("devices", "never was")))
	if err := s.Change(change("devices", "tablet"), change("", "bad")); !errors.Is(err, store.ErrRecord) {
		t.Errorf("Change with a bad part = %v, want ErrRecord", err)
	}
	must(t, s.Change(change("devices", "twice"), gone("devices", "twice")))
	if got := bucket(t, s, "devices"); !maps.Equal(got, map[string]string{"phone": "devices/phone"}) {
		t.Errorf("devices = %q, want the phone alone", got)
	}
	if got := bucket(t, s, "codes"); len(got) != 0 {
		t.Errorf("codes = %q, want none", got)
	}
	must(t, s.Change())
}
