package announce

import (
	"net"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/pion/mdns/v2"
	"github.com/rs/zerolog"
	"golang.org/x/net/dns/dnsmessage"
	"golang.org/x/net/ipv4"
)

// These tests speak real multicast, on the loopback interface, under a name
// that no other test uses.

// card is a network interface of the test's making: the machine's loopback
// under whatever addresses it is given.
type card struct {
	mu    sync.Mutex
	addrs []netip.Addr
	down  bool
}

func (c *card) list() ([]Interface, error) {
	lo, err := loopback()
	if err != nil {
		return nil, err
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	flags := net.FlagUp | net.FlagLoopback
	if c.down {
		flags = 0
	}
	return []Interface{{Index: lo.Index, Name: lo.Name, Flags: flags, Addrs: slices.Clone(c.addrs)}}, nil
}

func (c *card) set(down bool, addrs ...string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.down, c.addrs = down, ip(addrs...)
}

func loopback() (net.Interface, error) {
	all, err := net.Interfaces()
	if err != nil {
		return net.Interface{}, err
	}
	for _, ifc := range all {
		if ifc.Flags&net.FlagLoopback != 0 {
			return ifc, nil
		}
	}
	return net.Interface{}, net.ErrClosed
}

// bench is a voice that the test moves by hand.
type bench struct {
	*Voice
	card *card
	ears *ears
}

func newBench(t *testing.T, name string) bench {
	t.Helper()
	c := &card{addrs: ip("127.0.0.1")}
	now := time.Now()
	var mu sync.Mutex
	addresses := NewAddresses(AddressOptions{List: c.list, Now: func() time.Time { // no look is twice at the same time
		mu.Lock()
		defer mu.Unlock()
		now = now.Add(lookEvery)
		return now
	}})
	v := &Voice{o: Options{Name: name, Addresses: addresses, Log: zerolog.Nop(), Loopback: true}, done: make(chan struct{})}
	t.Cleanup(v.fallSilent)
	return bench{v, c, listenFor(t, name)}
}

// ears hear what is announced under a name.
type ears struct {
	conn *net.UDPConn
	name string
}

func listenFor(t *testing.T, name string) *ears {
	t.Helper()
	conn, err := listen("udp4", mdns.DefaultAddressIPv4)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = conn.Close() })
	lo, err := loopback()
	if err != nil {
		t.Fatal(err)
	}
	if err := ipv4.NewPacketConn(conn).JoinGroup(&lo, everyone); err != nil {
		t.Fatal(err)
	}
	return &ears{conn, name}
}

// next is the next announcement: sender's port, records, in the order of the message.
func (e *ears) next(t *testing.T) (port uint16, records []dnsmessage.Resource) {
	t.Helper()
	if err := e.conn.SetReadDeadline(time.Now().Add(10 * time.Second)); err != nil {
		t.Fatal(err)
	}
	for buf := make([]byte, 9000); ; {
		n, from, err := e.conn.ReadFromUDPAddrPort(buf)
		if err != nil {
			t.Fatalf("heard nothing of %s: %v", e.name, err)
		}
		var m dnsmessage.Message
		if m.Unpack(buf[:n]) == nil && m.Response && len(m.Answers) > 0 && m.Answers[0].Header.Name.String() == e.name+"." {
			return from.Port(), m.Answers
		}
	}
}

