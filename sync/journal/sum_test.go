package journal

import (
	"crypto/sha256"
	"testing"

	"pgregory.net/rapid"
)

func TestLeanSumIsSHA256(t *testing.T) {
	for n := range 260 { // every fill of the last block
		b := make([]byte, n)
		for i := range b {
			b[i] = byte(i*7 + n)
		}
		if got, want := leanSum(b), sha256.Sum256(b); got != want {
			t.Errorf("leanSum of %d bytes = %x, want %x", n, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SliceOfN(rapid.Byte(), 0, 2000).Draw(t, "bytes")
		if got, want := leanSum(b), sha256.Sum256(b); got != want {
			t.Errorf("leanSum = %x, want %x", got, want)
		}
	})
}
