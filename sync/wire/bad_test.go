package wire

import (
	"bytes"
	"encoding/hex"
	"testing"

	"sinkside/sync/journal"
)

// badFrames makes the vectors of what is refused, each from a good frame by one
// change.
func badFrames(t testing.TB) []badVector {
	t.Helper()
	good := map[string][]byte{}
	frames := map[string]Frame{}
	for _, s := range sampleFrames(t) {
		good[s.name], frames[s.name] = Append(nil, s.frame), s.frame
	}
	hello := good["hello of a device that holds nothing"]
	entries := good["entries of one chain with a receipt"]
	run := frames["entries of one chain with a receipt"].(*Entries).Runs[0]
	run.Signed = false
	first := run.Entries[:1]

	// at is where the run's first entry begins: type, run count, chain, place, size.
	const at = 1 + 1 + 32 + 1 + 1
	change := func(b []byte, i int, c ...byte) []byte {
		return append(append(bytes.Clone(b[:i]), c...), b[i+1:]...)
	}
	one := func(entries ...journal.Entry) []byte {
		return Append(nil, &Entries{[]Run{{Chain: run.Chain, Entries: entries}}})
	}
	other := must(journal.Write(journal.Draft{Job: jobBonnet, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: "note", BV: 1, Body: []byte(`{}`)}, devPhone, journal.Head{}, 5))
	unlinked := must(journal.Write(journal.Draft{Job: jobFlag, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: "note", BV: 1, Body: []byte(`{}`)}, devPhone, journal.Head{N: 1, Name: other.Name}, 5))
	skips := one(run.Entries[0], run.Entries[2])

	out := []struct {
		name string
		msg  []byte
		err  *Error
	}{
		{"no bytes", nil, ErrEmpty},
		{"type 0", []byte{0}, ErrUnknownType},
		{"type kept for later", []byte{0x22}, ErrUnknownType},
		{"armed with a flag that is not known", []byte{0x20, 2}, ErrValue},
		{"ringers without a number", []byte{0x21}, ErrShort},
		{"type of a deflated frame that was not inflated", []byte{0x84, 3, 0}, ErrUnknownType},
		{"hello without its last byte", hello[:len(hello)-1], ErrShort},
		{"hello with a byte more", append(bytes.Clone(hello), 0), ErrLeftOver},
		{"hello of version 0", change(hello, 1, 0), ErrValue},
		{"hello whose version is spelt in two bytes", change(hello, 1, 0x81, 0), ErrSpelling},
		{"hello with an unknown flag", change(hello, 18, 2), ErrValue},
		{"hello that opens more than 256 treatments", change(hello, len(hello)-1, 0x81, 2), ErrCount},
		{"hello that opens one twice", append(change(hello, len(hello)-1, 2), make([]byte, 32)...), ErrOrder},
		{"number over 64 bits", []byte{2, 1, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 2}, ErrValue},
		{"welcome, both same and all", change(good["welcome, same"], 8, 3), ErrValue},
		{"entries without a run", []byte{4, 0}, ErrCount},
		{"run without an entry", change(entries, at-1, 0), ErrCount},
		{"run that says it is longer than the frame", change(entries, at-1, 0x7e), ErrEntry},
		{"run from place 0", change(entries, at-2, 0), ErrValue},
		{"run of another device", change(entries, 33, entries[33]+1), ErrRun},
		{"run that starts at another place", change(one(first...), at-2, 2), ErrRun},
		{"run with an entry left out", skips, ErrRun},
		{"entry that names another one before it", one(first[0], unlinked), ErrRun},
		{"line that is no entry", change(one(first...), at+3, '['), ErrEntry},
		{"first line with a cut", change(one(first...), at, 5), ErrSpelling},
		{"name that was not cut out", uncut(run), ErrSpelling},
		{"cut in another place", miscut(run), ErrSpelling},
		{"line over 16 KiB", change(one(first...), at+1, 0x81, 0x80, 1), ErrCount},
		{"place 0 in heads", change(good["heads that go on"], 1+1+1+16+1+16, 0), ErrValue},
		{"treatments out of order", Append(nil, &Unsubscribe{[]journal.ID{jobBonnet, jobFlag}}), ErrOrder},
		{"refusal without a known reason", change(good["ack that refuses a fork"], 4, 9), ErrValue},
		{"notice that is not UTF-8", []byte{0x0c, 1, 0xff}, ErrValue},
		{"summary that is removed and open", change(good["summaries"], len(good["summaries"])-2, 3), ErrValue},
		{"blob of no bytes", append(bytes.Clone(good["blob offer"][:33]), 0), ErrValue},
		{"chunk without data", good["blob chunk"][:34], ErrCount},
		{"chunk beyond the largest blob", change(good["blob want"], 33, 0x80, 0x40), ErrValue},
	}
	var vs []badVector
	for _, b := range out {
		vs = append(vs, badVector{b.name, hex.EncodeToString(b.msg), b.err.Name})
	}
	return vs
}

// uncut writes a run whose second line travels whole, though its name could be
// cut out.
func uncut(u Run) []byte { return respell(u.Chain, u.Entries[0].Line, u.Entries[1].Line, 0) }

// miscut writes a run whose second line has the name twice, and is cut at the
// second place.
func miscut(u Run) []byte {
	name := u.Entries[0].Name.String()
	e := must(journal.Write(journal.Draft{Job: jobFlag, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: "note", BV: 1,
		Body: []byte(`{"text":"ran","of":"` + name + `"}`)}, devPhone, journal.Head{N: 1, Name: u.Entries[0].Name}, 5))
	return respell(u.Chain, u.Entries[0].Line, e.Line, bytes.LastIndex(e.Line, []byte(name)))
}

// respell writes a run of two lines with the cut of the second as given.
func respell(c journal.Chain, first, second []byte, cut int) []byte {
	b := appendChain([]byte{byte(TypeEntries), 1}, c)
	b = appendUint(appendUint(b, 1), 2<<1)
	b = append(appendUint(append(b, 0), uint64(len(first))), first...)
	b = appendUint(b, uint64(cut))
	if cut == 0 {
		return append(appendUint(b, uint64(len(second))), second...)
	}
	b = appendUint(b, uint64(len(second)-nameLen))
	return append(append(b, second[:cut]...), second[cut+nameLen:]...)
}
