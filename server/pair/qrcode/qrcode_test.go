package qrcode

import (
	"encoding/xml"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"rsc.io/qr"
)

const address = "https://marram.local:8743/#/pair/CDFG-HJKM"

func TestTerminalReadsBack(t *testing.T) {
	want, err := qr.Encode(address, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	for _, colour := range []bool{false, true} {
		drawn, err := Terminal(address, colour)
		if err != nil {
			t.Fatal(err)
		}
		plain := regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(drawn, "")
		if colour == (plain == drawn) {
			t.Errorf("colour %v: escapes present %v", colour, plain != drawn)
		}
		lines := strings.Split(strings.TrimSuffix(plain, "\n"), "\n")
		for y := -quiet; y < want.Size+quiet; y++ {
			line := []rune(lines[(y+quiet)/2])
			if len(line) != want.Size+2*quiet || len(line) > 80 {
				t.Fatalf("line %d has %d cells, want %d", y, len(line), want.Size+2*quiet)
			}
			for x := -quiet; x < want.Size+quiet; x++ {
				cell := line[x+quiet]
				light := cell == '█' || cell == '▀' && (y+quiet)%2 == 0 || cell == '▄' && (y+quiet)%2 == 1
				if light == want.Black(x, y) {
					t.Fatalf("colour %v: module %d,%d drawn light %v", colour, x, y, light)
				}
			}
		}
	}
}

// TestTerminalIsWholeInEachLine has each line begin and end its own colours: a
// pager or a log that cuts between lines must not colour what follows.
func TestTerminalIsWholeInEachLine(t *testing.T) {
	drawn, err := Terminal(address, true)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSuffix(drawn, "\n"), "\n") {
		if !strings.HasPrefix(line, "\x1b[38;5;231;48;5;16m") || !strings.HasSuffix(line, "\x1b[0m") {
			t.Fatalf("line %q", line)
		}
	}
}

func TestSVGReadsBack(t *testing.T) {
	want, err := qr.Encode(address, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := SVG(address, `Pairing link <"&>`)
	if err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(strings.NewReader(drawn)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
	}
	if strings.Contains(drawn, "style") || !strings.Contains(drawn, `aria-label="Pairing link &lt;&quot;&amp;&gt;"`) {
		t.Errorf("drawn with %q", drawn[:160])
	}
	black := map[[2]int]bool{}
	for _, m := range regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`).FindAllStringSubmatch(drawn, -1) {
		var n [4]int
		for i := range n {
			if n[i], err = strconv.Atoi(m[i+1]); err != nil {
				t.Fatal(err)
			}
		}
		if n[2] != n[3] {
			t.Errorf("%s is not closed", m[0])
		}
		for x := range n[2] {
			black[[2]int{n[0] + x - quiet, n[1] - quiet}] = true
		}
	}
	for y := -quiet; y < want.Size+quiet; y++ {
		for x := -quiet; x < want.Size+quiet; x++ {
			if black[[2]int{x, y}] != want.Black(x, y) {
				t.Fatalf("module %d,%d drawn black %v", x, y, black[[2]int{x, y}])
			}
		}
	}
}

func TestTooLong(t *testing.T) {
	if _, err := Terminal(strings.Repeat("a", 3000), false); err == nil {
		t.Error("3000 characters were drawn in a terminal")
	}
	if _, err := SVG(strings.Repeat("a", 3000), ""); err == nil {
		t.Error("3000 characters were drawn as SVG")
	}
}