func (b bench) asked(t *testing.T) []netip.Addr {
	t.Helper()
	found, err := ask(t.Context(), b.o.Name, b.usable(), 300*time.Millisecond)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestVoiceAnswersARealQuestion(t *testing.T) {
	c := &card{addrs: ip("127.0.0.1")}
	v, err := Start(Options{Name: "marram-a.local", Addresses: NewAddresses(AddressOptions{List: c.list}), Log: zerolog.Nop(), Loopback: true})
	if err != nil {
		t.Fatal(err)
	}
	e := listenFor(t, "marram-a.local")
	interfaces, err := c.list()
	if err != nil {
		t.Fatal(err)
	}
	var found []netip.Addr
	for end := time.Now().Add(20 * time.Second); len(found) == 0 && time.Now().Before(end); {
		if found, err = ask(t.Context(), "marram-a.local", interfaces, 200*time.Millisecond); err != nil {
			t.Fatal(err)
		}
	}
	if !slices.Contains(found, netip.MustParseAddr("127.0.0.1")) {
		t.Errorf("the answer is %v, want 127.0.0.1", found)
	}
	if s := v.State(); !s.Answering || s.Say != "" {
		t.Errorf("State() = %+v", s)
	}
	if err := v.Close(); err != nil {
		t.Fatal(err)
	}
	for { // until the good-bye
		if _, records := e.next(t); records[0].Header.TTL == 0 {
			break
		}
	}
	if found, err := ask(t.Context(), "marram-a.local", interfaces, 200*time.Millisecond); err != nil || len(found) != 0 {
		t.Errorf("after Close the answer is %v, %v", found, err)
	}
}

func TestVoiceTellsOfANewAddress(t *testing.T) {
	b := newBench(t, "marram-b.local")
	heard := func(addrs ...string) {
		t.Helper()
		port, records := b.ears.next(t)
		if port != 5353 || len(records) != len(addrs) {
			t.Fatalf("heard %d records from port %d, want %v from port 5353", len(records), port, addrs)
		}
		for i, r := range records {
			if r.Header.Class != dnsmessage.ClassINET|cacheFlush || r.Header.TTL != answerTTL {
				t.Errorf("class %x, ttl %d: phones would keep the old address", uint16(r.Header.Class), r.Header.TTL)
			}
			want := netip.MustParseAddr(addrs[i])
			var got netip.Addr
			switch body := r.Body.(type) {
			case *dnsmessage.AResource:
				got = netip.AddrFrom4(body.A)
			case *dnsmessage.AAAAResource:
				got = netip.AddrFrom16(body.AAAA)
			}
			if got != want {
				t.Errorf("heard %v, want %v", got, want)
			}
		}
	}
	b.look(t.Context())
	heard("127.0.0.1")
	b.look(t.Context())
	heard("127.0.0.1") // once more, in case the first was lost
	before := b.conn
	b.look(t.Context())
	if b.conn != before {
		t.Error("began anew although nothing changed")
	}

	b.card.set(false, "127.0.0.1", "192.168.7.20", "fd00::20")
	b.look(t.Context())
	heard("127.0.0.1", "192.168.7.20", "fd00::20")
	if b.conn == before {
		t.Error("answers still with the old addresses")
	}
	if found := b.asked(t); len(found) == 0 {
		t.Error("no answer after the change")
	}

	b.card.set(true)
	b.look(t.Context())
	if s := b.State(); s.Answering || !strings.Contains(s.Say, "no network") {
		t.Errorf("without a network: State() = %+v", s)
	}
	b.card.set(false, "127.0.0.1")
	b.look(t.Context())
	if s := b.State(); !s.Answering || s.Say != "" {
		t.Errorf("with a network again: State() = %+v", s)
	}
}

// stranger is another machine of the same name, at 192.168.7.99.
func stranger(t *testing.T, name string) (leave func()) {
	t.Helper()
	conn, err := listen("udp4", mdns.DefaultAddressIPv4)
	if err != nil {
		t.Fatal(err)
	}
	lo, err := loopback()
	if err != nil {
		t.Fatal(err)
	}
	server, err := mdns.NewServer(ipv4.NewPacketConn(conn), nil, mdns.WithLocalNames(name), mdns.WithInterfaces(lo),
		mdns.WithIncludeLoopback(true), mdns.WithLocalAddress(net.IPv4(192, 168, 7, 99)))
	if err != nil {
		t.Fatal(err)
	}
	var once sync.Once
	leave = func() { once.Do(func() { _ = server.Close() }) }
	t.Cleanup(leave)
	return leave
}

func TestVoiceYieldsToAnotherStudio(t *testing.T) {
	b := newBench(t, "marram-c.local")
	leave := stranger(t, "marram-c.local")
	b.look(t.Context())
	s := b.State()
	if s.Answering || s.Conflict.String() != "192.168.7.99" {
		t.Fatalf("State() = %+v, want silence and the other's address", s)
	}
	for _, part := range []string{"192.168.7.99", "marram-c.local", "another --name"} {
		if !strings.Contains(s.Say, part) {
			t.Errorf("%q does not say %q", s.Say, part)
		}
	}
	leave()
	b.look(t.Context())
	if b.State().Answering {
		t.Error("speaks before it has asked again")
	}
	b.Voice.asked = time.Now().Add(-askEvery)
	b.look(t.Context())
	if s := b.State(); !s.Answering || s.Say != "" {
		t.Errorf("after the other left: State() = %+v", s)
	}
}

func TestVoiceGoesOnAndSaysWhenAnotherComes(t *testing.T) {
	b := newBench(t, "marram-d.local")
	b.look(t.Context())
	if s := b.State(); !s.Answering || s.Say != "" {
		t.Fatalf("State() = %+v", s)
	}
	stranger(t, "marram-d.local")
	b.Voice.asked = time.Now().Add(-askEvery)
	b.look(t.Context())
	if s := b.State(); !s.Answering || !strings.Contains(s.Say, "192.168.7.99") || !strings.Contains(s.Say, "too") {
		t.Errorf("State() = %+v, want it to go on and to say so", s)
	}
}

func TestStartRefusesNamesThatNoMulticastFinds(t *testing.T) {
	for _, name := range []string{"", "studio.example.org", strings.Repeat("a", 300) + ".local"} {
		if v, err := Start(Options{Name: name}); err == nil {
			_ = v.Close()
			t.Errorf("Start(%.20q) succeeded", name)
		}
	}
}

func TestAnswersIgnoresWhatIsNoAnswer(t *testing.T) {
	whole, err := announcement("marram.local", ip("192.168.7.20", "fd00::20"), answerTTL)
	if err != nil {
		t.Fatal(err)
	}
	if got := answers(whole, "MARRAM.local"); len(got) != 2 {
		t.Errorf("answers = %v, want both addresses", got)
	}
	goodbye, err := announcement("marram.local", ip("192.168.7.20"), 0)
	if err != nil {
		t.Fatal(err)
	}
	asking, err := question("marram.local")
	if err != nil {
		t.Fatal(err)
	}
	for name, packet := range map[string][]byte{"good-bye": goodbye, "question": asking, "nothing": nil, "noise": []byte("linen linen linen")} {
		if got := answers(packet, "marram.local"); len(got) != 0 {
			t.Errorf("%s: answers = %v, want none", name, got)
		}
	}
	if got := answers(whole, "dune.local"); len(got) != 0 {
		t.Errorf("another name: answers = %v", got)
	}
	for cut := range whole {
		answers(whole[:cut], "marram.local") // must not panic
	}
}
