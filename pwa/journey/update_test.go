package journey

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strconv"
	"sync/atomic"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// newer stands in front of the studio machine and can give out a service
// worker that differs by a byte, as a newer version of the app does.
func newer(t *testing.T, m *machine.Machine) (front *httptest.Server, release *atomic.Bool) {
	t.Helper()
	studio, err := url.Parse(m.Local())
	if err != nil {
		t.Fatal(err)
	}
	release = &atomic.Bool{}
	front = httptest.NewServer(&httputil.ReverseProxy{
		Rewrite: func(r *httputil.ProxyRequest) {
			r.SetURL(studio)
			r.Out.Host = studio.Host
			r.Out.Header.Del("Accept-Encoding")
			r.Out.Header.Del("If-None-Match") // a changed file, whatever the studio machine knows of it
			if r.Out.Header.Get("Origin") != "" {
				r.Out.Header.Set("Origin", m.Local())
			}
		},
		ModifyResponse: func(res *http.Response) error {
			if res.Request.URL.Path != "/sw.js" || !release.Load() || res.StatusCode != http.StatusOK {
				return nil
			}
			b, err := io.ReadAll(res.Body)
			if err != nil {
				return err
			}
			b = append(b, "\n// newer\n"...)
			res.Body = io.NopCloser(bytes.NewReader(b))
			res.Header.Set("Content-Length", strconv.Itoa(len(b)))
			res.Header.Del("ETag")
			return nil
		},
	})
	t.Cleanup(func() {
		front.CloseClientConnections()
		front.Close()
	})
	return front, release
}

// A newer app is offered and waits for the person; nothing is lost by taking it.
func TestUpdateIsOffered(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	front, release := newer(t, m)
	c := browser.Start(t, browser.Options{Name: "desk", Home: t.TempDir()})
	p := hands.With(t, c.Page(), front.URL, "IB")
	p.Pair(m.Code(), "desk")
	job := p.NewTreatment("Child's quilted bonnet")
	p.Choose(soak)
	p.Begin()
	p.Until("the app to be kept", `!!navigator.serviceWorker.controller`)

	release.Store(true)
	p.Open("#/")
	p.Reload()
	p.Until("the newer app to be offered", `document.body.innerText.includes("A newer version of the app has been fetched")`)
	const waiting = `navigator.serviceWorker.getRegistration().then(r=>!!r.waiting)`
	p.Sink(job)
	p.Note("written while the newer app waits")
	if !browser.Eval[bool](p.Page, waiting) {
		t.Error("the newer app did not wait")
	}

	p.Turn("#/")
	p.Tap(".notices button")
	p.Until("the newer app to be in charge", `navigator.serviceWorker.getRegistration().then(r=>!r.waiting&&!r.installing&&document.readyState==="complete")`)
	p.Until("the offer to go", `!document.body.innerText.includes("A newer version of the app")`)
	p.Sink(job)
	p.See(browser.Hook("clock"))
	p.Unsent(0)
	sameLinesOf(t, p, m.Device("reader").AwaitLog(job, 3), job)
}
