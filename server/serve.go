package main

import (
	"context"
	"net"
	"net/netip"
	"strings"

	"sinkside/server/pair"
	"sinkside/server/pair/authority"
)

// dataFlag names the folder of everything that a studio machine keeps:
//
//	store/          the log, see package store
//	authority.pem   the certificate authority, see package pair/authority
//	command.json    how commands reach the running server, while one runs
type dataFlag struct {
	Data string `help:"Folder that holds the record, the devices and the certificate authority; \"data\" unless given." default:"data" placeholder:"FOLDER" type:"path"`
}

type serveCmd struct {
	dataFlag
	Listen           string   `help:"Plain http for this machine's own browser, and for a proxy in front." default:"127.0.0.1:8780" placeholder:"ADDRESS:PORT"`
	TLSListen        string   `help:"Https for phones; \"off\" for none. Default :8743, off with --behind-proxy." placeholder:"ADDRESS:PORT"`
	TrustListen      string   `help:"Plain http that leads a phone through trusting this machine; \"off\" for none. Default :8781, off when the certificate is not Sinkside's own." placeholder:"ADDRESS:PORT"`
	Name             string   `help:"The name by which phones find this machine, NAME.local. Change it and every phone must be paired anew." default:"sinkside"`
	PublicName       string   `help:"A further name for phones, such as one in your own domain." placeholder:"HOST"`
	NewAuthority     bool     `help:"Make a new certificate authority in place of the old one, once: every phone must then trust it before it connects again."`
	Studio           string   `help:"What the studio is called, on phones and in its certificate." default:"Sinkside studio"`
	TLSCert          string   `help:"Certificate file of your own, in place of Sinkside's authority." placeholder:"FILE" type:"path"`
	TLSKey           string   `help:"Its key file." placeholder:"FILE" type:"path"`
	BehindProxy      bool     `help:"A proxy in front speaks https with phones under --public-name, and passes Host and X-Forwarded-Proto on."`
	TrustProxy       []string `help:"Address or range of a proxy on another machine; one on this machine is believed anyway." placeholder:"IP"`
	AdvertiseAddress []string `help:"Address by which phones reach this machine where it cannot see that itself, as in a container." placeholder:"IP"`
	NoMDNS           bool     `help:"Do not announce the name on the network." name:"no-mdns"`
	Sample           bool     `help:"Put the invented sample studio into a new store."`
	LogFormat        string   `help:"text, json, or auto: text on a terminal." enum:"auto,text,json" default:"auto"`
	LogLevel         string   `help:"debug also tells of refused requests and of phones that do not trust the certificate." enum:"debug,info,warn,error" default:"info"`
}

// Help is shown below the flags.
func (serveCmd) Help() string {
	return `Phones keep what has not been sent under the address from which they got the app. So give them one that stays:
NAME.local, or --public-name. Stop the server with ctrl-C; it finishes what it is doing.`
}

const off = "off"

// plan is a serveCmd whose flags were checked and completed.
type plan struct {
	serveCmd
	advertised []netip.Addr
	proxy      pair.Proxy
	ownFiles   bool // certificate files of the user's own
}

// check completes the flags and refuses what does not go together.
func (c serveCmd) check() (p plan, err error) {
	p = plan{serveCmd: c, ownFiles: c.TLSCert != ""}
	if (c.TLSCert == "") != (c.TLSKey == "") {
		return p, usagef("--tls-cert and --tls-key go together")
	}
	if c.BehindProxy && c.PublicName == "" {
		return p, usagef("--behind-proxy needs --public-name: the name under which the proxy is reached")
	}
	if len(c.TrustProxy) > 0 && !c.BehindProxy {
		return p, usagef("--trust-proxy goes with --behind-proxy")
	}
	if p.Name, p.PublicName, err = authority.Names(c.Name, c.PublicName); err != nil {
		return p, usageError{err}
	}
	trusted, err := pair.ParseTrusted(c.TrustProxy)
	if err != nil {
		return p, usageError{err}
	}
	p.proxy = pair.Proxy{Behind: c.BehindProxy, Trusted: trusted}
	if p.TLSListen == "" {
		p.TLSListen = pick(c.BehindProxy, off, ":8743")
	}
	if p.TrustListen == "" {
		p.TrustListen = pick(p.ownFiles || p.TLSListen == off, off, ":8781")
	}
	if p.TrustListen != off && (p.ownFiles || p.TLSListen == off) {
		return p, usagef("--trust-listen is for Sinkside's own certificate, which nothing uses here")
	}
	if p.TLSListen == off && !c.BehindProxy {
		return p, usagef("--tls-listen off leaves phones no way in, unless a proxy is in front: --behind-proxy")
	}
	for _, text := range c.AdvertiseAddress {
		addr, err := netip.ParseAddr(strings.TrimSpace(text))
		if err != nil || addr.IsUnspecified() {
			return p, usagef("--advertise-address %s is no IP address such as 192.168.1.20", text)
		}
		p.advertised = append(p.advertised, addr)
	}
	return p, p.checkListen()
}

// checkListen keeps the plain door to this machine, where nobody listens in, unless something
// stands in front of it.
func (p plan) checkListen() error {
	host, _, err := net.SplitHostPort(p.Listen)
	if err != nil {
		return usagef("--listen %s is no address and port such as 127.0.0.1:8780", p.Listen)
	}
	addr, err := netip.ParseAddr(host)
	loopback := host == "localhost" || err == nil && addr.IsLoopback()
	if loopback || p.BehindProxy || len(p.advertised) > 0 {
		return nil
	}
	return usagef("--listen %s would speak plain http with other machines. Phones use --tls-listen; for a proxy in front say --behind-proxy, in a container --advertise-address", p.Listen)
}

func pick[T any](cond bool, yes, no T) T {
	if cond {
		return yes
	}
	return no
}

// Run serves until it is told to stop.
func (c serveCmd) Run(ctx context.Context, std streams) error {
	p, err := c.check()
	if err != nil {
		return err
	}
	keepSmall()
	log := newLog(std.err, c.LogFormat, c.LogLevel)
	h, err := openHouse(ctx, p, log)
	if err != nil {
		return err
	}
	return h.run(ctx, std.out)
}
