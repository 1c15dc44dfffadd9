package main

import (
	"bytes"
	"testing"

	"pgregory.net/rapid"
)

// module is a module with a type section, which is none of our business, and data.
func module(segments []segment) []byte {
	body := writeSegments(segments)
	out := []byte("\x00asm\x01\x00\x00\x00\x01\x04\x01\x60\x00\x00")
	out = append(out, sectionData)
	for n := len(body); ; n >>= 7 {
		if n < 0x80 {
			out = append(out, byte(n))
			break
		}
		out = append(out, byte(n&0x7f)|0x80)
	}
	return append(out, body...)
}

// memory is what a module finds when it starts.
func memory(segments []segment) []byte {
	var m []byte
	for _, s := range segments {
		if more := int(s.at) + len(s.data) - len(m); more > 0 {
			m = append(m, make([]byte, more)...)
		}
		copy(m[s.at:], s.data)
	}
	return m
}

// dataOf reads the data of a module made by [module].
func dataOf(t interface{ Fatal(...any) }, m []byte) []segment {
	m = m[8+6+1:]
	for m[0]&0x80 != 0 {
		m = m[1:]
	}
	s, err := readSegments(m[1:])
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestJoinedSegmentsMeanTheSameMemory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var in []segment
		at := int64(0)
		for range rapid.IntRange(0, 40).Draw(t, "segments") {
			at += rapid.Int64Range(0, 200).Draw(t, "gap")
			data := rapid.SliceOfN(rapid.Byte(), 1, 300).Draw(t, "data")
			in = append(in, segment{at, data})
			at += int64(len(data))
		}
		before := module(in)
		after, err := joinSegments(before)
		if err != nil {
			t.Fatal(err)
		}
		out := dataOf(t, after)
		if !bytes.Equal(memory(out), memory(in)) {
			t.Fatalf("memory of %v is not that of %v", out, in)
		}
		for i := 1; i < len(out); i++ {
			if gap := out[i].at - out[i-1].at - int64(len(out[i-1].data)); gap <= joinGap {
				t.Errorf("segments %d and %d are only %d apart", i-1, i, gap)
			}
		}
		if !bytes.HasPrefix(after, before[:14]) {
			t.Errorf("what is no data has changed")
		}
		if again, err := joinSegments(after); err != nil || !bytes.Equal(again, after) {
			t.Errorf("joined again it is another module (%v)", err)
		}
	})
}

func TestBrokenModulesAreRefused(t *testing.T) {
	for name, broken := range map[string][]byte{
		"a section beyond the end":    []byte("\x00asm\x01\x00\x00\x00\x0b\x20\x01"),
		"a passive segment":           []byte("\x00asm\x01\x00\x00\x00\x0b\x04\x01\x01\x01a"),
		"a segment beyond its end":    []byte("\x00asm\x01\x00\x00\x00\x0b\x07\x01\x00\x41\x08\x0b\x09a"),
		"an address below zero":       []byte("\x00asm\x01\x00\x00\x00\x0b\x07\x01\x00\x41\x7f\x0b\x01a"),
		"segments that lie on others": module([]segment{{10, []byte("abc")}, {12, []byte("d")}}),
	} {
		if got, err := joinSegments(broken); err == nil {
			t.Errorf("%s: taken as %q", name, got)
		}
	}
}
