// Package announce makes the studio machine findable on its own network: it
// knows the machine's addresses, and it answers to the stable name by multicast
// DNS (RFC 6762), whatever address the machine has today.
//
// The stable name matters more than convenience. A browser keeps a phone's
// unsent entries under the address from which the app came, so an app that was
// opened by an IP address loses sight of them when the network hands out
// another one.
package announce

import (
	"cmp"
	"net"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"time"
)

// lookEvery is how long a list of addresses is taken for current: short enough
// for a person who plugs in a cable, long enough for a TLS handshake to ask.
const lookEvery = 2 * time.Second

// An Interface is one of the machine's network interfaces with its addresses.
type Interface struct {
	Index int
	Name  string
	Flags net.Flags
	Addrs []netip.Addr // without zones
}

// AddressOptions are all optional.
type AddressOptions struct {
	// Extra are addresses that the machine itself cannot see, such as those of
	// the host around a container. They come first.
	Extra []netip.Addr
	// List lists the interfaces; the machine's own when nil.
	List func() ([]Interface, error)
	// Now is the clock; time.Now when nil.
	Now func() time.Time
}

// Addresses knows the machine's addresses. It is safe for concurrent use.
type Addresses struct {
	extra []netip.Addr
	list  func() ([]Interface, error)
	now   func() time.Time

	mu     sync.Mutex
	held   []Interface
	looked time.Time
}

// NewAddresses looks at nothing yet.
func NewAddresses(o AddressOptions) *Addresses {
	a := &Addresses{list: o.List, now: o.Now}
	for _, addr := range o.Extra {
		a.extra = append(a.extra, addr.Unmap().WithZone(""))
	}
	if a.list == nil {
		a.list = machineInterfaces
	}
	if a.now == nil {
		a.now = time.Now
	}
	return a
}

// Interfaces lists the interfaces that are up, by index, as they were at most
// two seconds ago. While the system gives no list, the last one stands.
func (a *Addresses) Interfaces() []Interface {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.now()
	if age := now.Sub(a.looked); !a.looked.IsZero() && age >= 0 && age < lookEvery {
		return a.held
	}
	a.looked = now
	list, err := a.list()
	if err != nil {
		return a.held
	}
	list = slices.DeleteFunc(list, func(i Interface) bool { return i.Flags&net.FlagUp == 0 })
	slices.SortFunc(list, func(a, b Interface) int { return cmp.Compare(a.Index, b.Index) })
	a.held = list
	return list
}

// Current lists the addresses by which this machine may be reached, loopback
// left out, the likeliest for a phone first.
func (a *Addresses) Current() []netip.Addr {
	type ranked struct {
		addr netip.Addr
		rank int
	}
	var found []ranked
	for _, ifc := range a.Interfaces() {
		for _, addr := range ifc.Addrs {
			if addr.IsGlobalUnicast() || addr.IsLinkLocalUnicast() {
				found = append(found, ranked{addr, rank(ifc, addr)})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b ranked) int { return cmp.Compare(a.rank, b.rank) })
	list := slices.Clone(a.extra)
	for _, f := range found {
		if !slices.Contains(list, f.addr) {
			list = append(list, f.addr)
		}
	}
	return list
}

// own says whether an address is this machine's, loopback included.
func (a *Addresses) own(addr netip.Addr) bool {
	addr = addr.Unmap().WithZone("")
	if addr.IsLoopback() || slices.Contains(a.extra, addr) {
		return true
	}
	return slices.ContainsFunc(a.Interfaces(), func(i Interface) bool { return slices.Contains(i.Addrs, addr) })
}

// virtualNames begin the names of interfaces behind which there is no phone:
// containers, virtual machines, tunnels.
var virtualNames = []string{"docker", "br-", "veth", "virbr", "vmnet", "vboxnet", "vEthernet", "tun", "tap", "utun", "wg", "zt", "tailscale", "podman", "cni", "lxc"}

// rank is lower for an address that a phone likelier reaches.
func rank(ifc Interface, addr netip.Addr) int {
	r := 0
	switch {
	case addr.Is4() && addr.IsPrivate():
	case addr.Is4() && !addr.IsLinkLocalUnicast():
		r = 1
	case addr.Is6() && !addr.IsLinkLocalUnicast():
		r = 2
	case addr.Is4():
		r = 3
	default:
		r = 4
	}
	if ifc.Flags&net.FlagPointToPoint != 0 || slices.ContainsFunc(virtualNames, func(v string) bool { return strings.HasPrefix(ifc.Name, v) }) {
		r += 10
	}
	return r
}

func machineInterfaces() ([]Interface, error) {
	all, err := net.Interfaces()
	if err != nil {
		return nil, err
	}
	list := make([]Interface, 0, len(all))
	for _, ifc := range all {
		addrs, err := ifc.Addrs()
		if err != nil {
			continue // it went away between the two calls
		}
		one := Interface{Index: ifc.Index, Name: ifc.Name, Flags: ifc.Flags}
		for _, addr := range addrs {
			if prefix, err := netip.ParsePrefix(addr.String()); err == nil {
				one.Addrs = append(one.Addrs, prefix.Addr().Unmap().WithZone(""))
			}
		}
		list = append(list, one)
	}
	return list, nil
}
