package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"sinkside/server/web"
	"sinkside/sync/journal"
	"sinkside/sync/link/host"
)

// taken is what an import says.
type taken struct {
	Name                      string
	Stored, Known, Treatments int
	Refused                   []struct {
		Line      int
		Code, Say string
	}
}

// unsentFile is what a device saves that cannot send.
func unsentFile(dev journal.ID, es []journal.Entry) string {
	lines := []string{`{"sinkside":"unsent","v":1,"dev":"` + dev.String() + `","saved":"2026-03-04T17:20:11+01:00"}`}
	for _, e := range es {
		lines = append(lines, string(e.Line))
	}
	return strings.Join(lines, "\n") + "\n"
}

// offline writes n notes on a device that is not connected.
func offline(t *testing.T, c *client, job journal.ID, n int) []journal.Entry {
	t.Helper()
	d := host.New(host.NewMemory(c.dev), host.Options{})
	var es []journal.Entry
	for range n {
		es = append(es, record(t, d, job, "note", `{"text":"written in the basement"}`))
	}
	return es
}

func TestImportOfARevokedDevicesFile(t *testing.T) {
	r := serveOn(t, tempData(t))
	lost := r.paired("lost phone")
	job := newJob()
	es := offline(t, lost, job, 5)
	r.command("devices", "revoke", lost.dev.String())
	lost.wantFault("POST", "/api/import", unsentFile(lost.dev, es), http.StatusUnauthorized, "revoked")

	desk := r.paired("desk")
	watching, _ := desk.phone()
	wait(t, watching, "catching up", func(v host.View) bool { return v.All })
	var a taken
	desk.post("/api/import?by=RV", unsentFile(lost.dev, es), &a)
	if a.Name != "lost phone" || a.Stored != 5 || a.Known != 0 || a.Treatments != 1 || len(a.Refused) != 0 {
		t.Errorf("first import: %+v, want 5 stored in 1 treatment", a)
	}
	wait(t, watching, "the imported entries and their mark", func(v host.View) bool { return count(v, job) == 6 })
	desk.post("/api/import?by=RV", unsentFile(lost.dev, es), &a)
	if a.Stored != 0 || a.Known != 5 {
		t.Errorf("second import: %+v, want all known", a)
	}
	lines := desk.get("/api/treatments/" + job.String() + "/log.jsonl")
	marks := 0
	for line := range bytes.Lines(lines) {
		e, err := journal.Parse(bytes.TrimSuffix(line, []byte("\n")))
		if err != nil {
			t.Fatal(err)
		}
		if e.Kind == "imported" {
			marks++
			if want := `{"dev":"` + lost.dev.String() + `","from":1,"to":5,"by":"RV"}`; string(e.Body) != want {
				t.Errorf("mark = %s, want %s", e.Body, want)
			}
		}
	}
	if marks != 1 {
		t.Errorf("%d marks, want 1", marks)
	}
}

func TestImportNamesTheLinesItRefuses(t *testing.T) {
	r := serveOn(t, tempData(t))
	desk, phone, other := r.paired("desk"), r.paired("phone"), r.paired("other phone")
	es := offline(t, phone, newJob(), 4)
	foreign := offline(t, other, newJob(), 1)[0]
	file := strings.Split(unsentFile(phone.dev, []journal.Entry{es[0], foreign, es[1], es[2], es[3]}), "\n")
	file[4] = file[4][:len(file[4])-9] // line 5, es[2]: what follows it has a gap
	var a taken
	desk.post("/api/import", strings.Join(file, "\n"), &a)
	var got []string
	for _, f := range a.Refused {
		got = append(got, f.Code)
	}
	if a.Stored != 2 || strings.Join(got, " ") != "foreign-line broken-line gap" || a.Refused[2].Line != 6 {
		t.Errorf("import: %+v, want two stored, lines 3, 5 and 6 refused", a)
	}
	stranger := journal.NewID(uint64(time.Now().UnixMilli()), [10]byte{1})
	desk.wantFault("POST", "/api/import", unsentFile(stranger, nil), http.StatusForbidden, "foreign-device")
	browser(t, r.local, nil).wantFault("POST", "/api/import", unsentFile(phone.dev, es), http.StatusUnauthorized, "unpaired")
}

