package device

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"sinkside/sync/journal"
)

var wednesday = time.Date(2026, 3, 4, 10, 2, 11, 0, time.UTC)

// hands is a clock that a test moves.
type hands struct {
	mu sync.Mutex
	at time.Time
}

func (h *hands) now() time.Time {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.at
}

func (h *hands) pass(d time.Duration) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.at = h.at.Add(d)
}

// drawer keeps records in memory. refuse makes writes to a bucket fail.
type drawer struct {
	mu     sync.Mutex
	held   map[string]map[string][]byte
	refuse string
}

var errFull = errors.New("disk is full")

func newDrawer() *drawer { return &drawer{held: map[string]map[string][]byte{}} }

func (d *drawer) Get(bucket, key string) ([]byte, bool, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	v, ok := d.held[bucket][key]
	return bytes.Clone(v), ok, nil
}

func (d *drawer) Put(bucket, key string, v []byte) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.refuse == bucket {
		return errFull
	}
	if d.held[bucket] == nil {
		d.held[bucket] = map[string][]byte{}
	}
	d.held[bucket][key] = bytes.Clone(v)
	return nil
}

func (d *drawer) Delete(bucket, key string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.refuse == bucket {
		return errFull
	}
	delete(d.held[bucket], key)
	return nil
}

func (d *drawer) Each(bucket string, f func(string, []byte) error) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	for k, v := range d.held[bucket] {
		if err := f(k, bytes.Clone(v)); err != nil {
			return err
		}
	}
	return nil
}

// text is all that the drawer holds, to search in.
func (d *drawer) text() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return fmt.Sprintf("%q", d.held)
}

type studio struct {
	*Register
	records *drawer
	clock   *hands
}

func marram(t *testing.T) studio {
	t.Helper()
	s := studio{records: newDrawer(), clock: &hands{at: wednesday}}
	s.reopen(t)
	return s
}

func (s *studio) reopen(t *testing.T) {
	t.Helper()
	r, err := Open(s.records, Options{Now: s.clock.now})
	if err != nil {
		t.Fatalf("Open: %v", err)
	}
	s.Register = r
}

func (s *studio) pair(t *testing.T, label string) (Device, string) {
	t.Helper()
	code, err := s.NewCode()
	if err != nil {
		t.Fatalf("NewCode: %v", err)
	}
	d, token, err := s.Pair(code.Text, label, "192.168.7.31")
	if err != nil {
		t.Fatalf("Pair: %v", err)
	}
	return d, token
}

func TestPairedDeviceComesIn(t *testing.T) {
	s := marram(t)
	d, token := s.pair(t, "Runa's phone")
	s.clock.pass(time.Hour)
	got, err := s.Who(token)
	if err != nil || got.ID != d.ID || got.Label != "Runa's phone" || !got.Seen.Equal(wednesday.Add(time.Hour)) {
		t.Fatalf("Who = %+v, %v", got, err)
	}
	s.reopen(t)
	if got, err := s.Who(token); err != nil || got.ID != d.ID {
		t.Errorf("after a restart: Who = %+v, %v", got, err)
	}
}

func TestTokenIsKeptAsItsHashOnly(t *testing.T) {
	s := marram(t)
	_, token := s.pair(t, "Runa's phone")
	_, secret, _ := strings.Cut(token, ".")
	if len(secret) != 43 {
		t.Errorf("the secret has %d characters, want 43 (256 bits)", len(secret))
	}
	if strings.Contains(s.records.text(), secret) {
		t.Error("the store holds the token")
	}
}

func TestWhoRefuses(t *testing.T) {
	s := marram(t)
	d, token := s.pair(t, "Runa's phone")
	other, otherToken := s.pair(t, "Osk's tablet")
	_, otherSecret, _ := strings.Cut(otherToken, ".")
	id, secret, _ := strings.Cut(token, ".")
	for name, bad := range map[string]string{
		"nothing":            "",
		"id alone":           id,
		"id and dot":         id + ".",
		"another's secret":   d.ID.String() + "." + otherSecret,
		"another's id":       other.ID.String() + "." + secret,
		"unknown device":     journal.ID{1}.String() + "." + secret,
		"no device":          journal.ID{}.String() + "." + strings.Repeat("A", 43),
		"one character less": token[:len(token)-1],
		"one more":           token + "A",
		"last bit changed":   token[:len(token)-1] + "_",
		"small letters":      strings.ToLower(id) + "." + secret,
	} {
		if got, err := s.Who(bad); !errors.Is(err, ErrUnknown) {
			t.Errorf("%s: Who = %+v, %v, want ErrUnknown", name, got, err)
		}
	}
}

