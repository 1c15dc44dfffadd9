package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"strings"

	"sinkside/server/pair"
	"sinkside/server/pair/announce"
	"sinkside/server/pair/authority"
	"sinkside/server/pair/trust"
	"sinkside/store"
)

// identity is what this machine shows to phones: its certificate, and where it comes from.
type identity struct {
	authority *authority.Authority // nil with certificate files of one's own, or none
	files     *authority.Files     // nil without such files
	conf      *tls.Config          // nil when nothing here speaks https
}

// openDoors finds out who this machine is for phones and takes its ports.
func (h *house) openDoors(ctx context.Context) (err error) {
	h.addrs = announce.NewAddresses(announce.AddressOptions{Extra: h.plan.advertised})
	if err := h.openIdentity(); err != nil {
		return err
	}
	for _, d := range []struct {
		at         **door
		addr, flag string
	}{
		{&h.local, h.plan.Listen, "--listen"},
		{&h.tls, h.plan.TLSListen, "--tls-listen"},
		{&h.trust, h.plan.TrustListen, "--trust-listen"},
	} {
		if d.addr == off {
			continue
		}
		if *d.at, err = openDoor(ctx, d.addr, d.flag); err != nil {
			return err
		}
	}
	return h.openVoice()
}

func (h *house) openIdentity() error {
	p := h.plan
	switch {
	case p.TLSListen == off:
		return nil
	case p.ownFiles:
		files, err := authority.OpenFiles(p.TLSCert, p.TLSKey)
		if err != nil {
			return &failure{fmt.Sprintf("cannot use your certificate: %v", err), err}
		}
		h.who = identity{files: files, conf: files.TLS()}
		h.warnUncovered(files)
		return nil
	}
	open := authority.Open
	if p.NewAuthority {
		open = authority.Replace
	}
	ca, err := open(authority.Options{Dir: p.Data, Name: p.Name, PublicName: p.PublicName, Studio: p.Studio})
	if err != nil {
		return &failure{err.Error(), err}
	}
	if ca.Made() {
		h.log.Info().Msg("made a certificate authority; no phone trusts it yet")
	}
	h.who = identity{authority: ca, conf: ca.Leaf(h.addrs.Current).TLS()}
	return nil
}

// warnUncovered says so when phones would come under a name that the certificate does not have.
func (h *house) warnUncovered(files *authority.Files) {
	name := pick(h.plan.PublicName != "", h.plan.PublicName, h.stableName())
	if err := files.Covers(name); err != nil {
		h.log.Warn().Err(err).Msg("phones will refuse your certificate under the name that they are given; --public-name says another")
	}
}

// stableName is NAME.local; the plan has brought --name into that form.
func (h *house) stableName() string { return h.plan.Name }

// openVoice announces the name on the network, where phones use it.
func (h *house) openVoice() (err error) {
	if h.plan.NoMDNS || h.plan.TLSListen == off {
		return nil
	}
	h.voice, err = announce.Start(announce.Options{Name: h.stableName(), Addresses: h.addrs, Log: h.log})
	if err != nil {
		return &failure{err.Error(), err}
	}
	return nil
}

// where describes how this machine is found.
func (h *house) where() pair.Site {
	here := h.local.addrHere()
	site := pair.Site{Name: h.stableName(), PublicName: h.plan.PublicName, LocalPort: int(here.Port()), Addresses: h.addrs.Current}
	if here.Addr().IsLoopback() {
		site.LocalHost = here.Addr().String()
	}
	site.TLSPort = 443 // of the proxy in front
	if h.tls != nil {
		site.TLSPort = h.tls.port()
	}
	if h.trust != nil {
		site.TrustPort = h.trust.port()
	}
	if h.who.authority != nil {
		site.Fingerprint = h.who.authority.Fingerprint().String()
	}
	site.Problem = h.problem
	return site
}

// problem says why phones may not get here, as far as this machine can tell.
func (h *house) problem() string {
	switch {
	case h.who.files != nil && h.who.files.Problem() != nil:
		return fmt.Sprintf("Your certificate files cannot be used as they are now, so the earlier certificate goes on until it ends (%v).", h.who.files.Problem())
	case h.voice != nil:
		return h.voice.State().Say
	case h.plan.PublicName == "":
		return "This machine does not announce " + h.stableName() + " on the network, so phones find it only if something else there does. " +
			"Give them a name that they find with --public-name."
	}
	return ""
}

// openUp begins to answer at all doors.
func (h *house) openUp(failed chan<- error) error {
	app := h.web.Handler()
	h.local.serve(app, nil, h.log, failed)
	if h.tls != nil {
		h.tls.serve(app, h.who.conf, h.log, failed)
	}
	if h.trust == nil {
		return nil
	}
	page, err := trust.New(trust.Options{Authority: h.who.authority, Studio: h.plan.Studio, AppURL: h.site.Place().TLSURL})
	if err != nil {
		return err
	}
	h.trust.serve(page, nil, h.log, failed)
	return nil
}

// greet prints what a person does next: one link for this machine's own browser and one for the
// first phone. It goes to standard output and never to the log.
func (h *house) greet(out io.Writer) error {
	local, err := h.desk.devices.NewCode()
	if errors.Is(err, store.ErrFull) {
		return h.greetFull(out, err)
	}
	if err != nil {
		return err
	}
	phone, err := h.desk.devices.NewCode()
	if err != nil {
		return err
	}
	place := h.site.Place()
	link := h.site.PairURL(phone.Text)
	var b strings.Builder
	fmt.Fprintf(&b, "\nSinkside is ready. Each link pairs one device, once, until %s.\n\n", phone.Expires.Format("15:04"))
	fmt.Fprintf(&b, "This machine's browser:  %s\n", h.site.LocalPairURL(local.Text))
	fmt.Fprintf(&b, "Phones:                  %s\n", link)
	if place.TrustURL != "" {
		fmt.Fprintf(&b, "A new phone first:       %s   leads it through trusting this machine\n", place.TrustURL)
		fmt.Fprintf(&b, "Compare there:           %s\n", strings.Join(h.who.authority.Fingerprint().Rows(), "\n                         "))
	}
	if place.Problem != "" {
		fmt.Fprintf(&b, "Mind:                    %s\n", place.Problem)
	}
	if place.Fallback != nil {
		fmt.Fprintf(&b, "If the name is not found: %s   %s\n", place.Fallback.TLSURL, place.Fallback.Say)
	}
	printQR(&b, link, isTerminal(out))
	fmt.Fprintf(&b, "\nMore links: sinkside pair --data %s      Stop: ctrl-C\n\n", h.plan.Data)
	_, err = io.WriteString(out, b.String())
	return err
}

// greetFull greets on a full disk: what is recorded can be read, nothing new is kept, and no code that
// could not be kept is told.
func (h *house) greetFull(out io.Writer, cause error) error {
	h.log.Warn().Err(cause).Msg("no link is printed, since no pairing code can be kept")
	_, err := fmt.Fprintf(out, "\nThe disk that holds %s is full. Sinkside shows what is recorded; devices keep what is new until there is room.\nMake room, then: sinkside pair --data %s\n\n",
		h.plan.Data, h.plan.Data)
	return err
}
