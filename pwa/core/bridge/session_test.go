package bridge

import (
	"crypto/ed25519"
	"encoding/base64"
	"strings"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
)

// linkFor makes a link whose chain was written by ch and not acknowledged.
func linkFor(t *testing.T, c *Core, ch *chain) map[string]any {
	t.Helper()
	heads := []map[string]any{}
	if ch.n > 0 {
		heads = append(heads, map[string]any{"job": job, "dev": dev, "n": ch.n, "name": ch.name, "offset_ms": 0})
	}
	h, _ := want(t, c, "link.new", map[string]any{
		"dev": dev, "inflate": true, "heads": heads, "receipts": []any{}, "open": []string{}, "opened": []string{},
		"generation": "", "now": noon,
	}, ch.text())
	return h
}

// framesOf cuts the frames out of an answer.
func framesOf(t *testing.T, h map[string]any, payload string) (out []wire.Frame) {
	t.Helper()
	list, _ := h["frames"].([]any)
	for _, f := range list {
		size := int(f.(map[string]any)["size"].(float64))
		frame, err := wire.Parse([]byte(payload[:size]))
		if err != nil {
			t.Fatal(err)
		}
		out, payload = append(out, frame), payload[size:]
	}
	return out
}

func TestASessionPushesAndIsAcknowledged(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	ch.write("open", `{"name":"Sampler band of drawn-thread work"}`)
	if h := linkFor(t, &c, ch); h["phase"] != 0.0 {
		t.Fatalf("a new link = %v, want phase 0", h)
	}
	h, payload := want(t, &c, "link.start", map[string]any{"now": noon}, "")
	frames := framesOf(t, h, payload)
	if len(frames) != 2 {
		t.Fatalf("a session begins with %d frames, want Hello and Push", len(frames))
	}
	push := frames[1].(*wire.Push)
	if got := string(push.Runs[0].Entries[0].Line); got != ch.lines[0] {
		t.Errorf("pushed %s, want %s", got, ch.lines[0])
	}
	welcome := wire.Append(nil, &wire.Welcome{Version: wire.Version, StudioMS: noon + 5000, Same: true, Generation: wire.Generation{Epoch: 1<<63 + 1, N: 7}})
	h, _ = want(t, &c, "link.receive", map[string]any{"now": noon}, string(welcome))
	if h["phase"] != 3.0 || h["offset_ms"] != 5000.0 || h["all_caught_up"] != true {
		t.Errorf("after the welcome %v, want phase 3 and an offset of 5000", h)
	}
	_, key, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	head := push.Runs[0].Head()
	receipt := wire.Receipt{ChainHead: head}
	copy(receipt.Sig[:], ed25519.Sign(key, wire.ReceiptText(head)))
	ack := wire.Append(nil, &wire.Ack{Batch: push.Batch, Receipts: []wire.Receipt{receipt}})
	h, _ = want(t, &c, "link.receive", map[string]any{"now": noon}, string(ack))
	got := h["receipts"].([]any)[0].(map[string]any)
	if got["n"] != 1.0 || got["sig"] != base64.RawURLEncoding.EncodeToString(receipt.Sig[:]) {
		t.Errorf("receipt = %v", got)
	}
}

func TestEntriesOfOthersAreStored(t *testing.T) {
	var theirs, c Core
	const other = "01JEEEEEEEEEEEEEEEEEEEEEEE"
	head, line := want(t, &theirs, "stamp", map[string]any{
		"job": job, "at": "2026-03-04T12:02:11+01:00", "by": "OT", "kind": "open", "bv": 1,
		"dev": other, "n": 0, "name": "", "clock": zero, "now": noon + 3_600_000,
	}, `{"name":"Child’s quilted bonnet"}`)
	linkFor(t, &c, newChain(t, &c))
	want(t, &c, "link.start", map[string]any{"now": noon}, "")
	welcome := wire.Append(nil, &wire.Welcome{Version: wire.Version, StudioMS: noon, All: true})
	want(t, &c, "link.receive", map[string]any{"now": noon}, string(welcome))
	e, err := journal.Parse([]byte(line))
	if err != nil {
		t.Fatal(err)
	}
	var b wire.Batch
	if !b.Add(e.Chain(), e) {
		t.Fatal("one entry does not fit a batch")
	}
	h, payload := want(t, &c, "link.receive", map[string]any{"now": noon}, string(wire.Append(nil, &wire.Entries{Runs: b.Runs})))
	stored := h["store"].([]any)
	if got := stored[0].(map[string]any); len(stored) != 1 || got["dev"] != other || got["name"] != head["name"] || payload != line+"\n" {
		t.Errorf("store = %v, %q, want %q", stored, payload, line)
	}
	// An hour ahead: law 7 lets it move our clock by five minutes.
	if want := journal.At(noon + journal.MaxLead).String(); h["t"] != want {
		t.Errorf("clock after it = %v, want %s", h["t"], want)
	}
}

