package journey

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// The battery goes flat at the moment of a press. The entry is there or it is
// not; it is never there twice, and what follows fits on.
func TestKilledAtThePress(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.restarts(m)
	job := ph.NewTreatment("Child's quilted bonnet")
	ph.restarts(m)
	ph.Sink(job)
	for i := range 6 {
		ph.Tap(browser.Hook("note"))
		ph.Type(browser.Hook("note-text"), "drop "+strconv.Itoa(i))
		ph.Backdated(browser.Hook("keep"), 700*time.Millisecond)
		ph.dies(m)
		ph.Open("#/t/" + job)
		ph.See(browser.Hook("note"))
	}
	ph.Note("after the last")
	ph.Unsent(0)
	es := reader.Log(job)
	sameLinesOf(t, ph.Person, es, job)
	for i := range 6 {
		if n := strings.Count(join(es), `"drop `+strconv.Itoa(i)+`"`); n > 1 {
			t.Errorf("drop %d is there %d times", i, n)
		} else if n == 0 {
			t.Logf("drop %d was not kept", i)
		}
	}
	if n := strings.Count(join(es), "after the last"); n != 1 {
		t.Errorf("the note after the last is there %d times", n)
	}
}

// The studio machine is set back to an older copy of its folder. The phone
// gives back what was lost.
func TestStudioSetBack(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := pairedPhone(t, m, "Runa's phone", "RV")
	osk := pairedPhone(t, m, "Osk's phone", "OT")
	job := runa.NewTreatment("Harbour-office signal flag")
	reader.AwaitLog(job, 1)
	runa.browser.ExpectUnreachable()
	osk.browser.ExpectUnreachable()
	m.Stop()
	old := t.TempDir()
	copyFolder(t, m.Dir, old)
	m.Start()
	runa.Connected()
	runa.Choose(soak)
	runa.Begin()
	runa.Unsent(0)
	osk.Connected()
	osk.Sink(job)
	osk.BeAtSink("OT")
	osk.Note("Written by the colleague.")
	osk.Unsent(0)
	es := reader.AwaitLog(job, 3)

	m.Stop()
	osk.browser.Close() // only Runa's phone comes back
	if err := os.RemoveAll(m.Dir); err != nil {
		t.Fatal(err)
	}
	copyFolder(t, old, m.Dir)
	m.Start()
	runa.Connected()
	back := reader.AwaitLog(job, len(es))
	sameLinesOf(t, runa.Person, back, job)
}

func copyFolder(t *testing.T, from, to string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
}

// A phone's profile is copied, and both copies write. Nobody's entry is lost:
// one copy goes on under another id.
func TestCopiedPhone(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := pairedPhone(t, m, "Runa's phone", "RV")
	job := runa.NewTreatment("Sampler band of drawn-thread work")
	runa.Unsent(0)
	runa.browser.Close()
	m.Stop()

	twin := &phone{t: t, options: runa.options}
	twin.options.Name = "the copy"
	twin.options.Home = t.TempDir()
	copyFolder(t, runa.options.Home, twin.options.Home)
	for _, lock := range []string{"SingletonLock", "SingletonCookie", "SingletonSocket"} {
		os.Remove(filepath.Join(twin.options.Home, "profile", lock))
	}
	for _, ph := range []*phone{runa, twin} {
		ph.switchOn(m, "RV")
		ph.browser.ExpectUnreachable()
		ph.Open("#/t/" + job)
		ph.Note("written on " + ph.Name)
		ph.Reading("ph", "6.5")
		ph.Unsent(2)
	}
	m.Start()
	for _, ph := range []*phone{runa, twin} {
		ph.Connected()
		ph.Unsent(0)
	}
	es := reader.AwaitLog(job, 5)
	for _, ph := range []*phone{runa, twin} {
		if n := strings.Count(join(es), "written on "+ph.Name); n != 1 {
			t.Errorf("the note of %s is there %d times", ph.Name, n)
		}
		sameLinesOf(t, ph.Person, es, job)
	}
}

