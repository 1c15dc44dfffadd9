package journey

import (
	"bytes"
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// desk is the studio machine's own browser, on plain loopback HTTP, with a
// mouse and a wide window.
func desk(t testing.TB, m *machine.Machine) (*hands.Person, string) {
	t.Helper()
	_, p := deskBrowser(t, m)
	saved := t.TempDir()
	p.Downloads(saved)
	return p, saved
}

// deskBrowser is the same with its browser.
func deskBrowser(t testing.TB, m *machine.Machine) (*browser.Chromium, *hands.Person) {
	t.Helper()
	c := browser.Start(t, browser.Options{Name: "desk", Home: t.TempDir()})
	p := hands.With(t, c.Page(), m.Local(), "IB")
	p.Pair(m.Code(), "Studio machine")
	return c, p
}

// The studio page shows the day's log arriving and saves it, as the entries
// were written and as a table. A file of what a phone could not send is taken
// in there, and the phone that comes back later doubles nothing.
func TestStudioPage(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	atDesk, saved := desk(t, m)
	today := noon(atDesk)
	atDesk.Turn("#/studio")
	atDesk.See(browser.Hook("studio-day"))

	runa := pairedPhone(t, m, "Runa's phone", "RV")
	runa.restarts(m)
	noon(runa.Person)
	job := runa.NewTreatment("Child's quilted bonnet")
	runa.Reading("temperature", "19")
	runa.Choose(soak)
	runa.Ago(5)
	runa.Press("begin")
	at := time.Now()
	atDesk.Reads(browser.Hook("studio-day"), "Pre-soak 1 begun")
	within(t, "a bath begun on the studio page", at)
	atDesk.Reads(browser.Hook("card"), "Child's quilted bonnet")
	atDesk.Shot("studio-page")

	es := reader.AwaitLog(job, 3)
	saveDay(t, atDesk, saved, today, reader)
	importUnsent(t, m, atDesk, runa, reader, job, es)
}

// saveDay saves the day's log in both forms.
func saveDay(t *testing.T, atDesk *hands.Person, saved, today string, reader *machine.Device) {
	t.Helper()
	atDesk.Tap(browser.Hook("day-jsonl"))
	lines := readFile(t, atDesk.SavedFile(saved, "*"+today+"*.jsonl"))
	if want := reader.Get("/api/day/" + today + "/log.jsonl"); !bytes.Equal(lines, want) || len(want) == 0 {
		t.Errorf("saved as JSON lines:\n%s\nthe day is\n%s", lines, want)
	}
	atDesk.Tap(browser.Hook("day-csv"))
	table := readFile(t, atDesk.SavedFile(saved, "*"+today+"*.csv"))
	rows, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(table, []byte("\ufeff")))).ReadAll()
	if err != nil {
		t.Fatalf("the table: %v", err)
	}
	if want := bytes.Count(lines, []byte("\n")) + 1; len(rows) != want {
		t.Errorf("the table has %d rows, want %d", len(rows), want)
	}
	if !strings.Contains(string(table), "Pre-soak 1 begun") {
		t.Errorf("the table does not say what was done:\n%s", table)
	}
}

// importUnsent saves what a phone could not send to a file, takes it in at the
// desk, and lets the phone come back.
func importUnsent(t *testing.T, m *machine.Machine, atDesk *hands.Person, runa *phone, reader *machine.Device, job string, before []machine.Entry) {
	t.Helper()
	// The phone is out of reach; the desk is not.
	runa.browser.Close()
	elsewhere := runa.options.Hosts
	runa.options.Hosts = map[string]string{machine.Name: "127.9.9.9"}
	runa.browser = browser.Start(t, runa.options)
	runa.browser.ExpectUnreachable()
	runa.Person = hands.With(t, runa.browser.Page(), m.URL(), "RV")
	files := t.TempDir()
	runa.Downloads(files)
	runa.Open("#/t/" + job)
	runa.Ago(1)
	runa.End()
	runa.Note("The lining keeps air: weighed down with a glass rod.")
	runa.Unsent(2)
	runa.Turn("#/phone")
	runa.Tap(browser.Hook("save-unsent"))
	runa.Reads(browser.Hook("save-say"), "2 entries are in the file")
	file := runa.SavedFile(files, "*.jsonl")
	runa.Shot("this-device")

	for i, want := range []string{"2 entries", "2 were here already"} {
		atDesk.Turn("#/now")
		atDesk.Turn("#/studio")
		atDesk.Files(browser.Hook("import"), file)
		atDesk.Reads(browser.Hook("import-say"), want)
		es := reader.Log(job)
		if n := kindsOf(es); n["end"] != 1 || n["note"] != 1 || n["imported"] > 1 {
			t.Errorf("after import %d the studio machine has %v", i+1, n)
		}
	}
	atDesk.Reads(browser.Hook("studio-day"), "weighed down with a glass rod")

	runa.browser.Close()
	runa.options.Hosts = elsewhere
	runa.switchOn(m, "RV")
	runa.Open("#/t/" + job)
	runa.Unsent(0)
	es := reader.AwaitLog(job, len(before)+2)
	sameLinesOf(t, runa.Person, es, job)
}

// sameLinesOf waits until a device holds as many entries as the studio machine,
// and compares them.
func sameLinesOf(t *testing.T, p *hands.Person, es []machine.Entry, job string) {
	t.Helper()
	p.Log(job, len(es))
	sameLines(t, p.Lines(), es, job)
}

func readFile(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The network gives the studio machine another address while entries wait on a
// phone. The name stays, so the phone's storage does, and the entries arrive.
func TestStudioMoves(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := pairedPhone(t, m, "Runa's phone", "RV")
	job := runa.NewTreatment("Sampler band of drawn-thread work")
	runa.browser.ExpectUnreachable()
	m.Stop()
	runa.Disconnected()
	for i := range 3 {
		runa.Reading("ph", strconv.Itoa(6+i))
	}
	runa.Unsent(3)
	runa.browser.Close()

	m.Addr = "127.0.0.77"
	m.Start()
	runa.switchOn(m, "RV")
	runa.Open("#/t/" + job)
	runa.Unsent(0)
	sameLinesOf(t, runa.Person, reader.AwaitLog(job, 4), job)
}

// Of two tabs one holds the log and the other follows it; when the first is
// closed, the second goes on. Both can write, and nothing forks.
func TestTwoTabs(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := pairedPhone(t, m, "Runa's phone", "RV")
	job := runa.NewTreatment("Sampler band of drawn-thread work")
	second := hands.With(t, runa.browser.NewTab(), m.URL(), "RV")
	second.Open("#/t/" + job)
	second.See(browser.Hook("begin"))

	second.Choose(soak)
	second.Press("begin")
	runa.See(browser.Hook("clock"))
	runa.Reading("temperature", "20")
	second.Reads(browser.Hook("reading-temperature"), "20")
	if held := browser.Eval[int](second.Page, `navigator.locks.query().then(q=>q.held.filter(l=>l.name==="sinkside-log").length)`); held != 1 {
		t.Errorf("%d tabs hold the log, want 1", held)
	}

	runa.Close()
	second.Reading("ph", "6.5")
	second.Unsent(0)
	sameLinesOf(t, second, reader.AwaitLog(job, 4), job)
}
