package journey

import (
	"bytes"
	"encoding/json"
	"net/http"
	"os/exec"
	"slices"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// A reckoning gives the same figures on the phone, over HTTP and on the command
// line; on the phone without a network, too.
func TestReckonings(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	reader := m.Device("reader")
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	cases := []struct {
		name   string
		inputs map[string]string
	}{
		{"solution", map[string]string{"litres": "60", "target": "1,5", "active": "30"}},
		{"tray", map[string]string{"length": "80", "width": "60", "depth": "8,5"}},
		{"rinse", map[string]string{"kept": "0,8", "fresh": "12", "n": "5"}},
	}
	answers := map[string][]shown{}
	for _, c := range cases {
		in, err := json.Marshal(c.inputs)
		if err != nil {
			t.Fatal(err)
		}
		status, b := reader.Do("POST", "/api/reckon/"+c.name, bytes.NewReader(in))
		if status != http.StatusOK {
			t.Fatalf("%s over HTTP: %d %s", c.name, status, b)
		}
		answers[c.name] = values(t, b)
		cmd := exec.Command(machine.Binary(t), "reckon", c.name)
		cmd.Stdin = bytes.NewReader(in)
		line, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s on the command line: %v", c.name, err)
		}
		if onLine := values(t, line); !slices.Equal(onLine, answers[c.name]) {
			t.Errorf("%s: the command line says %v, HTTP %v", c.name, onLine, answers[c.name])
		}
	}

	libraryHere(ph)
	ph.browser.ExpectUnreachable()
	m.Stop()
	for _, c := range cases {
		ph.Turn("#/reckon/" + c.name)
		for field, value := range c.inputs {
			ph.Type(browser.Hook("input-"+field), value)
		}
		for _, v := range answers[c.name] {
			ph.Reads(browser.Hook("value-"+v.Name), v.Shown)
		}
		ph.Tap(browser.Hook("working") + " summary")
		ph.Until("the working", `document.querySelectorAll('[data-test=working] li').length>0`)
		ph.Tap(browser.Hook("sources") + " summary")
		ph.Until("the sources", `document.querySelectorAll('[data-test=sources] li').length>0`)
		ph.Shot("reckoned-" + c.name)
		ph.NoBarriers(c.name + ", reckoned")
	}

	// What cannot be is told at its field, with the allowed range.
	ph.Turn("#/reckon/tray")
	ph.Type(browser.Hook("input-depth"), "12,,5")
	says(ph, "12,,5")
	ph.Type(browser.Hook("input-depth"), "99999")
	says(ph, "150")
	stillThere(ph, "input-depth", "99999")
}

type shown struct{ Name, Shown string }

func values(t *testing.T, b []byte) []shown {
	t.Helper()
	var a struct{ Values []shown }
	if err := json.Unmarshal(b, &a); err != nil || len(a.Values) == 0 {
		t.Fatalf("an answer without values (%v): %s", err, b)
	}
	return a.Values
}
