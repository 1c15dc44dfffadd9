package storetest

import (
	"bytes"
	"slices"
	"testing"

	"sinkside/sync/journal"
)

// Maker makes the stores that the suite tries.
type Maker struct {
	// New opens an empty store, closed at the end of the test.
	New func(t *testing.T) Store
	// Reopen closes a store and opens what it left; nil for one that keeps
	// nothing.
	Reopen func(t *testing.T, s Store) Store
	// Crash opens what a store has on the disk at this moment, without closing
	// it first, and ends it; nil for one that keeps nothing.
	Crash func(t *testing.T, s Store) Store
}

// Run holds a store to the suite.
func Run(t *testing.T, m Maker) {
	for _, c := range []struct {
		name string
		test func(*testing.T, Maker)
	}{
		{"an entry is stored once and then known", storedOnceThenKnown},
		{"an entry before its time is a gap", gapIsRefused},
		{"a second entry in one place is a fork", forkIsRefused},
		{"what follows a refusal is refused", refusalGoesOn},
		{"a refused branch is kept aside", branchIsKeptAside},
		{"bytes stay as they were written", bytesStay},
		{"the caller may reuse its bytes", callersBytes},
		{"heads and treatments are sorted", headsAreSorted},
		{"a chain is read from any place", rangeFromAnywhere},
		{"a callback's error ends the reading", callbackEndsReading},
		{"a call of any size is taken", largeCall},
		{"concurrent calls store each entry once", concurrentCalls},
		{"any mixture of calls keeps the law of chains", anyMixture},
		{"a sample is removed whole and alone", sampleIsRemoved},
		{"a sample is removed only when that is right", removalIsAsked},
		{"records are kept by bucket and key", recordsAreKept},
		{"records outside the limits are refused", recordLimits},
		{"changes go together", changesGoTogether},
		{"a blob becomes whole", blobBecomesWhole},
		{"a blob goes on where it stopped", blobGoesOn},
		{"chunks come in any order", chunksInAnyOrder},
		{"a blob that is not its sum is dropped", wrongBlobIsDropped},
		{"chunks that do not fit are refused", chunkLimits},
		{"many blobs come at once", manyBlobs},
		{"a blob is removed", blobIsRemoved},
		{"everything outlives a restart", outlivesRestart},
		{"what was acknowledged outlives a crash", outlivesCrash},
		{"a closed store says so", closedSaysSo},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, m) })
	}
}

// must ends the test on an error.
func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// appends appends and wants these verdicts: one for all, or one for each.
func appends(t testing.TB, s Store, es []journal.Entry, want ...journal.Verdict) {
	t.Helper()
	if len(want) == 1 {
		want = slices.Repeat(want, len(es))
	}
	got, err := s.Append(es)
	must(t, err)
	if !slices.Equal(got, want) {
		t.Fatalf("Append(%d entries) = %v, want %v", len(es), got, want)
	}
}

// lines reads a chain from place n on.
func lines(t testing.TB, s Store, c journal.Chain, from uint64) [][]byte {
	t.Helper()
	var out [][]byte
	must(t, s.Range(c, from, func(line []byte) error {
		out = append(out, bytes.Clone(line))
		return nil
	}))
	return out
}

// holds wants a chain to consist of exactly these entries.
func holds(t testing.TB, s Store, c journal.Chain, es []journal.Entry) {
	t.Helper()
	got := lines(t, s, c, 1)
	if len(got) != len(es) {
		t.Fatalf("chain %s/%s has %d lines, want %d", c.Job, c.Dev, len(got), len(es))
	}
	for i := range es {
		if !bytes.Equal(got[i], es[i].Line) {
			t.Fatalf("line %d = %s, want %s", i+1, got[i], es[i].Line)
		}
	}
	var want journal.Head
	if len(es) > 0 {
		want = journal.Head{N: es[len(es)-1].N, Name: es[len(es)-1].Name}
	}
	if h, err := s.Head(c); err != nil || h != want {
		t.Fatalf("Head = %v, %v, want %v", h, err, want)
	}
}

// asides reads what was kept aside.
func asides(t testing.TB, s Store) []string {
	t.Helper()
	var out []string
	must(t, s.Aside(func(line []byte) error {
		out = append(out, string(line))
		return nil
	}))
	return out
}
