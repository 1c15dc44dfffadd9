package library

import (
	"bytes"
	"testing"

	"sinkside/calc/reckoning/reckoningtest"
	"sinkside/sync/jsontext"
)

func TestTheListIsWhatEncodingJSONWrites(t *testing.T) {
	got := string(All().Append([]byte("before ")))
	if want := "before " + reckoningtest.Standard(t, All()); got != want {
		t.Errorf("Append =\n%s\nwant\n%s", got, want)
	}
	if err := jsontext.Valid(All().Append(nil)); err != nil {
		t.Error(err)
	}
}

func TestAnswerGivesAResultOrItsProblems(t *testing.T) {
	got, ok := All().Answer([]byte("> "), "tray", jsontext.Value(`{"length":90,"width":60,"depth":10}`))
	if want := "> " + reckoningtest.Standard(t, reckon(t, "tray", form{"length": 90, "width": 60, "depth": 10})); !ok || string(got) != want {
		t.Errorf("Answer = %s, %v, want %s", got, ok, want)
	}
	got, ok = All().Answer(nil, "tray", jsontext.Value(`{"length":90,"width":60,"depth":0}`))
	if ok || !bytes.HasPrefix(got, []byte(`{"problems":[{"field":"depth","value":"0","unit":"cm","allowed":"0.1 to 150 cm",`)) {
		t.Errorf("Answer = %s, %v, want a problem of depth", got, ok)
	}
}
