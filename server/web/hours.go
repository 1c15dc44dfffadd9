package web

import (
	"math"
	"net/http"
	"slices"

	"sinkside/server/answer"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// mostPast is how many past steps are answered: what an estimate takes. The latest treatments
// come first.
const mostPast = 60

// pastHours answers GET /api/hours: the ended steps of the treatments, latest treatment first, as
// the rows "past" of the reckoning "estimate". The invented ones of the sample are given, and said to
// be, only where the studio has none of its own yet.
func (s *Server) pastHours(w http.ResponseWriter, _ *http.Request) error {
	jobs, err := s.cfg.Days.Between(0, math.MaxInt64)
	if err != nil {
		return err
	}
	slices.SortFunc(jobs, func(a, b journal.ID) int { return slices.Compare(b[:], a[:]) }) // an id begins with its time
	var own, sample []jsontext.Value
	for _, job := range jobs {
		t, err := readTreatment(s.cfg.Records, job)
		switch {
		case err != nil:
			return err
		case t == nil: // removed just now
		case t.dossier.State().Sample:
			sample = append(sample, t.worked()...)
		default:
			own = append(own, t.worked()...)
		}
		if len(own) >= mostPast {
			break
		}
	}
	rows := own
	if len(own) == 0 {
		rows = sample
	}
	out := jsontext.Writer{}
	out.Begin('{')
	out.KeyBool("sample", len(own) == 0 && len(sample) > 0)
	out.KeyList("past", min(len(rows), mostPast), func(i int) { out.Raw(rows[i]) })
	out.End('}')
	answer.Text(w, http.StatusOK, out.B)
	return nil
}

// worked returns a treatment's ended steps, each as a row.
func (t *treatment) worked() []jsontext.Value {
	var w jsontext.Writer
	w.Begin('[')
	t.dossier.State().AppendWorked(&w)
	w.End(']')
	var rows []jsontext.Value
	_ = jsontext.Elements(w.B, func(_ int, v jsontext.Value) error {
		rows = append(rows, v)
		return nil
	})
	return rows
}
