package web

import (
	"bytes"
	"net/http"
	"strings"
	"time"
	"unicode"

	"sinkside/sync/journal"
)

// treatmentLog answers GET /api/treatments/{job}/log.jsonl and log.csv.
func (s *Server) treatmentLog(form logForm) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		job, err := journal.ParseID(r.PathValue("job"))
		if err != nil || job == journal.Shelf {
			return faultNoTreatment.Because(err)
		}
		t, err := readTreatment(s.cfg.Records, job)
		if err != nil {
			return err
		}
		if t == nil {
			return faultNoTreatment
		}
		return form.write(w, fileName(t.sum.Name, "treatment "+t.sum.Job), t.rows(), t.lines)
	}
}

// dayLog answers GET /api/day/{day}/log.jsonl and log.csv. A day on which nothing happened is an
// empty log, no error.
func (s *Server) dayLog(form logForm) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		day := r.PathValue("day")
		if _, err := time.Parse(time.DateOnly, day); err != nil {
			return faultDay.Because(err)
		}
		rows, lines, err := dayRows(s.cfg.Records, s.cfg.Days, day)
		if err != nil {
			return err
		}
		return form.write(w, "day-"+day, rows, lines)
	}
}

// logForm is one of the two forms in which a log leaves: rows for people and spreadsheets, lines
// for whoever wants the evidence.
type logForm struct {
	ext, kind string
	body      func(rows []logRow, lines map[string][]byte) ([]byte, error)
}

var (
	asCSV = logForm{"csv", "text/csv; charset=utf-8; header=present", func(rows []logRow, _ map[string][]byte) ([]byte, error) {
		var b bytes.Buffer
		err := writeCSV(&b, rows)
		return b.Bytes(), err
	}}
	// asLines gives the entries byte for byte, so that every hash in them can be checked.
	asLines = logForm{"jsonl", "application/jsonl; charset=utf-8", func(rows []logRow, lines map[string][]byte) ([]byte, error) {
		var b bytes.Buffer
		for _, r := range rows {
			b.Write(lines[r.line.Entry])
			b.WriteByte('\n')
		}
		return b.Bytes(), nil
	}}
)

// write sends the log as a file to save. It is made whole first, so that a fault is told as one
// and never ends up as half a file.
func (f logForm) write(w http.ResponseWriter, name string, rows []logRow, lines map[string][]byte) error {
	b, err := f.body(rows, lines)
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Disposition", `attachment; filename="`+name+"."+f.ext+`"`)
	_, _ = w.Write(b) // who went away meanwhile asks again
	return nil
}

// fileName makes a file name of an object's name: small letters, digits and hyphens, at most 60.
func fileName(name, otherwise string) string {
	var b strings.Builder
	for _, word := range strings.FieldsFunc(strings.ReplaceAll(name, "'", ""), func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}) {
		if b.Len()+len(word) > 60 {
			break
		}
		if b.Len() > 0 {
			b.WriteByte('-')
		}
		b.WriteString(strings.ToLower(word))
	}
	if b.Len() == 0 {
		return fileName(otherwise, "log")
	}
	return b.String()
}
