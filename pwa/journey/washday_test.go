package journey

import (
	"maps"
	"strings"
	"sync"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

var (
	soak  = hands.Bath{What: "presoak", Liquid: "deionised water", Litres: "12", Minutes: "10"}
	wash  = hands.Bath{What: "wash", Liquid: "anionic, 1 g/L", Litres: "12.5", Minutes: "8"}
	rinse = hands.Bath{What: "rinse", Liquid: "deionised water", Litres: "12", Minutes: "8"}
)

// A wash day: one person at the sink, a colleague elsewhere, and a studio
// machine that is away for the middle of it.
func TestWashDay(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	runa := pairedPhone(t, m, "Runa's phone", "RV")
	runa.restarts(m)

	job := runa.NewTreatment("Harbour-office signal flag")
	washOnline(t, runa, job)
	es := reader.AwaitLog(job, 9)
	sameLines(t, runa.Lines(), es, job)

	runa.browser.ExpectUnreachable()
	m.Stop()
	runa.Disconnected()
	begun := rinseOffline(t, m, runa, job)
	written := runa.Lines()

	m.Start()
	runa.Connected()
	runa.Unsent(0)
	es = reader.AwaitLog(job, 14)
	sameLines(t, runa.Lines(), es, job)
	sameLines(t, written, es, job)
	if want := map[string]int{"open": 1, "begin": 3, "end": 2, "reading": 4, "note": 2, "amend": 1, "strike": 1}; !maps.Equal(kindsOf(es), want) {
		t.Errorf("the studio machine has %v, want %v", kindsOf(es), want)
	}

	osk := pairedPhone(t, m, "Osk's phone", "OT")
	colleague(t, runa, osk, reader, job, begun)
}

// washOnline runs a pre-soak and a wash with the studio machine in reach: nine
// entries with the one that opened the treatment, and a note.
func washOnline(t *testing.T, runa *phone, job string) {
	t.Helper()
	runa.Choose(soak)
	runa.Ago(4)
	runa.Begin()
	clockIs(t, runa.Person, time.Now().Add(-4*time.Minute), 10*time.Minute)
	runa.Reads(browser.Hook("running"), "12 L deionised water")
	runa.Reading("temperature", "21,5")
	runa.Reading("ph", "6.4")
	runa.Reading("conductivity", "612")
	runa.Reads(browser.Hook("reading-conductivity"), "612")
	runa.End()

	runa.Choose(wash)
	runa.Ago(12)
	runa.Begin()
	if left := runa.Clock(); left > -4*time.Minute+3*time.Second || left < -4*time.Minute-20*time.Second {
		t.Errorf("twelve minutes into eight the clock shows %v, want 4 minutes past", left)
	}
	runa.Note("A little yellow in the water 🧺, none on the sponge.")
	runa.End()
}

// rinseOffline begins a rinse, corrects the wash and dies twice while the
// studio machine is away. It returns when the rinse began.
func rinseOffline(t *testing.T, m *machine.Machine, runa *phone, job string) (begun time.Time) {
	t.Helper()
	runa.Sink(job)
	runa.Choose(rinse)
	runa.Ago(3)
	runa.Begin()
	begun = time.Now().Add(-3 * time.Minute)
	clockIs(t, runa.Person, begun, 8*time.Minute)
	runa.Unsent(1)
	runa.Reading("conductivity", "206")
	runa.Note("The red of the fly holds.")
	runa.Unsent(3)

	runa.Reload()
	clockIs(t, runa.Person, begun, 8*time.Minute)
	runa.Unsent(3)

	runa.Log(job, 12)
	amended := runa.Amend("Wash 1 begun", "litres", "14", "the tray was filled to the second mark")
	runa.Reads(amended, "12.5")
	runa.Reads(amended, "14")
	runa.Reads(amended, "the tray was filled to the second mark")
	struck := runa.Strike("A little yellow", "that was the other tray")
	runa.Reads(struck, "A little yellow")
	runa.Reads(struck, "that was the other tray")
	runa.Unsent(5)

	for range 2 {
		runa.dies(m)
		runa.opensAt(job, "Rinse 1")
		clockIs(t, runa.Person, begun, 8*time.Minute)
		runa.Unsent(5)
	}
	runa.Shot("offline-rinse")
	return begun
}

// colleague is the second device: it shows the bath that runs within a second,
// ends it, and writes at the same time as the first.
func colleague(t *testing.T, runa, osk *phone, reader *machine.Device, job string, begun time.Time) {
	t.Helper()
	osk.Sink(job)
	osk.BeAtSink("OT")
	clockIs(t, osk.Person, begun, 8*time.Minute)
	runa.Sink(job)

	osk.Press("end")
	at := time.Now()
	runa.See(browser.Hook("begin"))
	within(t, "the end of a bath on the other device", at)

	runa.Choose(rinse)
	runa.Press("begin")
	at = time.Now()
	osk.See(browser.Hook("clock"))
	within(t, "a bath begun on the other device", at)

	// Both write at once; neither is lost.
	texts := map[*phone]string{runa: "Fringe combed straight under water.", osk: "Water still clear at the drain."}
	for p, text := range texts {
		p.Tap(browser.Hook("note"))
		p.Type(browser.Hook("note-text"), text)
	}
	var both sync.WaitGroup
	for p := range texts {
		both.Go(func() { p.Press("keep") })
	}
	both.Wait()
	for p := range texts {
		p.Gone(browser.Hook("note-text"))
		p.Unsent(0)
	}
	es := reader.AwaitLog(job, 18)
	for p, text := range texts {
		if n := strings.Count(join(es), text); n != 1 {
			t.Errorf("the note of %s is there %d times", p.Name, n)
		}
		p.Log(job, 18)
		p.Reads(browser.Hook("log-list"), text)
		sameLines(t, p.Lines(), es, job)
	}
}

// within says what took how long, and fails when it was more than the second
// that people were promised.
func within(t *testing.T, what string, since time.Time) {
	t.Helper()
	took := time.Since(since)
	t.Logf("%s: %d ms", what, took.Milliseconds())
	if took > time.Second {
		t.Errorf("%s took %v, more than a second", what, took)
	}
}

func join(es []machine.Entry) string {
	var b strings.Builder
	for _, e := range es {
		b.WriteString(e.Line + "\n")
	}
	return b.String()
}
