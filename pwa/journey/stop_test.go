package journey

import (
	"crypto/sha256"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// It has to stop at once. One held press ends what runs, the steps that were
// agreed follow, or general ones that are marked so; why is asked afterwards,
// and a photograph reaches the studio machine.
func TestStop(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.restarts(m)
	ph.browser.ExpectUnreachable()

	agreed := []string{"Drain the tray.", "Lift on the screen, two of us.", "Blot both faces; do not flush."}
	job := ph.NewTreatment("Harbour-office signal flag")
	ph.StopPlan(job, "IB", agreed...)
	ph.Sink(job)
	ph.Choose(soak)
	ph.Begin()
	ph.Unsent(0)

	m.Stop()
	ph.Disconnected()
	ph.Stop()
	ph.Reads("dialog", "as agreed")
	ph.Shot("stop-agreed")
	ph.NoBarriers("the agreed steps")
	ph.Photograph(photograph(t))
	ph.Tap(browser.Hook("reason-later"))
	ph.See(browser.Hook("begin"))
	ph.Reload()
	ph.Reads(browser.Hook("why-stopped"), "why")
	ph.Until("what waits", `Number(document.querySelector('[data-test=unsent]')?.dataset.count)>=2`)
	m.Start()
	ph.Unsent(0)
	photoArrives(t, reader, job)

	ph.Tap(browser.Hook("why-stopped"))
	ph.Steps(agreed...)
	ph.Reason("Red ran into the field near the hoist.")
	ph.Gone(browser.Hook("why-stopped"))
	ph.Unsent(0)
	abort, reason := only(t, reader, job, "abort"), only(t, reader, job, "reason")
	if abort.Body["generic"] != false || len(abort.Body["steps"].([]any)) != 3 || len(abort.Body["of"].([]any)) != 1 {
		t.Errorf("the stop is %s", abort.Line)
	}
	if reason.Body["text"] != "Red ran into the field near the hoist." {
		t.Errorf("the reason is %s", reason.Line)
	}

	job = ph.NewTreatment("Child's quilted bonnet")
	ph.Choose(rinse)
	ph.Begin()
	ph.Stop()
	ph.Reads("dialog", "general steps")
	ph.Reads(browser.Hook("stop-face"), "No stop plan was agreed for this object")
	ph.Shot("stop-generic")
	ph.NoBarriers("the general steps")
	ph.Tap(browser.Hook("sheet-back"))
	ph.Unsent(0)
	if abort := only(t, reader, job, "abort"); abort.Body["generic"] != true || len(abort.Body["steps"].([]any)) < 3 {
		t.Errorf("the stop without a plan is %s", abort.Line)
	}

	// A device on which nobody has said who they are stops as well.
	job = ph.NewTreatment("Sampler band of drawn-thread work")
	ph.Choose(rinse)
	ph.Begin()
	ph.Unsent(0)
	desk, _ := desk(t, m)
	desk.Open("#/t/" + job)
	desk.Reads(browser.Hook("who"), "who?")
	desk.Stop()
	desk.Unsent(0)
	if abort := only(t, reader, job, "abort"); abort.By != "?" {
		t.Errorf("the stop of somebody unsaid is %s", abort.Line)
	}
}

// only is the one entry of a kind in a treatment.
func only(t *testing.T, reader *machine.Device, job, kind string) machine.Entry {
	t.Helper()
	var found []machine.Entry
	es := reader.Log(job)
	for _, e := range es {
		if e.Kind == kind {
			found = append(found, e)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%d entries %s in\n%s", len(found), kind, join(es))
	}
	return found[0]
}

// photograph makes a small picture of a bath with a stain.
func photograph(t *testing.T) (path string) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 320, 240))
	for y := range 240 {
		for x := range 320 {
			img.Set(x, y, color.RGBA{uint8(160 + x/4), uint8(200 - y/3), 210, 255})
		}
	}
	path = filepath.Join(t.TempDir(), "stain.jpg")
	f, err := os.Create(path)
	if err == nil {
		err = jpeg.Encode(f, img, nil)
	}
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// photoArrives waits until the photograph of the one entry for it is on the
// studio machine, under the name that the entry gives.
func photoArrives(t *testing.T, reader *machine.Device, job string) {
	t.Helper()
	e := only(t, reader, job, "photo")
	name, _ := e.Body["blob"].(string)
	if e.Body["of"] == "" || e.Body["w"] != 320.0 || e.Body["h"] != 240.0 {
		t.Errorf("the photograph's entry is %s", e.Line)
	}
	deadline := time.NewTimer(browser.Patience)
	defer deadline.Stop()
	tick := time.NewTicker(20 * time.Millisecond)
	defer tick.Stop()
	for {
		status, b := reader.Do("GET", "/api/blobs/"+name, nil)
		if status == http.StatusOK {
			sum := sha256.Sum256(b)
			if got := base64.RawURLEncoding.EncodeToString(sum[:]); got != name {
				t.Errorf("the photograph %s is %s", name, got)
			}
			return
		}
		select {
		case <-deadline.C:
			t.Fatalf("the photograph %s has not come: %d %s", name, status, b)
		case <-tick.C:
		}
	}
}
