package device

import (
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"
)

// alphabet is what pairing codes are made of: 24 letters and digits that are
// not taken for one another, and no vowels, so that no code is a word. 24^8 is
// about 2^36.
const alphabet = "CDFGHJKMNPQRTVWXY2346789"

const (
	codeLength = 8
	codeLife   = 10 * time.Minute
	// maxCodes bounds how many codes live at once; the oldest gives way. With
	// the limits on tries a guess succeeds less than once in 10 million
	// lifetimes of a code.
	maxCodes    = 16
	codesBucket = "codes"
)

// A Code pairs one device, once.
type Code struct {
	Text    string // "CDFG-HJKM"
	Expires time.Time
}

type liveCode struct {
	sum     digest
	expires time.Time
}

// NewCode makes a code that lives ten minutes. Codes outlive a restart.
func (r *Register) NewCode() (Code, error) {
	r.changing.Lock()
	defer r.changing.Unlock()
	text, err := r.drawCode()
	if err != nil {
		return Code{}, err
	}
	c := liveCode{sum: codeSum(text), expires: r.now().Add(codeLife)}
	r.dropCodes()
	for len(r.codes) >= maxCodes {
		if err := r.spend(0); err != nil {
			return Code{}, fmt.Errorf("drop the oldest code: %w", err)
		}
	}
	if err := r.putCode(c); err != nil {
		return Code{}, fmt.Errorf("keep the new code: %w", err)
	}
	r.codes = append(r.codes, c)
	return Code{Text: text[:4] + "-" + text[4:], Expires: c.expires}, nil
}

// drawCode rejects bytes beyond the largest multiple of the alphabet, which
// would make some letters likelier.
func (r *Register) drawCode() (string, error) {
	code := make([]byte, 0, codeLength)
	var one [1]byte
	for len(code) < codeLength {
		if _, err := io.ReadFull(r.rand, one[:]); err != nil {
			return "", fmt.Errorf("make a code: %w", err)
		}
		if int(one[0]) < 256/len(alphabet)*len(alphabet) {
			code = append(code, alphabet[int(one[0])%len(alphabet)])
		}
	}
	return string(code), nil
}

// Pair spends a code and lets a new device in. from is where the request comes
// from, for the limit on tries. The error is ErrCode, or a *SlowDown, or says
// that the disk refused; the code is then still good.
func (r *Register) Pair(code, label, from string) (Device, string, error) {
	r.changing.Lock()
	defer r.changing.Unlock()
	if wait := r.tries.wait(from, r.now()); wait > 0 {
		return Device{}, "", &SlowDown{Wait: wait}
	}
	r.dropCodes()
	at := r.findCode(codeSum(code))
	if at < 0 {
		r.tries.failed(from, r.now())
		return Device{}, "", ErrCode
	}
	id, err := r.newID()
	if err != nil {
		return Device{}, "", err
	}
	secret, err := r.newSecret()
	if err != nil {
		return Device{}, "", err
	}
	// The code goes first: a crash between the two costs a new code, the other
	// way round it could be spent twice.
	spent := r.codes[at]
	if err := r.spend(at); err != nil {
		return Device{}, "", fmt.Errorf("spend the code: %w", err)
	}
	e := entry{Device: Device{ID: id, Label: tidyLabel(label), Created: r.now(), Seen: r.now()}}
	e.seenKept = e.Seen
	var token string
	token, e.token = tokenOf(id, secret)
	if err := r.add(e); err != nil {
		r.codes = append(r.codes, spent)
		return Device{}, "", err
	}
	return e.Device, token, nil
}

// findCode compares with every live code, so that the time it takes tells
// nothing about any of them.
func (r *Register) findCode(sum digest) int {
	at := -1
	for i, c := range r.codes {
		hit := subtle.ConstantTimeCompare(c.sum[:], sum[:])
		at = subtle.ConstantTimeSelect(hit, i, at)
	}
	return at
}

// codeSum is of the code as a person may have typed it: in small letters, with
// spaces, with the two look-alikes that are in no code.
func codeSum(typed string) digest {
	plain := strings.Map(func(c rune) rune {
		switch {
		case c == '-' || c == '\u2013' || unicode.IsSpace(c):
			return -1
		case c == 'b' || c == 'B':
			return '8'
		case c == 'z' || c == 'Z':
			return '2'
		}
		return unicode.ToUpper(c)
	}, typed)
	return sha256.Sum256([]byte(plain))
}

// tidyLabel makes of what was typed one line of 1 to 60 characters.
func tidyLabel(s string) string {
	s = strings.ToValidUTF8(s, "")
	words := strings.FieldsFunc(s, func(c rune) bool { return unicode.IsSpace(c) || !unicode.IsPrint(c) })
	runes := []rune(strings.Join(words, " "))
	if len(runes) > 60 {
		runes = runes[:60]
	}
	if s = strings.TrimSpace(string(runes)); s == "" {
		return "Unnamed device"
	}
	return s
}

// spend removes a code for good, on disk first.
func (r *Register) spend(at int) error {
	if err := r.records.Delete(codesBucket, r.codes[at].key()); err != nil {
		return err
	}
	r.codes = slices.Delete(r.codes, at, at+1)
	return nil
}

// dropCodes forgets codes that have run out. One that stays on disk because
// the disk refuses is dropped again when it is next read.
func (r *Register) dropCodes() {
	now := r.now()
	r.codes = slices.DeleteFunc(r.codes, func(c liveCode) bool {
		if c.lives(now) {
			return false
		}
		_ = r.records.Delete(codesBucket, c.key())
		return true
	})
}

// lives is false too when the code would live longer than any can: the clock
// was set back after it was made.
func (c liveCode) lives(now time.Time) bool {
	return now.Before(c.expires) && !c.expires.After(now.Add(codeLife))
}

func (c liveCode) key() string { return hex.EncodeToString(c.sum[:]) }

type codeRecord struct {
	Expires int64 `json:"expires_ms"`
}

func (r *Register) putCode(c liveCode) error {
	text, err := json.Marshal(codeRecord{Expires: c.expires.UnixMilli()})
	if err != nil {
		return err
	}
	return r.records.Put(codesBucket, c.key(), text)
}

func (r *Register) readCodes() error {
	return r.records.Each(codesBucket, func(key string, value []byte) error {
		var rec codeRecord
		if err := json.Unmarshal(value, &rec); err != nil {
			return fmt.Errorf("code: %w", err)
		}
		c := liveCode{expires: time.UnixMilli(rec.Expires)}
		if n, err := hex.Decode(c.sum[:], []byte(key)); err != nil || n != len(c.sum) {
			return fmt.Errorf("code: its key %d characters long is not a hash", len(key))
		}
		r.codes = append(r.codes, c)
		return nil
	})
}
