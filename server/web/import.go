package web

import (
	"errors"
	"net/http"
	"strings"
	"unicode"

	"sinkside/server/answer"
	"sinkside/server/pair"
	"sinkside/sync/journal"
)

// Importer takes in entries that came from a file.
type Importer interface {
	Import(es []journal.Entry, by string) ([]journal.Verdict, error)
}

// imported is the answer to an import.
type imported struct {
	Device     string    `json:"device"`
	Name       string    `json:"name"`       // of the device, as it was paired
	Stored     int       `json:"stored"`     // new here
	Known      int       `json:"known"`      // were here already
	Treatments int       `json:"treatments"` // that got something new
	Refused    []refusal `json:"refused"`
	More       int       `json:"refused_more"` // lines refused besides those listed
	Drafts     int       `json:"drafts"`       // taps that never became entries; not taken in
}

// importUnsent answers POST /api/import: a file of unsent entries, by any paired device or the
// command. The entries may be those of a device whose pairing has ended; what counts is that this
// studio once paired it.
//
// One file is read at a time: a large one takes several times its size in memory.
func (s *Server) importUnsent(w http.ResponseWriter, r *http.Request) error {
	if !s.importing.TryLock() {
		return faultBusy
	}
	defer s.importing.Unlock()
	f, err := readUnsent(r.Body)
	switch {
	case errors.Is(err, errNeverPaired):
		return faultNeverPaired.Because(err)
	case errors.Is(err, errNotUnsent):
		return faultNotUnsent.Because(err)
	case err != nil:
		return bodyFault(err)
	}
	name, ok := s.cfg.DeviceName(f.dev)
	if !ok {
		return faultForeign
	}
	out, err := s.takeIn(f, s.importer(r))
	if err != nil {
		return err
	}
	out.Device, out.Name, out.Drafts = f.dev.String(), name, f.drafts
	answer.JSON(w, http.StatusOK, out)
	return nil
}

// importer is who imports: the initials given, or else the name of the device that asks.
func (s *Server) importer(r *http.Request) string {
	by := strings.Map(func(c rune) rune {
		if unicode.IsPrint(c) {
			return c
		}
		return -1
	}, r.URL.Query().Get("by"))
	if letters := []rune(strings.TrimSpace(by)); len(letters) > 0 {
		return string(letters[:min(len(letters), 60)])
	}
	if d, ok := pair.From(r.Context()); ok {
		return d.Label
	}
	return "studio machine"
}

func (s *Server) takeIn(f *unsent, by string) (imported, error) {
	var out imported
	f.sort()
	es := make([]journal.Entry, len(f.entries))
	for i := range f.entries {
		es[i] = f.entries[i].Entry
	}
	verdicts, err := s.cfg.Importer.Import(es, by)
	if err != nil {
		return out, err
	}
	touched := map[journal.ID]bool{}
	for i, v := range verdicts {
		switch v {
		case journal.Stored:
			out.Stored++
			touched[es[i].Job] = true
		case journal.Known:
			out.Known++
		case journal.Gap:
			f.refused.add(refusedGap, f.entries[i].line)
		case journal.Fork:
			f.refused.add(refusedFork, f.entries[i].line)
		}
	}
	out.Treatments = len(touched)
	out.Refused, out.More = f.refused.inOrder(), f.refused.more
	return out, nil
}
