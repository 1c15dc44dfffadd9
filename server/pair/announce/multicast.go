package announce

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"time"

	"golang.org/x/net/ipv4"
)

// everyone is the group that multicast DNS speaks to.
var everyone = &net.UDPAddr{IP: net.IPv4(224, 0, 0, 251), Port: 5353}

// listen opens the port of multicast DNS. A multicast address makes net set
// SO_REUSEADDR, so that the system's own responder may go on beside us.
func listen(network, address string) (*net.UDPConn, error) {
	addr, err := net.ResolveUDPAddr(network, address)
	if err != nil {
		return nil, err
	}
	return net.ListenUDP(network, addr)
}

// shout sends to everyone behind each interface what build makes for it. It
// fails when no interface takes it: one of several may be out of order. The
// sender's port must be 5353, or receivers ignore it (RFC 6762 section 11).
func shout(interfaces []Interface, build func(Interface) ([]byte, error)) error {
	conn, err := listen("udp4", "224.0.0.0:5353")
	if err != nil {
		return fmt.Errorf("open the port of multicast DNS: %w", err)
	}
	defer conn.Close()
	return sendAll(conn, interfaces, build)
}

func sendAll(conn *net.UDPConn, interfaces []Interface, build func(Interface) ([]byte, error)) error {
	sender := ipv4.NewPacketConn(conn)
	if err := errors.Join(sender.SetMulticastTTL(255), sender.SetMulticastLoopback(true)); err != nil {
		return fmt.Errorf("prepare a multicast: %w", err)
	}
	var failed error
	sent := false
	for _, ifc := range interfaces {
		packet, err := build(ifc)
		if err == nil {
			err = sender.SetMulticastInterface(&net.Interface{Index: ifc.Index, Name: ifc.Name})
		}
		if err == nil {
			_, err = sender.WriteTo(packet, nil, everyone)
		}
		if err != nil {
			failed = errors.Join(failed, fmt.Errorf("multicast on %s: %w", ifc.Name, err))
		}
		sent = sent || err == nil
	}
	if sent {
		return nil
	}
	return failed
}

// ask collects who answers to a name within the patience. It asks from a port
// of its own, so answers come straight back (RFC 6762 section 6.7).
func ask(ctx context.Context, name string, interfaces []Interface, patience time.Duration) ([]netip.Addr, error) {
	conn, err := net.ListenUDP("udp4", &net.UDPAddr{})
	if err != nil {
		return nil, fmt.Errorf("open a port to ask from: %w", err)
	}
	defer conn.Close()
	if err := conn.SetReadDeadline(time.Now().Add(patience)); err != nil {
		return nil, err
	}
	defer context.AfterFunc(ctx, func() { _ = conn.SetReadDeadline(time.Now()) })()
	if err := sendAll(conn, interfaces, func(Interface) ([]byte, error) { return question(name) }); err != nil {
		return nil, err
	}
	var found []netip.Addr
	for buf := make([]byte, 9000); ; { // the largest message of section 17
		n, _, err := conn.ReadFromUDPAddrPort(buf)
		if err != nil {
			return found, nil // the patience is over
		}
		found = append(found, answers(buf[:n], name)...)
	}
}