func TestTheDaysLogOfTwoDevices(t *testing.T) {
	r := serveOn(t, tempData(t))
	a, _ := r.paired("phone").phone()
	desk := r.paired("desk")
	b, _ := desk.phone()
	flag, bonnet := newJob(), newJob()
	record(t, a, flag, "open", `{"name":"=Harbour-office signal flag"}`)
	record(t, b, bonnet, "open", `{"name":"Child's quilted bonnet"}`)
	wait(t, a, "both treatments", func(v host.View) bool { return count(v, flag) == 1 && count(v, bonnet) == 1 })
	begun := record(t, a, flag, "begin", `{"what":"wash","liquid":"Deionised water","litres":6,"target_s":600}`)
	wait(t, b, "the bath", func(v host.View) bool { return count(v, flag) == 2 })
	record(t, b, flag, "amend", `{"of":"`+begun.Name.String()+`","over":["`+begun.Name.String()+
		`"],"body":{"what":"wash","liquid":"Deionised water","litres":60,"target_s":600},"why":"a nought was missing"}`)
	slip := record(t, b, bonnet, "note", `{"text":"wrong object"}`)
	record(t, b, bonnet, "strike", `{"of":"`+slip.Name.String()+`","why":"taken back"}`)
	wait(t, a, "everything", func(v host.View) bool { return count(v, flag) == 3 && count(v, bonnet) == 3 })

	today := time.Now().Format(time.DateOnly)
	_, text, h := desk.do("GET", "/api/day/"+today+"/log.csv", nil)
	if got := h.Get("Content-Disposition"); got != `attachment; filename="day-`+today+`.csv"` {
		t.Errorf("disposition = %s", got)
	}
	rows, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\ufeff")))).ReadAll()
	if err != nil || len(rows) != 7 {
		t.Fatalf("%d rows (%v), want a header and 6 entries:\n%s", len(rows), err, text)
	}
	for _, part := range []string{"'=Harbour-office", "6 L", "60 L", "a nought was missing", "struck", "taken back"} {
		if !bytes.Contains(text, []byte(part)) {
			t.Errorf("the day's CSV lacks %q:\n%s", part, text)
		}
	}
	lines := desk.get("/api/day/" + today + "/log.jsonl")
	if bytes.Count(lines, []byte("\n")) != 6 || !bytes.Contains(lines, append(begun.Line, '\n')) {
		t.Errorf("the day's lines are not the 6 entries as written:\n%s", lines)
	}
	if lines := desk.get("/api/day/2020-01-01/log.jsonl"); len(lines) != 0 {
		t.Errorf("a day on which nothing happened: %s", lines)
	}
}

// sampleTreatments is how many the sample studio has.
const sampleTreatments = 6

func TestSampleIsRemovedInOneActionAndRealRecordsAreKept(t *testing.T) {
	dir := tempData(t)
	r := serveOn(t, dir, "--sample")
	phone := r.paired("phone")
	d, _ := phone.phone()
	var jobs []journal.ID
	wait(t, d, "the sample's summaries", func(v host.View) bool {
		jobs = nil
		for job, s := range v.Memory.Summaries {
			if !s.Removed {
				jobs = append(jobs, job)
			}
		}
		return v.All && len(jobs) == sampleTreatments
	})
	joined := journal.ID{}
	wait(t, d, "an open sample treatment", func(v host.View) bool {
		for _, job := range jobs {
			if v.Memory.Summaries[job].Open && count(v, job) > 0 {
				joined = job
			}
		}
		return joined != journal.ID{}
	})
	record(t, d, joined, "note", `{"text":"we try it on this one"}`)
	wait(t, d, "the acknowledgement", func(v host.View) bool { return len(v.Memory.Receipts) > 0 && count(v, joined) > 1 })
	until(t, "the note on the studio machine", func() bool {
		return bytes.Contains(phone.get("/api/treatments/"+joined.String()+"/log.jsonl"), []byte("we try it"))
	})

	var gone web.Removed
	phone.post("/api/sample/remove", "", &gone)
	if len(gone.Removed) != sampleTreatments-1 || len(gone.Kept) != 1 || gone.Kept[0] != joined.String() {
		t.Errorf("removed %+v, want the others removed and %s kept", gone, joined)
	}
	wait(t, d, "the phone hears of it", func(v host.View) bool {
		n := 0
		for _, s := range v.Memory.Summaries {
			if s.Removed {
				n++
			}
		}
		return n == sampleTreatments-1
	})
	if out := r.command("sample", "remove"); !strings.Contains(out, "Removed 0") || !strings.Contains(out, "Kept 1") {
		t.Errorf("again, as a command: %s", out)
	}
	if code := r.end(); code != exitOK {
		t.Fatalf("exit %d", code)
	}
	again := serveOn(t, dir, "--sample")
	var list struct{ Devices []json.RawMessage }
	desk := again.paired("desk")
	if err := json.Unmarshal(desk.get("/api/devices"), &list); err != nil || len(list.Devices) != 2 {
		t.Errorf("devices = %s (%v)", desk.get("/api/devices"), err)
	}
	for _, job := range gone.Removed {
		desk.wantFault("GET", "/api/treatments/"+job+"/log.csv", "", http.StatusNotFound, "no-such-treatment")
	}
}

func TestASampleRemovedWhileNoServerRanIsToldOf(t *testing.T) {
	dir := tempData(t)
	r := serveOn(t, dir, "--sample")
	c := r.paired("phone")
	d, _ := c.phone()
	wait(t, d, "the sample's summaries", func(v host.View) bool { return v.All && len(v.Memory.Summaries) == sampleTreatments })
	var memory *host.Memory
	d.Look(func(v host.View) { memory = v.Memory.Copy() })
	r.end()
	if out := r.command("sample", "remove"); !strings.Contains(out, fmt.Sprint("Removed ", sampleTreatments)) {
		t.Fatalf("sample remove: %s", out)
	}
	again := serveOn(t, dir)
	ws, _, err := (&client{t: t, origin: again.local, http: c.http}).dial()
	if err != nil {
		t.Fatal(err)
	}
	back := connect(t, ws, memory)
	wait(t, back, "the removal", func(v host.View) bool {
		for _, s := range v.Memory.Summaries {
			if !s.Removed {
				return false
			}
		}
		return true
	})
}
