package authority

import (
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"net"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// thief signs whatever it is asked, as someone could who stole authority.pem.
func thief(t *testing.T, a *Authority, cn string, names []string, addrs ...string) *x509.Certificate {
	t.Helper()
	key, err := newKey()
	if err != nil {
		t.Fatal(err)
	}
	var ips []net.IP
	for _, addr := range addrs {
		ips = append(ips, netip.MustParseAddr(addr).AsSlice())
	}
	cert, err := sign(&x509.Certificate{
		Subject:     pkix.Name{CommonName: cn},
		NotBefore:   a.now().Add(-time.Hour),
		NotAfter:    a.now().Add(leafLife),
		KeyUsage:    x509.KeyUsageDigitalSignature,
		ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		DNSNames:    names,
		IPAddresses: ips,
	}, a.inter, &key.PublicKey, a.key)
	if err != nil {
		t.Fatal(err)
	}
	return cert
}

func (a *Authority) verify(leaf *x509.Certificate, at time.Time) error {
	roots, inters := x509.NewCertPool(), x509.NewCertPool()
	roots.AddCert(a.root)
	inters.AddCert(a.inter)
	_, err := leaf.Verify(x509.VerifyOptions{Roots: roots, Intermediates: inters, CurrentTime: at,
		KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}})
	return err
}

// vouchedFor and refused stand on both sides of each edge of the constraints.
var (
	vouchedForNames = []string{"marram.local", "sink.marram.local", "localhost", "studio.example.org"}
	refusedNames    = []string{"example.org", "other.example.org", "local", "dune.local", "notmarram.local", "bank.example.com"}
	vouchedForAddrs = []string{"10.0.0.0", "10.255.255.255", "172.16.0.1", "172.31.255.254", "192.168.0.1", "192.168.255.255",
		"127.0.0.1", "169.254.7.7", "fd00::1", "fdff:ffff::1", "fe80::1", "febf::1", "::1"}
	refusedAddrs = []string{"9.255.255.255", "11.0.0.1", "172.15.255.255", "172.32.0.0", "192.167.255.255", "192.169.0.1",
		"126.0.0.1", "128.0.0.1", "169.253.0.1", "8.8.8.8", "203.0.113.9", "fc00::1", "fe00::1", "fec0::1", "::2", "2001:db8::1"}
)

func TestNameConstraintsHoldBothWays(t *testing.T) {
	o, _ := marram(t)
	a := open(t, o)
	if !a.inter.PermittedDNSDomainsCritical {
		t.Error("the name constraints are not critical")
	}
	check := func(cert *x509.Certificate, what string, want bool) {
		t.Helper()
		err := a.verify(cert, a.now())
		var bad x509.CertificateInvalidError
		switch {
		case want && err != nil:
			t.Errorf("%s: %v, want it trusted", what, err)
		case !want && (!errors.As(err, &bad) || bad.Reason != x509.CANotAuthorizedForThisName):
			t.Errorf("%s: %v, want refused by the name constraints", what, err)
		}
	}
	for _, name := range vouchedForNames {
		check(thief(t, a, name, []string{name}), name, true)
	}
	for _, name := range refusedNames {
		check(thief(t, a, "marram.local", []string{name}), name, false)
		check(thief(t, a, "marram.local", []string{"marram.local", name}), "marram.local and "+name, false)
	}
	for _, addr := range vouchedForAddrs {
		check(thief(t, a, "marram.local", nil, addr), addr, true)
	}
	for _, addr := range refusedAddrs {
		check(thief(t, a, "marram.local", nil, addr), addr, false)
		if a.covers(netip.MustParseAddr(addr)) {
			t.Errorf("covers(%s) = true", addr)
		}
	}
}

func TestIntermediateSignsNoFurtherAuthorityAndNoMail(t *testing.T) {
	o, _ := marram(t)
	a := open(t, o)
	if !a.inter.IsCA || a.inter.MaxPathLen != 0 || !a.inter.MaxPathLenZero {
		t.Errorf("intermediate: CA %v, path length %d, want a CA of length 0", a.inter.IsCA, a.inter.MaxPathLen)
	}
	if len(a.inter.ExtKeyUsage) != 1 || a.inter.ExtKeyUsage[0] != x509.ExtKeyUsageServerAuth {
		t.Errorf("intermediate's extended key usage = %v, want serverAuth alone", a.inter.ExtKeyUsage)
	}
}

// TestNSSAgrees holds the same edges against NSS, whose rules and certificate
// store Chromium on Linux uses.
func TestNSSAgrees(t *testing.T) {
	certutil, err := exec.LookPath("certutil")
	if err != nil {
		t.Fatal("certutil is missing: install Debian's libnss3-tools")
	}
	o, _ := marram(t)
	o.Now = time.Now // certutil judges by the machine's clock
	a := open(t, o)
	db := "sql:" + t.TempDir()
	run := func(args ...string) (string, error) {
		out, err := exec.Command(certutil, append([]string{"-d", db}, args...)...).CombinedOutput()
		return string(out), err
	}
	add := func(nick, trust string, cert *x509.Certificate) {
		t.Helper()
		path := filepath.Join(t.TempDir(), nick+".pem")
		text := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: cert.Raw})
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := run("-A", "-n", nick, "-t", trust, "-i", path); err != nil {
			t.Fatalf("add %s: %v\n%s", nick, err, out)
		}
	}
	if out, err := run("-N", "--empty-password"); err != nil {
		t.Fatalf("make a store: %v\n%s", err, out)
	}
	add("root", "C,,", a.root)
	add("intermediate", ",,", a.inter)
	leaf, err := a.issue([]netip.Addr{netip.MustParseAddr("192.168.7.20")}, a.now())
	if err != nil {
		t.Fatal(err)
	}
	rows := []struct {
		nick string
		cert *x509.Certificate
		want bool
	}{
		{"ours", leaf.Leaf, true},
		{"private address", thief(t, a, "marram.local", nil, "172.31.255.254"), true},
		{"public name", thief(t, a, "marram.local", []string{"studio.example.org"}), true},
		{"foreign name", thief(t, a, "marram.local", []string{"bank.example.com"}), false},
		{"foreign name in the subject", thief(t, a, "bank.example.com", nil), false},
		{"foreign address", thief(t, a, "marram.local", []string{"marram.local"}, "203.0.113.9"), false},
		{"foreign IPv6 address", thief(t, a, "marram.local", nil, "2001:db8::1"), false},
	}
	for _, row := range rows {
		add(row.nick, ",,", row.cert)
		out, err := run("-V", "-n", row.nick, "-u", "V", "-e")
		refused := strings.Contains(out, "not permitted to issue a certificate with this name")
		if (err == nil) != row.want || refused == row.want {
			t.Errorf("%s: certutil -V says %q, want trusted %v", row.nick, strings.TrimSpace(out), row.want)
		}
	}
}
