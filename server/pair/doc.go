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
//	reg, err := device.Open(store, device.Options{})             // store: Get, Put, Delete, Each
//	addrs := announce.NewAddresses(announce.AddressOptions{})    // extra addresses for containers: Extra
//	ca, err := authority.Open(authority.Options{Dir: dir, Name: "sinkside", PublicName: publicName, Studio: studio})
//	leaf := ca.Leaf(addrs.Current)                               // or authority.OpenFiles(certFile, keyFile)
//	tlsConfig := leaf.TLS()                                      // *tls.Config with GetCertificate, TLS 1.2 and later
//
//	site := pair.Site{Name: ca.HostName(), PublicName: publicName, TLSPort: 8743, LocalPort: 8780, TrustPort: 8781,
//		Addresses: addrs.Current, Fingerprint: ca.Fingerprint().String()}
//	gate, err := pair.New(pair.Config{Studio: studio, Devices: reg, Site: site, Proxy: proxy, CommandToken: token, Log: log})
//
//	gate.Mount(mux)                  // the routes named below
//	handler := gate.Guard(mux)       // outermost on both app listeners; sets nothing but its own refusals
//
//	page, err := trust.New(trust.Options{Root: ca.Root(), Studio: studio, AppURL: func() string { return site.Place().TLSURL }})
//	http.Serve(trustListener, page)  // plain HTTP; no gate, no cookie, no code
//
//	voice, err := announce.Start(ctx, announce.Options{Name: ca.HostName(), Addresses: addrs, Log: log})
//	defer voice.Close()              // voice.Conflict() is a sentence when another machine answers to the name
//
// Behind Guard a handler asks who is there, and its context ends when the
// device is revoked, so a websocket needs no list of its own:
//
//	who, ok := pair.From(r.Context())       // who.ID is a journal.ID, who.Label its name; ok is false on open routes
//	hub.Serve(r.Context(), conn, who.ID)
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
//	403 origin         another site's page asks
//	403 plain_http     plain HTTP under a name other than localhost
//	421 host           a Host that is not this machine's (DNS rebinding)
//	400 code           the pairing code is wrong, used or has run out
//	429 slow_down      too many tries; Retry-After says when
//	413 too_large      a body over 4 KiB
//	400 request        not the JSON that was expected
//
// # For commands on the same machine
//
// The running server writes a command file into the data folder (mode 0600):
//
//	cmd, err := pair.WriteCommand(dir, "http://127.0.0.1:8780")  // at start; cmd.Token goes into Config; cmd.Remove() at the end
//	cmd, err := pair.ReadCommand(dir)                             // in a command; pair.ErrNoServer when none runs
//	res, err := cmd.Do(ctx, "POST", "/api/pair/new", nil, &out)
//
// With no server running a command opens the store and calls device.Register itself.
package pair
