// Package qrcode draws an address as a QR code: in a terminal, and as SVG for
// a page.
package qrcode

import (
	"fmt"
	"strconv"
	"strings"

	"rsc.io/qr"
)

// quiet is the width of the light border in modules, which ISO/IEC 18004 asks
// for; without it a scanner does not find the code on a dark ground.
const quiet = 4

// encode uses level M: a wet or scratched screen is common here, and the codes
// stay small enough for a terminal of 80 columns (addresses up to 200 bytes).
func encode(text string) (*qr.Code, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil, fmt.Errorf("draw a QR code of %d characters: %w", len(text), err)
	}
	return code, nil
}

// Terminal draws with half blocks, two rows of modules in a line of text.
//
// With colour every cell says black and white itself, so that it looks the same
// in a dark and in a light terminal. Without (a log, a file) light modules are
// drawn as blocks, which is right on a dark ground.
func Terminal(text string, colour bool) (string, error) {
	code, err := encode(text)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		if colour {
			out.WriteString("\x1b[38;5;231;48;5;16m") // blocks white, ground black
		}
		for x := -quiet; x < code.Size+quiet; x++ {
			out.WriteString(halfBlock(!code.Black(x, y), !code.Black(x, y+1)))
		}
		if colour {
			out.WriteString("\x1b[0m")
		}
		out.WriteByte('\n')
	}
	return out.String(), nil
}

func halfBlock(upper, lower bool) string {
	switch {
	case upper && lower:
		return "█"
	case upper:
		return "▀"
	case lower:
		return "▄"
	}
	return " "
}

// SVG draws black on white whatever the page's theme is: not every scanner
// reads a code with its colours turned round. One module is one unit of the
// view box; the page gives it its size. It holds no style and no script, so it
// can stand in a page with a strict policy. label is read out in its place.
func SVG(text, label string) (string, error) {
	code, err := encode(text)
	if err != nil {
		return "", err
	}
	size := strconv.Itoa(code.Size + 2*quiet)
	var out strings.Builder
	out.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + size + " " + size +
		`" role="img" aria-label="` + escape(label) + `" shape-rendering="crispEdges"><rect width="` + size + `" height="` + size +
		`" fill="#fff"/><path fill="#000" d="`)
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			if !code.Black(x, y) {
				continue
			}
			run := 1
			for code.Black(x+run, y) {
				run++
			}
			fmt.Fprintf(&out, "M%d %dh%dv1h-%dz", x+quiet, y+quiet, run, run)
			x += run
		}
	}
	out.WriteString(`"/></svg>`)
	return out.String(), nil
}

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace
