package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"math/big"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// ownCertificate writes a certificate for a name, and its key, as a person brings them.
func ownCertificate(t *testing.T, name string) (cert, key string, pool *x509.CertPool) {
	t.Helper()
	secret, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := &x509.Certificate{SerialNumber: big.NewInt(1), DNSNames: []string{name}, NotAfter: time.Now().Add(time.Hour),
		IsCA: true, BasicConstraintsValid: true}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &secret.PublicKey, secret)
	if err != nil {
		t.Fatal(err)
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(secret)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	cert, key = filepath.Join(dir, "own.pem"), filepath.Join(dir, "own.key")
	text := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	for path, b := range map[string][]byte{cert: text, key: pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: keyDER})} {
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	pool = x509.NewCertPool()
	pool.AppendCertsFromPEM(text)
	return cert, key, pool
}

func TestOwnCertificateNeedsNoTrustPage(t *testing.T) {
	cert, key, pool := ownCertificate(t, "wash.example.org")
	r := serveOn(t, tempData(t), "--tls-cert", cert, "--tls-key", key, "--public-name", "wash.example.org", "--tls-listen", "127.0.0.1:0")
	if r.trust != "" || !strings.HasPrefix(r.tls, "https://wash.example.org:") {
		t.Errorf("phones are sent to %q and %q, want their own name and no trust page", r.tls, r.trust)
	}
	c := browser(t, r.tls, &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, DialContext: dialHere}).pair(r, "phone")
	c.get("/api/me")
	if _, err := os.Stat(filepath.Join(r.dir, "authority.pem")); err == nil {
		t.Error("a certificate authority was made that nobody needs")
	}

	// A renewal that left half a key: the earlier certificate goes on, and people are told.
	if err := os.WriteFile(key, []byte("half a key"), 0o600); err != nil {
		t.Fatal(err)
	}
	again := browser(t, r.tls, &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, DialContext: dialHere})
	again.wantFault("GET", "/api/me", "", http.StatusUnauthorized, "unpaired")
	if place := c.get("/api/place"); !strings.Contains(string(place), "certificate files cannot be used") {
		t.Errorf("place = %s, want the files' trouble told", place)
	}
}

func TestInAContainerTheAddressIsTold(t *testing.T) {
	r := serveOn(t, tempData(t), "--listen", "0.0.0.0:0", "--advertise-address", "192.168.1.20", "--public-name", "studio-pc.local",
		"--tls-listen", "127.0.0.1:0", "--trust-listen", "127.0.0.1:0")
	var place struct {
		Addresses []string
		TLSURL    string `json:"tls_url"`
		Problem   string
	}
	c := r.paired("desk")
	if err := json.Unmarshal(c.get("/api/place"), &place); err != nil {
		t.Fatal(err)
	}
	if place.Addresses[0] != "192.168.1.20" || !strings.HasPrefix(place.TLSURL, "https://studio-pc.local:") || place.Problem != "" {
		t.Errorf("place = %+v, want the told address first and the told name", place)
	}
	if out := r.command("health"); !strings.Contains(out, "well") {
		t.Errorf("health = %s", out)
	}
	// The certificate is for the told address too, since a phone may fall back on it.
	phone := browser(t, strings.Replace(r.tls, "studio-pc.local", "192.168.1.20", 1), r.trusting())
	phone.wantFault("GET", "/api/me", "", http.StatusUnauthorized, "unpaired")
}

func TestPhonesAreToldWhenNothingAnnouncesTheirName(t *testing.T) {
	r := serveOn(t, tempData(t))
	if !strings.Contains(r.out.String(), "does not announce sinkside.local") {
		t.Errorf("greeting:\n%s\nwant it to say that nobody announces the name", r.out)
	}
}
