package device

import (
	"errors"
	"strings"
	"testing"
	"time"

	"sinkside/sync/journal"
)

const nonce = "Zx3nq0pT7mH2kS9w"

func TestSuccessorOncePerNonce(t *testing.T) {
	s := marram(t)
	old, oldToken := s.pair(t, "Runa's phone")
	s.clock.pass(time.Hour)
	next, token, err := s.Successor(old.ID, nonce)
	if err != nil {
		t.Fatal(err)
	}
	if next.ID == old.ID || next.Succeeds != old.ID || next.Label != old.Label {
		t.Errorf("successor %+v of %+v", next, old)
	}
	retries := []struct {
		name string
		asks journal.ID
	}{{"by the device", old.ID}, {"by the successor", next.ID}}
	for _, restart := range []bool{false, true} {
		if restart {
			s.reopen(t)
		}
		for _, row := range retries {
			again, sameToken, err := s.Successor(row.asks, nonce)
			if err != nil || again.ID != next.ID || sameToken != token {
				t.Errorf("retry %s, restarted %v: %v, %v, the same token %v", row.name, restart, again.ID, err, sameToken == token)
			}
		}
	}
	if got, err := s.Who(token); err != nil || got.ID != next.ID {
		t.Errorf("Who of the successor = %+v, %v", got, err)
	}
	if got, err := s.Who(oldToken); err != nil || got.ID != old.ID {
		t.Errorf("Who of the old device = %+v, %v: a copied profile's first owner still writes", got, err)
	}
	if got := len(s.List()); got != 2 {
		t.Errorf("%d devices, want 2", got)
	}
}

func TestSuccessorKeepsNeitherTokenNorNonce(t *testing.T) {
	s := marram(t)
	old, _ := s.pair(t, "Runa's phone")
	_, token, err := s.Successor(old.ID, nonce)
	if err != nil {
		t.Fatal(err)
	}
	_, secret, _ := strings.Cut(token, ".")
	if text := s.records.text(); strings.Contains(text, secret) || strings.Contains(text, nonce) {
		t.Error("the store holds the token or the nonce")
	}
}

func TestSuccessorsOfDifferentNoncesAndDevicesDiffer(t *testing.T) {
	s := marram(t)
	a, _ := s.pair(t, "Runa's phone")
	b, _ := s.pair(t, "Osk's tablet")
	tokens := map[string]bool{}
	for _, ask := range []struct {
		id    journal.ID
		nonce string
	}{{a.ID, nonce}, {a.ID, nonce + "2"}, {b.ID, nonce}} {
		_, token, err := s.Successor(ask.id, ask.nonce)
		if err != nil {
			t.Fatal(err)
		}
		tokens[token] = true
	}
	if len(tokens) != 3 {
		t.Errorf("%d tokens for 3 successors", len(tokens))
	}
}

func TestSuccessorRefuses(t *testing.T) {
	s := marram(t)
	old, _ := s.pair(t, "Runa's phone")
	if _, _, err := s.Successor(journal.ID{9}, nonce); !errors.Is(err, ErrNoDevice) {
		t.Errorf("of nobody: %v, want ErrNoDevice", err)
	}
	for _, bad := range []string{"", "short", strings.Repeat("n", 129)} {
		if _, _, err := s.Successor(old.ID, bad); !errors.Is(err, ErrNonce) {
			t.Errorf("nonce of %d characters: %v, want ErrNonce", len(bad), err)
		}
	}
	next, _, err := s.Successor(old.ID, nonce)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Revoke(next.ID); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Successor(old.ID, nonce); !errors.Is(err, ErrRevoked) {
		t.Errorf("a revoked successor asked for again: %v, want ErrRevoked", err)
	}
	if _, err := s.Revoke(old.ID); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Successor(old.ID, nonce+"2"); !errors.Is(err, ErrRevoked) {
		t.Errorf("of a revoked device: %v, want ErrRevoked", err)
	}
}

// TestSuccessorsAreBounded asks each time the newest one, as a thief might who
// saw the limit on a single device.
func TestSuccessorsAreBounded(t *testing.T) {
	s := marram(t)
	d, _ := s.pair(t, "Runa's phone")
	for i := range maxSuccessors {
		next, _, err := s.Successor(d.ID, nonce+strings.Repeat("x", i+1))
		if err != nil {
			t.Fatalf("successor %d: %v", i+1, err)
		}
		d = next
	}
	if _, _, err := s.Successor(d.ID, nonce); !errors.Is(err, ErrTooManySuccessors) {
		t.Errorf("one too many: %v, want ErrTooManySuccessors", err)
	}
}

func TestSuccessorWithAFullDisk(t *testing.T) {
	s := marram(t)
	d, _ := s.pair(t, "Runa's phone")
	s.records.refuse = devicesBucket
	if _, _, err := s.Successor(d.ID, nonce); !errors.Is(err, errFull) {
		t.Errorf("Successor = %v, want the disk's refusal", err)
	}
	if len(s.List()) != 1 {
		t.Error("a successor came in that is not on disk")
	}
}
