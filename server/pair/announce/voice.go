package announce

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/netip"
	"reflect"
	"strings"
	"sync"
	"time"

	"github.com/pion/logging"
	"github.com/pion/mdns/v2"
	"github.com/rs/zerolog"
	"golang.org/x/net/ipv4"
	"golang.org/x/net/ipv6"
)

const (
	askEvery = time.Minute // how often it is asked whether another machine took the name
	patience = time.Second // how long others have to answer
)

// Options of Start.
type Options struct {
	Name      string // the stable name, such as "marram.local"
	Addresses *Addresses
	Log       zerolog.Logger
	// Loopback lets it speak on the loopback interface too, where the only
	// listeners are tests.
	Loopback bool
}

// State is what there is to say about the name.
type State struct {
	Answering bool       // this machine answers to its name
	Conflict  netip.Addr // another machine that answers to it; invalid when there is none
	Say       string     // what is wrong and what to do about it, in a sentence; empty when all is well
}

// A Voice answers to the stable name, and speaks up when the machine's
// addresses change. It is safe for concurrent use.
type Voice struct {
	o      Options
	cancel context.CancelFunc
	done   chan struct{}

	// Only the loop's goroutine touches these.
	conn   *mdns.Conn
	spoken []Interface // interfaces with the addresses as last announced
	repeat bool        // the announcement is due once more
	asked  time.Time

	mu    sync.Mutex
	state State
}

// Start begins to answer to the name in the background. It fails only for a
// name that no multicast answers to; whatever the network does later is in State.
//
// At the start it yields: while another machine answers to the name, this one
// keeps silent, so that a second studio does not take the first one's phones.
func Start(o Options) (*Voice, error) {
	if !strings.HasSuffix(o.Name, ".local") {
		return nil, fmt.Errorf("announce %q: only names in .local are found by multicast", o.Name)
	}
	if _, err := question(o.Name); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithCancel(context.Background())
	v := &Voice{o: o, cancel: cancel, done: make(chan struct{})}
	go v.run(ctx)
	return v, nil
}

// State returns how things stand now.
func (v *Voice) State() State {
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.state
}

// Close says good-bye on the network and stops answering.
func (v *Voice) Close() error {
	v.cancel()
	<-v.done
	return nil
}

func (v *Voice) run(ctx context.Context) {
	defer close(v.done)
	defer v.fallSilent()
	tick := time.NewTicker(time.Second) // RFC 6762 section 8.3: announce twice, a second apart
	defer tick.Stop()
	for {
		v.look(ctx)
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
	}
}

// look does what is due: ask who else has the name, answer to it, tell of new
// addresses.
func (v *Voice) look(ctx context.Context) {
	usable := v.usable()
	state := v.State()
	if len(usable) == 0 {
		v.fallSilent()
		v.set(State{Say: "This machine has no network on which phones could find it by its name; check its cable or Wi-Fi."})
		return
	}
	if now := time.Now(); v.asked.IsZero() || now.Sub(v.asked) >= askEvery {
		v.asked = now
		state.Conflict = v.other(ctx, usable)
	}
	if state.Conflict.IsValid() && !state.Answering || ctx.Err() != nil {
		v.set(v.inWords(state, nil))
		return
	}
	var err error
	if changed := !reflect.DeepEqual(usable, v.spoken); changed || v.conn == nil {
		err = v.answer(usable)
	} else if v.repeat {
		v.repeat = false
		_ = v.tell(usable, answerTTL) // the first one was heard, or the next change will be
	}
	state.Answering = v.conn != nil
	v.set(v.inWords(state, err))
}

// answer starts answering with the addresses as they are now.
func (v *Voice) answer(usable []Interface) error {
	v.stopAnswering()
	conn, err := v.open(usable)
	if err != nil {
		return err
	}
	v.conn, v.spoken, v.repeat = conn, usable, true
	if err := v.tell(usable, answerTTL); err != nil {
		v.stopAnswering() // answers would not get out either; the next look tries again
		return err
	}
	return nil
}

