package journey

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/hands"
	"sinkside/pwa/journey/machine"
)

// front stands before the studio machine, on another port of plain loopback
// HTTP, and can change the files that it gives out.
func front(t *testing.T, m *machine.Machine, change func(path string, file []byte) []byte) string {
	t.Helper()
	studio, err := url.Parse(m.Local())
	if err != nil {
		t.Fatal(err)
	}
	srv := httptest.NewServer(&httputil.ReverseProxy{
		Rewrite: func(r *httputil.ProxyRequest) {
			r.SetURL(studio)
			r.Out.Host = studio.Host
			// Files come plain and whole, so that they can be changed.
			r.Out.Header.Del("Accept-Encoding")
			r.Out.Header.Del("If-None-Match")
			if r.Out.Header.Get("Origin") != "" {
				r.Out.Header.Set("Origin", m.Local())
			}
		},
		ModifyResponse: func(res *http.Response) error {
			if !strings.HasSuffix(res.Request.URL.Path, ".js") || res.StatusCode != http.StatusOK {
				return nil
			}
			file, err := io.ReadAll(res.Body)
			if err != nil {
				return err
			}
			file = change(res.Request.URL.Path, file)
			res.Body = io.NopCloser(bytes.NewReader(file))
			res.Header.Set("Content-Length", strconv.Itoa(len(file)))
			res.Header.Del("ETag")
			return nil
		},
	})
	t.Cleanup(func() {
		srv.CloseClientConnections()
		srv.Close()
	})
	return srv.URL
}

// A newer app is offered and waits for the person; nothing is lost by taking it.
func TestUpdateIsOffered(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	// A service worker that differs by a byte is a newer version of the app.
	var release atomic.Bool
	base := front(t, m, func(path string, file []byte) []byte {
		if path == "/sw.js" && release.Load() {
			return append(file, "\n// newer\n"...)
		}
		return file
	})
	c := browser.Start(t, browser.Options{Name: "desk", Home: t.TempDir()})
	p := hands.With(t, c.Page(), base, "IB")
	p.Pair(m.Code(), "desk")
	job := p.NewTreatment("Child's quilted bonnet")
	p.Choose(soak)
	p.Begin()

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
