package wire

import (
	"unicode/utf8"

	"sinkside/sync/journal"
)

// reader pulls fields from a plain frame. After the first error every pull
// returns zero, so that a frame's fields can be listed without checks between.
type reader struct {
	b   []byte
	at  int
	err *Error
}

func (r *reader) fail(e *Error, what string) {
	if r.err == nil {
		r.err = &Error{Name: e.Name, At: r.at, What: what}
		r.at = len(r.b)
	}
}

// bytes returns the next n bytes, not copied.
func (r *reader) bytes(n int) []byte {
	if r.err != nil || n > len(r.b)-r.at {
		r.fail(ErrShort, "a field goes beyond the end")
		return nil
	}
	r.at += n
	return r.b[r.at-n : r.at : r.at]
}

func (r *reader) byte() byte {
	if b := r.bytes(1); b != nil {
		return b[0]
	}
	return 0
}

// uint reads an unsigned LEB128 number in its shortest form.
func (r *reader) uint() uint64 {
	var v uint64
	for shift := uint(0); ; shift += 7 {
		c := r.byte()
		switch {
		case r.err != nil:
			return 0
		case shift == 63 && c > 1:
			r.fail(ErrValue, "a number over 64 bits")
			return 0
		case c == 0 && shift > 0:
			r.fail(ErrSpelling, "a number not in its shortest form")
			return 0
		}
		v |= uint64(c&0x7f) << shift
		if c < 0x80 {
			return v
		}
	}
}

// place reads a place in a chain, from 1 and within what a line can say.
func (r *reader) place() uint64 {
	n := r.uint()
	if r.err == nil && (n < 1 || n > maxPlace) {
		r.fail(ErrValue, "a place in a chain is from 1 to 2^63-1")
	}
	return n
}

// count reads how many items follow, each at least size bytes long: a count
// that the frame cannot hold fails before anything is allocated.
func (r *reader) count(atLeast, atMost, size int) int {
	n := r.uint()
	switch {
	case r.err != nil:
		return 0
	case n < uint64(atLeast) || n > uint64(atMost):
		r.fail(ErrCount, "a count outside its limits")
		return 0
	case n > uint64((len(r.b)-r.at)/size):
		r.fail(ErrShort, "more items than the frame can hold")
		return 0
	}
	return int(n)
}

// flags reads flags of which only those in known may be set.
func (r *reader) flags(known uint64) uint64 {
	f := r.uint()
	if f&^known != 0 {
		r.fail(ErrValue, "a flag that this version does not know")
	}
	return f & known
}

func (r *reader) id() (id journal.ID) {
	copy(id[:], r.bytes(len(id)))
	return id
}

func (r *reader) name() (n [32]byte) {
	copy(n[:], r.bytes(len(n)))
	return n
}

func (r *reader) sig() (s [64]byte) {
	copy(s[:], r.bytes(len(s)))
	return s
}

// text reads a length and that many bytes of UTF-8, not copied.
func (r *reader) text(atLeast, atMost int) []byte {
	n := r.count(atLeast, atMost, 1)
	b := r.bytes(n)
	if r.err == nil && !utf8.Valid(b) {
		r.fail(ErrValue, "text that is not UTF-8")
	}
	return b
}

// head reads a place and a name.
func (r *reader) head() journal.Head { return journal.Head{N: r.place(), Name: r.name()} }

func (r *reader) chain() journal.Chain { return journal.Chain{Job: r.id(), Dev: r.id()} }

// done returns the first error, or ErrLeftOver when fields remain.
func (r *reader) done() error {
	if r.err == nil && r.at != len(r.b) {
		r.fail(ErrLeftOver, "bytes after the last field")
	}
	if r.err != nil {
		return r.err
	}
	return nil
}

func appendUint(b []byte, v uint64) []byte {
	for v >= 0x80 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v))
}

func appendHead(b []byte, h journal.Head) []byte {
	return append(appendUint(b, h.N), h.Name[:]...)
}

func appendChain(b []byte, c journal.Chain) []byte {
	return append(append(b, c.Job[:]...), c.Dev[:]...)
}
