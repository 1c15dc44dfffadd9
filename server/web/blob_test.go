package web

import (
	"bytes"
	"crypto/sha256"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"sinkside/store"
	"sinkside/store/memory"
	"sinkside/sync/journal"
)

// keepBlob puts bytes into a store, up to the given chunk.
func keepBlob(t *testing.T, s *memory.Store, data []byte, chunks int) journal.Name {
	t.Helper()
	sum := sha256.Sum256(data)
	if _, _, err := s.BlobBegin(sum, int64(len(data))); err != nil {
		t.Fatal(err)
	}
	for i := range chunks {
		from := i * store.ChunkSize
		if _, _, err := s.BlobChunk(sum, i, data[from:min(from+store.ChunkSize, len(data))]); err != nil {
			t.Fatal(err)
		}
	}
	return sum
}

func TestAPhotographIsShown(t *testing.T) {
	kept := memory.New()
	s := New(Config{Log: zerolog.Nop(), Blobs: kept})
	ask := func(name string) *httptest.ResponseRecorder {
		r := httptest.NewRequest("GET", "/api/blobs/x", nil)
		r.SetPathValue("name", name)
		w := httptest.NewRecorder()
		s.handle(s.blob)(w, r)
		return w
	}
	picture := append([]byte{0xff, 0xd8, 0xff, 0xe0}, bytes.Repeat([]byte("sampler band "), 30_000)...)
	name := keepBlob(t, kept, picture, 3)
	w := ask(name.String())
	if w.Code != http.StatusOK || !bytes.Equal(w.Body.Bytes(), picture) {
		t.Errorf("%d, %d bytes, want the %d that were kept", w.Code, w.Body.Len(), len(picture))
	}
	h := w.Header()
	if h.Get("Content-Type") != "image/jpeg" || !strings.Contains(h.Get("Cache-Control"), "immutable") || !strings.Contains(h.Get("Cache-Control"), "private") {
		t.Errorf("headers %v", h)
	}
	if w := ask(keepBlob(t, kept, []byte("<script>"), 1).String()); w.Header().Get("Content-Type") != "application/octet-stream" {
		t.Errorf("what is no JPEG is served as %s", w.Header().Get("Content-Type"))
	}
	part := keepBlob(t, kept, picture[1:], 1)
	for what, name := range map[string]string{
		"a part of one": part.String(), "an unknown one": strings.Repeat("A", 43), "no name": "photograph.jpg", "nothing": "",
	} {
		if w := ask(name); w.Code != http.StatusNotFound || !strings.Contains(w.Body.String(), "no-such-photograph") {
			t.Errorf("%s: %d %s, want 404", what, w.Code, w.Body)
		}
	}
}
