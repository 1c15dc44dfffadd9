package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

func TestCompressedCopiesUnpackToTheFile(t *testing.T) {
	page := []byte(strings.Repeat("undyed linen, indigo, madder, weld. ", 200))
	out := files{"app.js": page, "face.woff2": page}
	cache := t.TempDir()
	for _, pass := range []string{"fresh", "from the cache"} {
		copies, err := compressAll(out, cache)
		if err != nil {
			t.Fatal(err)
		}
		c := copies["app.js"]
		br, err := io.ReadAll(brotli.NewReader(bytes.NewReader(c.br)))
		if err != nil || !bytes.Equal(br, page) {
			t.Errorf("%s: brotli gives %d bytes, %v", pass, len(br), err)
		}
		z, err := gzip.NewReader(bytes.NewReader(c.gz))
		if err != nil {
			t.Fatal(err)
		}
		gz, err := io.ReadAll(z)
		if err != nil || !bytes.Equal(gz, page) {
			t.Errorf("%s: gzip gives %d bytes, %v", pass, len(gz), err)
		}
		if copies["face.woff2"].br != nil {
			t.Errorf("%s: a font that is compressed in itself was compressed again", pass)
		}
	}
}

func TestWriteReplacesAllButThePlaceholder(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{".keep", "old.js", "assets/old.css"} {
		p := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := files{"index.html": []byte("page"), "assets/app.js": []byte("app")}
	if err := out.write(dir, map[string]packed{"assets/app.js": {br: []byte("b"), gz: []byte("g")}}); err != nil {
		t.Fatal(err)
	}
	var got []string
	err := filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			rel, _ := filepath.Rel(dir, p)
			got = append(got, filepath.ToSlash(rel))
		}
		return err
	})
	if want := ".keep assets/app.js assets/app.js.br assets/app.js.gz index.html"; err != nil || strings.Join(got, " ") != want {
		t.Errorf("dist holds %v (%v), want %s", got, err, want)
	}
}

func TestPrecacheListNamesRevisionsWhereNamesDoNot(t *testing.T) {
	out := files{"index.html": []byte("page")}
	script := out.addHashed("app.js", []byte("app"))
	library := out.addHashed(libraryFile, []byte("fetched later"))
	letters := out.addHashed("hyperlegible-latin-ext-400.woff2", []byte("fetched later too"))
	list := precacheList(out)
	if len(list) != 2 || list[0].URL != "/"+script || list[0].Revision != nil {
		t.Errorf("list = %+v, want the hashed script first, without a revision", list)
	}
	if list[1].URL != "/index.html" || list[1].Revision == nil || *list[1].Revision != hashOf([]byte("page")) {
		t.Errorf("list = %+v, want the page with its hash", list)
	}
	if later := laterList(out); !slices.Equal(later, []string{"/" + letters, "/" + library}) {
		t.Errorf("later come %q, want the letters and the library", later)
	}
}

func TestAPatternThatOldEnginesDoNotKnowIsRefused(t *testing.T) {
	root := t.TempDir()
	if err := os.MkdirAll(filepath.Join(root, "pwa"), 0o755); err != nil {
		t.Fatal(err)
	}
	for script, want := range map[string]bool{`console.log(/^(..+)ies$/.test("dries"))`: true, `console.log(/(?<=..)ies$/.test("dries"))`: false} {
		if err := os.WriteFile(filepath.Join(root, "pwa", "app.ts"), []byte(script), 0o644); err != nil {
			t.Fatal(err)
		}
		b := &bundler{root: root, define: map[string]string{}}
		if err := b.bundleAs("app.ts", "app.js", files{}); (err == nil) != want {
			t.Errorf("%s is taken: %v, want %v (%v)", script, err == nil, want, err)
		}
	}
}

func TestAnAppOverItsBudgetIsRefused(t *testing.T) {
	out := files{"core.wasm": make([]byte, maxCore+1)}
	for name, big := range map[string]files{"core": out, "library": {"assets/library-0123456789abcdef.wasm": make([]byte, maxLibrary+1)}} {
		if err := printSizes(io.Discard, big, nil, false); err == nil {
			t.Errorf("a %s over its budget was taken", name)
		}
	}
	small := files{"assets/library-0123456789abcdef.wasm": make([]byte, maxLibrary), "core.wasm": make([]byte, maxCore)}
	if err := printSizes(io.Discard, small, nil, false); err != nil {
		t.Errorf("the library was counted into the first download: %v", err)
	}
	if err := printSizes(io.Discard, out, nil, true); err != nil {
		t.Errorf("a readable build is held to no budget, got %v", err)
	}
}

// The page's Content-Security-Policy forbids what is inline.
func TestThePageHasNothingInline(t *testing.T) {
	root, err := moduleRoot()
	if err != nil {
		t.Fatal(err)
	}
	page, err := index(root, bundled{script: "assets/early.js"}, bundled{script: "assets/app.js", style: "assets/app.css"})
	if err != nil {
		t.Fatal(err)
	}
	s := string(page)
	if strings.Count(s, "<script") != 2 || !strings.Contains(s, `<script type="module" src="/assets/app.js"></script>`) ||
		!strings.Contains(s, `<script src="/assets/early.js"></script>`) {
		t.Errorf("the page's scripts: %s", s)
	}
	for _, bad := range []string{"<style", " style=", " onload=", "javascript:", "http://", "https://"} {
		if strings.Contains(s, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
}
