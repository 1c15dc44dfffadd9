// Package journal holds the entry, the chain, the clock and the merge: the log
// that everything else stands on.
//
// An entry is one line of JSON, at most 16 KiB, kept for ever as its author
// wrote it; its name is the SHA-256 of the line. The entries that one device
// wrote in one treatment are a chain: numbered from 1 without a gap, each naming
// the line before it, so that a changed or missing line shows. A log is a set of
// chains, and sync is their union.
//
// The laws of the log. Each is a property test of the same name, here for what a
// line and a chain can promise, in package dossier for what a fold must.
//
//  1. Union. Merge is set union: commutative, associative, idempotent. Two
//     devices with the same fork-free set fold to the same bytes.
//  2. Chains. A chain has no gap and no fork. A fork is noticed and refused; the
//     device claims a successor id and re-issues what was not synced, each entry
//     with the name it had (was), through which references still resolve. The
//     refused branch is kept aside.
//  3. Replacement. A set of a field names the entries that it replaces. Two that
//     replace the same entry are shown to a person as two values.
//  4. The unknown. An unknown kind or newer body version is kept and shown as
//     such.
//  5. Arrival. Entries fold the same in whatever order they arrive. Where a
//     reference gives the order, the clock does not decide it.
//  6. Validity. Every entry that is well framed, in size and right in its chain
//     is taken, whatever its body or date. The fold marks what is doubtful.
//  7. Clocks lie. A received time moves a clock at most five minutes past its
//     own. Measured offsets are recorded; corrected times are marked; "now" is
//     never folded.
//  8. Same source is not same bits. No float decides an order, a name or a
//     merge.
//
// The package imports no fmt, no encoding/json and no host: it runs in the
// browser as it runs on the studio machine.
package journal
