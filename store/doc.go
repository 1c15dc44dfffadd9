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
//	c sum(32) i(4)                    sha256(32) bytes         chunk i of a blob, 128 KiB, the last one shorter
//	x job(16)                         (empty)                  a treatment whose removal has begun
//
// Chunks over 64 KiB stand in badger's value log, everything else in its tree.
package store
