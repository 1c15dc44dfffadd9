package announce

import (
	"fmt"
	"net/netip"
	"strings"

	"golang.org/x/net/dns/dnsmessage"
)

const (
	// answerTTL is how long, in seconds, a phone may remember an address: RFC
	// 6762 section 10 recommends 120 for names of hosts.
	answerTTL = 120
	// cacheFlush in a record's class says that what was known under the name
	// before is no longer so (section 10.2). It is what lets phones follow a new
	// address at once.
	cacheFlush dnsmessage.Class = 1 << 15
)

// announcement tells, unasked, which addresses a name has from now on. A ttl of
// 0 says good-bye.
func announcement(name string, addrs []netip.Addr, ttl uint32) ([]byte, error) {
	full, err := dnsmessage.NewName(name + ".")
	if err != nil {
		return nil, fmt.Errorf("announce %s: %w", name, err)
	}
	m := dnsmessage.Message{Header: dnsmessage.Header{Response: true, Authoritative: true}}
	for _, addr := range addrs {
		record := dnsmessage.Resource{Header: dnsmessage.ResourceHeader{Name: full, Class: dnsmessage.ClassINET | cacheFlush, TTL: ttl}}
		if addr.Is4() {
			record.Body = &dnsmessage.AResource{A: addr.As4()}
		} else {
			record.Body = &dnsmessage.AAAAResource{AAAA: addr.As16()}
		}
		m.Answers = append(m.Answers, record)
	}
	return m.Pack()
}

// question asks for the addresses of a name, of both kinds.
func question(name string) ([]byte, error) {
	full, err := dnsmessage.NewName(name + ".")
	if err != nil {
		return nil, fmt.Errorf("ask for %s: %w", name, err)
	}
	m := dnsmessage.Message{Questions: []dnsmessage.Question{
		{Name: full, Type: dnsmessage.TypeA, Class: dnsmessage.ClassINET},
		{Name: full, Type: dnsmessage.TypeAAAA, Class: dnsmessage.ClassINET},
	}}
	return m.Pack()
}

// answers reads the addresses that a message gives to a name. What is not such
// a message has none: anybody may send anything here.
func answers(packet []byte, name string) []netip.Addr {
	var m dnsmessage.Message
	if m.Unpack(packet) != nil || !m.Response {
		return nil
	}
	var addrs []netip.Addr
	for _, record := range append(m.Answers, m.Additionals...) {
		if !strings.EqualFold(record.Header.Name.String(), name+".") || record.Header.TTL == 0 {
			continue
		}
		switch body := record.Body.(type) {
		case *dnsmessage.AResource:
			addrs = append(addrs, netip.AddrFrom4(body.A))
		case *dnsmessage.AAAAResource:
			addrs = append(addrs, netip.AddrFrom16(body.AAAA))
		}
	}
	return addrs
}
