package authority

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"testing"
	"time"
)

func addrs(list ...string) []netip.Addr {
	var out []netip.Addr
	for _, s := range list {
		out = append(out, netip.MustParseAddr(s))
	}
	return out
}

func get(t *testing.T, l *Leaf) *x509.Certificate {
	t.Helper()
	cert, err := l.GetCertificate(nil)
	if err != nil {
		t.Fatalf("GetCertificate: %v", err)
	}
	return cert.Leaf
}

// serveTLS does as the real server does. (httptest would add a certificate of
// its own, which crypto/tls prefers where a client names no server.)
func serveTLS(t *testing.T, c *tls.Config) (addr string) {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{TLSConfig: c, ErrorLog: quiet(), Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_, _ = io.WriteString(w, "linen")
	})}
	done := make(chan error, 1)
	go func() { done <- server.ServeTLS(listener, "", "") }()
	t.Cleanup(func() {
		_ = server.Close()
		<-done
	})
	return listener.Addr().String()
}

// TestClientTrustingOnlyTheRoot is a phone: it knows the root and nothing else,
// and comes by the stable name, by localhost and by address.
func TestClientTrustingOnlyTheRoot(t *testing.T) {
	o, _ := marram(t)
	o.Now = time.Now
	a := open(t, o)
	addr := serveTLS(t, a.Leaf(func() []netip.Addr { return addrs("192.168.7.20") }).TLS())

	roots := x509.NewCertPool()
	roots.AddCert(a.root)
	ask := func(host string) error {
		client := &http.Client{Transport: &http.Transport{
			DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
				return new(net.Dialer).DialContext(ctx, network, addr)
			},
			TLSClientConfig: &tls.Config{RootCAs: roots},
		}}
		defer client.CloseIdleConnections()
		res, err := client.Get("https://" + host + "/")
		if err != nil {
			return err
		}
		return res.Body.Close()
	}
	for _, host := range []string{"marram.local", "localhost", "studio.example.org", "127.0.0.1", "192.168.7.20", "[::1]"} {
		if err := ask(host); err != nil {
			t.Errorf("https://%s/: %v, want it trusted", host, err)
		}
	}
	for _, host := range []string{"dune.local", "192.168.7.21", "example.org"} {
		if err := ask(host); err == nil {
			t.Errorf("https://%s/ was trusted", host)
		}
	}
}

// TestLeafSuitsPhones holds the rules that iOS has for a server's certificate:
// an alternative name, serverAuth, at most 398 days.
func TestLeafSuitsPhones(t *testing.T) {
	o, _ := marram(t)
	a := open(t, o)
	leaf := get(t, a.Leaf(func() []netip.Addr { return nil }))
	if d := leaf.NotAfter.Sub(leaf.NotBefore); d > 398*24*time.Hour {
		t.Errorf("the leaf holds for %v, want at most 398 days", d)
	}
	if leaf.NotBefore != wednesday.Add(-time.Hour) {
		t.Errorf("NotBefore = %v, want an hour before %v", leaf.NotBefore, wednesday)
	}
	if len(leaf.DNSNames) == 0 || leaf.IsCA || len(leaf.ExtKeyUsage) != 1 || leaf.ExtKeyUsage[0] != x509.ExtKeyUsageServerAuth {
		t.Errorf("names %v, CA %v, usage %v", leaf.DNSNames, leaf.IsCA, leaf.ExtKeyUsage)
	}
	if err := a.verify(leaf, wednesday); err != nil {
		t.Errorf("verify: %v", err)
	}
}

