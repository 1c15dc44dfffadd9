package pair

import (
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// A Proxy says what stands in front of the server. The zero value is: nothing,
// and headers that speak of a proxy are ignored.
type Proxy struct {
	Behind  bool           // --behind-proxy
	Trusted []netip.Prefix // addresses of proxies besides this machine's own
}

// ParseTrusted reads addresses and ranges such as "10.0.0.2" and "172.18.0.0/16".
func ParseTrusted(list []string) ([]netip.Prefix, error) {
	var prefixes []netip.Prefix
	for _, s := range list {
		prefix, err := netip.ParsePrefix(s)
		if addr, err2 := netip.ParseAddr(s); err2 == nil {
			prefix, err = netip.PrefixFrom(addr.Unmap(), addr.Unmap().BitLen()), nil
		}
		if err != nil {
			return nil, fmt.Errorf("the proxy %q does not do: give an address such as 10.0.0.2 or a range such as 10.0.0.0/24", s)
		}
		prefixes = append(prefixes, prefix.Masked())
	}
	return prefixes, nil
}

// seen is a request as its sender made it, whatever proxies stand between.
type seen struct {
	secure bool       // it came by https
	host   string     // host and port, as in the browser's address bar
	from   netip.Addr // who sent it; invalid when unknown
	direct bool       // no proxy spoke for it
}

func (s seen) origin() string {
	scheme := "http://"
	if s.secure {
		scheme = "https://"
	}
	return scheme + s.host
}

// name is the host without its port, in small letters.
func (s seen) name() string {
	host := s.host
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	return strings.ToLower(strings.TrimSuffix(strings.Trim(host, "[]"), "."))
}

// look believes a proxy's headers only when they come from a proxy that is
// trusted. Of several values the last is taken: the nearest proxy wrote it,
// what stands before may be the sender's own invention.
func (p Proxy) look(r *http.Request) seen {
	peer := peerOf(r)
	s := seen{secure: r.TLS != nil, host: r.Host, from: peer, direct: true}
	if !p.Behind || !p.trusts(peer) {
		return s
	}
	proto, host, chain := last(r, "X-Forwarded-Proto"), last(r, "X-Forwarded-Host"), values(r, "X-Forwarded-For")
	s.direct = proto == "" && host == "" && len(chain) == 0
	if proto != "" {
		s.secure = strings.EqualFold(proto, "https")
	}
	if host != "" {
		s.host = host
	}
	for _, text := range slices.Backward(chain) {
		addr, err := netip.ParseAddr(text)
		if err != nil {
			break // what stands before an unreadable address is no better
		}
		s.from = addr.Unmap()
		if !p.trusts(s.from) {
			break
		}
	}
	return s
}

func (p Proxy) trusts(addr netip.Addr) bool {
	return addr.IsLoopback() || slices.ContainsFunc(p.Trusted, func(prefix netip.Prefix) bool { return prefix.Contains(addr) })
}

func peerOf(r *http.Request) netip.Addr {
	peer, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}
	}
	return peer.Addr().Unmap().WithZone("")
}

// values are a header's values, those of several lines and those between commas.
func values(r *http.Request, header string) []string {
	var list []string
	for _, line := range r.Header.Values(header) {
		for part := range strings.SplitSeq(line, ",") {
			list = append(list, strings.TrimSpace(part))
		}
	}
	return list
}

func last(r *http.Request, header string) string {
	list := values(r, header)
	if len(list) == 0 {
		return ""
	}
	return list[len(list)-1]
}
