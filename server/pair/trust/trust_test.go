package trust

import (
	"bytes"
	"crypto/x509"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"sinkside/server/pair/authority"
)

const (
	phoneAndroid = "Mozilla/5.0 (Linux; Android 14; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Mobile Safari/537.36"
	phoneApple   = "Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.0 Mobile/15E148 Safari/604.1"
	padAsMac     = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.0 Safari/605.1.15"
)

func marram(t *testing.T, studio string) (http.Handler, *authority.Authority) {
	t.Helper()
	ca, err := authority.Open(authority.Options{Dir: t.TempDir(), Name: "marram", PublicName: "studio.example.org", Studio: studio})
	if err != nil {
		t.Fatal(err)
	}
	page, err := New(Options{Authority: ca, Studio: studio, AppURL: "https://marram.local:8743"})
	if err != nil {
		t.Fatal(err)
	}
	return page, ca
}

func get(h http.Handler, path, agent string) *httptest.ResponseRecorder {
	r := httptest.NewRequest("GET", "http://marram.local:8781"+path, nil)
	r.Header.Set("User-Agent", agent)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestPageLeadsThroughTheSteps(t *testing.T) {
	h, ca := marram(t, "Marram House Textile Studio")
	page := get(h, "/", padAsMac).Body.String()
	for _, row := range ca.Fingerprint().Rows() {
		if !strings.Contains(page, row) {
			t.Errorf("the page does not show the fingerprint's row %s", row)
		}
	}
	for _, part := range []string{"Marram House Textile Studio", "https://marram.local:8743", "sinkside-marram.crt",
		"Sinkside Marram House Textile Studio", "marram.local, localhost, studio.example.org"} {
		if !strings.Contains(page, part) {
			t.Errorf("the page does not say %q", part)
		}
	}
	// The order of both lists: trust, install, open the installed app, the code there.
	for _, steps := range [][]string{
		{"/sinkside.crt", "Install anyway", "Trusted credentials", "Add to Home screen", "Open the installed app", "Enter there the code"},
		{"/sinkside.mobileconfig", "More Details", "Certificate Trust Settings", "Add to Home Screen", "Open the installed app", "Enter there the code"},
	} {
		rest := page
		for _, step := range steps {
			var found bool
			if _, rest, found = strings.Cut(rest, step); !found {
				t.Errorf("%q is missing or comes too early", step)
			}
		}
	}
}

func TestPageOpensTheStepsOfThePhone(t *testing.T) {
	h, _ := marram(t, "")
	for agent, want := range map[string][2]bool{phoneAndroid: {true, false}, phoneApple: {false, true}, padAsMac: {true, true}, "": {true, true}} {
		w := get(h, "/", agent)
		parts := strings.Split(w.Body.String(), "<details ")
		if len(parts) != 3 {
			t.Fatalf("%d lists of steps, want 2", len(parts)-1)
		}
		for i, name := range []string{"Android", "Apple"} {
			if got := strings.HasPrefix(parts[i+1], "open>"); got != want[i] {
				t.Errorf("%.30q: %s open %v, want %v", agent, name, got, want[i])
			}
		}
		if w.Header().Get("Vary") != "User-Agent" {
			t.Error("a cache may give one phone's page to another")
		}
	}
}

// TestNothingButTheCertificateAndTheSteps holds what may go over plain HTTP.
func TestNothingButTheCertificateAndTheSteps(t *testing.T) {
	h, _ := marram(t, "Marram House Textile Studio")
	for _, path := range []string{"/", "/trust.css", "/sinkside.crt", "/sinkside.mobileconfig", "/none"} {
		w := get(h, path, phoneAndroid)
		if got := w.Header().Get("Content-Security-Policy"); got != contentPolicy || strings.Contains(got, "script") || strings.Contains(got, "unsafe") {
			t.Errorf("%s: policy %q", path, got)
		}
		if len(w.Result().Cookies()) != 0 || w.Header().Get("X-Content-Type-Options") != "nosniff" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: headers %v", path, w.Header())
		}
		if body := w.Body.String(); regexp.MustCompile(`(?i)<script|style=|\son\w+=|#/pair|private key`).MatchString(body) {
			t.Errorf("%s holds a script, a style, a code's link or a key", path)
		}
	}
	for _, path := range []string{"/api/pair", "/api/me", "/index.html", "/authority.pem", "/healthz"} {
		if got := get(h, path, phoneAndroid).Code; got != http.StatusNotFound {
			t.Errorf("%s = %d, want 404", path, got)
		}
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("POST", "http://marram.local:8781/", nil))
	if w.Code != http.StatusMethodNotAllowed {
		t.Errorf("POST = %d, want 405", w.Code)
	}
}

func TestCertificateDownload(t *testing.T) {
	h, ca := marram(t, "")
	w := get(h, "/sinkside.crt", phoneAndroid)
	if w.Header().Get("Content-Type") != "application/x-x509-ca-cert" || w.Header().Get("Content-Disposition") != `attachment; filename="sinkside-marram.crt"` {
		t.Errorf("headers %v", w.Header())
	}
	cert, err := x509.ParseCertificate(w.Body.Bytes())
	if err != nil || !cert.IsCA || authority.FingerprintOf(cert.Raw) != ca.Fingerprint() {
		t.Errorf("the download is not the root: %v", err)
	}
}

