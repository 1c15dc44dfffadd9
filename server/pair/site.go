package pair

import (
	"net"
	"net/netip"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// A Site is where the studio machine is found. Its ports are as phones see
// them, which inside of a container are not those that are listened on.
type Site struct {
	Name       string // the stable name, such as "marram.local"
	PublicName string // a name or address of the person's own, used in place of Name; may be empty
	TLSPort    int    // of the app for phones; 443 behind most proxies
	LocalHost  string // loopback address of the app for this machine's own browser; 127.0.0.1 when empty
	LocalPort  int    // its port; 0: none
	TrustPort  int    // of the page that leads through trusting the certificate; 0: none is needed

	Addresses   func() []netip.Addr // this machine's addresses, the likeliest for a phone first; quick
	Fingerprint string              // of the root certificate; empty when phones trust it anyway
	Problem     func() string       // why phones may not get here just now, in a sentence; may be nil
}

// A Place is what a person needs to know to bring a phone to this machine.
type Place struct {
	Addresses   []string  `json:"addresses"`
	TLSURL      string    `json:"tls_url"`   // "https://marram.local:8743"
	TrustURL    string    `json:"trust_url"` // "http://marram.local:8781"; empty when nothing needs trusting
	TrustQR     string    `json:"trust_qr_svg"`
	LocalURL    string    `json:"local_url"` // "http://127.0.0.1:8780"; empty when there is none
	Fingerprint string    `json:"fingerprint"`
	Fallback    *Fallback `json:"fallback"` // null when the machine has no address that a browser opens
	Problem     string    `json:"problem"`  // why phones may not get here just now; mostly empty
}

// A Fallback is the same by address, for networks on which the name is not
// found. It says its own danger.
type Fallback struct {
	TLSURL   string `json:"tls_url"`
	TrustURL string `json:"trust_url"`
	Say      string `json:"say"`
}

// fallbackDanger is why an address is a last resort (design of the origin).
const fallbackDanger = "Use the address only if the name does not open. The network may hand out another address one day, " +
	"and the phone then no longer finds what it keeps under this one: before that, save what has not been sent to a file."

// Place describes the site as it is now, without the drawing of the QR code.
func (s Site) Place() Place {
	p := Place{Addresses: []string{}, Fingerprint: s.Fingerprint,
		TLSURL: address("https", s.host(), s.TLSPort), TrustURL: s.trustURL(s.host())}
	if s.LocalPort != 0 {
		p.LocalURL = s.localURL()
	}
	if s.Problem != nil {
		p.Problem = s.Problem()
	}
	for _, addr := range s.Addresses() {
		p.Addresses = append(p.Addresses, addr.String())
		if p.Fallback == nil && s.opensByAddress(addr) {
			host := addr.String()
			p.Fallback = &Fallback{TLSURL: address("https", host, s.TLSPort), TrustURL: s.trustURL(host), Say: fallbackDanger}
		}
	}
	return p
}

// opensByAddress says whether a phone could open the app by this address: the
// studio's own authority vouches for private ones, and browsers refuse the zone
// that a link-local IPv6 address needs.
func (s Site) opensByAddress(addr netip.Addr) bool {
	return s.Fingerprint != "" && s.PublicName == "" && (addr.IsPrivate() || addr.Is4() && addr.IsLinkLocalUnicast())
}

// PairURL is the link that brings a code to the app. The code stands in the
// fragment, which browsers send to nobody, so it is in no log.
func (s Site) PairURL(code string) string {
	return address("https", s.host(), s.TLSPort) + "/#/pair/" + code
}

// LocalPairURL is the same for this machine's own browser.
func (s Site) LocalPairURL(code string) string {
	if s.LocalPort == 0 {
		return ""
	}
	return s.localURL() + "/#/pair/" + code
}

func (s Site) localURL() string {
	host := s.LocalHost
	if host == "" {
		host = "127.0.0.1"
	}
	return address("http", host, s.LocalPort)
}

func (s Site) host() string {
	if s.PublicName != "" {
		return s.PublicName
	}
	return s.Name
}

func (s Site) trustURL(host string) string {
	if s.TrustPort == 0 {
		return ""
	}
	return address("http", host, s.TrustPort)
}

// address writes an origin as browsers do: brackets around IPv6, no port where
// it is the scheme's own.
func address(scheme, host string, port int) string {
	u := url.URL{Scheme: scheme, Host: host}
	switch {
	case scheme == "https" && port == 443, scheme == "http" && port == 80:
		if strings.Contains(host, ":") {
			u.Host = "[" + host + "]"
		}
	default:
		u.Host = net.JoinHostPort(host, strconv.Itoa(port))
	}
	return u.String()
}

// allows says whether a request's Host, without its port, is this machine. A
// page of another site whose name was turned to our address (DNS rebinding)
// still comes under its own name, and is found out here.
func (s Site) allows(host string) bool {
	if addr, err := netip.ParseAddr(host); err == nil {
		addr = addr.Unmap().WithZone("")
		return addr.IsLoopback() || addr.String() == s.PublicName || slices.Contains(s.Addresses(), addr)
	}
	return host == s.Name || host == "localhost" || s.PublicName != "" && host == s.PublicName
}
