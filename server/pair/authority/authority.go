// Package authority is the studio's own certificate authority, and the
// certificate with which the studio machine shows itself to phones.
//
// A browser gives a page its storage, camera and wake lock only over a
// connection that it trusts, and no public authority vouches for a name on a
// studio's own network. So each studio makes an authority of its own:
//
//	root            made once; its key signs one certificate and is then forgotten, never written down
//	  intermediate  may vouch only for the studio's names and for private addresses (critical name constraints)
//	    leaf        30 days, kept in memory, made anew by itself
//
// A phone trusts the root. Should someone steal the data folder, they get the
// intermediate's key, which can still vouch for nothing but the studio's own
// names and addresses that exist on every private network.
//
// What the authority keeps is one file, authority.pem in the data folder,
// mode 0600: root certificate, intermediate certificate, intermediate key.
package authority

import (
	"crypto/ecdsa"
	"crypto/x509"
	"errors"
	"fmt"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// FileName is the authority's file inside the data folder.
const FileName = "authority.pem"

// Options says for whom an authority vouches.
type Options struct {
	// Dir is the data folder; it must exist.
	Dir string
	// Name is the stable name of the studio machine: one label, with or
	// without ".local".
	Name string
	// PublicName is a further host name or IP address, or empty.
	PublicName string
	// Studio is shown in the root's subject, so that a person finds it in a
	// phone's list of certificates. May be empty.
	Studio string
	// Now is the clock; time.Now when nil.
	Now func() time.Time
}

// An Authority signs leaves for one studio. It is safe for concurrent use.
type Authority struct {
	host   string // NAME.local
	public string // further name or address, or empty
	root   *x509.Certificate
	inter  *x509.Certificate
	key    *ecdsa.PrivateKey
	now    func() time.Time
	made   bool
}

// Open reads the studio's authority, or makes it when there is none.
//
// The error is a *NameError when the names asked for are outside of what the
// existing authority may vouch for, and otherwise a sentence about the file.
func Open(o Options) (*Authority, error) {
	o, err := o.checked()
	if err != nil {
		return nil, err
	}
	path := filepath.Join(o.Dir, FileName)
	a, err := read(path)
	if errors.Is(err, fs.ErrNotExist) {
		return establish(o)
	}
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(path, 0o600); err != nil {
		return nil, fmt.Errorf("keep %s to its owner: %w", path, err)
	}
	a.take(o)
	if err := a.suits(); err != nil {
		return nil, err
	}
	return a, nil
}

// Replace makes a new authority in place of the old one. Every phone has to
// trust the new root before it can connect again.
func Replace(o Options) (*Authority, error) {
	o, err := o.checked()
	if err != nil {
		return nil, err
	}
	return establish(o)
}

func establish(o Options) (*Authority, error) {
	a, err := create(o)
	if err != nil {
		return nil, fmt.Errorf("make a certificate authority: %w", err)
	}
	if err := a.write(filepath.Join(o.Dir, FileName)); err != nil {
		return nil, err
	}
	a.take(o)
	a.made = true
	return a, nil
}

func (a *Authority) take(o Options) {
	a.host, a.public, a.now = o.Name, o.PublicName, o.Now
}

// HostName is the stable name that phones use: NAME.local.
func (a *Authority) HostName() string { return a.host }

// Made says that this call of Open or Replace made a new authority, so no
// phone trusts it yet.
func (a *Authority) Made() bool { return a.made }

// Root is the root certificate in DER, the form that phones install.
func (a *Authority) Root() []byte { return a.root.Raw }

// RootName is how phones list the root among their certificates.
func (a *Authority) RootName() string { return a.root.Subject.CommonName }

// VouchesFor lists the host names for which the authority can vouch, besides
// private addresses.
func (a *Authority) VouchesFor() []string { return slices.Clone(a.inter.PermittedDNSDomains) }

// Fingerprint identifies the root certificate to a person.
func (a *Authority) Fingerprint() Fingerprint { return FingerprintOf(a.root.Raw) }

// suits checks that the authority is in date and may vouch for its names.
func (a *Authority) suits() error {
	now := a.now()
	if now.Before(a.inter.NotBefore) {
		return fmt.Errorf("the studio's certificate authority begins on %s and this machine says that it is %s; set the machine's clock, then start again",
			a.inter.NotBefore.Format("2 January 2006"), now.Format("2 January 2006"))
	}
	if !now.Before(a.inter.NotAfter) {
		return fmt.Errorf("the studio's certificate authority ended on %s; start once with --new-authority, and let every phone trust the new one",
			a.inter.NotAfter.Format("2 January 2006"))
	}
	for _, name := range []string{a.host, a.public} {
		if name != "" && !a.mayVouchFor(name) {
			return &NameError{Name: name, Covers: a.inter.PermittedDNSDomains}
		}
	}
	return nil
}

// mayVouchFor reads the intermediate's own constraints, so that what is said
// is what the certificate says and not what a setting hopes.
func (a *Authority) mayVouchFor(name string) bool {
	if addr, err := netip.ParseAddr(name); err == nil {
		return a.covers(addr)
	}
	for _, base := range a.inter.PermittedDNSDomains {
		if name == base || strings.HasSuffix(name, "."+base) {
			return true
		}
	}
	return false
}

// covers says whether a leaf may name this address.
func (a *Authority) covers(addr netip.Addr) bool {
	ip := addr.Unmap().WithZone("").AsSlice()
	for _, r := range a.inter.PermittedIPRanges {
		if r.Contains(ip) {
			return true
		}
	}
	return false
}

// A NameError says that the machine's name was changed to one for which its
// authority cannot vouch.
type NameError struct {
	Name   string   // what was asked for
	Covers []string // host names that the authority may vouch for
}

func (e *NameError) Error() string {
	return fmt.Sprintf("this studio's certificate authority may vouch for %s and private addresses, not for %s; "+
		"go back to a name it knows, or start once with --new-authority to make a new one: "+
		"every phone must then trust the new certificate before it connects again",
		strings.Join(e.Covers, ", "), e.Name)
}
