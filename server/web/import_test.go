package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"sinkside/store"
	"sinkside/sync/journal"
)

// importerFunc is an Importer that is one function.
type importerFunc func(es []journal.Entry, by string) ([]journal.Verdict, error)

func (f importerFunc) Import(es []journal.Entry, by string) ([]journal.Verdict, error) {
	return f(es, by)
}

func importing(t *testing.T, target, file string, f importerFunc) *httptest.ResponseRecorder {
	t.Helper()
	s := New(Config{Log: zerolog.Nop(), Importer: f, DeviceName: func(id journal.ID) (string, bool) { return "phone", id == phone }})
	w := httptest.NewRecorder()
	s.handle(s.importUnsent)(w, httptest.NewRequest("POST", target, strings.NewReader(file)))
	return w
}

func TestImportOnAFullDiskIsSaid(t *testing.T) {
	file := header(phone) + "\n" + notes(t, journal.ID{15: 1}, phone, 1)[0]
	w := importing(t, "/api/import", file, func([]journal.Entry, string) ([]journal.Verdict, error) {
		return nil, fmt.Errorf("append: %w", store.ErrFull)
	})
	var f Fault
	if err := json.Unmarshal(w.Body.Bytes(), &f); err != nil || w.Code != http.StatusInsufficientStorage || f.Code != "disk-full" {
		t.Errorf("%d %s, want 507 disk-full", w.Code, w.Body)
	}
}

func TestImportGivesChainsInOrderAndSaysWhoDidIt(t *testing.T) {
	es := notes(t, journal.ID{15: 1}, phone, 3)
	file := strings.Join([]string{header(phone), es[2], es[0], es[1]}, "\n")
	for target, want := range map[string]string{
		"/api/import?by=%20RV%0A":                   "RV",
		"/api/import":                               "studio machine",
		"/api/import?by=" + strings.Repeat("x", 90): strings.Repeat("x", 60),
	} {
		w := importing(t, target, file, func(es []journal.Entry, by string) ([]journal.Verdict, error) {
			if by != want {
				t.Errorf("%s: by %q, want %q", target, by, want)
			}
			for i, e := range es {
				if e.N != uint64(i+1) {
					t.Errorf("entry %d has place %d, want the chain in order", i, e.N)
				}
			}
			return []journal.Verdict{journal.Known, journal.Stored, journal.Fork}, nil
		})
		var a imported
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || a.Stored != 1 || a.Known != 1 || len(a.Refused) != 1 {
			t.Fatalf("%s: %s (%v)", target, w.Body, err)
		}
		// The third of the chain stood in line 2.
		if a.Refused[0].Line != 2 || a.Refused[0].Code != "fork" {
			t.Errorf("refused %+v, want the fork in line 2", a.Refused[0])
		}
	}
}
