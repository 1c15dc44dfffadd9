package web

import "net/http"

// contentPolicy is the Content-Security-Policy of every page. host is the host and port that the
// request named: old WebKit does not count ws: and wss: to the same host as 'self'.
//
// Nothing is loaded from elsewhere and nothing inline is run. The core is WebAssembly, hence
// 'wasm-unsafe-eval'. media-src is for the silent clip that keeps an old iPhone's screen on.
func contentPolicy(host string, secure bool) string {
	socket := "ws://" + host
	if secure {
		socket = "wss://" + host
	}
	return "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; font-src 'self'; " +
		"img-src 'self' blob: data:; media-src 'self' blob: data:; connect-src 'self' " + socket + "; " +
		"manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
}

// safeHeaders sets what every answer carries.
func safeHeaders(h http.Header, host string, secure bool) {
	h.Set("Content-Security-Policy", contentPolicy(host, secure))
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(self), microphone=(), geolocation=(), payment=(), usb=()")
}
