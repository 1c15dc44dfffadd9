package web

import (
	"net/http"

	"sinkside/server/answer"
	"sinkside/server/sample"
	"sinkside/sync/journal"
)

// Sample adds and removes the invented sample studio.
type Sample interface {
	Add() (treatments, entries int, err error)
	Remove() (sample.Removal, error)
}

// Removed is the answer to removing the sample.
type Removed struct {
	Removed []string `json:"removed"` // ids of treatments
	Kept    []string `json:"kept"`    // somebody wrote in these
}

// Added is the answer to adding the sample.
type Added struct {
	Treatments int `json:"treatments"`
	Entries    int `json:"entries"`
}

func (s *Server) addSample(w http.ResponseWriter, _ *http.Request) error {
	treatments, entries, err := s.cfg.Sample.Add()
	if err != nil {
		return err
	}
	answer.JSON(w, http.StatusOK, Added{treatments, entries})
	return nil
}

func (s *Server) removeSample(w http.ResponseWriter, _ *http.Request) error {
	r, err := s.cfg.Sample.Remove()
	if err != nil {
		return err
	}
	answer.JSON(w, http.StatusOK, RemovedOf(r))
	return nil
}

// RemovedOf is the answer that tells of r.
func RemovedOf(r sample.Removal) Removed { return Removed{texts(r.Removed), texts(r.Kept)} }

func texts(ids []journal.ID) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = id.String()
	}
	return out
}