func TestLeafIsRenewedByItself(t *testing.T) {
	o, clock := marram(t)
	a := open(t, o)
	l := a.Leaf(func() []netip.Addr { return addrs("192.168.7.20") })
	first := get(t, l)
	life := first.NotAfter.Sub(first.NotBefore)

	clock.at = first.NotBefore.Add(life*2/3 - time.Second)
	if got := get(t, l); !bytes.Equal(got.Raw, first.Raw) {
		t.Error("renewed before two thirds of its life")
	}
	clock.at = first.NotBefore.Add(life * 2 / 3)
	second := get(t, l)
	if bytes.Equal(second.Raw, first.Raw) || !second.NotAfter.After(first.NotAfter) {
		t.Error("not renewed at two thirds of its life")
	}
	clock.at = wednesday.Add(-3 * time.Hour)
	third := get(t, l)
	if third.NotBefore.After(clock.at) {
		t.Error("after the clock was set back the leaf is from the future")
	}
}

func TestLeafEndsWithItsAuthority(t *testing.T) {
	o, clock := marram(t)
	a := open(t, o)
	clock.at = a.inter.NotAfter.Add(-5 * 24 * time.Hour)
	if leaf := get(t, a.Leaf(func() []netip.Addr { return nil })); leaf.NotAfter.After(a.inter.NotAfter) {
		t.Errorf("leaf holds until %v, its authority until %v", leaf.NotAfter, a.inter.NotAfter)
	}
}

func TestLeafFollowsTheAddresses(t *testing.T) {
	o, _ := marram(t)
	a := open(t, o)
	now := addrs("192.168.7.20", "203.0.113.9", "fe80::1%eth0")
	l := a.Leaf(func() []netip.Addr { return now })
	first := get(t, l)
	for _, host := range []string{"marram.local", "localhost", "studio.example.org", "127.0.0.1", "::1", "192.168.7.20", "fe80::1"} {
		if err := first.VerifyHostname(host); err != nil {
			t.Errorf("%s: %v", host, err)
		}
	}
	if err := first.VerifyHostname("203.0.113.9"); err == nil {
		t.Error("the leaf names a public address, which spoils it as a whole")
	}
	if err := a.verify(first, wednesday); err != nil {
		t.Errorf("verify: %v", err)
	}

	now = addrs("fe80::1%wlan0", "192.168.7.20", "203.0.113.9", "192.168.7.20")
	if got := get(t, l); !bytes.Equal(got.Raw, first.Raw) {
		t.Error("the same addresses in another order made a new leaf")
	}
	now = addrs("10.4.0.9")
	second := get(t, l)
	if second.VerifyHostname("10.4.0.9") != nil || second.VerifyHostname("192.168.7.20") == nil {
		t.Errorf("after the change the leaf is for %v", second.IPAddresses)
	}
}

func TestLeafForAPublicAddress(t *testing.T) {
	o, _ := marram(t)
	o.PublicName = "203.0.113.9"
	a := open(t, o)
	leaf := get(t, a.Leaf(func() []netip.Addr { return nil }))
	if err := leaf.VerifyHostname("203.0.113.9"); err != nil {
		t.Error(err)
	}
	if err := a.verify(leaf, wednesday); err != nil {
		t.Errorf("verify: %v", err)
	}
	if a.covers(netip.MustParseAddr("203.0.113.8")) {
		t.Error("the neighbour of the public address is covered too")
	}
}

// TestLeafHandshakesAtOnce is for the race detector.
func TestLeafHandshakesAtOnce(t *testing.T) {
	o, _ := marram(t)
	l := open(t, o).Leaf(func() []netip.Addr { return addrs("10.4.0.9") })
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			if _, err := l.GetCertificate(nil); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
}

func TestLeafNamesEachNameOnce(t *testing.T) {
	for _, public := range []string{"", "localhost", "marram.local"} {
		o, _ := marram(t)
		o.PublicName = public
		a := open(t, o)
		leaf := get(t, a.Leaf(func() []netip.Addr { return nil }))
		if len(leaf.DNSNames) != 2 || len(a.VouchesFor()) != 2 {
			t.Errorf("public name %q: leaf for %v, authority for %v", public, leaf.DNSNames, a.VouchesFor())
		}
	}
}
