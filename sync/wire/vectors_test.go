package wire

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// The vectors are read by the tests of every client. Written anew with
//
//	go test ./sync/wire -run Vectors -update
var update = flag.Bool("update", false, "write the vectors anew")

const vectorDir = "testdata/vectors"

// vector is a plain frame and what it says.
type vector struct {
	Name  string          `json:"name"`
	Hex   string          `json:"hex"`
	Frame json.RawMessage `json:"frame"`
}

// badVector is a message and the name of the error that it gives.
type badVector struct {
	Name  string `json:"name"`
	Hex   string `json:"hex"`
	Error string `json:"error"`
}

func readJSON[T any](t testing.TB, file string) (out []T) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(vectorDir, file))
	if err == nil {
		err = json.Unmarshal(b, &out)
	}
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func writeJSON(t testing.TB, file string, v any) {
	t.Helper()
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(vectorDir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(vectorDir, file), b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

func readVectors(t testing.TB, file string) []vector { return readJSON[vector](t, file) }
func readBad(t testing.TB) []badVector               { return readJSON[badVector](t, "bad.json") }

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestVectorsOfFrames(t *testing.T) {
	if *update {
		var out []vector
		for _, f := range sampleFrames(t) {
			out = append(out, vector{f.name, hex.EncodeToString(Append(nil, f.frame)), describe(t, f.frame)})
		}
		writeJSON(t, "frames.json", out)
	}
	seen := map[Type]bool{}
	for _, v := range readVectors(t, "frames.json") {
		msg := unhex(t, v.Hex)
		f, err := Parse(msg)
		if err != nil {
			t.Errorf("%s: %v", v.Name, err)
			continue
		}
		seen[f.Type()] = true
		if got := describe(t, f); !sameJSON(t, got, v.Frame) {
			t.Errorf("%s reads as\n%s, want\n%s", v.Name, got, v.Frame)
		}
		if got := Append(nil, f); !bytes.Equal(got, msg) {
			t.Errorf("%s re-encodes to %x", v.Name, got)
		}
	}
	for ty := Type(1); ty < TypeSkipped; ty++ {
		if blank(ty) != nil && !seen[ty] {
			t.Errorf("no vector has type %#x", ty)
		}
	}
}

func TestVectorsOfBadFrames(t *testing.T) {
	if *update {
		writeJSON(t, "bad.json", badFrames(t))
	}
	seen := map[string]bool{}
	for _, v := range readBad(t) {
		_, err := Parse(unhex(t, v.Hex))
		var e *Error
		if !errors.As(err, &e) || e.Name != v.Error {
			t.Errorf("%s: Parse = %v, want %s", v.Name, err, v.Error)
		}
		seen[v.Error] = true
	}
	for _, e := range []*Error{ErrEmpty, ErrUnknownType, ErrShort, ErrLeftOver, ErrSpelling, ErrCount, ErrOrder, ErrValue, ErrEntry, ErrRun} {
		if !seen[e.Name] {
			t.Errorf("no vector gives %s", e.Name)
		}
	}
}

func sameJSON(t testing.TB, a, b []byte) bool {
	t.Helper()
	var x, y any
	if err := json.Unmarshal(a, &x); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, &y); err != nil {
		t.Fatal(err)
	}
	return reflect.DeepEqual(x, y)
}

// describe says in JSON what a frame says, with ids and names as their texts.
func describe(t testing.TB, f Frame) []byte {
	t.Helper()
	m := map[string]any{"type": typeName(f.Type())}
	switch f := f.(type) {
	case *Hello:
		m["version"], m["dev"], m["can_inflate"], m["digest"] = f.Version, f.Dev.String(), f.CanInflate, hex.EncodeToString(f.Digest[:])
		m["generation"], m["opened"] = sayGeneration(f.Generation), sayIDs(f.Opened)
		if len(f.Later) > 0 {
			m["later"] = hex.EncodeToString(f.Later)
		}
	case *Welcome:
		m["version"], m["studio_ms"], m["same"], m["all"] = f.Version, f.StudioMS, f.Same, f.All
		m["generation"] = sayGeneration(f.Generation)
	case *Heads:
		m["more"], m["held"] = f.More, sayHeld(f.Held)
	case *Subscribe:
		m["held"] = sayHeld(f.Held)
	case *Unsubscribe:
		m["jobs"] = sayIDs(f.Jobs)
	case *CaughtUp:
		m["jobs"] = sayIDs(f.Jobs)
	case *Notice:
		m["code"] = f.Code
	case *Entries:
		m["runs"] = sayRuns(f.Runs)
	case *Push:
		m["batch"], m["more"], m["runs"] = f.Batch, f.More, sayRuns(f.Runs)
	case *Skipped:
		m["payload"] = hex.EncodeToString(f.Payload)
	default:
		describeMore(m, f)
	}
	b, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func describeMore(m map[string]any, f Frame) {
	switch f := f.(type) {
	case *Ack:
		receipts, refusals := []any{}, []any{}
		for _, r := range f.Receipts {
			receipts = append(receipts, map[string]any{"head": sayHead(r.ChainHead), "sig": hex.EncodeToString(r.Sig[:])})
		}
		for _, r := range f.Refusals {
			refusals = append(refusals, map[string]any{"code": r.Code.String(), "head": sayHead(journal.ChainHead{Chain: r.Chain, Head: r.Head})})
		}
		m["batch"], m["receipts"], m["refusals"] = f.Batch, receipts, refusals
	case *Want:
		heads := []any{}
		for _, h := range f.Heads {
			heads = append(heads, sayHead(h))
		}
		m["heads"] = heads
	case *Summaries:
		items := []any{}
		for _, s := range f.Items {
			items = append(items, map[string]any{"job": s.Job.String(), "open": s.Open, "removed": s.Removed, "text": string(s.Text)})
		}
		m["generation"], m["reset"], m["items"] = sayGeneration(f.Generation), f.Reset, items
	case *BlobOffer:
		m["sum"], m["size"] = hex.EncodeToString(f.Sum[:]), f.Size
	case *BlobWant:
		m["sum"], m["from"] = hex.EncodeToString(f.Sum[:]), f.From
	case *BlobChunk:
		m["sum"], m["index"], m["data"] = hex.EncodeToString(f.Sum[:]), f.Index, hex.EncodeToString(f.Data)
	case *BlobHave:
		m["sum"] = hex.EncodeToString(f.Sum[:])
	case *BlobLack:
		m["sum"] = hex.EncodeToString(f.Sum[:])
	case *Armed:
		m["armed"] = f.Armed
	case *Ringers:
		m["count"] = f.Count
	}
}

func typeName(t Type) string {
	names := map[Type]string{
		TypeHello: "hello", TypeWelcome: "welcome", TypeHeads: "heads", TypeEntries: "entries", TypePush: "push", TypeAck: "ack",
		TypeWant: "want", TypeCaughtUp: "caught-up", TypeSubscribe: "subscribe", TypeUnsubscribe: "unsubscribe",
		TypeSummaries: "summaries", TypeNotice: "notice", TypeBlobOffer: "blob-offer", TypeBlobWant: "blob-want",
		TypeBlobChunk: "blob-chunk", TypeBlobHave: "blob-have", TypeBlobLack: "blob-lack",
		TypeArmed: "armed", TypeRingers: "ringers",
	}
	if name, ok := names[t]; ok {
		return name
	}
	return "skipped-" + hex.EncodeToString([]byte{byte(t)})
}

func sayGeneration(g Generation) map[string]any {
	return map[string]any{"epoch": hex.EncodeToString(binary.BigEndian.AppendUint64(nil, g.Epoch)), "n": g.N}
}

func sayIDs(ids []journal.ID) []string {
	out := []string{}
	for _, id := range ids {
		out = append(out, id.String())
	}
	return out
}

func sayHead(h journal.ChainHead) map[string]any {
	m := map[string]any{"job": h.Job.String(), "dev": h.Dev.String(), "n": h.N}
	if h.N > 0 {
		m["name"] = h.Name.String()
	}
	return m
}

func sayHeld(held []Held) []any {
	out := []any{}
	for _, h := range held {
		heads := []any{}
		for _, d := range h.Heads {
			heads = append(heads, map[string]any{"dev": d.Dev.String(), "n": d.N, "name": d.Name.String()})
		}
		out = append(out, map[string]any{"job": h.Job.String(), "heads": heads})
	}
	return out
}

func sayRuns(runs []Run) []any {
	out := []any{}
	for _, u := range runs {
		lines := []string{}
		for _, e := range u.Entries {
			lines = append(lines, string(e.Line))
		}
		m := map[string]any{"job": u.Chain.Job.String(), "dev": u.Chain.Dev.String(), "from": u.Entries[0].N, "lines": lines}
		if u.Signed {
			m["sig"] = hex.EncodeToString(u.Sig[:])
		}
		out = append(out, m)
	}
	return out
}

type sample struct {
	name  string
	frame Frame
}

// The studio, its devices and a treatment of the samples.
var (
	jobFlag   = must(journal.ParseID("01KJV9M8G0BATH000000000001"))
	jobBonnet = must(journal.ParseID("01KJV9M8G0BATH000000000002"))
	devPhone  = must(journal.ParseID("01KJV9M8G0PHNE000000000001"))
	devTablet = must(journal.ParseID("01KJV9M8G0TABT000000000002"))
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// chain writes entries of a sample: kind and body in turn.
func chain(job, dev journal.ID, head journal.Head, ms int64, kindBody ...string) []journal.Entry {
	var es []journal.Entry
	for i := 0; i < len(kindBody); i += 2 {
		e := must(journal.Write(journal.Draft{
			Job: job, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: kindBody[i], BV: 1, Body: jsontext.Value(kindBody[i+1]),
		}, dev, head, journal.At(ms+int64(i)*500)))
		head = journal.Head{N: e.N, Name: e.Name}
		es = append(es, e)
	}
	return es
}

func sampleFrames(t testing.TB) []sample {
	t.Helper()
	bath := chain(jobFlag, devPhone, journal.Head{}, 1_772_614_931_000,
		"open", `{"name":"Harbour-office signal flag"}`,
		"begin", `{"what":"rinse","liquid":"Tap water","litres":12,"target_s":600}`,
		"note", `{"text":"Röstiges Wasser läuft ab"}`)
	odd := must(journal.Parse([]byte(strings.Replace(string(bath[2].Line), `{"v":1,`, `{ "v":1, "later":"member",`, 1))))
	head := journal.ChainHead{Chain: bath[0].Chain(), Head: journal.Head{N: 3, Name: bath[2].Name}}
	var sig [64]byte
	for i := range sig {
		sig[i] = byte(i)
	}
	sum := [32]byte{0xb1, 0x0b}
	gen := Generation{0x5eed000000000001, 1_772_614_932_000}
	held := []Held{{Job: journal.Shelf}, {Job: jobFlag, Heads: []DevHead{{devPhone, head.Head}, {devTablet, journal.Head{N: 300, Name: bath[0].Name}}}}}
	return []sample{
		{"hello of a device that holds nothing", &Hello{Version: 1, Dev: devPhone, CanInflate: true, Digest: journal.Digest(nil)}},
		{"hello with a treatment opened by hand", &Hello{Version: 1, Dev: devTablet, Digest: journal.Digest([]journal.ChainHead{head}), Generation: gen, Opened: []journal.ID{jobBonnet}}},
		{"hello of a later version with a field more", &Hello{Version: 3, Dev: devPhone, Digest: journal.Digest(nil), Later: []byte{0xca, 0xfe}}},
		{"welcome, same", &Welcome{Version: 1, StudioMS: 1_772_614_931_512, Same: true, Generation: gen}},
		{"welcome, everything follows", &Welcome{Version: 1, StudioMS: 1_772_614_931_512, All: true, Generation: gen}},
		{"welcome, heads are expected", &Welcome{Version: 1, StudioMS: 1_772_614_931_512, Generation: gen}},
		{"heads", &Heads{Held: held}},
		{"heads that go on", &Heads{More: true, Held: held[1:]}},
		{"entries of one chain with a receipt", &Entries{[]Run{{Chain: head.Chain, Entries: bath, Signed: true, Sig: sig}}}},
		{"entries, one spelt in another way", &Entries{[]Run{{Chain: head.Chain, Entries: []journal.Entry{bath[0], bath[1], odd}}}}},
		{"entries that start in the middle of a chain", &Entries{[]Run{{Chain: head.Chain, Entries: bath[1:]}}}},
		{"push of two chains", &Push{1, true, []Run{{Chain: head.Chain, Entries: bath}, {Chain: journal.Chain{Job: jobBonnet, Dev: devPhone}, Entries: chain(jobBonnet, devPhone, journal.Head{}, 1_772_614_990_000, "open", `{"name":"Child's quilted bonnet"}`)}}}},
		{"ack with a receipt", &Ack{1, []Receipt{{head, sig}}, nil}},
		{"ack that refuses a fork", &Ack{2, nil, []Refusal{{CodeFork, head.Chain, journal.Head{N: 2, Name: bath[1].Name}}}}},
		{"ack of entries that were not kept", &Ack{300, nil, nil}},
		{"want", &Want{[]journal.ChainHead{head, {Chain: journal.Chain{Job: jobBonnet, Dev: devTablet}}}}},
		{"caught up with everything", &CaughtUp{}},
		{"caught up with one treatment", &CaughtUp{[]journal.ID{jobBonnet}}},
		{"subscribe", &Subscribe{held[1:]}},
		{"unsubscribe", &Unsubscribe{[]journal.ID{jobFlag, jobBonnet}}},
		{"summaries", &Summaries{gen, false, []Summary{{Job: jobFlag, Open: true, Text: []byte(`{"job":"01KJV9M8G0BATH000000000001","name":"Harbour-office signal flag"}`)}, {Job: jobBonnet, Removed: true}}}},
		{"summaries from the start", &Summaries{gen, true, nil}},
		{"notice, the disk is full", &Notice{NoticeDiskFull}},
		{"notice, there is room again", &Notice{NoticeRoom}},
		{"blob offer", &BlobOffer{sum, 300_000}},
		{"blob want", &BlobWant{sum, 1}},
		{"blob chunk", &BlobChunk{sum, 2, []byte{0xff, 0xd8, 0xff}}},
		{"blob have", &BlobHave{sum}},
		{"blob lack", &BlobLack{sum}},
		{"hello of a device that may ring", &Hello{Version: 2, Dev: devPhone, CanInflate: true, Digest: journal.Digest(nil)}},
		{"armed", &Armed{true}},
		{"not armed any more", &Armed{}},
		{"ringers", &Ringers{3}},
		{"ringers, nobody", &Ringers{}},
		{"a frame of a later version that may be skipped", &Skipped{0x60, []byte{1, 2}}},
	}
}