// open hands its sockets to the responder, which closes them. The responder
// picks the address of the interface that the question came by; it knows the
// addresses only as they were when it was opened.
func (v *Voice) open(usable []Interface) (*mdns.Conn, error) {
	four, err := listen("udp4", mdns.DefaultAddressIPv4)
	if err != nil {
		return nil, fmt.Errorf("open the port of multicast DNS: %w", err)
	}
	var packets6 *ipv6.PacketConn
	six, err := listen("udp6", mdns.DefaultAddressIPv6)
	if err == nil {
		packets6 = ipv6.NewPacketConn(six) // without it, phones still ask by IPv4
	}
	interfaces := make([]net.Interface, 0, len(usable))
	for _, ifc := range usable {
		if full, err := net.InterfaceByIndex(ifc.Index); err == nil {
			interfaces = append(interfaces, *full)
		}
	}
	conn, err := mdns.NewServer(ipv4.NewPacketConn(four), packets6,
		mdns.WithLocalNames(v.o.Name),
		mdns.WithInterfaces(interfaces...),
		mdns.WithIncludeLoopback(v.o.Loopback),
		mdns.WithResponseTTL(answerTTL),
		mdns.WithCacheRefresh(false),
		mdns.WithLoggerFactory(&logging.DefaultLoggerFactory{Writer: io.Discard, DefaultLogLevel: logging.LogLevelDisabled}))
	if err != nil {
		if six != nil {
			_ = six.Close()
		}
		return nil, errors.Join(fmt.Errorf("answer by multicast DNS: %w", err), four.Close())
	}
	return conn, nil
}

func (v *Voice) stopAnswering() {
	if v.conn != nil {
		_ = v.conn.Close()
		v.conn = nil
	}
}

// fallSilent says good-bye, so that phones do not try an address for two
// minutes at which nobody answers any more.
func (v *Voice) fallSilent() {
	if v.conn == nil {
		return
	}
	_ = v.tell(v.spoken, 0)
	v.stopAnswering()
	v.spoken = nil
}

func (v *Voice) tell(interfaces []Interface, ttl uint32) error {
	return shout(interfaces, func(ifc Interface) ([]byte, error) { return announcement(v.o.Name, ifc.Addrs, ttl) })
}

// other is another machine's address under our name; invalid when there is none.
func (v *Voice) other(ctx context.Context, usable []Interface) netip.Addr {
	found, err := ask(ctx, v.o.Name, usable, patience)
	if err != nil {
		return netip.Addr{} // who cannot ask cannot answer either, and that is said
	}
	for _, addr := range found {
		if !v.o.Addresses.own(addr) {
			return addr
		}
	}
	return netip.Addr{}
}

// usable are the interfaces behind which phones may be.
func (v *Voice) usable() []Interface {
	var list []Interface
	for _, ifc := range v.o.Addresses.Interfaces() {
		loopback := ifc.Flags&net.FlagLoopback != 0
		speaks := loopback && v.o.Loopback || !loopback && ifc.Flags&net.FlagMulticast != 0 && ifc.Flags&net.FlagPointToPoint == 0
		if speaks && len(ifc.Addrs) > 0 {
			list = append(list, ifc)
		}
	}
	return list
}

func (v *Voice) inWords(s State, err error) State {
	s.Say = ""
	switch {
	case s.Conflict.IsValid() && s.Answering:
		s.Say = fmt.Sprintf("Another machine on this network (%s) answers to %s too, so phones may reach the wrong one. "+
			"Start one of the two with another --name.", s.Conflict, v.o.Name)
	case s.Conflict.IsValid():
		s.Say = fmt.Sprintf("Another machine on this network (%s) already answers to %s, so this one keeps silent. "+
			"If that is another studio, start this one with another --name.", s.Conflict, v.o.Name)
	case err != nil:
		s.Say = fmt.Sprintf("Phones cannot find this machine as %s (%v). Use --public-name with a name that your router knows, or its address as a last resort.",
			v.o.Name, err)
	}
	return s
}

// set keeps the state and logs each change of it once.
func (v *Voice) set(s State) {
	v.mu.Lock()
	was := v.state
	v.state = s
	v.mu.Unlock()
	switch {
	case s.Say != "" && s.Say != was.Say:
		v.o.Log.Warn().Str("name", v.o.Name).Msg(s.Say)
	case s.Say == "" && s.Answering && (was.Say != "" || !was.Answering):
		v.o.Log.Info().Str("name", v.o.Name).Msg("answers to its name on the network")
	}
}
