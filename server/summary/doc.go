// Package summary makes the one line about each treatment that every device carries, and knows on
// which days something happened in a treatment.
//
// The hub keeps the lines and asks for one when entries were stored. Most entries, readings and
// notes, change nothing in it; a treatment is folded again only when an entry can have changed its
// line by what it says, or reaches a day on which nothing had happened yet.
//
// Records: bucket "days", one for each treatment, JSON: {"from":20516,"to":20517}, days since 1970
// (UTC) between which everything in it happened and was recorded, by the devices' own clocks and
// by corrected ones. A treatment without a record may have been busy on any day.
package summary
