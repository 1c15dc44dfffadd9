// Package dossier folds the entries of one treatment into its state: what is
// running, what was measured, what was corrected, what is doubtful.
//
// The fold is a pure function of a set of entries. It asks no clock, no network
// and no store; the order in which entries were added does not show in the
// result (law 5), and "now" is never part of it (law 7): a running bath is a
// begin without an end, and whoever shows it subtracts. All arithmetic is on
// whole milliseconds, and numbers that people measured are carried as the text
// they were written in, so that phone and studio machine agree to the byte
// (law 8).
//
// How a set becomes a state:
//
//  1. Each entry's body is read once, when it is added. What cannot be read is
//     doubtful, what is of an unknown kind or newer version is unknown; both
//     are kept and shown (laws 4, 6).
//  2. Entries are put in recorded order: by clock, with a clock that runs
//     backwards inside a chain held at its highest, then by device.
//  3. References are resolved by name, through the name that a re-issued entry
//     had before (law 2). Strikes first, then clock offsets, corrections and
//     fields.
//  4. Steps are paired with what ended them: an end, an abort that names them or,
//     for a drying, the declaration of dry; measured by clock and, on one
//     device, by its steady counter. Immersion and the wet clock follow.
//  5. What was agreed, done, decided and heard is gathered, resolved by name.
//
// Check, the other half of the package, is the same knowledge used before an
// entry is written.
package dossier
