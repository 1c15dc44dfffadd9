package library

import (
	"testing"

	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/reckoningtest"
	"sinkside/sync/jsontext"
)

// form is a filled-in form as a caller of one of the doors writes it.
type form map[string]any

func (f form) json(t reckoningtest.Fataler) jsontext.Value { return reckoningtest.Form(f).JSON(t) }

// reckon runs a form that must have an answer.
func reckon(t *testing.T, name string, f form) reckoning.Result {
	t.Helper()
	r, ok := All().Find(name)
	if !ok {
		t.Fatalf("no reckoning %s", name)
	}
	return reckoningtest.Run(t, r, reckoningtest.Form(f))
}

var (
	valueOf = reckoningtest.Value
	near    = reckoningtest.Near
	in      = reckoningtest.In
)
