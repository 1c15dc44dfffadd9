package main

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"sync"

	"github.com/andybalholm/brotli"
)

// packed is a file's compressed copies; nil for a file that does not compress.
type packed struct{ br, gz []byte }

// already lists extensions whose content is compressed in itself.
var already = []string{".woff2", ".png", ".ico"}

// compressAll packs every file that gets smaller by it. Brotli at its best takes
// seconds for the core, so copies are kept in cache under their content's hash.
func compressAll(out files, cache string) (map[string]packed, error) {
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return nil, err
	}
	var (
		mu     sync.Mutex
		wg     sync.WaitGroup
		failed error
		copies = map[string]packed{}
		slots  = make(chan struct{}, runtime.GOMAXPROCS(0))
	)
	for name, b := range out {
		if slices.Contains(already, path.Ext(name)) {
			continue
		}
		wg.Go(func() {
			slots <- struct{}{}
			defer func() { <-slots }()
			br, err1 := cached(filepath.Join(cache, hashOf(b)+".br"), b, packBrotli)
			gz, err2 := cached(filepath.Join(cache, hashOf(b)+".gz"), b, packGzip)
			mu.Lock()
			defer mu.Unlock()
			failed = errors.Join(failed, err1, err2)
			copies[name] = packed{br, gz}
		})
	}
	wg.Wait()
	return copies, failed
}

func cached(name string, b []byte, pack func([]byte) ([]byte, error)) ([]byte, error) {
	got, err := os.ReadFile(name)
	if !errors.Is(err, fs.ErrNotExist) {
		return got, err
	}
	if got, err = pack(b); err != nil {
		return nil, fmt.Errorf("compress: %w", err)
	}
	// Two builds may run at once: a half-written copy must never carry the name.
	tmp, err := os.CreateTemp(filepath.Dir(name), "tmp-*")
	if err != nil {
		return nil, err
	}
	_, err = tmp.Write(got)
	if err = errors.Join(err, tmp.Close()); err == nil {
		err = os.Rename(tmp.Name(), name)
	}
	return got, err
}

func packBrotli(b []byte) ([]byte, error) {
	var out bytes.Buffer
	w := brotli.NewWriterOptions(&out, brotli.WriterOptions{Quality: 11, LGWin: 24})
	_, err := w.Write(b)
	err = errors.Join(err, w.Close())
	return out.Bytes(), err
}

func packGzip(b []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	_, err = w.Write(b)
	err = errors.Join(err, w.Close())
	return out.Bytes(), err
}
