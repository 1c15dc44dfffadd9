package wire

import (
	"bytes"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

func TestFramesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := genFrame(t)
		b := Append(nil, f)
		got, err := Parse(b)
		if err != nil {
			t.Fatalf("Parse(%x) = %v", b, err)
		}
		if got.Type() != f.Type() || !bytes.Equal(Append(nil, got), b) {
			t.Fatalf("%x read back as %+v", b, got)
		}
	})
}

// A message that lost its end is never taken for another one.
func TestACutFrameIsNoFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := genFrame(t)
		switch f.(type) {
		case *BlobChunk, *Skipped: // as long as they are: the connection's own framing guards them
			return
		}
		b := Append(nil, f)
		step := 1 + len(b)/100
		for n := rapid.IntRange(0, step-1).Draw(t, "first cut"); n < len(b); n += step {
			if got, err := Parse(b[:n:n]); err == nil {
				t.Fatalf("the first %d bytes of %x were taken for %+v", n, b, got)
			}
		}
		if _, err := Parse(append(b, 0)); err == nil {
			t.Fatalf("%x with a byte behind it was taken", b)
		}
	})
}

func TestLinesComeBackToTheByte(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs := genRuns(t)
		f, err := Parse(Append(nil, &Entries{runs}))
		if err != nil {
			t.Fatal(err)
		}
		for i, u := range f.(*Entries).Runs {
			if u.Chain != runs[i].Chain || u.Head() != runs[i].Head() || u.Signed != runs[i].Signed || u.Sig != runs[i].Sig {
				t.Fatalf("run %d came back as %+v", i, u)
			}
			for j, e := range u.Entries {
				want := runs[i].Entries[j]
				if !bytes.Equal(e.Line, want.Line) || e.Name != want.Name || e.N != want.N {
					t.Fatalf("line came back as %s, not %s", e.Line, want.Line)
				}
			}
		}
	})
}

// In a chain as this project writes it, no name of a line before travels.
func TestARunCutsNamesOut(t *testing.T) {
	es := chainOf(t, 100)
	b := Append(nil, &Entries{[]Run{{Chain: es[0].Chain(), Entries: es}}})
	for i := range es[:99] {
		if bytes.Contains(b, []byte(es[i].Name.String())) {
			t.Fatalf("the name of entry %d is in the frame", i+1)
		}
	}
}

func chainOf(t testing.TB, n int) []journal.Entry {
	job := journal.NewID(1_772_600_000_000, [10]byte{1})
	dev := journal.NewID(1_772_600_000_001, [10]byte{2})
	var es []journal.Entry
	var head journal.Head
	for i := range n {
		e, err := journal.Write(journal.Draft{
			Job: job, At: "2026-03-04T10:02:11+01:00", By: "OT", Kind: "reading", BV: 1,
			Body: jsontext.Value(`{"q":"temperature","value":18.5,"unit":"degC"}`),
		}, dev, head, journal.At(1_772_600_000_000+int64(i)*7919))
		if err != nil {
			t.Fatal(err)
		}
		head = journal.Head{N: e.N, Name: e.Name}
		es = append(es, e)
	}
	return es
}

func TestBatchesAreBounded(t *testing.T) {
	big := make([]byte, journal.MaxLine)
	c := journal.Chain{Dev: journal.ID{1}}
	var b Batch
	n := uint64(0)
	for b.Add(c, journal.Entry{N: n + 1, Line: big}) {
		n++
	}
	if n < 7 || len(Append(nil, &Push{1 << 60, true, b.Runs})) > MaxFrame {
		t.Errorf("%d of the largest entries make a frame of %d bytes", n, len(Append(nil, &Push{1, true, b.Runs})))
	}
	// The smallest entries, each a chain of its own: what a run adds counts too.
	b = Batch{}
	for i := byte(0); b.Add(journal.Chain{Dev: journal.ID{i, byte(b.Size()), byte(b.Size() >> 8)}}, journal.Entry{N: 1, Line: []byte("{}")}); i++ {
	}
	for i := range b.Runs {
		b.Runs[i].Signed = true
	}
	if n := len(Append(nil, &Push{1 << 60, true, b.Runs})); n > MaxFrame {
		t.Errorf("the smallest entries make a frame of %d bytes", n)
	}
}

func TestUnpackChecksLimits(t *testing.T) {
	none := func(dst, src []byte, limit int) ([]byte, error) { return nil, ErrInflate }
	for name, c := range map[string]struct {
		msg  []byte
		want error
	}{
		"empty":     {nil, ErrEmpty},
		"too large": {make([]byte, MaxFrame+1), ErrTooLarge},
		"not flate": {[]byte{0x81, 1}, ErrInflate},
	} {
		if _, err := Unpack(c.msg, none); !errors.Is(err, c.want) {
			t.Errorf("%s: Unpack = %v, want %v", name, err, c.want)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, v := range readVectors(f, "frames.json") {
		f.Add(unhex(f, v.Hex))
	}
	for _, v := range readBad(f) {
		f.Add(unhex(f, v.Hex))
	}
	f.Fuzz(func(t *testing.T, msg []byte) {
		frame, err := Parse(msg)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Name == "" {
				t.Fatalf("error without a name: %v", err)
			}
			return
		}
		if got := Append(nil, frame); !bytes.Equal(got, msg) {
			t.Fatalf("%x was taken and re-encodes to %x", msg, got)
		}
	})
}
