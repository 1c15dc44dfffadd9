package web

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
)

func testFiles() fstest.MapFS {
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	return fstest.MapFS{
		"index.html":                file("<!doctype html>"),
		"app-K5QX2ABC.js":           file("plain script"),
		"app-K5QX2ABC.js.br":        file("br script"),
		"app-K5QX2ABC.js.gz":        file("gz script"),
		"core-9f2c11aa77.wasm":      file("wasm"),
		"sw.js":                     file("worker"),
		"sink-overview.png":         file("0123456789"),
		"manifest.webmanifest":      file("{}"),
		".keep":                     file(""),
		"notes/archive.tar.gz":      file("an archive of its own"),
		"fonts/body-3456ABCD.woff2": file("font"),
	}
}

func TestStaticAnswers(t *testing.T) {
	s, err := NewStatic(testFiles())
	if err != nil {
		t.Fatal(err)
	}
	const keep, ask = "public, max-age=31536000, immutable", "no-cache"
	for _, c := range []struct {
		name, method, path, accept, rng    string
		status                             int
		kind, encoding, cache, body, allow string
	}{
		{name: "the page at the root", path: "/", status: 200, kind: "text/html; charset=utf-8", cache: ask, body: "<!doctype html>"},
		{name: "brotli first", path: "/app-K5QX2ABC.js", accept: "gzip, deflate, br", status: 200, kind: "text/javascript; charset=utf-8", encoding: "br", cache: keep, body: "br script"},
		{name: "gzip for who has no brotli", path: "/app-K5QX2ABC.js", accept: "gzip", status: 200, kind: "text/javascript; charset=utf-8", encoding: "gzip", cache: keep, body: "gz script"},
		{name: "brotli refused", path: "/app-K5QX2ABC.js", accept: "br;q=0, gzip;q=0.5", status: 200, kind: "text/javascript; charset=utf-8", encoding: "gzip", cache: keep, body: "gz script"},
		{name: "as it is", path: "/app-K5QX2ABC.js", status: 200, kind: "text/javascript; charset=utf-8", cache: keep, body: "plain script"},
		{name: "head", method: "HEAD", path: "/app-K5QX2ABC.js", accept: "br", status: 200, kind: "text/javascript; charset=utf-8", encoding: "br", cache: keep},
		{name: "hexadecimal hash", path: "/core-9f2c11aa77.wasm", status: 200, kind: "application/wasm", cache: keep, body: "wasm"},
		{name: "the service worker is asked for each time", path: "/sw.js", status: 200, kind: "text/javascript; charset=utf-8", cache: ask, body: "worker"},
		{name: "a word is no hash", path: "/sink-overview.png", status: 200, kind: "image/png", cache: ask, body: "0123456789"},
		{name: "a range", path: "/sink-overview.png", rng: "bytes=2-4", status: 206, kind: "image/png", cache: ask, body: "234"},
		{name: "manifest", path: "/manifest.webmanifest", status: 200, kind: "application/manifest+json; charset=utf-8", cache: ask, body: "{}"},
		{name: "an archive is no copy", path: "/notes/archive.tar.gz", status: 200, kind: "application/octet-stream", cache: ask, body: "an archive of its own"},
		{name: "copies have no address", path: "/app-K5QX2ABC.js.br", status: 404},
		{name: "hidden files neither", path: "/.keep", status: 404},
		{name: "folders neither", path: "/fonts", status: 404},
		{name: "no way out", path: "/../web.go", status: 404},
		{name: "wrong method", method: "POST", path: "/sw.js", status: 405, allow: "GET, HEAD"},
	} {
		t.Run(c.name, func(t *testing.T) {
			method := c.method
			if method == "" {
				method = "GET"
			}
			r := httptest.NewRequest(method, "/", nil)
			r.URL.Path = c.path
			r.Header.Set("Accept-Encoding", c.accept)
			if c.rng != "" {
				r.Header.Set("Range", c.rng)
			}
			w := httptest.NewRecorder()
			s.ServeHTTP(w, r)
			res := w.Result()
			body, _ := io.ReadAll(res.Body)
			if res.StatusCode != c.status {
				t.Fatalf("status = %d, want %d", res.StatusCode, c.status)
			}
			if c.status >= 400 {
				if got := res.Header.Get("Allow"); got != c.allow {
					t.Errorf("Allow = %q, want %q", got, c.allow)
				}
				if !strings.HasPrefix(string(body), `{"code":`) {
					t.Errorf("body = %s, want a named fault", body)
				}
				return
			}
			for header, want := range map[string]string{"Content-Type": c.kind, "Content-Encoding": c.encoding, "Cache-Control": c.cache} {
				if got := res.Header.Get(header); got != want {
					t.Errorf("%s = %q, want %q", header, got, want)
				}
			}
			if string(body) != c.body {
				t.Errorf("body = %q, want %q", body, c.body)
			}
		})
	}
}

func TestStaticTagSavesTheDownload(t *testing.T) {
	s, err := NewStatic(testFiles())
	if err != nil {
		t.Fatal(err)
	}
	tags := map[string]bool{}
	for _, accept := range []string{"", "gzip", "br"} {
		ask := func(tag string) *http.Response {
			r := httptest.NewRequest("GET", "/app-K5QX2ABC.js", nil)
			r.Header.Set("Accept-Encoding", accept)
			if tag != "" {
				r.Header.Set("If-None-Match", tag)
			}
			w := httptest.NewRecorder()
			s.ServeHTTP(w, r)
			return w.Result()
		}
		tag := ask("").Header.Get("ETag")
		if tag == "" || tags[tag] {
			t.Fatalf("%q: tag = %q, want one of its own for each form", accept, tag)
		}
		tags[tag] = true
		if got := ask(tag).StatusCode; got != http.StatusNotModified {
			t.Errorf("%q: same tag = %d, want 304", accept, got)
		}
		if got := ask(`"other", W/` + tag).StatusCode; got != http.StatusNotModified {
			t.Errorf("%q: tag in a list = %d, want 304", accept, got)
		}
		if got := ask(`"other"`).StatusCode; got != http.StatusOK {
			t.Errorf("%q: other tag = %d, want 200", accept, got)
		}
		if vary := ask("").Header.Get("Vary"); vary != "Accept-Encoding" {
			t.Errorf("%q: Vary = %q, want Accept-Encoding", accept, vary)
		}
	}
}