func TestATreatmentIsClosedAndItsLinesLetGoOf(t *testing.T) {
	for _, dropped := range []bool{false, true} {
		var c Core
		linkFor(t, &c, newChain(t, &c))
		want(t, &c, "link.start", map[string]any{"now": noon}, "")
		welcome := wire.Append(nil, &wire.Welcome{Version: wire.Version, StudioMS: noon, Same: true})
		want(t, &c, "link.receive", map[string]any{"now": noon}, string(welcome))
		h, payload := want(t, &c, "link.open", map[string]any{"job": job, "now": noon}, "")
		if f := framesOf(t, h, payload); len(f) != 1 || f[0].Type() != wire.TypeSubscribe {
			t.Fatalf("open sends %v, want Subscribe", f)
		}
		h, payload = want(t, &c, "link.close", map[string]any{"job": job, "dropped": dropped, "now": noon}, "")
		if f := framesOf(t, h, payload); len(f) != 1 || f[0].Type() != wire.TypeUnsubscribe {
			t.Errorf("close (dropped: %v) sends %v, want Unsubscribe", dropped, f)
		}
	}
}

func TestAPhotographIsOfferedAndRead(t *testing.T) {
	var c Core
	linkFor(t, &c, newChain(t, &c))
	data := strings.Repeat("sampler ", 20_000) // 160 KB: two chunks
	h, _ := want(t, &c, "sum", nil, data)
	blob, err := journal.ParseName(h["blob"].(string))
	if err != nil || blob != journal.Sum([]byte(data)) {
		t.Fatalf("sum = %v (%v)", h, err)
	}
	want(t, &c, "link.offer", map[string]any{"blob": blob.String(), "size": len(data), "now": noon}, "")
	want(t, &c, "link.start", map[string]any{"now": noon}, "")
	welcome := wire.Append(nil, &wire.Welcome{Version: wire.Version, StudioMS: noon, Same: true})
	h, payload := want(t, &c, "link.receive", map[string]any{"now": noon}, string(welcome))
	if f, ok := framesOf(t, h, payload)[0].(*wire.BlobOffer); !ok || f.Sum != blob || f.Size != uint64(len(data)) {
		t.Fatalf("after the welcome %v, want the offer", h)
	}
	h, _ = want(t, &c, "link.receive", map[string]any{"now": noon}, string(wire.Append(nil, &wire.BlobWant{Sum: blob, From: 1})))
	if read := h["read"].([]any); len(read) != 1 || read[0].(map[string]any)["index"] != 1.0 {
		t.Fatalf("wanted from 1, it reads %v", h)
	}
	h, payload = want(t, &c, "link.chunk", map[string]any{"blob": blob.String(), "index": 1, "now": noon}, data[wire.ChunkSize:])
	if f, ok := framesOf(t, h, payload)[0].(*wire.BlobChunk); !ok || string(f.Data) != data[wire.ChunkSize:] {
		t.Fatalf("chunk 1 = %v", h)
	}
	h, _ = want(t, &c, "link.receive", map[string]any{"now": noon}, string(wire.Append(nil, &wire.BlobHave{Sum: blob})))
	if sent := h["sent"].([]any); len(sent) != 1 || sent[0] != blob.String() {
		t.Errorf("sent = %v", h)
	}
}

func TestReissueKeepsBodiesAndNamesWhatTheyWere(t *testing.T) {
	var c Core
	ch := newChain(t, &c)
	first := ch.write("open", `{"name":"Harbour-office signal flag"}`)
	ch.write("note", `{"text":"the hoist is stiff","of":"`+first+`"}`)
	const next = "01JFFFFFFFFFFFFFFFFFFFFFFF"
	h, payload := want(t, &c, "reissue", map[string]any{"dev": next, "heads": []any{}}, ch.text())
	lines := strings.Split(strings.TrimSpace(payload), "\n")
	if len(lines) != 2 || len(h["entries"].([]any)) != 2 {
		t.Fatalf("reissue = %v, %s", h, payload)
	}
	for i, line := range lines {
		e, err := journal.Parse([]byte(line))
		if err != nil {
			t.Fatal(err)
		}
		old, err := journal.Parse([]byte(ch.lines[i]))
		if err != nil {
			t.Fatal(err)
		}
		if e.Was != old.Name || e.Dev.String() != next || string(e.Body) != string(old.Body) || e.N != uint64(i+1) {
			t.Errorf("reissued %s of %s", line, ch.lines[i])
		}
	}
}

func TestGenerationCrossesUnharmed(t *testing.T) {
	g := wire.Generation{Epoch: 1<<64 - 1, N: 1 << 60}
	a := args{v: []byte(`{"g":"` + generationText(g) + `"}`)}
	if got := a.generation("g"); a.err != nil || got != g {
		t.Errorf("generation = %v (%v), want %v", got, a.err, g)
	}
}
