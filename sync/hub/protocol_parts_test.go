package hub_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"testing"

	"sinkside/sync/journal"
	"sinkside/sync/wire"
	"sinkside/sync/wire/deflate"
)

func parseMessage(msg []byte) (wire.Frame, error) {
	plain, err := wire.Unpack(msg, deflate.Inflate)
	if err != nil {
		return nil, err
	}
	return wire.Parse(plain)
}

// parts takes a frame apart as PROTOCOL.md describes it, by code of its own.
func parts(t *testing.T, f wire.Frame) []part {
	d := &dissect{}
	d.add([]byte{byte(f.Type())}, "type")
	switch f := f.(type) {
	case *wire.Hello:
		d.uint(f.Version, "version")
		d.id(f.Dev, "device")
		d.add([]byte{1}, "flags: can inflate")
		d.add(f.Digest[:], "digest")
		d.generation(f.Generation)
		d.uint(0, "no treatment opened by hand")
	case *wire.Welcome:
		d.uint(f.Version, "version")
		d.uint(f.StudioMS, fmt.Sprintf("studio clock: %d ms", f.StudioMS))
		switch {
		case f.Same:
			d.add([]byte{1}, "flags: same")
		case f.All:
			d.add([]byte{2}, "flags: all")
		}
		d.generation(f.Generation)
	case *wire.Push:
		d.uint(f.Batch, "batch")
		d.add([]byte{0}, "flags: none")
		d.runs(f.Runs)
	case *wire.Entries:
		d.runs(f.Runs)
	case *wire.Ack:
		d.uint(f.Batch, "batch")
		d.uint(uint64(len(f.Receipts)), "receipts")
		for _, r := range f.Receipts {
			d.chain(r.Chain)
			d.uint(r.N, "n")
			d.add(r.Name[:], "name "+r.Name.String())
			d.add(r.Sig[:], "signature")
		}
		d.uint(uint64(len(f.Refusals)), "no refusals")
	case *wire.Summaries:
		d.generation(f.Generation)
		if f.Reset {
			d.add([]byte{1}, "flags: reset")
		} else {
			d.add([]byte{0}, "flags: none")
		}
		d.uint(uint64(len(f.Items)), "summaries")
		for _, s := range f.Items {
			d.id(s.Job, "treatment")
			d.add([]byte{1}, "flags: open")
			d.uint(uint64(len(s.Text)), fmt.Sprintf("%d bytes of text", len(s.Text)))
			d.add(s.Text, string(s.Text))
		}
	case *wire.CaughtUp:
		d.uint(0, "everything")
	default:
		t.Fatalf("PROTOCOL.md shows no %T", f)
	}
	return d.parts
}

type dissect struct{ parts []part }

func (d *dissect) add(b []byte, says string) { d.parts = append(d.parts, part{b, says}) }

func (d *dissect) uint(v uint64, says string) { d.add(binary.AppendUvarint(nil, v), says) }

func (d *dissect) id(id journal.ID, says string) { d.add(id[:], says+" "+id.String()) }

func (d *dissect) chain(c journal.Chain) {
	d.id(c.Job, "treatment")
	d.id(c.Dev, "device")
}

func (d *dissect) generation(g wire.Generation) {
	d.add(binary.BigEndian.AppendUint64(nil, g.Epoch), "generation: epoch")
	d.uint(g.N, "generation: number")
}

func (d *dissect) runs(runs []wire.Run) {
	d.uint(uint64(len(runs)), "runs")
	for _, u := range runs {
		d.chain(u.Chain)
		d.uint(u.Entries[0].N, "n of the first entry")
		size := uint64(2 * len(u.Entries))
		if u.Signed {
			size++
		}
		d.uint(size, fmt.Sprintf("entries: %d, receipt: %v", len(u.Entries), u.Signed))
		for i, e := range u.Entries {
			cut, rest := 0, e.Line
			if i > 0 {
				name := []byte(u.Entries[i-1].Name.String())
				cut = bytes.Index(e.Line, name)
				rest = bytes.Replace(e.Line, name, nil, 1)
			}
			d.uint(uint64(cut), fmt.Sprintf("cut: %d", cut))
			d.uint(uint64(len(rest)), fmt.Sprintf("%d bytes of line", len(rest)))
			d.add(rest, string(rest))
		}
		if u.Signed {
			d.add(u.Sig[:], "receipt")
		}
	}
}
