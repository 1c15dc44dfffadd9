package hub_test

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"flag"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"sinkside/store/memory"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
	"sinkside/sync/link/host"
	"sinkside/sync/wire"
)

var updateProtocol = flag.Bool("update", false, "write the worked session of PROTOCOL.md anew")

const protocol = "../PROTOCOL.md"

// The section of PROTOCOL.md with real bytes is what a hub says.
func TestProtocolDocumentIsTrue(t *testing.T) {
	doc, err := os.ReadFile(protocol)
	if err != nil {
		t.Fatal(err)
	}
	const begin, end = "<!-- session -->\n", "<!-- /session -->"
	before, rest, ok := strings.Cut(string(doc), begin)
	_, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		t.Fatal("PROTOCOL.md has no section for the session")
	}
	want := before + begin + workedSession(t) + end + after
	if *updateProtocol {
		if err := os.WriteFile(protocol, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if want != string(doc) {
		t.Error("the worked session is not what the hub says; write it anew with go test ./sync/hub -run Protocol -update")
	}
}

// epoch stands for the random number of the hub's start.
const epoch = 0x5eed000000000001

// script records a session.
type script struct {
	t   *testing.T
	out strings.Builder
}

func (s *script) say(format string, args ...any) { fmt.Fprintf(&s.out, format+"\n\n", args...) }

func (s *script) frame(who, what string, f wire.Frame) {
	b := wire.Append(nil, f)
	fmt.Fprintf(&s.out, "**%s: %s**, %d bytes\n\n```\n", who, what, len(b))
	var all []byte
	for _, p := range parts(s.t, f) {
		fmt.Fprintf(&s.out, "%s\n", p)
		all = append(all, p.bytes...)
	}
	s.out.WriteString("```\n\n")
	if !bytes.Equal(all, b) {
		s.t.Fatalf("the parts of %T are\n%x, the frame is\n%x", f, all, b)
	}
}

const (
	toStudio = "phone → studio"
	toPhone  = "studio → phone"
)

func workedSession(t *testing.T) string {
	s := &script{t: t}
	gate := make(chan struct{})
	open := sync.OnceFunc(func() { close(gate) })
	st := &studio{t: t, store: memory.New()}
	now := time.UnixMilli(1_772_614_931_512)
	h, err := hub.New(hub.Config{
		Store: st.store, Key: testKey, Now: func() time.Time { return now }, Settle: time.Millisecond,
		Summarise: func(job journal.ID, _ []journal.Entry) (hub.Summary, error) {
			<-gate
			return hub.Summary{Text: []byte(`{"job":"` + job.String() + `","name":"Child's quilted bonnet","open":true}`), Open: true}, nil
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	defer h.Close()
	defer open()
	st.hub = h
	me, other := docID("01KJV9M8G0PHNE000000000001"), docID("01KJV9M8G0TABT000000000002")
	bonnet := docID("01KJV9M8G0BATH000000000002")
	mine := docChain(t, bonnet, me, "open", `{"name":"Child's quilted bonnet"}`, "begin", `{"what":"rinse","liquid":"Tap water","litres":12,"target_s":600}`)
	liquid := docChain(t, journal.Shelf, other, "item", `{"what":"liquid","name":"Tap water"}`)
	theirs := docChain(t, bonnet, other, "note", `{"text":"water runs clear"}`)
	if _, err := h.Add(liquid); err != nil {
		t.Fatal(err)
	}
	published(t, st, journal.Shelf)

	s.say("A phone that has never met the studio machine holds two entries of its own in one treatment:")
	fmt.Fprintf(&s.out, "```\n%s\n%s\n```\n\n", mine[0].Line, mine[1].Line)
	s.say("It connects, and sends them right behind its hello.")
	r := st.raw(t, me)
	greet := &wire.Hello{Version: wire.Version, Dev: me, CanInflate: true, Digest: journal.Digest(nil)}
	push := &wire.Push{Batch: 1, Runs: []wire.Run{run(mine)}}
	s.frame(toStudio, "Hello", greet)
	s.frame(toStudio, "Push", push)
	r.send(greet, push)

	welcome := expect[*wire.Welcome](r)
	real := welcome.Generation.Epoch
	welcome.Generation.Epoch = epoch
	s.frame(toPhone, "Welcome", welcome)
	// What is answered and what is missing come in any order.
	var shelf *wire.Entries
	var ack *wire.Ack
	var sums *wire.Summaries
	var caught *wire.CaughtUp
	for ack == nil || sums == nil || caught == nil {
		switch f := r.any().(type) {
		case *wire.Entries:
			shelf = f
		case *wire.Ack:
			ack = f
		case *wire.Summaries:
			sums = f
		case *wire.CaughtUp:
			caught = f
		}
	}
	if !ed25519.Verify(testKey.Public().(ed25519.PublicKey), wire.ReceiptText(ack.Receipts[0].ChainHead), ack.Receipts[0].Sig[:]) {
		t.Fatal("the receipt is not signed")
	}
	s.frame(toPhone, "Ack", ack)
	sums.Generation.Epoch = epoch
	s.frame(toPhone, "Summaries", sums)
	s.say("Then comes what the phone lacks: the tablet's entry on the shelf.")
	s.frame(toPhone, "Entries", shelf)
	s.frame(toPhone, "CaughtUp", caught)
	s.say("A moment later it has made the treatment's summary.")
	open()
	sums = expect[*wire.Summaries](r)
	sums.Generation.Epoch = epoch
	s.frame(toPhone, "Summaries", sums)
	s.say("A tablet writes a note in the same treatment.")
	if _, err := h.Add(theirs); err != nil {
		t.Fatal(err)
	}
	s.frame(toPhone, "Entries", expect[*wire.Entries](r))
	s.say("The connection breaks. When the phone comes back, nothing is to be done: one frame each way.")
	heads := []journal.ChainHead{headOf(liquid[0]), headOf(mine[1]), headOf(theirs[0])}
	again := &wire.Hello{Version: wire.Version, Dev: me, CanInflate: true, Digest: journal.Digest(heads), Generation: wire.Generation{Epoch: epoch, N: sums.Generation.N}}
	s.frame(toStudio, "Hello", again)
	again.Generation.Epoch = real
	welcome = expect[*wire.Welcome](st.raw(t, me).send(again))
	welcome.Generation.Epoch = epoch
	s.frame(toPhone, "Welcome", welcome)
	return "\n" + s.out.String()
}

// published waits until a device that comes now is told that there is something.
func published(t *testing.T, st *studio, job journal.ID) {
	d := st.device(99)
	d.connect(faults{})
	d.until(t, "published", func(v host.View) bool {
		return slices.ContainsFunc(slices.Collect(maps.Keys(v.Memory.Chains)), func(c journal.Chain) bool { return c.Job == job })
	})
	d.disconnect()
}

// any returns the next frame, which must come.
func (r *raw) any() wire.Frame {
	r.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	f, err := r.frame(ctx)
	if err != nil {
		r.t.Fatal(err)
	}
	return f
}

func headOf(e journal.Entry) journal.ChainHead {
	return journal.ChainHead{Chain: e.Chain(), Head: journal.Head{N: e.N, Name: e.Name}}
}

func docID(s string) journal.ID {
	id, err := journal.ParseID(s)
	if err != nil {
		panic(err)
	}
	return id
}

func docChain(t *testing.T, job, dev journal.ID, kindBody ...string) []journal.Entry {
	var es []journal.Entry
	var head journal.Head
	for i := 0; i < len(kindBody); i += 2 {
		e, err := journal.Write(journal.Draft{Job: job, At: "2026-03-04T10:02:11+01:00", By: "RV", Kind: kindBody[i], BV: 1,
			Body: jsontext.Value(kindBody[i+1])}, dev, head, journal.At(1_772_614_931_000+int64(i)*4000))
		if err != nil {
			t.Fatal(err)
		}
		head = journal.Head{N: e.N, Name: e.Name}
		es = append(es, e)
	}
	return es
}

// part is some bytes of a frame and what they say.
type part struct {
	bytes []byte
	says  string
}

// String writes bytes and meaning; long ones over several lines.
func (p part) String() string {
	const wide = 32
	if len(p.bytes) <= 8 {
		return fmt.Sprintf("%-18x%s", p.bytes, p.says)
	}
	var lines []string
	for b := p.bytes; len(b) > 0; b = b[min(wide, len(b)):] {
		lines = append(lines, hex.EncodeToString(b[:min(wide, len(b))]))
	}
	return strings.Join(lines, "\n") + "\n" + strings.Repeat(" ", 18) + p.says
}
