package web

import (
	"bytes"
	"net/http"
	"strconv"

	"sinkside/store"
	"sinkside/sync/journal"
)

// Blobs is what showing photographs needs of the store.
type Blobs interface {
	BlobHas(sum [32]byte) (size int64, whole bool, err error)
	BlobRead(sum [32]byte, i int) ([]byte, error)
}

// blob answers GET /api/blobs/{name} with a photograph, chunk by chunk as the store has checked
// it. A name says the same bytes for ever, so a browser may keep them; nobody else may.
func (s *Server) blob(w http.ResponseWriter, r *http.Request) error {
	name, err := journal.ParseName(r.PathValue("name"))
	if err != nil {
		return faultNoPhoto.Because(err)
	}
	size, whole, err := s.cfg.Blobs.BlobHas(name)
	if err != nil {
		return err
	}
	if !whole {
		return faultNoPhoto
	}
	first, err := s.cfg.Blobs.BlobRead(name, 0)
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", kindOf(first))
	h.Set("Content-Length", strconv.FormatInt(size, 10))
	h.Set("Cache-Control", "private, max-age=31536000, immutable")
	if _, err := w.Write(first); err != nil {
		return nil // who went away meanwhile asks again
	}
	for i := 1; i < store.Chunks(size); i++ {
		data, err := s.cfg.Blobs.BlobRead(name, i)
		if err != nil {
			// The answer has begun: only breaking it off says that it is not whole.
			s.cfg.Log.Error().Err(err).Msg("read photograph")
			panic(http.ErrAbortHandler)
		}
		if _, err := w.Write(data); err != nil {
			return nil
		}
	}
	return nil
}

// kindOf lets a browser draw what is a JPEG, and nothing else.
func kindOf(first []byte) string {
	if bytes.HasPrefix(first, []byte{0xff, 0xd8, 0xff}) {
		return "image/jpeg"
	}
	return "application/octet-stream"
}
