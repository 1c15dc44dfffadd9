package authority

import (
	"crypto/sha256"
	"fmt"
	"strings"
)

// A Fingerprint is the SHA-256 of a certificate. It is written in pairs of
// hexadecimal digits, as Android and iOS write it, so that a person can hold
// the phone's own display beside the studio's screen.
type Fingerprint [sha256.Size]byte

// FingerprintOf is the fingerprint of a certificate in DER.
func FingerprintOf(der []byte) Fingerprint { return sha256.Sum256(der) }

// Rows are four lines of eight pairs: "3F 2A 91 C0 5B 77 10 E4".
func (f Fingerprint) Rows() []string {
	rows := make([]string, 0, 4)
	for i := 0; i < len(f); i += 8 {
		rows = append(rows, fmt.Sprintf("% X", f[i:i+8]))
	}
	return rows
}

// String is the rows in one line, 95 characters.
func (f Fingerprint) String() string { return strings.Join(f.Rows(), " ") }
