// Package store keeps the studio machine's copy of the log on disk: entries in
// their chains, small records beside them, and photographs in chunks. It stands
// on badger, opened with SyncWrites.
//
// # What it promises
//
//   - What Append, KeepAside, Put, Change and BlobChunk returned without an
//     error is on the disk.
//   - A chain has no gap and no fork, whoever calls in whatever order: the
//     check and the write are one step.
//   - The bytes that leave are the bytes that came: each is checked against its
//     hash, and one that is not right is [ErrDamaged], naming what is damaged.
//   - A disk that fills up is [ErrFull]: nothing of the call is acknowledged,
//     everything stored stays readable, and the next call succeeds when there
//     is space again.
//
// Calls that arrive together share one transaction and one fsync. A call whose
// bytes fit into one transaction (about 1 MB, some 3,000 entries) is written
// whole or not at all. A larger one is written in pieces, each a run from the
// start of the call; when it fails in the middle, what it wrote stays, and
// giving the same entries again finds those Known.
//
// # Folder
//
//	format     one line, "sinkside store 1": the version of this layout
//	db/        badger's files
//	blobs/     packs of photographs: 000001.pack and so on
//	reserve    space held back, so that a full disk can still be opened and closed
//
// # Keys
//
// Numbers in keys are big-endian, so keys sort as chains do. "sum8(x)" is the
// first 8 bytes of the SHA-256 of x.
//
//	key                               value
//	e job(16) dev(16) n(8)            name(32) line            an entry; name is the SHA-256 of the line
//	h job(16) dev(16)                 n(8) name(32)            the head of a chain
//	H                                 count(8)                 how many heads there are: a lost one shows
//	a job(16) dev(16) n(8) name(32)   line                     an entry of a refused branch, kept aside
//	r bucket 00 key                   sum8(key value) value    a small record; key here is the whole key
//	b sum(32)                         size(8) whole(1)         a blob; whole is 1 once its SHA-256 was checked
//	c sum(32) i(4)                    pack(4) at(8) len(4)     where chunk i of a blob stands: 128 KiB, the last one shorter
//	s sum(32) i(4)                    state(32)                of a whole blob: SHA-256's state after chunk i, by which
//	                                                           a single chunk is checked; none after the last chunk
//	x job(16)                         (empty)                  a treatment whose removal has begun
//
// # Packs
//
// The bytes of chunks stand one behind the other in packs of 64 MB, each behind
// its blob's sum, its number and its length; a key says where. A chunk is synced
// in its pack before its key is written. Badger's own value log would take its
// place, but it writes through memory maps: that takes more than twice as long
// as writing to a file, and ends the process on a full disk.
package store
