package wire

import (
	"bytes"

	"sinkside/sync/journal"
)

// Run is entries of one chain, in order and without a gap. Writing one needs
// their Line, Name and, of the first, N; reading one fills the whole Entry.
type Run struct {
	Chain   journal.Chain
	Entries []journal.Entry
	// Signed says that Sig is a receipt for the last entry.
	Signed bool
	Sig    [64]byte
}

// Head returns the chain's head after the run.
func (u *Run) Head() journal.ChainHead {
	last := &u.Entries[len(u.Entries)-1]
	return journal.ChainHead{Chain: u.Chain, Head: journal.Head{N: u.Entries[0].N + uint64(len(u.Entries)) - 1, Name: last.Name}}
}

// nameLen is the length of a name as a line spells it.
const nameLen = 43

func appendRuns(b []byte, runs []Run) []byte {
	b = appendUint(b, uint64(len(runs)))
	for i := range runs {
		b = appendRun(b, &runs[i])
	}
	return b
}

func appendRun(b []byte, u *Run) []byte {
	b = appendChain(b, u.Chain)
	b = appendUint(b, u.Entries[0].N)
	size := uint64(len(u.Entries)) << 1
	if u.Signed {
		size |= 1
	}
	b = appendUint(b, size)
	for i := range u.Entries {
		line := u.Entries[i].Line
		cut := 0
		if i > 0 {
			cut = max(bytes.Index(line, []byte(u.Entries[i-1].Name.String())), 0)
		}
		b = appendUint(b, uint64(cut))
		if cut == 0 {
			b = append(appendUint(b, uint64(len(line))), line...)
			continue
		}
		b = appendUint(b, uint64(len(line)-nameLen))
		b = append(append(b, line[:cut]...), line[cut+nameLen:]...)
	}
	if u.Signed {
		b = append(b, u.Sig[:]...)
	}
	return b
}

// runOverhead is what a run adds to its lines at most; lineOverhead, a line.
const (
	runOverhead  = 32 + 10 + 5 + 64
	lineOverhead = 6
)

func (r *reader) runs() []Run {
	n := r.count(1, maxItems, 34)
	var out []Run
	for range n {
		u := r.run()
		if r.err != nil {
			return nil
		}
		out = append(out, u)
	}
	return out
}

func (r *reader) run() Run {
	u := Run{Chain: r.chain()}
	from := r.place()
	size := r.count(2, maxItems, 1) // twice the count: an entry takes two bytes at least
	u.Signed = size&1 == 1
	var prev []byte
	for i := range size >> 1 {
		e, ok := r.entry(prev)
		if !ok {
			return u
		}
		if e.Chain() != u.Chain || e.N != from+uint64(i) || i > 0 && e.Prev != u.Entries[i-1].Name {
			r.fail(ErrRun, "entry "+e.Name.String()+" is not the next of its run")
			return u
		}
		u.Entries = append(u.Entries, e)
		prev = []byte(e.Name.String())
	}
	if u.Signed {
		u.Sig = r.sig()
	}
	return u
}

// entry reads one line and puts the name prev back where it was cut out.
func (r *reader) entry(prev []byte) (journal.Entry, bool) {
	cut := r.uint()
	rest := r.bytes(r.count(0, journal.MaxLine, 1))
	switch {
	case r.err != nil:
		return journal.Entry{}, false
	case cut > uint64(len(rest)) || cut > 0 && prev == nil:
		r.fail(ErrSpelling, "a cut outside its line")
		return journal.Entry{}, false
	}
	line := rest
	if cut > 0 {
		line = make([]byte, 0, len(rest)+nameLen)
		line = append(append(append(line, rest[:cut]...), prev...), rest[cut:]...)
	}
	if prev != nil && max(bytes.Index(line, prev), 0) != int(cut) {
		r.fail(ErrSpelling, "a cut that is not at the name's first place")
		return journal.Entry{}, false
	}
	e, err := journal.Parse(line)
	if err != nil {
		r.fail(ErrEntry, err.Error())
		return e, false
	}
	return e, true
}

// Batch fills frames of entries: runs of at most MaxBatch bytes of lines in
// all. Its zero value is empty and ready.
type Batch struct {
	Runs []Run
	size int
}

// Add puts e behind the last run when it follows, and in a run of its own when
// it does not. It returns false, and adds nothing, when the batch is full.
func (b *Batch) Add(c journal.Chain, e journal.Entry) bool {
	cost := len(e.Line) + lineOverhead
	k := len(b.Runs) - 1
	follows := k >= 0 && !b.Runs[k].Signed && b.Runs[k].Chain == c && b.Runs[k].Head().N+1 == e.N
	if !follows {
		cost += runOverhead
	}
	if b.size > 0 && b.size+cost > MaxBatch {
		return false
	}
	b.size += cost
	if follows {
		b.Runs[k].Entries = append(b.Runs[k].Entries, e)
	} else {
		b.Runs = append(b.Runs, Run{Chain: c, Entries: []journal.Entry{e}})
	}
	return true
}

// Size is about how many bytes the batch takes as a plain frame.
func (b *Batch) Size() int { return b.size }
