// Package style holds the looks of the web app. Here they are held to what people with poor eyes
// need, and to the rule that no file but tokens.css names a colour.
package style

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// pairs lists which token is put on which, and the contrast that WCAG 2.2 AA asks for it: 4.5 for
// text, 3 for large text and for parts of controls that tell something.
var pairs = []struct {
	front, back string
	least       float64
	where       string
}{
	{"ink", "ground", 4.5, "text on the page"},
	{"ink", "surface", 4.5, "text on cards and keys"},
	{"quiet", "ground", 4.5, "second text on the page"},
	{"quiet", "surface", 4.5, "second text on cards and keys, and the edge of fields"},
	{"indigo", "ground", 4.5, "links, the focus ring, the bar of time gone"},
	{"indigo", "surface", 4.5, "the edge of what is chosen, a card's side"},
	{"madder", "ground", 4.5, "what is past its time, faults"},
	{"madder", "surface", 4.5, "the same on cards"},
	{"green", "ground", 3, "the edge of a press that may be let go"},
	{"green", "surface", 3, "the side of what was just done"},
	{"onstrong", "indigo", 4.5, "text on keys that act"},
	{"onstrong", "green", 4.5, "text on a press that may be let go"},
	{"onstrong", "ink", 4.5, "text over the fill of a held press"},
	{"ink", "line", 4.5, "text over the fill of a quiet held press"},
	{"indigo", "line", 3, "time gone against the empty part of the bar"},
	{"madder", "line", 3, "time past the target against the empty part of the bar"},
}

func TestContrastOfEveryPair(t *testing.T) {
	for name, tokens := range themes(t) {
		for _, p := range pairs {
			got := contrast(tokens[p.front], tokens[p.back])
			if got < p.least {
				t.Errorf("%s: %s on %s (%s) has a contrast of %.2f, want at least %v", name, p.front, p.back, p.where, got, p.least)
			}
		}
	}
}

func TestDimThemeIsTheSameByDeviceAndByChoice(t *testing.T) {
	all := themes(t)
	for token, want := range all["dark device"] {
		if got := all["dim"][token]; got != want {
			t.Errorf("--%s is %s by choice and %s by device", token, got, want)
		}
	}
}

// weld would be too pale for text on the light ground, so it is only ever a side or an edge.
func TestWeldIsNeverText(t *testing.T) {
	weldText := regexp.MustCompile(`(?m)^\s*(color|fill|stroke):\s*var\(--weld\)`)
	for name, css := range sheets(t) {
		if weldText.MatchString(css) {
			t.Errorf("%s: weld is used for text", name)
		}
	}
}

func TestOnlyTokensNameColours(t *testing.T) {
	colour := regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\brgba?\(|\bhsla?\(`)
	for name, css := range sheets(t) {
		for _, found := range colour.FindAllString(css, -1) {
			// A QR code is read by cameras: it stands on white in every theme.
			if name == "tokens.css" || name == "studio.css" && found == "#fff" {
				continue
			}
			t.Errorf("%s names the colour %s; use a token", name, found)
		}
	}
}

func TestEveryTokenUsedExists(t *testing.T) {
	known := map[string]bool{}
	for _, m := range regexp.MustCompile(`--([a-z0-9-]+):`).FindAllStringSubmatch(sheets(t)["tokens.css"], -1) {
		known[m[1]] = true
	}
	for name, css := range sheets(t) {
		for _, m := range regexp.MustCompile(`var\(--([a-z0-9-]+)\)`).FindAllStringSubmatch(css, -1) {
			if !known[m[1]] {
				t.Errorf("%s uses --%s, which tokens.css does not have", name, m[1])
			}
		}
	}
}

// The Content-Security-Policy allows no style attribute and no script in the page.
func TestPageHasNothingInline(t *testing.T) {
	page, err := os.ReadFile("../index.html")
	if err != nil {
		t.Fatal(err)
	}
	if bad := regexp.MustCompile(`(?i)<style|<script[^>]*>[^<]|\sstyle=|\son[a-z]+=`).FindString(string(page)); bad != "" {
		t.Errorf("index.html holds something inline: %q", bad)
	}
	screens, err := filepath.Glob("../ui/*/*.tsx")
	if err != nil || len(screens) == 0 {
		t.Fatalf("no screens found: %v", err)
	}
	top, err := filepath.Glob("../ui/*.tsx")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append(screens, top...) {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if bad := regexp.MustCompile(`\sstyle=|dangerouslySetInnerHTML`).FindString(string(src)); bad != "" {
			t.Errorf("%s: %q", name, bad)
		}
	}
}

// themes reads the three blocks of tokens.css.
func themes(t *testing.T) map[string]map[string]string {
	t.Helper()
	css := sheets(t)["tokens.css"]
	blocks := regexp.MustCompile(`:root[^{]*\{([^}]*)\}`).FindAllStringSubmatch(css, -1)
	if len(blocks) != 3 {
		t.Fatalf("tokens.css has %d blocks of tokens, want light, dark device and dim", len(blocks))
	}
	out := map[string]map[string]string{}
	for i, name := range []string{"light", "dark device", "dim"} {
		out[name] = map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z0-9-]+):\s*(#[0-9a-f]{6});`).FindAllStringSubmatch(blocks[i][1], -1) {
			out[name][m[1]] = m[2]
		}
	}
	return out
}

func sheets(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob("*.css")
	if err != nil || len(names) == 0 {
		t.Fatalf("no style sheets found: %v", err)
	}
	comment := regexp.MustCompile(`(?s)/\*.*?\*/`)
	out := map[string]string{}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out[name] = comment.ReplaceAllString(string(b), "")
	}
	return out
}

// contrast is the ratio of WCAG 2.2, "contrast ratio" and "relative luminance"; 0 for what is no colour.
func contrast(a, b string) float64 {
	la, lb := luminance(a), luminance(b)
	if math.IsNaN(la) || math.IsNaN(lb) {
		return 0
	}
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func luminance(hex string) float64 {
	v, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil || len(hex) != 7 {
		return math.NaN()
	}
	part := func(shift uint) float64 {
		c := float64(v>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

func TestContrastAgreesWithKnownRatios(t *testing.T) {
	// Black on white is 21:1 by definition (WCAG 2.2). #767676 on white is commonly given as 4.54:1
	// (from memory).
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#767676", "#ffffff", 4.54}, {"#ffffff", "#ffffff", 1}} {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.01 {
			t.Errorf("contrast(%s, %s) = %.2f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}
