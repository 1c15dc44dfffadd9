// Package hub is the studio machine's side of sync: it keeps what devices push,
// acknowledges what is on the disk, and sends each device what it lacks.
//
// [Hub.Serve] runs one session. Who the device is was settled before, by the
// session cookie; the hub trusts the id that it is given.
//
// # A session
//
// Three goroutines share it. The reader unpacks and parses frames into a short
// queue. The worker takes them from there in order; pushes that wait together
// become one call of the store, so that a day's log is one fsync. The writer
// sends what was queued (answers, live entries) and, whenever the queue is
// empty, the next piece of what the device lacks, read from the store as fast as
// the device takes it.
//
// # Live
//
// A commit is published once: a frame is built for each treatment, and all
// sessions that follow the treatment share its bytes. A session follows a
// treatment from the moment at which it was sent everything that was published
// of it; both are compared and set under one lock, so nothing is missed and
// nothing comes before its predecessor.
//
// A queue that grows past its bound is a slow device. It is dropped, and resumes
// from its heads when it connects again.
//
// # Lock order
//
// Device lock, then trouble, then Hub.mu, then a session's queue. No call of the
// store is made under Hub.mu.
package hub
