package link

import (
	"bytes"

	"sinkside/sync/journal"
)

// Redraft returns the drafts that take the place of entries which were refused,
// in the same order. Bodies stay as written: what they refer to by an old name
// is found through Was. Only an entry that was issued again before, and refused
// again, would lose its first name; references to that are led to its second.
func Redraft(old []journal.Entry) []journal.Draft {
	type rename struct{ from, to []byte }
	var renames []rename
	for _, e := range old {
		if !e.Was.IsZero() {
			renames = append(renames, rename{[]byte(`"` + e.Was.String() + `"`), []byte(`"` + e.Name.String() + `"`)})
		}
	}
	out := make([]journal.Draft, len(old))
	for i, e := range old {
		body := e.Body
		for _, r := range renames {
			body = bytes.ReplaceAll(body, r.from, r.to)
		}
		out[i] = journal.Draft{Job: e.Job, At: e.At, By: e.By, Kind: e.Kind, BV: e.BV, Body: body, Was: e.Name}
	}
	return out
}

// Reissue writes entries of a refused branch again under a successor id: each
// with the time at which it was first recorded, and the name that it had. old is
// in the order of its chains; heads says where dev's chains stand, and is moved
// on. Made again after a crash in between, it gives the same entries.
func Reissue(old []journal.Entry, dev journal.ID, heads map[journal.ID]journal.Head) ([]journal.Entry, error) {
	out := make([]journal.Entry, 0, len(old))
	for i, d := range Redraft(old) {
		e, err := journal.Write(d, dev, heads[d.Job], old[i].T)
		if err != nil {
			return nil, err
		}
		heads[d.Job] = journal.Head{N: e.N, Name: e.Name}
		out = append(out, e)
	}
	return out, nil
}
