package pair

import (
	"net/netip"
	"strings"
	"testing"
)

func site(change func(*Site), addrs ...string) Site {
	s := Site{Name: "marram.local", TLSPort: 8743, LocalPort: 8780, TrustPort: 8781, Fingerprint: "3F 2A",
		Addresses: func() []netip.Addr {
			var list []netip.Addr
			for _, a := range addrs {
				list = append(list, netip.MustParseAddr(a))
			}
			return list
		}}
	if change != nil {
		change(&s)
	}
	return s
}

func TestPlaceOfAStudio(t *testing.T) {
	p := site(nil, "192.168.7.20", "fd00::20").Place()
	if p.TLSURL != "https://marram.local:8743" || p.TrustURL != "http://marram.local:8781" || p.LocalURL != "http://127.0.0.1:8780" ||
		strings.Join(p.Addresses, " ") != "192.168.7.20 fd00::20" || p.Fingerprint != "3F 2A" {
		t.Errorf("place %+v", p)
	}
	if f := p.Fallback; f == nil || f.TLSURL != "https://192.168.7.20:8743" || f.TrustURL != "http://192.168.7.20:8781" ||
		!strings.Contains(f.Say, "another address") || !strings.Contains(f.Say, "save what has not been sent to a file") {
		t.Errorf("fallback %+v does not say its danger", f)
	}
}

func TestPlaceFallbackOnlyWhereAPhoneCouldOpenIt(t *testing.T) {
	for name, row := range map[string]struct {
		site Site
		want string
	}{
		"IPv6 alone":           {site(nil, "fe80::1", "fd00::20"), "https://[fd00::20]:8743"},
		"link-local IPv4":      {site(nil, "169.254.3.3"), "https://169.254.3.3:8743"},
		"none":                 {site(nil), ""},
		"link-local IPv6":      {site(nil, "fe80::1"), ""},
		"public, no authority": {site(nil, "203.0.113.9"), ""},
		"own certificate":      {site(func(s *Site) { s.Fingerprint = "" }, "192.168.7.20"), ""},
		"public name":          {site(func(s *Site) { s.PublicName = "studio.example.org" }, "192.168.7.20"), ""},
	} {
		got := ""
		if f := row.site.Place().Fallback; f != nil {
			got = f.TLSURL
		}
		if got != row.want {
			t.Errorf("%s: fallback %q, want %q", name, got, row.want)
		}
	}
}

func TestLocalLinksAreOfTheDoorThatIsOpen(t *testing.T) {
	for host, want := range map[string]string{"": "http://127.0.0.1:8780", "127.0.0.2": "http://127.0.0.2:8780", "::1": "http://[::1]:8780"} {
		s := site(func(s *Site) { s.LocalHost = host })
		if got := s.Place().LocalURL; got != want {
			t.Errorf("listening on %q: local URL %s, want %s", host, got, want)
		}
		if got := s.LocalPairURL("CDFG-HJKM"); got != want+"/#/pair/CDFG-HJKM" {
			t.Errorf("listening on %q: link %s, want it below %s", host, got, want)
		}
	}
}

func TestPlaceBehindAProxy(t *testing.T) {
	s := site(func(s *Site) {
		s.PublicName, s.TLSPort, s.TrustPort, s.LocalPort, s.Fingerprint = "studio.example.org", 443, 0, 0, ""
		s.Problem = func() string { return "Another machine answers." }
	}, "172.17.0.2")
	p := s.Place()
	if p.TLSURL != "https://studio.example.org" || p.TrustURL != "" || p.LocalURL != "" || p.Problem != "Another machine answers." {
		t.Errorf("place %+v", p)
	}
	if got := s.PairURL("CDFG-HJKM"); got != "https://studio.example.org/#/pair/CDFG-HJKM" {
		t.Errorf("PairURL = %s", got)
	}
	if got := s.LocalPairURL("CDFG-HJKM"); got != "" {
		t.Errorf("LocalPairURL = %s, want none", got)
	}
}

func TestAddressesAsBrowsersWriteThem(t *testing.T) {
	for want, got := range map[string]string{
		"https://marram.local":  address("https", "marram.local", 443),
		"https://[fd00::20]":    address("https", "fd00::20", 443),
		"https://[fd00::20]:80": address("https", "fd00::20", 80),
		"http://marram.local":   address("http", "marram.local", 80),
	} {
		if got != want {
			t.Errorf("address = %s, want %s", got, want)
		}
	}
}
