package web

import (
	"net/http"
	"strings"

	"sinkside/server/pair"
)

// contentPolicy is the Content-Security-Policy of every page. Nothing is loaded from elsewhere and
// nothing inline is run. The core is WebAssembly, hence 'wasm-unsafe-eval'; media-src is for the
// silent clip that keeps an old iPhone's screen on. socket is an origin such as wss://name:port,
// since old WebKit does not count a websocket to the page's own host as 'self'.
func contentPolicy(socket string) string {
	return "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; font-src 'self'; " +
		"img-src 'self' blob: data:; media-src 'self' blob: data:; connect-src " + strings.TrimSpace("'self' "+socket) + "; " +
		"manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
}

// headers sets what every answer carries, refusals too.
func headers(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", contentPolicy(""))
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(self), microphone=(), geolocation=(), payment=(), usb=()")
		next.ServeHTTP(w, r)
	})
}

// socketPolicy names the websocket's own origin, which is known once the guard has found the
// request's address to be one of ours.
func socketPolicy(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if rest, ok := strings.CutPrefix(pair.Origin(r.Context()), "http"); ok {
			w.Header().Set("Content-Security-Policy", contentPolicy("ws"+rest))
		}
		next.ServeHTTP(w, r)
	})
}
