// Package trust serves the page that leads a phone through trusting the studio
// machine's certificate.
//
// It is the one thing that goes over plain HTTP, since a phone that does not
// trust the certificate yet has no other way in. Anybody on the way could change
// it. So it holds nothing worth stealing (the root certificate is public, and
// there is never a code on it), and it sends people to compare what their
// phone's own settings say with the studio's screen.
//
// It needs no script, and its policy allows none.
package trust

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	text "text/template"

	"sinkside/server/pair/authority"
)

//go:embed page.html
var pageText string

//go:embed trust.css
var style []byte

//go:embed profile.xml
var profileText string

var (
	pageForm    = template.Must(template.New("page").Parse(pageText))
	profileForm = text.Must(text.New("profile").Parse(profileText))
)

// Options of the page; Authority and AppURL are needed.
type Options struct {
	Authority *authority.Authority
	Studio    string // the studio's name; the host name stands in for an empty one
	AppURL    string // where the app is, by its stable name: "https://marram.local:8743"
}

// contentPolicy: one style sheet from here, nothing else at all.
const contentPolicy = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// New makes the handler of the whole plain-HTTP listener.
func New(o Options) (http.Handler, error) {
	if o.Authority == nil || o.AppURL == "" {
		return nil, errors.New("the trust page needs an authority and the app's address")
	}
	facts := factsOf(o)
	profile, err := facts.profile()
	if err != nil {
		return nil, err
	}
	pages := map[device][]byte{}
	for _, d := range []device{unknown, android, apple} {
		if pages[d], err = facts.page(d); err != nil {
			return nil, err
		}
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Vary", "User-Agent")
		send(w, "text/html; charset=utf-8", pages[deviceOf(r.UserAgent())])
	})
	mux.HandleFunc("GET /trust.css", func(w http.ResponseWriter, _ *http.Request) {
		send(w, "text/css; charset=utf-8", style)
	})
	mux.HandleFunc("GET /sinkside.crt", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Disposition", `attachment; filename="`+facts.File+`"`)
		send(w, "application/x-x509-ca-cert", o.Authority.Root())
	})
	mux.HandleFunc("GET /sinkside.mobileconfig", func(w http.ResponseWriter, _ *http.Request) {
		send(w, "application/x-apple-aspen-config", profile) // as an attachment iOS would only file it away
	})
	return withPolicy(mux), nil
}

func withPolicy(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", contentPolicy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(w, r)
	})
}

func send(w http.ResponseWriter, kind string, body []byte) {
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(body) // a phone that went away is nobody's fault
}

// device is what a page is made for: it shows that one's steps opened, and
// both where it does not know.
type device int

const (
	unknown device = iota
	android
	apple
)

// deviceOf reads the browser's name for itself. An iPad calls itself a Mac, so
// that one stays unknown.
func deviceOf(agent string) device {
	switch {
	case strings.Contains(agent, "Android"):
		return android
	case strings.Contains(agent, "iPhone"), strings.Contains(agent, "iPad"), strings.Contains(agent, "iPod"):
		return apple
	}
	return unknown
}

// facts are what the page and the profile say. Android and Apple are whose
// steps stand open.
type facts struct {
	Host, Studio, RootName, AppURL, File, Vouches string
	Rows                                          []string
	Android, Apple                                bool

	Root                  string // base64, for the profile
	ProfileUUID, RootUUID string
}

func factsOf(o Options) facts {
	a := o.Authority
	root := a.Root()
	label := strings.TrimSuffix(a.HostName(), ".local")
	f := facts{Host: a.HostName(), Studio: o.Studio, RootName: a.RootName(), AppURL: o.AppURL, File: "sinkside-" + label + ".crt",
		Vouches: strings.Join(a.VouchesFor(), ", "), Rows: a.Fingerprint().Rows(),
		Root: base64.StdEncoding.EncodeToString(root), ProfileUUID: uuidOf("profile", root), RootUUID: uuidOf("root", root)}
	if f.Studio == "" {
		f.Studio = f.Host
	}
	return f
}

// uuidOf is the same for the same certificate, so that fetching the profile
// again replaces it. It has the form of RFC 9562's version 8.
func uuidOf(what string, root []byte) string {
	sum := sha256.Sum256(append([]byte(what), root...))
	u := sum[:16]
	u[6] = u[6]&0x0f | 0x80
	u[8] = u[8]&0x3f | 0x80
	return strings.ToUpper(fmt.Sprintf("%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:]))
}

func (f facts) page(d device) ([]byte, error) {
	f.Android, f.Apple = d != apple, d != android
	var out bytes.Buffer
	if err := pageForm.Execute(&out, f); err != nil {
		return nil, fmt.Errorf("write the trust page: %w", err)
	}
	return out.Bytes(), nil
}

// profile writes names that people chose into XML.
func (f facts) profile() ([]byte, error) {
	for _, s := range []*string{&f.Host, &f.Studio, &f.RootName, &f.File, &f.Vouches} {
		var plain bytes.Buffer
		if err := xml.EscapeText(&plain, []byte(*s)); err != nil {
			return nil, fmt.Errorf("write the profile: %w", err)
		}
		*s = plain.String()
	}
	var out bytes.Buffer
	if err := profileForm.Execute(&out, f); err != nil {
		return nil, fmt.Errorf("write the profile: %w", err)
	}
	return out.Bytes(), nil
}
