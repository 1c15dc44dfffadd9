// Package wire holds the frames that a device and the studio machine exchange,
// and their codec. PROTOCOL.md, one folder up, describes them for someone who
// writes another client; this comment says how the package is used.
//
// A frame is one binary message:
//
//	+------+----------------------------------+
//	| type | payload                          |
//	+------+----------------------------------+
//	   |
//	   +-- bit 7: the payload is deflated (RFC 1951, raw)
//
// [Append] writes a frame, always plain. [Pack] deflates one that is worth it and
// [Unpack] takes that back; both call functions that the host gives, since a
// browser has its own compressor and a Go one would drag fmt into the core.
// [Parse] reads a plain frame. It allocates no more than a small multiple of the
// message, and what it takes re-encodes to the same bytes: every number, order
// and cut has one spelling.
//
// # Runs
//
// Entries travel in runs: entries of one chain, in order. Each line but the
// first names the line before it by its hash, which is half of its bytes and
// does not compress; since the receiver has that line, the 43 characters are cut
// out and put back by hashing. The bytes of the line are the entry, so the cut
// is by place, not by meaning: a line spelt in some other way travels whole.
//
// Parse checks that a run is one: entries that are well framed, of the run's
// chain, numbered on, each naming the one before.
package wire