// TestProfile reads the profile as iOS would: a property list whose one payload
// is the root.
func TestProfile(t *testing.T) {
	h, ca := marram(t, `Marram & "Dune" <House>`)
	w := get(h, "/sinkside.mobileconfig", phoneApple)
	if w.Header().Get("Content-Type") != "application/x-apple-aspen-config" || w.Header().Get("Content-Disposition") != "" {
		t.Errorf("headers %v", w.Header())
	}
	var keys []string
	values := map[string]string{}
	d := xml.NewDecoder(bytes.NewReader(w.Body.Bytes()))
	for element := ""; ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			element = token.Name.Local
		case xml.EndElement:
			element = ""
		case xml.CharData:
			switch element {
			case "key":
				keys = append(keys, string(token))
			case "string", "data", "integer":
				values[keys[len(keys)-1]+" "+strconv.Itoa(strings.Count(strings.Join(keys, " ")+" ", keys[len(keys)-1]+" "))] += string(token)
			}
		}
	}
	root, err := base64.StdEncoding.DecodeString(values["PayloadContent 2"])
	if err != nil || !bytes.Equal(root, ca.Root()) {
		t.Errorf("the payload is not the root: %v", err)
	}
	uuid := regexp.MustCompile(`^[0-9A-F]{8}-[0-9A-F]{4}-8[0-9A-F]{3}-[89AB][0-9A-F]{3}-[0-9A-F]{12}$`)
	for key, want := range map[string]string{
		"PayloadType 1": "Configuration", "PayloadType 2": "com.apple.security.root", "PayloadVersion 1": "1", "PayloadVersion 2": "1",
		"PayloadIdentifier 1": "sinkside.marram.local", "PayloadIdentifier 2": "sinkside.marram.local.root",
		"PayloadDisplayName 1": `Sinkside Marram & "Dune" <House>`, "PayloadOrganization 1": `Marram & "Dune" <House>`,
	} {
		if values[key] != want {
			t.Errorf("%s = %q, want %q", key, values[key], want)
		}
	}
	if one, two := values["PayloadUUID 1"], values["PayloadUUID 2"]; !uuid.MatchString(one) || !uuid.MatchString(two) || one == two {
		t.Errorf("UUIDs %s and %s", one, two)
	}
	if again := get(h, "/sinkside.mobileconfig", phoneApple).Body.String(); again != w.Body.String() {
		t.Error("the same certificate gave another profile")
	}
}

func TestNamesOfPeopleAreNoMarkup(t *testing.T) {
	h, _ := marram(t, `<script>alert("linen")</script>`)
	if page := get(h, "/", "").Body.String(); strings.Contains(page, "<script") {
		t.Error("the studio's name became a script")
	}
}

func TestNewNeedsItsParts(t *testing.T) {
	if _, err := New(Options{}); err == nil {
		t.Error("New without an authority succeeded")
	}
}

// TestContrast holds every pair of colours that the style sheet puts on one
// another against WCAG 2.2 AA: 4.5 for text, 3 for parts of controls.
func TestContrast(t *testing.T) {
	themes := strings.SplitN(string(style), "@media (prefers-color-scheme: dark)", 2)
	if len(themes) != 2 {
		t.Fatal("no dark theme")
	}
	for i, name := range []string{"light", "dark"} {
		colours := map[string]string{}
		for _, m := range regexp.MustCompile(`--(\w+): (#[0-9a-f]{6});`).FindAllStringSubmatch(themes[i], -1) {
			if _, first := colours[m[1]]; !first {
				colours[m[1]] = m[2]
			}
		}
		for _, pair := range []struct {
			over, under string
			least       float64
		}{
			{"ink", "ground", 4.5}, {"ink", "surface", 4.5}, {"quiet", "ground", 4.5}, {"quiet", "surface", 4.5},
			{"indigo", "surface", 4.5}, {"onindigo", "indigo", 4.5}, {"indigo", "ground", 3},
		} {
			if got := contrast(t, colours[pair.over], colours[pair.under]); got < pair.least {
				t.Errorf("%s: %s on %s has %.2f:1, want %.1f:1", name, pair.over, pair.under, got, pair.least)
			}
		}
	}
}

// contrast is WCAG 2.2's contrast ratio.
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	light := func(hex string) float64 {
		if len(hex) != 7 {
			t.Fatalf("colour %q", hex)
		}
		var sum float64
		for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
			n, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
			if err != nil {
				t.Fatal(err)
			}
			c := float64(n) / 255
			if c <= 0.04045 {
				c /= 12.92
			} else {
				c = math.Pow((c+0.055)/1.055, 2.4)
			}
			sum += weight * c
		}
		return sum
	}
	la, lb := light(a), light(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}
