package main

import (
	"encoding/json"
	"testing"

	"sinkside/calc/reckoning/library"
	"sinkside/sync/link/host"
)

// The studio's own past steps go into an estimate; the sample's only while there are none.
func TestPastHoursAreWhatAnEstimateTakes(t *testing.T) {
	r := serveOn(t, tempData(t), "--sample")
	c := r.paired("desk")
	type answer struct {
		Sample bool
		Past   []map[string]any
	}
	hours := func() (a answer) {
		t.Helper()
		if err := json.Unmarshal(c.get("/api/hours"), &a); err != nil {
			t.Fatal(err)
		}
		return a
	}
	a := hours()
	if !a.Sample || len(a.Past) == 0 {
		t.Fatalf("with the sample alone: %+v", a)
	}
	form, err := json.Marshal(map[string]any{"past": a.Past, "steps": []map[string]any{{"step": a.Past[0]["step"]}}})
	if err != nil {
		t.Fatal(err)
	}
	if _, problems := library.All().Run("estimate", form); len(problems) > 0 {
		t.Errorf("the rows are no form: %+v", problems)
	}
	d, _ := c.phone()
	job := newJob()
	record(t, d, job, "open", `{"name":"Sampler band of drawn-thread work"}`)
	b := record(t, d, job, "begin", `{"what":"rinse","liquid":"deionised water","litres":4,"target_s":300}`)
	record(t, d, job, "end", `{"of":"`+b.Name.String()+`"}`)
	wait(t, d, "all sent", func(v host.View) bool { return count(v, job) == 3 && v.Status.Unsent == 0 })
	if a := hours(); a.Sample || len(a.Past) != 1 || a.Past[0]["step"] != "Rinse" {
		t.Errorf("with one rinse of the studio's own: %+v", a)
	}
}
