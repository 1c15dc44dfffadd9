package deflate

import (
	"bytes"
	"compress/flate"
	"encoding/hex"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"testing"

	"sinkside/sync/wire"
)

var update = flag.Bool("update", false, "write the vectors anew")

const file = "../testdata/vectors/messages.json"

// message is what goes over the line, and the plain frame that it carries or
// the name of the error.
type message struct {
	Name    string `json:"name"`
	Message string `json:"message"`
	Plain   string `json:"plain,omitempty"`
	Error   string `json:"error,omitempty"`
}

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func readMessages(t testing.TB) (out []message) {
	t.Helper()
	b, err := os.ReadFile(file)
	if err == nil {
		err = json.Unmarshal(b, &out)
	}
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// samples deflates with the standard library, at its best: what any client's
// compressor may send.
func samples(t testing.TB) []message {
	t.Helper()
	var frames []struct{ Name, Hex string }
	b, err := os.ReadFile("../testdata/vectors/frames.json")
	if err == nil {
		err = json.Unmarshal(b, &frames)
	}
	if err != nil {
		t.Fatal(err)
	}
	deflated := func(plain []byte) []byte {
		var out bytes.Buffer
		out.WriteByte(plain[0] | wire.Deflated)
		w, err := flate.NewWriter(&out, flate.BestCompression)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = w.Write(plain[1:])
		_ = w.Close()
		return out.Bytes()
	}
	var out []message
	for _, f := range frames {
		plain := unhex(t, f.Hex)
		switch f.Name {
		case "entries of one chain with a receipt", "push of two chains":
			out = append(out, message{f.Name + ", deflated", hex.EncodeToString(deflated(plain)), f.Hex, ""})
		case "welcome, same":
			out = append(out, message{f.Name + ", plain", f.Hex, f.Hex, ""}, message{f.Name + ", deflated though small", hex.EncodeToString(deflated(plain)), f.Hex, ""})
		}
	}
	whole := deflated(unhex(t, frames[8].Hex))
	huge := deflated(append([]byte{byte(wire.TypeEntries)}, make([]byte, wire.MaxFrame)...))
	for _, bad := range []struct {
		name string
		msg  []byte
		err  *wire.Error
	}{
		{"no bytes", nil, wire.ErrEmpty},
		{"deflate bit and nothing behind it", []byte{0x84}, wire.ErrInflate},
		{"deflate that stops early", whole[:len(whole)-4], wire.ErrInflate},
		{"a byte behind the deflate", append(bytes.Clone(whole), 0), wire.ErrInflate},
		{"no deflate", []byte{0x84, 0xff, 0xff, 0xff}, wire.ErrInflate},
		{"one byte more than a frame may have", huge, wire.ErrTooLarge},
	} {
		out = append(out, message{bad.name, hex.EncodeToString(bad.msg), "", bad.err.Name})
	}
	return out
}

func TestVectorsOfMessages(t *testing.T) {
	if *update {
		b, err := json.MarshalIndent(samples(t), "", "  ")
		if err == nil {
			err = os.WriteFile(file, append(b, '\n'), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, v := range readMessages(t) {
		got, err := wire.Unpack(unhex(t, v.Message), Inflate)
		var e *wire.Error
		switch {
		case v.Error != "":
			if !errors.As(err, &e) || e.Name != v.Error {
				t.Errorf("%s: Unpack = %v, want %s", v.Name, err, v.Error)
			}
		case err != nil || hex.EncodeToString(got) != v.Plain:
			t.Errorf("%s: Unpack = %x, %v", v.Name, got, err)
		}
	}
}

func TestPackedFramesComeBack(t *testing.T) {
	for _, n := range []int{1, wire.WorthDeflating - 1, wire.WorthDeflating, 100_000, wire.MaxFrame} {
		plain := bytes.Repeat([]byte{byte(wire.TypeEntries), 'a', 'b', 7}, n/4+1)[:n]
		msg := wire.Pack(plain, Append)
		if small := n < wire.WorthDeflating; small != (msg[0]&wire.Deflated == 0) {
			t.Errorf("%d bytes: first byte %#x", n, msg[0])
		}
		if back, err := wire.Unpack(msg, Inflate); err != nil || !bytes.Equal(back, plain) {
			t.Errorf("%d bytes came back as %d, %v", n, len(back), err)
		}
	}
	noise := make([]byte, 4096)
	for i, x := 0, uint32(1); i < len(noise); i++ {
		x = x*1664525 + 1013904223
		noise[i] = byte(x >> 24)
	}
	noise[0] = byte(wire.TypeEntries)
	if msg := wire.Pack(noise, Append); !bytes.Equal(msg, noise) {
		t.Error("what does not compress was not sent as it is")
	}
	noise[0] = byte(wire.TypeBlobChunk)
	if msg := wire.Pack(append(noise, make([]byte, 9000)...), Append); msg[0]&wire.Deflated != 0 {
		t.Error("a photograph's chunk was deflated")
	}
}

func FuzzInflate(f *testing.F) {
	for _, v := range readMessages(f) {
		f.Add(unhex(f, v.Message))
	}
	f.Fuzz(func(t *testing.T, msg []byte) {
		plain, err := wire.Unpack(msg, Inflate)
		if err != nil {
			var e *wire.Error
			if !errors.As(err, &e) {
				t.Fatalf("error without a name: %v", err)
			}
			return
		}
		if len(plain) > wire.MaxFrame || plain[0]&wire.Deflated != 0 {
			t.Fatalf("unpacked to %d bytes, first %#x", len(plain), plain[0])
		}
	})
}
