package web

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// unsent is a file of entries that a device saved because it could not send them:
//
//	{"sinkside":"unsent","v":1,"dev":"01J…","saved":"2026-03-04T17:20:11+01:00"}
//	{"v":1,"job":"01J…","dev":"01J…","n":12,…}
//	…
//
// The first line names the device; each following line is one of its entries, exactly as written.
type unsent struct {
	dev     journal.ID
	drafts  int // taps in the first line that never became entries
	entries []numbered
	refused refusals
}

// numbered is an entry with its line in the file, from 1.
type numbered struct {
	line int
	journal.Entry
}

// refusal says why a line of the file was not taken.
type refusal struct {
	Line int    `json:"line"`
	Code string `json:"code"`
	Say  string `json:"say"`
}

// Why a line is refused.
var (
	refusedBroken  = refusal{Code: "broken-line", Say: "is no entry that can be read"}
	refusedForeign = refusal{Code: "foreign-line", Say: "was written by another device than the file's"}
	refusedGap     = refusal{Code: "gap", Say: "has entries before it that neither the file nor the studio machine holds"}
	refusedFork    = refusal{Code: "fork", Say: "does not follow from what the studio machine holds of this device; it was kept aside"}
)

func (r refusal) at(line int) refusal {
	r.Say = fmt.Sprintf("Line %d %s.", line, r.Say)
	r.Line = line
	return r
}

// maxRefused is how many refused lines an import names. A file with more is mostly another file
// than was meant, and its lines could make an answer many times its size.
const maxRefused = 100

// refusals are the first lines that were refused, and how many more there were.
type refusals struct {
	list []refusal
	more int
}

func (rs *refusals) add(r refusal, line int) {
	if len(rs.list) == maxRefused {
		rs.more++
		return
	}
	rs.list = append(rs.list, r.at(line))
}

// inOrder sorts by line. The list is never nil, so that it reads as one.
func (rs *refusals) inOrder() []refusal {
	slices.SortFunc(rs.list, func(a, b refusal) int { return cmp.Compare(a.Line, b.Line) })
	if rs.list == nil {
		return []refusal{}
	}
	return rs.list
}

// errNotUnsent says that a file is no file of unsent entries, by its first line.
var errNotUnsent = errors.New("no file of unsent entries")

// errNeverPaired says that the device of a file has no id yet: all that it holds are taps that wait to
// become entries, which they do on the device as soon as it is paired.
var errNeverPaired = errors.New("file of a device that was never paired")

// readUnsent reads such a file. A line that cannot be read or is foreign is refused by its number;
// the others stand. Empty lines and a missing last line end are no fault.
func readUnsent(r io.Reader) (*unsent, error) {
	all, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	f := &unsent{}
	all = bytes.TrimPrefix(all, []byte("\ufeff"))
	number := 0
	for line := range bytes.Lines(all) {
		number++
		line = bytes.TrimRight(line, "\r\n")
		switch {
		case number == 1:
			if f.dev, f.drafts, err = unsentHeader(line); err != nil {
				return nil, err
			}
		case len(bytes.TrimSpace(line)) > 0:
			f.take(number, line)
		}
	}
	if number == 0 {
		return nil, errNotUnsent
	}
	return f, nil
}

func (f *unsent) take(number int, line []byte) {
	e, err := journal.Parse(line)
	switch {
	case err != nil:
		f.refused.add(refusedBroken, number)
	case e.Dev != f.dev:
		f.refused.add(refusedForeign, number)
	default:
		f.entries = append(f.entries, numbered{number, e})
	}
}

// sort puts each chain's entries in order, wherever they stood in the file.
func (f *unsent) sort() {
	slices.SortStableFunc(f.entries, func(a, b numbered) int {
		return cmp.Or(bytes.Compare(a.Job[:], b.Job[:]), cmp.Compare(a.N, b.N))
	})
}

func unsentHeader(line []byte) (dev journal.ID, drafts int, err error) {
	if err := jsontext.Valid(line); err != nil {
		return dev, 0, fmt.Errorf("%w: first line: %v", errNotUnsent, err)
	}
	what, _ := jsontext.Get(line, "sinkside")
	version, _ := jsontext.Get(line, "v")
	if string(what) != `"unsent"` || string(version) != "1" {
		return dev, 0, fmt.Errorf("%w: first line is not %s", errNotUnsent, `{"sinkside":"unsent","v":1,…}`)
	}
	if taps, ok := jsontext.Get(line, "drafts"); ok {
		// No list is no fault: it would only be counted.
		_ = jsontext.Elements(taps, func(int, jsontext.Value) error { drafts++; return nil })
	}
	id, _ := jsontext.Get(line, "dev")
	text, err := id.Text()
	if err == nil && text == "" {
		return dev, drafts, errNeverPaired
	}
	if err == nil {
		dev, err = journal.ParseID(text)
	}
	if err != nil {
		return dev, 0, fmt.Errorf("%w: first line: dev: %v", errNotUnsent, err)
	}
	return dev, drafts, nil
}
