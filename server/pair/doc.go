// Package pair decides who may talk to the studio machine, and from where.
//
// It is the door of the server: a gate in front of every route, the handlers
// by which a phone is paired, listed and revoked, and the description of the
// place where phones find this machine. Its neighbours below do one thing each:
//
//	authority   the local certificate authority, its short leaves, own certificate files
//	device      the register of devices: pairing codes, tokens, revocation, successors
//	announce    the stable name by multicast DNS; this machine's addresses
//	trust       the plain-HTTP page with the root certificate and the steps to trust it
//	qrcode      QR codes for the terminal and for pages
//
// # How a server uses it
//
//	reg, err := device.Open(store, device.Options{})   // store: Get, Put, Delete, Each
//	go reg.Run(ctx)                                    // keeps when devices were last seen; ends with ctx, before the store closes
//	addrs := announce.NewAddresses(announce.AddressOptions{Extra: extra}) // Extra: the host's addresses around a container
//
//	ca, err := authority.Open(authority.Options{Dir: dir, Name: "sinkside", PublicName: publicName, Studio: studio})
//	ca, err = authority.Replace(...)                   // --new-authority; ca.Made() says that phones must trust it (again)
//	leaf := ca.Leaf(addrs.Current)                     // or files, err := authority.OpenFiles(certFile, keyFile)
//	tlsConfig := leaf.TLS()                            // its Certificates must stay empty: crypto/tls prefers those for clients by address
//	host, public, err := authority.Names(name, publicName) // the names in their plain form, with or without an authority
//
//	voice, err := announce.Start(announce.Options{Name: host, Addresses: addrs, Log: log})
//	defer voice.Close()
//
//	site := pair.Site{Name: host, PublicName: public, TLSPort: 8743, LocalPort: 8780, TrustPort: 8781, Addresses: addrs.Current,
//		Fingerprint: ca.Fingerprint().String(), Problem: func() string { return voice.State().Say }}
//	gate, err := pair.New(pair.Config{Studio: studio, Devices: reg, Site: site, Proxy: proxy, CommandToken: cmd.Token, Log: log})
//	gate.Mount(mux)                                    // the routes named below
//	handler := gate.Guard(mux)                         // outermost on both app listeners
//
//	page, err := trust.New(trust.Options{Authority: ca, Studio: studio, AppURL: site.Place().TLSURL})
//	http.Serve(trustListener, page)                    // plain HTTP: no gate, no cookie, no code
//
//	code, err := reg.NewCode()                         // for the links that are printed at the start
//	fmt.Println(site.LocalPairURL(code.Text)); qrcode.Terminal(site.PairURL(code.Text), isTerminal)
//
// With certificate files or behind a proxy there is no authority: Fingerprint
// is empty and TrustPort 0. Behind a proxy, TLSPort is the proxy's (443) and
// proxy is pair.Proxy{Behind: true, Trusted: prefixes} with pair.ParseTrusted.
//
// Behind Guard a handler asks who is there, and its context ends when the
// device is revoked (cause device.ErrRevoked), so a websocket needs no list of
// its own:
//
//	who, ok := pair.From(r.Context())   // device.Device: ID is a journal.ID; ok is false on open routes and for commands
//	hub.Serve(r.Context(), conn, who.ID)
//	pair.Origin(r.Context())            // "https://marram.local:8743", as the browser sees it
//
// # Routes that Mount adds
//
//	GET  /api/me                    {"device","name","studio"}
//	POST /api/pair                  {"code","label"} -> {"device","name","studio"} and a cookie
//	POST /api/pair/new              {"code","expires_ms","url","qr_svg","local_url"}
//	GET  /api/place                 Place as JSON
//	GET  /api/devices               {"devices":[{"id","label","created_ms","seen_ms","revoked_ms","succeeds","this"}]}
//	POST /api/devices/{id}/revoke   {"id","revoked_ms"}
//	POST /api/successor             {"nonce"} -> {"device","name"} and a cookie; the same answer for the same nonce
//
// Each is also a method (gate.Me, gate.Pair, gate.PairNew, gate.PlaceHandler,
// gate.ListDevices, gate.Revoke, gate.Successor) returning an http.Handler.
//
// # Who gets in
//
// Everything below /api/ wants a paired device, from localhost too; the one
// exception is POST /api/pair. What is not below /api/ (the app's own files,
// /healthz) is open, so anything worth guarding belongs below /api/.
//
// A device shows its token in a cookie (__Host-sinkside over TLS,
// sinkside-local on loopback HTTP) or, from a command or a Go client, as
// "Authorization: Bearer TOKEN". The cookie's value is that same token.
//
// Every refusal is {"code","say"}: a name for machines, a sentence for people.
//
//	401 unpaired       no token, or one that is not ours
//	401 revoked        a token of a revoked device
//	421 wrong-host     a Host that is not this machine's (DNS rebinding)
//	403 wrong-origin   another site's page asks
//	403 plain-http     plain HTTP under a name other than localhost
//	403 device-only    a command asks what only a device can do
//	400 wrong-code     the pairing code is wrong, used or has run out
//	429 slow-down      too many wrong codes; Retry-After says when
//	413 too-large      a body over 4 KiB
//	400 bad-json       not the JSON that was expected
//	400 bad-nonce      a successor's nonce of fewer than 16 or more than 128 characters
//	403 too-many       more successors than any honest device needs
//	404 no-such-device nobody of this id
//	507 disk-full      the store cannot keep it
//	500 failed         the log says why
//
// # For commands on the same machine
//
// The running server writes a command file into the data folder (mode 0600):
//
//	cmd, err := pair.WriteCommand(dir, "http://127.0.0.1:8780")  // at start; cmd.Token goes into Config; cmd.Remove() at the end
//	cmd, err := pair.ReadCommand(dir)                             // in a command; pair.ErrNoServer when none runs
//	err = cmd.Do(ctx, "POST", "/api/pair/new", nil, &out)        // *answer.Refusal when it says no
//
// With no server running a command opens the store and calls device.Register itself.
package pair
