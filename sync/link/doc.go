// Package link is the device's side of a session with the studio machine, free
// of any transport: frames in, frames out, and effects for whoever hosts it.
//
// A host is the browser's worker, a test, the benchmark, or a second studio
// machine that follows the first. It owns the device's log, its clock, its
// socket and the compression of frames; the Link owns what is said when. The
// host calls one method at a time, then [Link.Take], and carries the effects
// out:
//
//	l := link.New(link.Config{Dev: dev}, state)   // state as last kept
//	connect; l.Start(now)                         // Hello, and unsent entries right behind
//	l.Receive(frame, now)                         // a plain frame came
//	l.Wrote(entries)                              // entries of ours became durable
//	e := l.Take()                                 // send e.Frames, keep e.Store and the rest
//	l.Stop()                                      // the connection is gone
//
// When Receive returns an error the host closes the connection and connects
// again after a while; how long is for the host to say.
//
// # What must be kept, and when
//
// One Take's Drop, Store, Receipts, Summaries and Generation belong in one
// transaction, in this order. Losing the last of them in a crash costs bytes,
// never entries: the next session starts from what [State] says. An entry
// passed to Wrote must be durable before.
//
// # Forks
//
// When the studio machine holds other entries in a chain of ours, the phone was
// restored or its profile copied. The Link first brings everything else over,
// the refused branch included, which is kept aside there. Then it gives
// [Effects.Fork] and pushes nothing more. The host claims a successor id, once,
// writes the entries that were not synced again under it ([Reissue]), and makes
// a new Link. Nothing can be doubled by this: what was in flight was answered.
package link
