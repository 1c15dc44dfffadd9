package authority

import (
	"bytes"
	"crypto/x509"
	"encoding/pem"
	"io"
	"log"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func quiet() *log.Logger { return log.New(io.Discard, "", 0) }

// lay writes a certificate and key as another authority would hand them out,
// and gives them a time of their own so that the change is seen.
func lay(t *testing.T, dir string, addr string, at time.Time) (cert, key string) {
	t.Helper()
	o, _ := marram(t)
	made, err := open(t, o).issue([]netip.Addr{netip.MustParseAddr(addr)}, wednesday)
	if err != nil {
		t.Fatal(err)
	}
	der, err := x509.MarshalPKCS8PrivateKey(made.PrivateKey)
	if err != nil {
		t.Fatal(err)
	}
	cert, key = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	var chain []byte
	for _, c := range made.Certificate {
		chain = append(chain, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: c})...)
	}
	put(t, cert, chain, at)
	put(t, key, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der}), at)
	return cert, key
}

func put(t *testing.T, path string, text []byte, at time.Time) {
	t.Helper()
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(path, at, at); err != nil {
		t.Fatal(err)
	}
}

func TestFilesAreReadAgainWhenTheyChange(t *testing.T) {
	dir := t.TempDir()
	certPath, keyPath := lay(t, dir, "10.0.0.1", wednesday)
	f, err := OpenFiles(certPath, keyPath)
	if err != nil {
		t.Fatal(err)
	}
	serial := func() []byte {
		t.Helper()
		c, err := f.GetCertificate(nil)
		if err != nil {
			t.Fatal(err)
		}
		return c.Leaf.SerialNumber.Bytes()
	}
	first := serial()
	if !bytes.Equal(serial(), first) {
		t.Error("unchanged files gave another certificate")
	}
	if f.Covers("10.0.0.1") != nil || f.Covers("10.0.0.2") == nil {
		t.Error("Covers does not follow the certificate")
	}

	lay(t, dir, "10.0.0.2", wednesday.Add(time.Hour))
	second := serial()
	if bytes.Equal(second, first) || f.Problem() != nil {
		t.Errorf("changed files gave the old certificate; problem %v", f.Problem())
	}

	whole, err := os.ReadFile(certPath)
	if err != nil {
		t.Fatal(err)
	}
	put(t, certPath, whole[:100], wednesday.Add(2*time.Hour))
	if !bytes.Equal(serial(), second) || f.Problem() == nil {
		t.Errorf("half a file: problem %v, want the old certificate and a problem", f.Problem())
	}
	put(t, certPath, whole, wednesday.Add(3*time.Hour))
	if !bytes.Equal(serial(), second) || f.Problem() != nil {
		t.Errorf("made whole: problem %v", f.Problem())
	}

	if err := os.Remove(keyPath); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(serial(), second) || f.Problem() == nil {
		t.Errorf("key gone: problem %v, want the old certificate and a problem", f.Problem())
	}
}

func TestOpenFilesNamesWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	certPath, keyPath := lay(t, dir, "10.0.0.1", wednesday)
	other, _ := lay(t, t.TempDir(), "10.0.0.1", wednesday)
	for name, row := range map[string][2]string{
		"no such file":   {filepath.Join(dir, "none.pem"), keyPath},
		"not its key":    {other, keyPath},
		"the wrong file": {keyPath, certPath},
	} {
		if _, err := OpenFiles(row[0], row[1]); err == nil || !strings.Contains(err.Error(), row[0]) {
			t.Errorf("%s: OpenFiles = %v, want an error that names %s", name, err, row[0])
		}
	}
}
