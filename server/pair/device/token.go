package device

import (
	"crypto/hmac"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"io"
	"strings"

	"sinkside/sync/journal"
)

// A token is the device's id, a dot, and 256 random bits in base64url:
//
//	01JQ6ZV3W8M0XK5T7N4R2B9CDE.q7rN…  (70 characters)
//
// The id finds the device; the bits are compared, as their SHA-256, in
// constant time.
const secretBytes = 32

type digest [sha256.Size]byte

// nobody is held against a token of an unknown device, so that the answer
// takes as long as for a known one. No token hashes to it.
var nobody digest

func tokenOf(id journal.ID, secret []byte) (token string, sum digest) {
	return id.String() + "." + base64.RawURLEncoding.EncodeToString(secret), sha256.Sum256(secret)
}

// splitToken makes of anything that is not a token the id and hash of nobody.
func splitToken(token string) (journal.ID, digest) {
	name, text, _ := strings.Cut(token, ".")
	id, err := journal.ParseID(name)
	secret, err2 := base64.RawURLEncoding.Strict().DecodeString(text)
	if err != nil || err2 != nil || len(secret) != secretBytes {
		return journal.ID{}, digest{}
	}
	return id, sha256.Sum256(secret)
}

// has says whether a token of this hash is the entry's. e may be nil.
func (e *entry) has(sum digest) bool {
	known, want := 1, nobody
	if e == nil {
		known = 0
	} else {
		want = e.token
	}
	return subtle.ConstantTimeCompare(sum[:], want[:])&known == 1
}

// newID makes a device id of this moment.
func (r *Register) newID() (journal.ID, error) {
	var entropy [10]byte
	if _, err := io.ReadFull(r.rand, entropy[:]); err != nil {
		return journal.ID{}, fmt.Errorf("make a device id: %w", err)
	}
	return journal.NewID(uint64(r.now().UnixMilli()), entropy), nil
}

func (r *Register) newSecret() ([]byte, error) {
	secret := make([]byte, secretBytes)
	if _, err := io.ReadFull(r.rand, secret); err != nil {
		return nil, fmt.Errorf("make a token: %w", err)
	}
	return secret, nil
}

const (
	keysBucket   = "keys"
	successorKey = "device-successor"
)

// readKey finds the key from which successors' secrets are derived, or makes it.
func (r *Register) readKey() error {
	key, found, err := r.records.Get(keysBucket, successorKey)
	if err != nil || found && len(key) == secretBytes {
		r.nextKey = key
		return err
	}
	if key, err = r.newSecret(); err != nil {
		return err
	}
	r.nextKey = key
	return r.records.Put(keysBucket, successorKey, key)
}

// successorSecret is derived, not drawn, so that a retry gets the same token
// although only its hash is kept. It takes the nonce, which is not kept either:
// the key alone makes no token.
func (r *Register) successorSecret(next journal.ID, nonce string) []byte {
	mac := hmac.New(sha256.New, r.nextKey)
	mac.Write(next[:])
	mac.Write([]byte(nonce))
	return mac.Sum(nil)
}