// A phone is shut out with entries that it has not sent. It says so, gives them
// to a file, and the file is taken in.
func TestShutOut(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Osk's phone", "OT")
	job := ph.NewTreatment("Child's quilted bonnet")
	ph.Unsent(0)
	ph.browser.ExpectUnreachable()
	ph.browser.Expect("401|Authentication failed")
	m.Stop()
	ph.Disconnected()
	ph.Note("Nobody but this phone knows.")
	ph.Unsent(1)
	m.Run("devices", "revoke", "--data", m.Dir, deviceOf(ph.Person))
	m.Start()
	ph.Reads(browser.Hook("link"), "shut out")
	ph.Unsent(1)
	ph.Shot("shut-out")
	files := t.TempDir()
	ph.Downloads(files)
	ph.Turn("#/phone")
	ph.Tap(browser.Hook("save-unsent"))
	file := ph.SavedFile(files, "*.jsonl")

	atDesk, _ := desk(t, m)
	atDesk.Turn("#/studio")
	atDesk.Files(browser.Hook("import"), file)
	atDesk.Reads(browser.Hook("import-say"), "1 entry")
	atDesk.Log(job, 3) // with the entry that marks the import
	atDesk.Reads(browser.Hook("log-list"), "Nobody but this phone knows.")

	// Paired anew it goes on under another id. What the file brought already
	// comes again, and is marked as the copy that it is.
	ph.Pair(m.Code(), "Osk's phone again")
	ph.Unsent(0)
	ph.Sink(job)
	ph.Note("Back again.")
	ph.Unsent(0)
	es := m.Device("reader").AwaitLog(job, 5)
	sameLinesOf(t, ph.Person, es, job)
	ph.Reads(browser.Hook("log-list"), "a second copy of an entry that is here already")
}

func deviceOf(p *hands.Person) string {
	return browser.Eval[string](p.Page, hands.Kept(`meta.dev`, "meta"))
}

// The battery goes flat so soon after the pairing that the browser has not
// written its cookie yet. Paired again, the phone sends what it kept.
func TestPairingForgotten(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	job := ph.NewTreatment("Harbour-office signal flag")
	ph.Unsent(0)
	ph.browser.ExpectUnreachable()
	m.Stop()
	ph.Choose(soak)
	ph.Begin()
	ph.Note("Before the battery was flat.")
	ph.browser.Kill()
	ph.browser.LoseCookies()
	ph.switchOn(m, ph.By)
	ph.browser.ExpectUnreachable()
	ph.browser.Expect("401|Authentication failed")
	ph.Open("#/t/" + job)
	ph.See(browser.Hook("clock"))
	m.Start()
	ph.Reads(browser.Hook("link"), "not paired")
	ph.Pair(m.Code(), "Runa's phone")
	ph.Unsent(0)
	es := m.Device("reader").AwaitLog(job, 3)
	if n := kindsOf(es); n["open"] != 1 || n["begin"] != 1 || n["note"] != 1 {
		t.Errorf("the studio machine has %v:\n%s", n, join(es))
	}
	sameLinesOf(t, ph.Person, es, job)
}

// The browser evicts what the app kept and leaves its cookie. The phone knows
// itself again when the studio machine answers, and what was tapped meanwhile
// is not lost.
func TestEvicted(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	job := ph.NewTreatment("Harbour-office signal flag")
	ph.Note("written before")
	ph.Unsent(0)
	ph.browser.ExpectUnreachable()
	ph.browser.Expect("favicon")
	ph.Go(m.URL() + "/sinkside.webmanifest") // a page of this origin that holds no database open
	browser.Eval[bool](ph.Page, `new Promise((ok,no)=>{const r=indexedDB.deleteDatabase("sinkside");r.onsuccess=()=>ok(true);r.onerror=()=>no(r.error)})`)
	m.Stop()
	ph.Open("#/t/" + job)
	ph.Note("written on an empty store")
	ph.Unsent(1)
	m.Start()
	ph.Unsent(0)
	es := reader.AwaitLog(job, 3)
	sameLinesOf(t, ph.Person, es, job)
	for _, text := range []string{"written before", "written on an empty store"} {
		if n := strings.Count(join(es), text); n != 1 {
			t.Errorf("%q is there %d times", text, n)
		}
	}
}
