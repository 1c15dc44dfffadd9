package hub_test

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	badger "github.com/dgraph-io/badger/v4"
	"github.com/gorilla/websocket"

	"sinkside/sync/journal"
)

// What the benchmarks are held against: the least that any program would have
// to do.

// plain is the yardstick: the lines as one stream over a websocket into one
// batch of badger with SyncWrites, acknowledged once; from connecting on.
func plain(b *testing.B, es []journal.Entry) time.Duration {
	b.Helper()
	db, err := badger.Open(badger.DefaultOptions(b.TempDir()).WithSyncWrites(true).WithLogger(nil))
	if err != nil {
		b.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	up := websocket.Upgrader{}
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		ws, err := up.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer func() { _ = ws.Close() }()
		batch := db.NewWriteBatch()
		for range es {
			_, msg, err := ws.ReadMessage()
			if err != nil || batch.Set(msg[:80], msg) != nil {
				return
			}
		}
		if batch.Flush() == nil {
			_ = ws.WriteMessage(websocket.BinaryMessage, []byte{1})
		}
	}))
	defer srv.Close()
	start := time.Now()
	ws, _, err := websocket.DefaultDialer.Dial(strings.Replace(srv.URL, "http", "ws", 1), nil)
	if err != nil {
		b.Fatal(err)
	}
	defer func() { _ = ws.Close() }()
	for i := range es {
		// A key of its own in front, as any store needs.
		if err := ws.WriteMessage(websocket.BinaryMessage, append([]byte(fmt.Sprintf("%080d", i)), es[i].Line...)); err != nil {
			b.Fatal(err)
		}
	}
	if _, _, err := ws.ReadMessage(); err != nil {
		b.Fatal(err)
	}
	return time.Since(start)
}

// bareEcho is Live's yardstick: a websocket that appends to a file, syncs it
// and answers.
func bareEcho(b *testing.B) func() time.Duration {
	b.Helper()
	f, err := os.Create(filepath.Join(b.TempDir(), "echo"))
	if err != nil {
		b.Fatal(err)
	}
	up := websocket.Upgrader{}
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		ws, err := up.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer func() { _ = ws.Close() }()
		for {
			_, msg, err := ws.ReadMessage()
			if err != nil {
				return
			}
			if _, err := f.Write(msg); err != nil || f.Sync() != nil || ws.WriteMessage(websocket.BinaryMessage, msg) != nil {
				return
			}
		}
	}))
	ws, _, err := websocket.DefaultDialer.Dial(strings.Replace(srv.URL, "http", "ws", 1), nil)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		_ = ws.Close()
		srv.Close()
		_ = f.Close()
	})
	msg := make([]byte, 250)
	return func() time.Duration {
		start := time.Now()
		if err := ws.WriteMessage(websocket.BinaryMessage, msg); err != nil {
			b.Fatal(err)
		}
		if _, _, err := ws.ReadMessage(); err != nil {
			b.Fatal(err)
		}
		return time.Since(start)
	}
}

// intoFile streams photographs over a websocket into one file, synced once.
func intoFile(b *testing.B, photos [][]byte) time.Duration {
	b.Helper()
	f, err := os.Create(filepath.Join(b.TempDir(), "stream"))
	if err != nil {
		b.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	up := websocket.Upgrader{ReadBufferSize: 64 << 10}
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		ws, err := up.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer func() { _ = ws.Close() }()
		for range photos {
			_, msg, err := ws.NextReader()
			if err != nil {
				return
			}
			if _, err := io.Copy(f, msg); err != nil {
				return
			}
		}
		if f.Sync() == nil {
			_ = ws.WriteMessage(websocket.BinaryMessage, []byte{1})
		}
	}))
	defer srv.Close()
	start := time.Now()
	dialer := websocket.Dialer{WriteBufferSize: 64 << 10}
	ws, _, err := dialer.Dial(strings.Replace(srv.URL, "http", "ws", 1), nil)
	if err != nil {
		b.Fatal(err)
	}
	defer func() { _ = ws.Close() }()
	for _, p := range photos {
		if err := ws.WriteMessage(websocket.BinaryMessage, p); err != nil {
			b.Fatal(err)
		}
	}
	if _, _, err := ws.ReadMessage(); err != nil {
		b.Fatal(err)
	}
	return time.Since(start)
}
