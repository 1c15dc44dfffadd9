package journal

import (
	"slices"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The laws of the log, as far as lines, chains and clocks can keep them. What a
// fold must keep stands in package dossier, what a session must in package hub.

// chainOf writes n notes after h that say text.
func chainOf(t interface{ Fatal(...any) }, h Head, n int, text string) []Entry {
	var out []Entry
	for i := range n {
		e := write(t, h, At(int64(i)), "note", `{"text":"`+text+strconv.Itoa(i)+`"}`)
		h = Head{e.N, e.Name}
		out = append(out, e)
	}
	return out
}

func logOf(es ...Entry) *Log {
	var l Log
	for _, e := range es {
		l.Add(e)
	}
	return &l
}

// linesOf is all that a log holds.
func linesOf(l *Log) (lines []string) {
	for _, h := range l.Heads() {
		for _, e := range l.Since(h.Chain, 1) {
			lines = append(lines, string(e.Line))
		}
	}
	for _, e := range l.Aside() {
		lines = append(lines, "aside "+string(e.Line))
	}
	return lines
}

func TestLaw1Union(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chain := chainOf(t, Head{}, rapid.IntRange(1, 8).Draw(t, "chain"), "x")
		cut := rapid.IntRange(0, len(chain)-1).Draw(t, "fork after")
		before := Head{}
		if cut > 0 {
			before = Head{chain[cut-1].N, chain[cut-1].Name}
		}
		fork := chainOf(t, before, 1, "y")
		// Some logs hold the start of the chain, some the refused entry beside it.
		draw := func(label string) *Log {
			l := logOf(chain[:rapid.IntRange(0, len(chain)).Draw(t, label)]...)
			if l.Head(chain[0].Chain()).N > uint64(cut) && rapid.Bool().Draw(t, label+" holds the fork") {
				l.Add(fork[0])
			}
			return l
		}
		a, b, c := draw("a"), draw("b"), draw("c")
		union := func(order ...*Log) []string {
			var l Log
			for _, m := range order {
				l.Merge(m)
			}
			return linesOf(&l)
		}
		want := union(a, b, c)
		for _, m := range []*Log{a, b, c} {
			for _, line := range linesOf(m) {
				if !slices.Contains(want, line) {
					t.Fatalf("the union lacks %s", line)
				}
			}
		}
		bc := logOf()
		bc.Merge(b)
		bc.Merge(c)
		for name, got := range map[string][]string{
			"in another order":   union(c, a, b),
			"grouped otherwise":  union(a, bc),
			"again":              union(a, b, c, a, bc),
			"with what it makes": union(bc, a, bc),
		} {
			if !slices.Equal(got, want) {
				t.Fatalf("merged %s:\n%q\nwant\n%q", name, got, want)
			}
		}
	})
}

func TestLaw2Chains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chain := chainOf(t, Head{}, rapid.IntRange(1, 8).Draw(t, "chain"), "x")
		held := rapid.IntRange(0, len(chain)-1).Draw(t, "held")
		l := logOf(chain[:held]...)
		heads := l.Heads()
		for i, e := range chain {
			want := Gap
			switch {
			case i < held:
				want = Known
			case i == held:
				want = Stored
			}
			m := logOf(chain[:held]...)
			if got := m.Add(e); got != want {
				t.Fatalf("entry %d of a chain of %d is %v, want %v", e.N, held, got, want)
			}
			// The same place on another branch.
			h := Head{uint64(i), Name{1}}
			if i == 0 {
				h = Head{}
			}
			other := write(t, h, 5, "note", `{"text":"on a copied phone"}`)
			want = Fork
			switch {
			case i > held:
				want = Gap
			case i == 0 && held == 0:
				want = Stored // nothing tells yet which of the two branches it is
			}
			m = logOf(chain[:held]...)
			if got := m.Add(other); got != want {
				t.Fatalf("entry %d of a branch, over a chain of %d, is %v, want %v", other.N, held, got, want)
			}
			if want != Stored && !slices.Equal(m.Heads(), heads) {
				t.Fatalf("a refused entry changed the chain: %v", m.Heads())
			}
			if aside := len(m.Aside()); (want == Fork) != (aside == 1) {
				t.Fatalf("%d entries aside after %v", aside, want)
			}
		}
	})
}

// A log that was put together from another branch gives that branch up whole.
func TestLaw2MergingABranchKeepsItAside(t *testing.T) {
	ours, theirs := chainOf(t, Head{}, 3, "x"), chainOf(t, Head{}, 2, "y")
	l := logOf(ours...)
	l.Merge(logOf(theirs...))
	if h := l.Head(ours[0].Chain()); h != (Head{3, ours[2].Name}) || len(l.Aside()) != 2 {
		t.Errorf("head %v and %d entries aside, want ours and both of the branch", h, len(l.Aside()))
	}
}

func TestLaw7ClocksLie(t *testing.T) {
	const fiveMinutes = 300_000 // ms, as the law says
	rapid.Check(t, func(t *rapid.T) {
		now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC).UnixMilli()
		var c Clock
		var last Time
		years := rapid.Int64Range(-40*365*86_400_000, 40*365*86_400_000)
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			now += rapid.Int64Range(-5_000, 60_000).Draw(t, "passes")
			if rapid.Bool().Draw(t, "receives") {
				before, theirs := c.Last, At(now+years.Draw(t, "skew"))
				c.Receive(theirs, now)
				if c.Last > max(before, At(now+fiveMinutes)) {
					t.Fatalf("a received time moved the clock to %d ms past its own", c.Last.WallMS()-now)
				}
				if c.Last < min(theirs, At(now+fiveMinutes)) {
					t.Fatalf("the clock reads %s, before the %s that it received", c.Last, theirs)
				}
				continue
			}
			got := c.Tick(now)
			if got <= last {
				t.Fatalf("Tick = %s after %s", got, last)
			}
			if got < At(now) {
				t.Fatalf("Tick = %s before its own time", got)
			}
			last = got
		}
	})
}
