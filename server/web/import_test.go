package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"sinkside/server/answer"
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
	var f answer.Refusal
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

// The lines of a file that is no record at all would answer with forty times the file's size.
func TestImportNamesAHundredLinesAndCountsTheRest(t *testing.T) {
	file := header(phone) + "\n" + strings.Repeat("x\n", 100_000)
	w := importing(t, "/api/import", file, func(es []journal.Entry, _ string) ([]journal.Verdict, error) {
		return make([]journal.Verdict, len(es)), nil
	})
	var a imported
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || len(a.Refused) != 100 || a.More != 99_900 {
		t.Errorf("%d lines named and %d more (%v), want 100 and 99,900", len(a.Refused), a.More, err)
	}
}

func TestOneFileIsTakenInAtATime(t *testing.T) {
	file := header(phone) + "\n" + notes(t, journal.ID{15: 1}, phone, 1)[0]
	s := New(Config{Log: zerolog.Nop(), DeviceName: func(journal.ID) (string, bool) { return "phone", true }})
	ask := func() *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		s.handle(s.importUnsent)(w, httptest.NewRequest("POST", "/api/import", strings.NewReader(file)))
		return w
	}
	var meanwhile *httptest.ResponseRecorder
	s.cfg.Importer = importerFunc(func(es []journal.Entry, _ string) ([]journal.Verdict, error) {
		if meanwhile == nil {
			meanwhile = ask()
		}
		return make([]journal.Verdict, len(es)), nil
	})
	first := ask()
	if first.Code != http.StatusOK || meanwhile == nil || meanwhile.Code != http.StatusConflict {
		t.Fatalf("the first %d, another meanwhile %+v, want 200 and 409", first.Code, meanwhile)
	}
	if again := ask(); again.Code != http.StatusOK {
		t.Errorf("once more afterwards: %d, want 200", again.Code)
	}
}

// What a person tapped and what never became an entry is told, not dropped in silence.
func TestImportTellsOfTapsThatNeverBecameEntries(t *testing.T) {
	taps := `,"drafts":[{"job":"x","kind":"note","body":"{}","at":"","by":"OT"},{}]}`
	file := strings.TrimSuffix(header(phone), "}") + taps + "\n" + notes(t, journal.ID{15: 1}, phone, 1)[0]
	w := importing(t, "/api/import", file, func(es []journal.Entry, _ string) ([]journal.Verdict, error) {
		return make([]journal.Verdict, len(es)), nil
	})
	var a imported
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || a.Stored != 1 || a.Drafts != 2 {
		t.Errorf("%s (%v), want one entry taken in and two taps told of", w.Body, err)
	}
	// A device that was never paired has no id, and all that it holds are such taps.
	file = `{"sinkside":"unsent","v":1,"dev":"","saved":"2026-03-04T17:20:11+01:00"` + taps
	w = importing(t, "/api/import", file, nil)
	var f answer.Refusal
	if err := json.Unmarshal(w.Body.Bytes(), &f); err != nil || w.Code != http.StatusForbidden || f.Code != "never-paired" {
		t.Errorf("%d %s (%v), want 403 never-paired", w.Code, w.Body, err)
	}
}
