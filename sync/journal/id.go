package journal

import (
	"encoding/base64"
	"errors"
)

// ID names a treatment or a device: a ULID, 48 bits of Unix milliseconds and 80
// bits of chance, so that IDs made on phones that never met do not collide.
type ID [16]byte

// Shelf is the ID of the studio's own log: its recipes, supplies, instruments
// and people. It is the zero ID, which no clock can make.
var Shelf ID

// ErrID says that a text is no ID: 26 characters of Crockford's base 32.
var ErrID = errors.New("not an id: expected 26 characters of base 32")

const crockford = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// NewID makes an ID from Unix milliseconds and ten random bytes. Entropy comes
// from the caller, since the browser and the studio machine get theirs from
// different places.
func NewID(unixMS uint64, entropy [10]byte) ID {
	var id ID
	for i := range 6 {
		id[i] = byte(unixMS >> (40 - 8*i))
	}
	copy(id[6:], entropy[:])
	return id
}

// String returns the 26 characters of the ULID.
func (id ID) String() string {
	var out [26]byte
	// 128 bits in groups of five from the right; the first character holds three.
	var acc, bits uint
	at := len(out) - 1
	for i := len(id) - 1; i >= 0; i-- {
		acc |= uint(id[i]) << bits
		for bits += 8; bits >= 5; bits -= 5 {
			out[at] = crockford[acc&31]
			acc >>= 5
			at--
		}
	}
	out[at] = crockford[acc&31]
	return string(out[:])
}

// ParseID reads what [ID.String] writes. Small letters and look-alikes are not
// taken: an ID has one spelling, since lines are compared as bytes.
func ParseID(s string) (ID, error) {
	var id ID
	if len(s) != 26 || s[0] > '7' {
		return id, ErrID
	}
	var acc, bits uint
	at := len(id) - 1
	for i := len(s) - 1; i >= 0; i-- {
		v := digit(s[i])
		if v > 31 {
			return ID{}, ErrID
		}
		acc |= v << bits
		bits += 5
		if bits >= 8 && at >= 0 {
			id[at] = byte(acc)
			acc >>= 8
			bits -= 8
			at--
		}
	}
	return id, nil
}

func digit(c byte) uint {
	for i := range len(crockford) {
		if crockford[i] == c {
			return uint(i)
		}
	}
	return 99
}

// Name is the name of an entry: the SHA-256 of its line. The zero Name stands
// for "none".
type Name [32]byte

// ErrName says that a text is no entry name: 43 characters of base64url.
var ErrName = errors.New("not an entry name: expected 43 characters of base64url")

var nameText = base64.RawURLEncoding.Strict()

// String returns 43 characters of base64url without padding.
func (n Name) String() string { return nameText.EncodeToString(n[:]) }

// IsZero tells whether n stands for "none".
func (n Name) IsZero() bool { return n == Name{} }

// ParseName reads what [Name.String] writes.
func ParseName(s string) (Name, error) {
	var n Name
	if len(s) != 43 {
		return n, ErrName
	}
	if k, err := nameText.Decode(n[:], []byte(s)); err != nil || k != len(n) {
		return Name{}, ErrName
	}
	return n, nil
}
