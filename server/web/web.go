// Package web is the studio machine's HTTP side: the web app's files, the websocket on which
// devices sync, the day's log as files to save, reckonings, and what the sample needs. Who may come
// in is decided by package pair, whose routes stand beside these.
//
//	GET  /healthz                             open: {"ok":true}
//	GET  /                                    open: the web app's files
//	GET  /api/sync                            websocket: sync/PROTOCOL.md
//	GET  /api/treatments/{job}/log.jsonl      the entries as written, one a line
//	GET  /api/treatments/{job}/log.csv        the same as rows, see csvColumns
//	GET  /api/day/{day}/log.jsonl, log.csv    what happened on a day, all treatments
//	GET  /api/blobs/{name}                    a photograph, named by its SHA-256 in base64url
//	POST /api/import?by=RV                    a file of unsent entries -> counts and refused lines
//	GET  /api/hours                           past steps and how long they took, for an estimate
//	GET  /api/reckon                          all reckonings with their inputs
//	POST /api/reckon/{name}                   inputs -> result, or 422 with problems
//	POST /api/sample/add, /api/sample/remove  the invented sample studio
//
// Everything below /api/ wants a paired device, from localhost too. What cannot be done is
// answered with {"code","say"}: a name for machines, a sentence for people.
package web

import (
	"net/http"
	"sync"

	"github.com/rs/zerolog"

	"sinkside/server/answer"
	"sinkside/sync/journal"
)

// Config is what a Server stands on.
type Config struct {
	Log      zerolog.Logger
	Files    *Static // the web app
	Records  Records
	Days     Days
	Blobs    Blobs
	Importer Importer
	Sample   Sample
	Hub      Hub
	Gate     Gate
	// DeviceName is what a device is or was called; false when it was never paired here.
	DeviceName func(id journal.ID) (string, bool)
}

// Gate is package pair's: it adds its routes, and lets nobody past who is not paired.
type Gate interface {
	Mount(mux *http.ServeMux)
	Guard(next http.Handler) http.Handler
}

// Server answers requests. Handler gives its one handler for all doors.
type Server struct {
	cfg       Config
	sessions  sync.WaitGroup
	importing sync.Mutex
}

// New makes a Server.
func New(cfg Config) *Server { return &Server{cfg: cfg} }

// Handler is the whole of the HTTP side.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	s.cfg.Gate.Mount(mux)
	mux.HandleFunc("GET /healthz", budget(maxBody, bodyTime, bodyTime, healthz))
	mux.HandleFunc("GET /api/sync", s.handle(s.sync))
	for _, form := range []logForm{asLines, asCSV} {
		mux.HandleFunc("GET /api/treatments/{job}/log."+form.ext, budget(maxBody, bodyTime, downloadTime, s.handle(s.treatmentLog(form))))
		mux.HandleFunc("GET /api/day/{day}/log."+form.ext, budget(maxBody, bodyTime, downloadTime, s.handle(s.dayLog(form))))
	}
	mux.HandleFunc("GET /api/blobs/{name}", budget(maxBody, bodyTime, downloadTime, s.handle(s.blob)))
	mux.HandleFunc("POST /api/import", budget(maxImport, importTime, importTime+bodyTime, s.handle(s.importUnsent)))
	mux.HandleFunc("GET /api/hours", budget(maxBody, bodyTime, downloadTime, s.handle(s.pastHours)))
	mux.HandleFunc("GET /api/reckon", budget(maxBody, bodyTime, bodyTime, listReckonings))
	mux.HandleFunc("POST /api/reckon/{name}", budget(maxBody, bodyTime, bodyTime, s.handle(reckon)))
	mux.HandleFunc("POST /api/sample/add", budget(maxBody, bodyTime, importTime, s.handle(s.addSample)))
	mux.HandleFunc("POST /api/sample/remove", budget(maxBody, bodyTime, importTime, s.handle(s.removeSample)))
	return s.survive(headers(s.cfg.Gate.Guard(socketPolicy(named(mux, s.cfg.Files)))))
}

func healthz(w http.ResponseWriter, _ *http.Request) {
	answer.JSON(w, http.StatusOK, struct {
		OK bool `json:"ok"`
	}{true})
}
