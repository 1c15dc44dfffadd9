package storetest

import (
	"fmt"
	"strings"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// ID returns the ID with this number, for tests: the same number gives the same
// ID, and IDs sort as their numbers do.
func ID(n uint64) journal.ID { return journal.NewID(1_772_000_000_000+n, [10]byte{1}) }

// Author is a device that writes one chain.
type Author struct {
	Chain journal.Chain
	Head  journal.Head
	clock journal.Clock
}

// NewAuthor returns a device that has not written in this treatment yet.
func NewAuthor(job, dev journal.ID) *Author {
	return &Author{Chain: journal.Chain{Job: job, Dev: dev}}
}

// Next writes the next entry of the chain: a note of n bytes of text.
func (a *Author) Next(t testing.TB, n int) journal.Entry {
	t.Helper()
	const words = "The rinse water is clear, the fringe lies flat; lifted on the screen and drained. "
	text := fmt.Sprintf("%d: %s", a.Head.N+1, strings.Repeat(words, n/len(words)+1))
	body := jsontext.AppendString([]byte(`{"text":`), text[:n])
	d := journal.Draft{
		Job: a.Chain.Job, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: "note", BV: 1,
		Body: append(body, '}'),
	}
	e, err := journal.Write(d, a.Chain.Dev, a.Head, a.clock.Tick(1_772_614_931_000+int64(a.Head.N)*1000))
	if err != nil {
		t.Fatalf("write entry %d: %v", a.Head.N+1, err)
	}
	a.Head = journal.Head{N: e.N, Name: e.Name}
	return e
}

// Run writes the next count entries, of n bytes of text each.
func (a *Author) Run(t testing.TB, count, n int) []journal.Entry {
	t.Helper()
	es := make([]journal.Entry, count)
	for i := range es {
		es[i] = a.Next(t, n)
	}
	return es
}

// Twin returns a device that stands where a stands and goes on by itself: what a
// phone restored from a backup is.
func (a *Author) Twin() *Author {
	twin := *a
	twin.clock.Receive(journal.At(1_772_700_000_000), 1_772_700_000_000)
	return &twin
}
