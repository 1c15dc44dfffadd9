package authority

import (
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"sync"
	"time"
)

// leafLife is well below the 398 days (825 for a root that the person
// installed) beyond which iOS refuses a server's certificate; a short one also
// makes a stolen leaf key worth little.
const leafLife = 30 * 24 * time.Hour

// A Leaf is the certificate that the server shows. It is made on the first
// handshake, and again when two thirds of its life are over or when the
// machine's addresses have changed. Its key is never written to disk.
// A Leaf is safe for concurrent use.
type Leaf struct {
	a         *Authority
	addresses func() []netip.Addr

	mu      sync.Mutex
	cert    *tls.Certificate
	madeFor []netip.Addr // addresses that cert was made for
}

// Leaf starts with no certificate. addresses is asked at every handshake, so
// it must be quick; addresses for which the authority may not vouch (public
// ones) are left out.
func (a *Authority) Leaf(addresses func() []netip.Addr) *Leaf {
	return &Leaf{a: a, addresses: addresses}
}

// TLS is a server's configuration with this certificate.
func (l *Leaf) TLS() *tls.Config { return serverTLS(l.GetCertificate) }

func serverTLS(get func(*tls.ClientHelloInfo) (*tls.Certificate, error)) *tls.Config {
	return &tls.Config{GetCertificate: get, MinVersion: tls.VersionTLS12, NextProtos: []string{"h2", "http/1.1"}}
}

// GetCertificate is for tls.Config. Should a renewal fail, the certificate at
// hand is used as long as it holds.
func (l *Leaf) GetCertificate(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	now, addrs := l.a.now(), l.vouchable()
	if l.cert != nil && fresh(l.cert.Leaf, now) && slices.Equal(addrs, l.madeFor) {
		return l.cert, nil
	}
	cert, err := l.a.issue(addrs, now)
	if err != nil {
		if l.cert != nil && now.Before(l.cert.Leaf.NotAfter) {
			return l.cert, nil
		}
		return nil, err
	}
	l.cert, l.madeFor = cert, addrs
	return cert, nil
}

// fresh says that less than two thirds of the certificate's life are over. A
// certificate from the future, made before the machine's clock was set right,
// is not fresh.
func fresh(c *x509.Certificate, now time.Time) bool {
	renew := c.NotBefore.Add(c.NotAfter.Sub(c.NotBefore) * 2 / 3)
	return !now.Before(c.NotBefore) && now.Before(renew)
}

// vouchable are the machine's addresses that a leaf may name, sorted, each once.
func (l *Leaf) vouchable() []netip.Addr {
	addrs := []netip.Addr{netip.MustParseAddr("127.0.0.1"), netip.IPv6Loopback()}
	for _, addr := range l.addresses() {
		if addr = addr.Unmap().WithZone(""); l.a.covers(addr) {
			addrs = append(addrs, addr)
		}
	}
	if addr, err := netip.ParseAddr(l.a.public); err == nil {
		addrs = append(addrs, addr)
	}
	slices.SortFunc(addrs, netip.Addr.Compare)
	return slices.Compact(addrs)
}

// issue signs a leaf with a fresh key. The common name is one of the names
// that it is for: some verifiers hold it against the name constraints too.
func (a *Authority) issue(addrs []netip.Addr, now time.Time) (*tls.Certificate, error) {
	key, err := newKey()
	if err != nil {
		return nil, fmt.Errorf("make the server's key: %w", err)
	}
	now = now.UTC()
	until := now.Add(leafLife)
	if until.After(a.inter.NotAfter) {
		until = a.inter.NotAfter
	}
	names := hostNames(a.host, a.public)
	if _, err := netip.ParseAddr(a.public); err == nil {
		names = hostNames(a.host, "") // the public one is among the addresses
	}
	ips := make([]net.IP, 0, len(addrs))
	for _, addr := range addrs {
		ips = append(ips, addr.AsSlice())
	}
	leaf, err := sign(&x509.Certificate{
		Subject:               pkix.Name{CommonName: a.host},
		NotBefore:             now.Add(-backdated),
		NotAfter:              until,
		KeyUsage:              x509.KeyUsageDigitalSignature,
		ExtKeyUsage:           []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true,
		DNSNames:              names,
		IPAddresses:           ips,
	}, a.inter, &key.PublicKey, a.key)
	if err != nil {
		return nil, fmt.Errorf("sign the server's certificate: %w", err)
	}
	return &tls.Certificate{Certificate: [][]byte{leaf.Raw, a.inter.Raw}, PrivateKey: key, Leaf: leaf}, nil
}