func TestRevoke(t *testing.T) {
	s := marram(t)
	d, token := s.pair(t, "Runa's phone")
	_, otherToken := s.pair(t, "Osk's tablet")
	watched, stop := s.Watch(t.Context(), d.ID)
	defer stop()

	revoked, err := s.Revoke(d.ID)
	if err != nil || !revoked.Revoked.Equal(wednesday) {
		t.Fatalf("Revoke = %+v, %v", revoked, err)
	}
	<-watched.Done()
	if cause := context.Cause(watched); !errors.Is(cause, ErrRevoked) {
		t.Errorf("cause = %v, want ErrRevoked", cause)
	}
	if late, _ := s.Watch(t.Context(), d.ID); late.Err() == nil {
		t.Error("a watch begun after the revocation goes on")
	}
	s.clock.pass(time.Hour)
	if again, err := s.Revoke(d.ID); err != nil || !again.Revoked.Equal(wednesday) {
		t.Errorf("second Revoke = %+v, %v, want the first time kept", again, err)
	}
	for range 2 {
		if got, err := s.Who(token); !errors.Is(err, ErrRevoked) || got.ID != d.ID {
			t.Errorf("Who = %+v, %v, want ErrRevoked", got, err)
		}
		if _, err := s.Who(otherToken); err != nil {
			t.Errorf("the other device: %v", err)
		}
		s.reopen(t)
	}
	if _, err := s.Revoke(journal.ID{9}); !errors.Is(err, ErrNoDevice) {
		t.Errorf("Revoke of nobody = %v, want ErrNoDevice", err)
	}
}

func TestRevokeWithAFullDiskStillShutsOut(t *testing.T) {
	s := marram(t)
	d, token := s.pair(t, "Runa's phone")
	s.records.refuse = devicesBucket
	if _, err := s.Revoke(d.ID); !errors.Is(err, errFull) {
		t.Errorf("Revoke = %v, want the disk's refusal", err)
	}
	if _, err := s.Who(token); !errors.Is(err, ErrRevoked) {
		t.Errorf("Who = %v, want ErrRevoked", err)
	}
	s.records.refuse = ""
	if _, err := s.Revoke(d.ID); err != nil {
		t.Errorf("second Revoke = %v", err)
	}
	s.reopen(t)
	if _, err := s.Who(token); !errors.Is(err, ErrRevoked) {
		t.Errorf("after a restart: Who = %v, want ErrRevoked", err)
	}
}

func TestWatchIsForgotten(t *testing.T) {
	s := marram(t)
	d, _ := s.pair(t, "Runa's phone")
	watched, stop := s.Watch(t.Context(), d.ID)
	stop()
	<-watched.Done()
	if errors.Is(context.Cause(watched), ErrRevoked) || len(s.watches) != 0 {
		t.Errorf("after stop: cause %v, %d watches", context.Cause(watched), len(s.watches))
	}
}

func TestSeenIsKeptByFlush(t *testing.T) {
	s := marram(t)
	_, token := s.pair(t, "Runa's phone")
	s.clock.pass(time.Hour)
	if _, err := s.Who(token); err != nil {
		t.Fatal(err)
	}
	ctx, end := context.WithCancel(t.Context())
	end()
	if err := s.Run(ctx); err != nil {
		t.Fatal(err)
	}
	s.reopen(t)
	if got := s.List()[0].Seen; !got.Equal(wednesday.Add(time.Hour)) {
		t.Errorf("Seen = %v, want an hour after %v", got, wednesday)
	}
}

func TestListIsInOrderOfPairing(t *testing.T) {
	s := marram(t)
	labels := []string{"Runa's phone", "Osk's tablet", "Studio machine"}
	for _, label := range labels {
		s.pair(t, label)
		s.clock.pass(time.Minute)
	}
	s.reopen(t)
	for i, d := range s.List() {
		if d.Label != labels[i] {
			t.Errorf("List()[%d] = %s, want %s", i, d.Label, labels[i])
		}
	}
}

func TestOpenSaysWhichDeviceIsDamaged(t *testing.T) {
	s := marram(t)
	d, _ := s.pair(t, "Runa's phone")
	for name, text := range map[string]string{"no JSON": "linen", "no token": `{"v":1}`, "short token": `{"token_sha256":"AAAA"}`} {
		s.records.held[devicesBucket][d.ID.String()] = []byte(text)
		if _, err := Open(s.records, Options{}); err == nil || !strings.Contains(err.Error(), d.ID.String()) {
			t.Errorf("%s: Open = %v, want the device named", name, err)
		}
	}
}

// TestRecordsOnDisk pins the form of a record, which later versions must read.
func TestRecordsOnDisk(t *testing.T) {
	s := marram(t)
	d, _ := s.pair(t, "Runa's phone")
	var got map[string]any
	if err := json.Unmarshal(s.records.held[devicesBucket][d.ID.String()], &got); err != nil {
		t.Fatal(err)
	}
	delete(got, "token_sha256")
	want := map[string]any{"v": 1.0, "label": "Runa's phone", "created_ms": 1772618531000.0, "seen_ms": 1772618531000.0}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("record = %v, want %v", got, want)
	}
}
