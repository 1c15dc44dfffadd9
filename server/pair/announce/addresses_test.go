package announce

import (
	"errors"
	"fmt"
	"net"
	"net/netip"
	"testing"
	"time"
)

const lan = net.FlagUp | net.FlagMulticast | net.FlagBroadcast

func ip(list ...string) []netip.Addr {
	var out []netip.Addr
	for _, s := range list {
		out = append(out, netip.MustParseAddr(s))
	}
	return out
}

func TestAddressesAPhoneLikelyReachesFirst(t *testing.T) {
	a := NewAddresses(AddressOptions{List: func() ([]Interface, error) {
		return []Interface{
			{Index: 1, Name: "lo", Flags: net.FlagUp | net.FlagLoopback, Addrs: ip("127.0.0.1", "::1")},
			{Index: 2, Name: "docker0", Flags: lan, Addrs: ip("172.17.0.1")},
			{Index: 3, Name: "tun0", Flags: net.FlagUp | net.FlagPointToPoint, Addrs: ip("10.8.0.2")},
			{Index: 4, Name: "eth1", Flags: net.FlagMulticast, Addrs: ip("192.168.99.1")},
			{Index: 5, Name: "wlan0", Flags: lan, Addrs: ip("fe80::5", "fd00::5", "192.168.7.20", "169.254.3.3", "203.0.113.9")},
		}, nil
	}})
	want := ip("192.168.7.20", "203.0.113.9", "fd00::5", "169.254.3.3", "fe80::5", "172.17.0.1", "10.8.0.2")
	if got := a.Current(); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("Current() = %v, want %v", got, want)
	}
	for addr, want := range map[string]bool{"192.168.7.20": true, "127.0.0.1": true, "fe80::5%wlan0": true, "192.168.7.21": false, "192.168.99.1": false} {
		if got := a.own(netip.MustParseAddr(addr)); got != want {
			t.Errorf("own(%s) = %v, want %v", addr, got, want)
		}
	}
}

func TestAddressesOfAContainer(t *testing.T) {
	a := NewAddresses(AddressOptions{Extra: ip("192.168.7.20"), List: func() ([]Interface, error) {
		return []Interface{{Index: 2, Name: "eth0", Flags: lan, Addrs: ip("172.17.0.2", "192.168.7.20")}}, nil
	}})
	if got, want := a.Current(), ip("192.168.7.20", "172.17.0.2"); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("Current() = %v, want %v", got, want)
	}
	if !a.own(netip.MustParseAddr("192.168.7.20")) {
		t.Error("the host's address is not own")
	}
}

func TestAddressesAreLookedAtAgain(t *testing.T) {
	now := time.Date(2026, 3, 4, 10, 2, 11, 0, time.UTC)
	addr, looks := "192.168.7.20", 0
	var fail error
	a := NewAddresses(AddressOptions{Now: func() time.Time { return now }, List: func() ([]Interface, error) {
		looks++
		return []Interface{{Index: 2, Name: "eth0", Flags: lan, Addrs: ip(addr)}}, fail
	}})
	check := func(want string, wantLooks int) {
		t.Helper()
		if got := a.Current(); len(got) != 1 || got[0].String() != want || looks != wantLooks {
			t.Errorf("Current() = %v after %d looks, want %s after %d", got, looks, want, wantLooks)
		}
	}
	check("192.168.7.20", 1)
	addr = "192.168.7.21"
	now = now.Add(lookEvery - time.Millisecond)
	check("192.168.7.20", 1)
	now = now.Add(time.Millisecond)
	check("192.168.7.21", 2)
	addr, fail = "192.168.7.22", errors.New("no list")
	now = now.Add(lookEvery)
	check("192.168.7.21", 3)
	fail = nil
	now = now.Add(-time.Hour)
	check("192.168.7.22", 4)
}

// TestThisMachinesAddresses has no expectation but sense: every machine has a
// loopback interface, and no address keeps a zone.
func TestThisMachinesAddresses(t *testing.T) {
	a := NewAddresses(AddressOptions{})
	loopback := false
	for _, ifc := range a.Interfaces() {
		for _, addr := range ifc.Addrs {
			loopback = loopback || addr.IsLoopback()
			if addr.Zone() != "" || addr.Is4In6() {
				t.Errorf("%s has %v", ifc.Name, addr)
			}
		}
	}
	if !loopback {
		t.Error("no loopback address found")
	}
	for _, addr := range a.Current() {
		if addr.IsLoopback() || addr.IsMulticast() || addr.IsUnspecified() {
			t.Errorf("Current() holds %v", addr)
		}
	}
}
