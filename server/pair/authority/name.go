package authority

import (
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strings"
	"time"
)

// privateRanges are the addresses for which any studio's authority may vouch:
// those that are never routed on the public internet (RFC 1918, RFC 3927,
// RFC 4193, RFC 4291) and the machine itself.
var privateRanges = []string{
	"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "127.0.0.0/8", "169.254.0.0/16",
	"fd00::/8", "fe80::/10", "::1/128",
}

// checked brings the names into one form and refuses what cannot be a name.
func (o Options) checked() (Options, error) {
	label := strings.TrimSuffix(strings.ToLower(o.Name), ".local")
	if strings.Contains(label, ".") || !isHostName(label) {
		return o, fmt.Errorf("the name %q does not do: use letters, digits and hyphens, at most 63, such as sinkside", o.Name)
	}
	o.Name = label + ".local"
	var err error
	if o.PublicName, err = publicName(o.PublicName); err != nil {
		return o, err
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	return o, nil
}

// Names brings the stable name and the public name into the form in which they
// stand in certificates, addresses and Host headers: small letters, ".local"
// on the first, no brackets, zone or final dot. The error is a sentence.
func Names(name, public string) (host, plainPublic string, err error) {
	o, err := Options{Name: name, PublicName: public}.checked()
	return o.Name, o.PublicName, err
}

// publicName brings a host name or address to its plain form. Ports and
// schemes are refused rather than guessed away: they belong to other settings.
func publicName(s string) (string, error) {
	if s == "" {
		return "", nil
	}
	if addr, err := netip.ParseAddr(s); err == nil {
		return addr.Unmap().WithZone("").String(), nil
	}
	name := strings.TrimSuffix(strings.ToLower(s), ".")
	if !isHostName(name) {
		return "", fmt.Errorf("the public name %q does not do: give a host name such as studio.example.org, or an address, without https:// and without a port", s)
	}
	return name, nil
}

// isHostName follows RFC 1123: labels of letters, digits and inner hyphens.
func isHostName(s string) bool {
	if s == "" || len(s) > 253 {
		return false
	}
	for _, label := range strings.Split(s, ".") {
		if label == "" || len(label) > 63 || label[0] == '-' || label[len(label)-1] == '-' {
			return false
		}
		for _, c := range []byte(label) {
			if (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' {
				return false
			}
		}
	}
	return true
}

// permitted lists what the intermediate of these options may vouch for.
func (o Options) permitted() (names []string, ranges []*net.IPNet) {
	for _, r := range privateRanges {
		_, ipnet, err := net.ParseCIDR(r)
		if err != nil {
			panic(err) // a typing error in the table above
		}
		ranges = append(ranges, ipnet)
	}
	addr, err := netip.ParseAddr(o.PublicName)
	if err != nil {
		return hostNames(o.Name, o.PublicName), ranges
	}
	one := &net.IPNet{IP: addr.AsSlice(), Mask: net.CIDRMask(addr.BitLen(), addr.BitLen())}
	return hostNames(o.Name, ""), append(ranges, one)
}

// hostNames are the host names of a studio, each once. public may be empty or
// one of the others.
func hostNames(host, public string) []string {
	names := []string{host, "localhost"}
	if public != "" && !slices.Contains(names, public) {
		names = append(names, public)
	}
	return names
}
