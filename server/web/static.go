package web

import (
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"path"
	"regexp"
	"strconv"
	"strings"
	"time"

	"sinkside/server/answer"
)

// Static serves the web app's files from a file system that holds, beside some of them, copies
// made at build time: NAME.br and NAME.gz. Nothing is compressed while serving and no file is
// held in memory.
//
// A file whose name carries its content's hash never changes, so it may be kept for ever; every
// other file is asked for again each time and answered with 304 when it is still the same.
type Static struct {
	files map[string]*staticFile // by URL path, "/app-1A2B3C4D.js"
	fsys  fs.FS
}

type staticFile struct {
	kind     string // Content-Type
	cache    string // Cache-Control
	variants []variant
}

// variant is one stored form of a file: as it is, or compressed.
type variant struct {
	name     string // in the file system
	encoding string // br, gzip, or empty for the file as it is
	etag     string
	size     int64
}

// hashedName matches names such as app-K5QX2ABC.js, the way that the bundler writes them, and
// names with a hash in hexadecimal. A word of eight letters is no hash.
var hashedName = regexp.MustCompile(`[-.]([A-Z0-9]{8}|[0-9a-f]{8,64})\.[a-z0-9.]+$`)

// contentTypes holds what the web app is made of. The table is ours, since what mime knows
// depends on the machine, and a wrong type keeps WebAssembly or a manifest from loading.
var contentTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".json":        "application/json; charset=utf-8",
	".webmanifest": "application/manifest+json; charset=utf-8",
	".wasm":        "application/wasm",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".ico":         "image/x-icon",
	".woff2":       "font/woff2",
	".txt":         "text/plain; charset=utf-8",
	".map":         "application/json; charset=utf-8",
	".mp4":         "video/mp4",
	".webm":        "video/webm",
	".wav":         "audio/wav",
}

// NewStatic reads through fsys once, to know each file's size and entity tag.
func NewStatic(fsys fs.FS) (*Static, error) {
	s := &Static{files: map[string]*staticFile{}, fsys: fsys}
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(path.Base(name), ".") || isCopy(fsys, name) {
			return err
		}
		f, err := s.look(name)
		if err != nil {
			return fmt.Errorf("read %s: %w", name, err)
		}
		s.files["/"+name] = f
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read the web app's files: %w", err)
	}
	return s, nil
}

// isCopy tells whether name is a compressed copy of a file beside it.
func isCopy(fsys fs.FS, name string) bool {
	for _, ext := range []string{".br", ".gz"} {
		if plain, ok := strings.CutSuffix(name, ext); ok {
			_, err := fs.Stat(fsys, plain)
			return err == nil
		}
	}
	return false
}

func (s *Static) look(name string) (*staticFile, error) {
	f := &staticFile{kind: contentTypes[path.Ext(name)], cache: "no-cache"}
	if f.kind == "" {
		f.kind = "application/octet-stream"
	}
	if hashedName.MatchString(path.Base(name)) {
		f.cache = "public, max-age=31536000, immutable"
	}
	for _, v := range []variant{{name + ".br", "br", "", 0}, {name + ".gz", "gzip", "", 0}, {name, "", "", 0}} {
		err := s.measure(&v)
		if errors.Is(err, fs.ErrNotExist) && v.encoding != "" {
			continue
		}
		if err != nil {
			return nil, err
		}
		f.variants = append(f.variants, v)
	}
	return f, nil
}

func (s *Static) measure(v *variant) error {
	file, err := s.fsys.Open(v.name)
	if err != nil {
		return err
	}
	defer file.Close()
	h := sha256.New()
	if v.size, err = io.Copy(h, file); err != nil {
		return err
	}
	v.etag = `"` + base64.RawURLEncoding.EncodeToString(h.Sum(nil)[:15]) + `"`
	return nil
}

// Has tells whether there is a file for this URL path.
func (s *Static) Has(urlPath string) bool { return s.find(urlPath) != nil }

func (s *Static) find(urlPath string) *staticFile {
	if urlPath == "/" {
		urlPath = "/index.html"
	}
	return s.files[urlPath]
}

// ServeHTTP answers GET and HEAD. The caller has set the security headers.
func (s *Static) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	f := s.find(r.URL.Path)
	if f == nil {
		faultNoRoute.Write(w)
		return
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		faultMethod.Write(w)
		return
	}
	v := choose(f.variants, r)
	h := w.Header()
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", f.cache)
	h.Set("ETag", v.etag)
	if len(f.variants) > 1 {
		h.Set("Vary", "Accept-Encoding")
	}
	if v.encoding == "" {
		s.serveAsIs(w, r, v)
		return
	}
	if tagMatches(r.Header.Get("If-None-Match"), v.etag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	h.Set("Content-Encoding", v.encoding)
	h.Set("Content-Length", strconv.FormatInt(v.size, 10))
	if r.Method == http.MethodHead {
		return
	}
	file, err := s.fsys.Open(v.name)
	if err != nil {
		h.Del("Content-Encoding")
		h.Del("Content-Length")
		answer.Failed.Write(w)
		return
	}
	defer file.Close()
	_, _ = io.Copy(w, file)
}

// serveAsIs leaves ranges and conditions to net/http: Safari asks for a clip in ranges.
func (s *Static) serveAsIs(w http.ResponseWriter, r *http.Request, v variant) {
	file, err := s.fsys.Open(v.name)
	if err != nil {
		answer.Failed.Write(w)
		return
	}
	defer file.Close()
	seeker, ok := file.(io.ReadSeeker)
	if !ok {
		answer.Failed.Write(w)
		return
	}
	http.ServeContent(w, r, "", time.Time{}, seeker)
}

// choose picks the smallest form that the browser takes. A range is of the file as it is.
func choose(vs []variant, r *http.Request) variant {
	accepts := acceptedEncodings(r.Header.Get("Accept-Encoding"))
	for _, v := range vs {
		if v.encoding == "" || (accepts[v.encoding] && r.Header.Get("Range") == "") {
			return v
		}
	}
	return vs[len(vs)-1]
}

// acceptedEncodings reads an Accept-Encoding header; an encoding with q=0 is refused.
func acceptedEncodings(header string) map[string]bool {
	accepts := map[string]bool{}
	for part := range strings.SplitSeq(header, ",") {
		name, params, _ := strings.Cut(part, ";")
		q := 1.0
		if value, ok := strings.CutPrefix(strings.TrimSpace(params), "q="); ok {
			if parsed, err := strconv.ParseFloat(value, 64); err == nil {
				q = parsed
			}
		}
		accepts[strings.ToLower(strings.TrimSpace(name))] = q > 0
	}
	return accepts
}

func tagMatches(header, etag string) bool {
	for tag := range strings.SplitSeq(header, ",") {
		tag = strings.TrimPrefix(strings.TrimSpace(tag), "W/")
		if tag == etag || tag == "*" {
			return true
		}
	}
	return false
}
