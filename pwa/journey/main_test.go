// Package journey walks the whole way of a record in real browsers, from the
// tap at the sink to the studio machine's disk, against the server that people
// run.
package journey

import (
	"slices"
	"strings"
	"testing"
	"time"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// phone is somebody's phone: a Chromium with touch, on a profile that outlives
// its kills, which trusts the studio's certificate from its store.
type phone struct {
	*hands.Person
	t       testing.TB
	options browser.Options
	browser *browser.Chromium
	clock   *time.Duration // how far its clock is moved; nil: it goes as it is
}

// newPhone starts a phone that is not paired yet.
func newPhone(t testing.TB, m *machine.Machine, name, by string) *phone {
	t.Helper()
	ph := &phone{t: t, options: browser.Options{Name: name, Home: t.TempDir(), Root: m.RootCertificate(), Hosts: m.Hosts(), Phone: true}}
	ph.switchOn(m, by)
	return ph
}

// pairedPhone starts a phone and pairs it by a one-time link.
func pairedPhone(t testing.TB, m *machine.Machine, name, by string) *phone {
	t.Helper()
	ph := newPhone(t, m, name, by)
	ph.Pair(m.Code(), name)
	return ph
}

// switchOn starts the browser on the phone's profile.
func (ph *phone) switchOn(m *machine.Machine, by string) {
	ph.t.Helper()
	ph.options.Hosts = m.Hosts()
	ph.browser = browser.Start(ph.t, ph.options)
	ph.Person = hands.With(ph.t, ph.browser.Page(), m.URL(), by)
	if ph.clock != nil {
		ph.MovableClock(*ph.clock)
	}
}

// timedPhone starts a phone whose clock can be moved, and pairs it.
func timedPhone(t testing.TB, m *machine.Machine, name, by string) *phone {
	t.Helper()
	ph := newPhone(t, m, name, by)
	ph.clock = new(time.Duration)
	ph.MovableClock(0)
	ph.Pair(m.Code(), name)
	return ph
}

// passes lets time pass on a phone whose clock can be moved.
func (ph *phone) passes(d time.Duration) {
	ph.t.Helper()
	*ph.clock = ph.Move(d)
}

// now is what a phone's clock says.
func (ph *phone) now() time.Time {
	ph.t.Helper()
	return time.UnixMilli(browser.Eval[int64](ph.Page, `Date.now()`))
}

// leaves compares the clock on the screen with the time left until a target, by
// the phone's own clock.
func (ph *phone) leaves(begun time.Time, target time.Duration) {
	ph.t.Helper()
	got, want := ph.Clock(), target-ph.now().Sub(begun)
	if off := (got - want).Abs(); off > 3*time.Second {
		ph.t.Errorf("%s: the clock shows %v, want %v", ph.Name, got, want.Round(time.Second))
	}
}

// restarts closes the browser in order and opens it again, as a phone that is
// carried from the desk to the sink. Chromium writes a new cookie to the disk
// when it closes, or after half a minute.
func (ph *phone) restarts(m *machine.Machine) {
	ph.t.Helper()
	ph.browser.Close()
	ph.switchOn(m, ph.By)
	ph.Open("#/")
	ph.Connected()
}

// dies is a flat battery: the browser is killed in the middle, and started
// again on the same profile.
func (ph *phone) dies(m *machine.Machine) {
	ph.t.Helper()
	ph.browser.Kill()
	ph.switchOn(m, ph.By)
	ph.browser.ExpectUnreachable()
}

// opensAt opens a treatment and waits for the bath that runs by its log. Until that is
// read, a start shows what the browser had written of the last screen, which after a
// flat battery may be an earlier bath.
func (ph *phone) opensAt(job, bath string) {
	ph.t.Helper()
	ph.Open("#/t/" + job)
	ph.Until(bath+", by the log", `document.querySelector("[data-core=ready]")&&document.querySelector(".clock .what")?.textContent.includes(`+browser.Quote(bath)+`)`)
}

// clockIs compares the clock on the screen with the time left until a target.
func clockIs(t *testing.T, p *hands.Person, begun time.Time, target time.Duration) {
	t.Helper()
	got := p.Clock()
	want := target - time.Since(begun)
	if off := (got - want).Abs(); off > 3*time.Second {
		t.Errorf("%s: the clock shows %v, want %v", p.Name, got, want.Round(time.Second))
	}
}

// sameLines compares what a device wrote and holds of a treatment with what
// the studio machine has: the same lines, byte for byte, each once.
func sameLines(t *testing.T, device []string, es []machine.Entry, job string) {
	t.Helper()
	var held, kept []string
	for _, l := range device {
		if strings.Contains(l, `"job":"`+job+`"`) {
			held = append(held, l)
		}
	}
	for _, e := range es {
		kept = append(kept, e.Line)
	}
	slices.Sort(held)
	slices.Sort(kept)
	if !slices.Equal(held, kept) {
		t.Errorf("the device holds\n%s\nthe studio machine has\n%s", strings.Join(held, "\n"), strings.Join(kept, "\n"))
	}
}

// kindsOf counts entries by kind.
func kindsOf(es []machine.Entry) map[string]int {
	n := map[string]int{}
	for _, e := range es {
		n[e.Kind]++
	}
	return n
}
