package wire

import (
	"bytes"
	"crypto/sha256"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// Generators of frames for property tests.

func genID(t *rapid.T) journal.ID {
	return journal.ID(rapid.SliceOfN(rapid.Byte(), 16, 16).Draw(t, "id"))
}

func genName(t *rapid.T) [32]byte {
	return sha256.Sum256([]byte{rapid.Byte().Draw(t, "name"), rapid.Byte().Draw(t, "name")})
}

func genHead(t *rapid.T) journal.Head {
	return journal.Head{N: rapid.Uint64Range(1, maxPlace).Draw(t, "n"), Name: genName(t)}
}

func genChainHead(t *rapid.T) journal.ChainHead {
	return journal.ChainHead{Chain: journal.Chain{Job: genID(t), Dev: genID(t)}, Head: genHead(t)}
}

func genSig(t *rapid.T) (s [64]byte) {
	n := genName(t)
	copy(s[:], n[:])
	return s
}

func genIDs(t *rapid.T, atLeast int) []journal.ID {
	set := map[journal.ID]bool{}
	n := rapid.IntRange(atLeast, 5).Draw(t, "ids")
	for len(set) < n {
		set[genID(t)] = true
	}
	var ids []journal.ID
	for id := range set {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(a, b journal.ID) int { return bytes.Compare(a[:], b[:]) })
	return ids
}

func genHeld(t *rapid.T, atLeast int) []Held {
	var out []Held
	for _, job := range genIDs(t, atLeast) {
		h := Held{Job: job}
		for _, dev := range genIDs(t, 0) {
			h.Heads = append(h.Heads, DevHead{dev, genHead(t)})
		}
		out = append(out, h)
	}
	return out
}

func genGeneration(t *rapid.T) Generation {
	return Generation{rapid.Uint64().Draw(t, "epoch"), rapid.Uint64().Draw(t, "generation")}
}

// genRun makes a chain of entries, some of them spelt as this project would
// not.
func genRun(t *rapid.T) Run {
	c := journal.Chain{Job: genID(t), Dev: genID(t)}
	head := journal.Head{}
	if rapid.Bool().Draw(t, "starts later") {
		head = journal.Head{N: rapid.Uint64Range(1, 1<<40).Draw(t, "n"), Name: genName(t)}
	}
	u := Run{Chain: c, Signed: rapid.Bool().Draw(t, "signed")}
	if u.Signed {
		u.Sig = genSig(t)
	}
	for range rapid.IntRange(1, 6).Draw(t, "entries") {
		e := genEntry(t, c, head)
		head = journal.Head{N: e.N, Name: e.Name}
		u.Entries = append(u.Entries, e)
	}
	return u
}

func genEntry(t *rapid.T, c journal.Chain, head journal.Head) journal.Entry {
	text := rapid.SampledFrom([]string{"drip", "", "Wasser läuft klar", head.Name.String(), strings.Repeat("x", 300)}).Draw(t, "text")
	w := jsontext.Writer{}
	w.Begin('{')
	w.Key("text")
	w.Str(text)
	w.End('}')
	e, err := journal.Write(journal.Draft{
		Job: c.Job, At: "2026-03-04T10:02:11+01:00", By: rapid.SampledFrom([]string{"RV", head.Name.String()}).Draw(t, "by"),
		Kind: "note", BV: 1, Body: jsontext.Value(w.B),
	}, c.Dev, head, journal.Time(rapid.Uint64().Draw(t, "t")))
	if err != nil {
		t.Fatal(err)
	}
	line := string(e.Line)
	switch rapid.IntRange(0, 4).Draw(t, "spelling") {
	case 0:
		line = strings.Replace(line, `{"v":1,`, `{ "v" : 1 , "extra":"`+head.Name.String()+`",`, 1)
	case 1: // the name's first character as an escape: not there to be cut
		if head.N > 0 {
			name := head.Name.String()
			line = strings.ReplaceAll(line, name, "\\u00"+hexByte(name[0])+name[1:])
		}
	}
	if e, err = journal.Parse([]byte(line)); err != nil {
		t.Fatal(err)
	}
	return e
}

func hexByte(c byte) string {
	return string("0123456789abcdef"[c>>4]) + string("0123456789abcdef"[c&15])
}

func genRuns(t *rapid.T) []Run {
	var out []Run
	for range rapid.IntRange(1, 3).Draw(t, "runs") {
		out = append(out, genRun(t))
	}
	return out
}

func genSummary(t *rapid.T) Summary {
	s := Summary{Job: genID(t), Removed: rapid.Bool().Draw(t, "removed")}
	if !s.Removed {
		s.Open = rapid.Bool().Draw(t, "open")
		s.Text = []byte(rapid.SampledFrom([]string{`{"name":"Harbour-office signal flag"}`, `{}`}).Draw(t, "summary"))
	}
	return s
}

func genAck(t *rapid.T) *Ack {
	f := &Ack{Batch: rapid.Uint64().Draw(t, "batch")}
	for range rapid.IntRange(0, 3).Draw(t, "receipts") {
		f.Receipts = append(f.Receipts, Receipt{genChainHead(t), genSig(t)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "refusals") {
		h := genChainHead(t)
		f.Refusals = append(f.Refusals, Refusal{Code(rapid.IntRange(1, 4).Draw(t, "code")), h.Chain, h.Head})
	}
	return f
}

func genWant(t *rapid.T) *Want {
	f := &Want{}
	for range rapid.IntRange(1, 3).Draw(t, "heads") {
		h := genChainHead(t)
		if rapid.Bool().Draw(t, "has nothing") {
			h.Head = journal.Head{}
		}
		f.Heads = append(f.Heads, h)
	}
	return f
}

func genSummaries(t *rapid.T) *Summaries {
	f := &Summaries{Generation: genGeneration(t), Reset: rapid.Bool().Draw(t, "reset")}
	for range rapid.IntRange(0, 3).Draw(t, "items") {
		f.Items = append(f.Items, genSummary(t))
	}
	return f
}

func genHello(t *rapid.T) *Hello {
	return &Hello{Version: 1, Dev: genID(t), CanInflate: rapid.Bool().Draw(t, "inflates"), Digest: genName(t),
		Generation: genGeneration(t), Opened: genIDs(t, 0)}
}

func genWelcome(t *rapid.T) *Welcome {
	w := &Welcome{Version: 1, StudioMS: rapid.Uint64().Draw(t, "ms"), Same: rapid.Bool().Draw(t, "same"), Generation: genGeneration(t)}
	w.All = !w.Same && rapid.Bool().Draw(t, "all")
	return w
}

// genFrame makes a frame of any type.
func genFrame(t *rapid.T) Frame {
	switch rapid.IntRange(0, 19).Draw(t, "type") {
	case 0:
		return genHello(t)
	case 1:
		return genWelcome(t)
	case 2:
		return &Heads{More: rapid.Bool().Draw(t, "more"), Held: genHeld(t, 0)}
	case 3:
		return &Entries{genRuns(t)}
	case 4:
		return &Push{rapid.Uint64().Draw(t, "batch"), rapid.Bool().Draw(t, "more"), genRuns(t)}
	case 5:
		return genAck(t)
	case 6:
		return genWant(t)
	case 7:
		return &CaughtUp{genIDs(t, 0)}
	case 8:
		return &Subscribe{genHeld(t, 1)}
	case 9:
		return &Unsubscribe{genIDs(t, 1)}
	case 10:
		return genSummaries(t)
	case 11:
		return &Notice{rapid.SampledFrom([]string{NoticeDiskFull, NoticeStoreFails, NoticeRoom, "later"}).Draw(t, "code")}
	case 12:
		return &BlobOffer{genName(t), rapid.Uint64Range(1, MaxBlob).Draw(t, "size")}
	case 13:
		return &BlobWant{genName(t), rapid.Uint64Range(0, maxChunks-1).Draw(t, "from")}
	case 14:
		return &BlobChunk{genName(t), rapid.Uint64Range(0, maxChunks-1).Draw(t, "index"), rapid.SliceOfN(rapid.Byte(), 1, 40).Draw(t, "data")}
	case 15:
		return &BlobHave{genName(t)}
	case 16:
		return &BlobLack{genName(t)}
	case 17:
		return &Armed{rapid.Bool().Draw(t, "armed")}
	case 18:
		return &Ringers{rapid.Uint64().Draw(t, "ringers")}
	}
	return &Skipped{Type(rapid.IntRange(int(TypeSkipped), 0x7f).Draw(t, "later type")), rapid.SliceOfN(rapid.Byte(), 1, 9).Draw(t, "payload")}
}
