package pair

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"net/http"
	"path"
	"strings"
	"time"

	"github.com/rs/zerolog"

	"sinkside/server/answer"
	"sinkside/server/pair/device"
	"sinkside/sync/journal"
)

// Config of a Gate. Studio, Devices and Site are needed.
type Config struct {
	Studio       string // the studio's name, shown to a device that was paired
	Devices      *device.Register
	Site         Site
	Proxy        Proxy
	CommandToken string // lets commands on this machine in; empty: none
	Log          zerolog.Logger
}

// A Gate stands in front of every route and knows who comes.
type Gate struct {
	studio  string
	devices *device.Register
	site    Site
	proxy   Proxy
	command [sha256.Size]byte
	hasCmd  bool
	log     zerolog.Logger
}

// New checks the configuration.
func New(c Config) (*Gate, error) {
	if c.Devices == nil || c.Site.Addresses == nil || c.Site.Name == "" {
		return nil, errors.New("a gate needs a register of devices and a site with a name and addresses")
	}
	return &Gate{studio: c.Studio, devices: c.Devices, site: c.Site, proxy: c.Proxy, log: c.Log,
		command: sha256.Sum256([]byte(c.CommandToken)), hasCmd: c.CommandToken != ""}, nil
}

// Cookies. __Host- makes browsers insist on Secure, on Path=/ and on no Domain,
// so no other name and no plain connection can set or see it. WebKit drops
// Secure cookies on plain localhost, hence the other.
const (
	secureCookie = "__Host-sinkside"
	localCookie  = "sinkside-local"
	// cookieLife is the longest that browsers allow (400 days); GET /api/me
	// begins it anew.
	cookieLife = 400 * 24 * time.Hour
)

// Guard refuses what must not come in and tells next who comes. Put it
// outermost: next sees a request only when its Host and Origin are right and,
// below /api/, when a paired device sent it.
func (g *Gate) Guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		v := visit{seen: g.proxy.look(r)}
		if f := g.placeAndOrigin(r, v.seen); f != nil {
			g.refuse(w, r, f)
			return
		}
		ctx := r.Context()
		if wantsDevice(r) {
			if err := g.identify(r, &v); err != nil {
				g.refuse(w, r, refusalOf(err))
				return
			}
			if !v.command {
				var stop func()
				ctx, stop = g.devices.Watch(ctx, v.device.ID)
				defer stop()
			}
		}
		next.ServeHTTP(w, r.WithContext(context.WithValue(ctx, visitKey{}, v)))
	})
}

// wantsDevice is the list of what is open, written as what is not: everything
// below /api/ but the one address at which a device gets its token. The path is
// cleaned as the mux would, so that no spelling walks around it.
func wantsDevice(r *http.Request) bool {
	p := path.Clean("/" + r.URL.Path)
	if p != "/api" && !strings.HasPrefix(p, "/api/") {
		return false
	}
	return p != "/api/pair" || r.Method != http.MethodPost
}

// placeAndOrigin checks the address under which the request came, and whose
// page sent it. The health check is excused: whoever watches over a container
// asks by whatever address the container has, and learns nothing but "ok".
func (g *Gate) placeAndOrigin(r *http.Request, s seen) *answer.Refusal {
	name := s.name()
	switch {
	case r.URL.Path == "/healthz" && r.Method == http.MethodGet:
		return nil
	case !g.site.allows(name):
		return wrongHost
	case !s.secure && !isLoopback(name):
		return plainHTTP
	case changes(r) && !g.sameOrigin(r, s):
		if !s.direct {
			return wrongOriginProxied
		}
		return wrongOrigin
	}
	return nil
}

// changes says whether a request may change something, or open a websocket,
// which no same-origin policy holds back.
func changes(r *http.Request) bool {
	return r.Method != http.MethodGet && r.Method != http.MethodHead || r.Header.Get("Upgrade") != ""
}

// sameOrigin wants to see our own origin. Browsers always send one with what
// changes something; a command or a Go client sends none, and then no cookie
// may speak for it.
func (g *Gate) sameOrigin(r *http.Request, s seen) bool {
	origins := r.Header.Values("Origin")
	if len(origins) == 0 {
		site := r.Header.Get("Sec-Fetch-Site")
		return (site == "" || site == "same-origin" || site == "none") && !hasCookie(r)
	}
	return len(origins) == 1 && strings.EqualFold(origins[0], plainOrigin(s))
}

// plainOrigin is the origin as browsers write it, without the scheme's own port.
func plainOrigin(s seen) string {
	port := ":80"
	if s.secure {
		port = ":443"
	}
	return strings.TrimSuffix(s.origin(), port)
}

func hasCookie(r *http.Request) bool {
	for _, name := range []string{secureCookie, localCookie} {
		if _, err := r.Cookie(name); err == nil {
			return true
		}
	}
	return false
}

func isLoopback(name string) bool {
	return name == "localhost" || name == "::1" || strings.HasPrefix(name, "127.")
}

// identify finds who comes by what the request shows. A header goes before a
// cookie: who sends one means it.
func (g *Gate) identify(r *http.Request, v *visit) (err error) {
	token, byHeader := bearer(r)
	if !byHeader {
		cookie, err := r.Cookie(cookieName(v.seen))
		if err != nil {
			return unpaired
		}
		token, v.cookie = cookie.Value, cookie.Value
	}
	if byHeader && g.isCommand(token, v.seen) {
		if r.Header.Get("Upgrade") != "" {
			return deviceOnly
		}
		v.command = true
		return nil
	}
	v.device, err = g.devices.Who(token)
	return err
}

func bearer(r *http.Request) (token string, ok bool) {
	header := r.Header.Get("Authorization")
	if header == "" {
		return "", false
	}
	scheme, token, _ := strings.Cut(header, " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return "", true
	}
	return strings.TrimSpace(token), true
}

// isCommand also wants the connection to come from this machine: the token
// leaves it only when the data folder does.
func (g *Gate) isCommand(token string, s seen) bool {
	sum := sha256.Sum256([]byte(token))
	return g.hasCmd && s.direct && s.from.IsLoopback() && subtle.ConstantTimeCompare(sum[:], g.command[:]) == 1
}

func cookieName(s seen) string {
	if s.secure {
		return secureCookie
	}
	return localCookie
}

func setCookie(w http.ResponseWriter, s seen, token string) {
	http.SetCookie(w, &http.Cookie{Name: cookieName(s), Value: token, Path: "/", MaxAge: int(cookieLife / time.Second),
		Secure: s.secure, HttpOnly: true, SameSite: http.SameSiteStrictMode})
}

// visit is what Guard found out about a request.
type visit struct {
	seen    seen
	device  device.Device
	command bool
	cookie  string // the token, when it came in a cookie
}

type visitKey struct{}

func visitOf(ctx context.Context) visit {
	v, _ := ctx.Value(visitKey{}).(visit)
	return v
}

// From returns the paired device that sent the request. ok is false on routes
// that are open to all, and for commands.
func From(ctx context.Context) (d device.Device, ok bool) {
	v := visitOf(ctx)
	return v.device, v.device.ID != (journal.ID{})
}

// Origin is the server's origin as the browser sees it, whatever proxy stands
// between: "https://marram.local:8743". It is empty outside of Guard.
func Origin(ctx context.Context) string {
	v := visitOf(ctx)
	if v.seen.host == "" {
		return ""
	}
	return plainOrigin(v.seen)
}
