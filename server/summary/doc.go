// Package summary keeps the one line about each treatment that every device carries: its name,
// whether it is open, the day of its last entry. They follow from the log and are kept beside it,
// so that a server with a thousand treatments starts without folding any.
//
// A summary goes stale only for a moment: [Keeper.Took] is told of every stored entry, and folds
// again the treatments whose line can have changed by it. Should the server stop in between, the
// record's count of entries no longer agrees with the heads of the chains, and [Open] makes that
// line anew.
//
// Each change gets the next generation number. A device that says which generation it has is sent
// what changed since. The epoch, drawn once for each store, tells it when the numbers of another
// store mean nothing here.
//
// Records: bucket "summary", one for each treatment, JSON:
//
//	{"gen":7,"count":41,"from_day":20516,"to_day":20517,"removed":false,"summary":{"job":…}}
//
// count is the number of entries that it was made of; from_day and to_day are days since 1970
// (UTC) between which everything in it happened.
package summary
