package journal

import (
	"errors"
	"strconv"
)

// Time is a reading of the hybrid logical clock: Unix milliseconds in the upper
// 48 bits and a counter in the lower 16. It gives the order in which entries
// were recorded; when something happened is an entry's At.
type Time uint64

// ErrTime says that a text is no Time: 16 hexadecimal digits in small letters.
var ErrTime = errors.New("not a clock reading: expected 16 hexadecimal digits")

// MaxLead is how far a Time that was received may move a clock past its own
// time, in milliseconds (law 7).
const MaxLead = 5 * 60 * 1000

// At returns the first Time of a millisecond.
func At(wallMS int64) Time { return Time(max(wallMS, 0)) << 16 }

// WallMS returns the Unix milliseconds in t.
func (t Time) WallMS() int64 { return int64(t >> 16) }

// String returns 16 hexadecimal digits, so that texts sort as times do.
func (t Time) String() string {
	const digits = "0123456789abcdef"
	var out [16]byte
	for i := range out {
		out[i] = digits[t>>(60-4*i)&15]
	}
	return string(out[:])
}

// ParseTime reads what [Time.String] writes.
func ParseTime(s string) (Time, error) {
	if len(s) != 16 {
		return 0, ErrTime
	}
	for i := range len(s) {
		if c := s[i]; (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return 0, ErrTime
		}
	}
	u, err := strconv.ParseUint(s, 16, 64)
	if err != nil {
		return 0, ErrTime
	}
	return Time(u), nil
}

// Clock is a device's hybrid logical clock. Its zero value is ready; Last must
// be kept with the device's log, or a restart after a clock set back could give
// a Time twice.
type Clock struct{ Last Time }

// Tick returns the Time of an entry written now: after every Time the clock has
// given or received.
func (c *Clock) Tick(wallMS int64) Time {
	c.Last = max(At(wallMS), c.Last+1)
	return c.Last
}

// Receive takes in the Time of another device's entry, so that what is written
// next sorts after it, but lets a far future move the clock at most [MaxLead]
// past wallMS.
func (c *Clock) Receive(t Time, wallMS int64) {
	if limit := At(wallMS + MaxLead); t > limit {
		t = limit
	}
	c.Last = max(c.Last, t)
}
