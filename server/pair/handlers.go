package pair

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"

	"sinkside/server/answer"
	"sinkside/server/pair/device"
	"sinkside/server/pair/qrcode"
	"sinkside/sync/journal"
	"sinkside/sync/jsontext"
)

// maxBody is the size of the largest request here, in bytes.
const maxBody = 4 << 10

// Mount adds the routes of this package to a mux that stands behind Guard.
func (g *Gate) Mount(mux *http.ServeMux) {
	mux.Handle("GET /api/me", g.Me())
	mux.Handle("POST /api/pair", g.Pair())
	mux.Handle("POST /api/pair/new", g.PairNew())
	mux.Handle("GET /api/place", g.PlaceHandler())
	mux.Handle("GET /api/devices", g.ListDevices())
	mux.Handle("POST /api/devices/{id}/revoke", g.Revoke())
	mux.Handle("POST /api/successor", g.Successor())
}

// answering makes a handler of a function that returns what to answer.
func (g *Gate) answering(f func(w http.ResponseWriter, r *http.Request) (any, error)) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		said, err := f(w, r)
		if err != nil {
			g.refuse(w, r, refusalOf(err))
			return
		}
		answer.JSON(w, http.StatusOK, said)
	})
}

// readJSON reads one JSON value and nothing behind it. A member that is there twice is refused: two
// readers could take two codes from it.
func readJSON(w http.ResponseWriter, r *http.Request, into any) error {
	text, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxBody))
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return err
	}
	if err != nil || jsontext.Valid(text) != nil || json.Unmarshal(text, into) != nil {
		return answer.BadJSON
	}
	return nil
}

type identity struct {
	Device string `json:"device"`
	Name   string `json:"name"`
	Studio string `json:"studio"`
}

// Me tells a device who it is, and begins its cookie's life anew.
func (g *Gate) Me() http.Handler {
	return g.answering(func(w http.ResponseWriter, r *http.Request) (any, error) {
		d, ok := From(r.Context())
		if !ok {
			return nil, deviceOnly
		}
		if v := visitOf(r.Context()); v.cookie != "" {
			setCookie(w, v.seen, v.cookie)
		}
		return identity{d.ID.String(), d.Label, g.studio}, nil
	})
}

// Pair takes a code and lets a new device in.
func (g *Gate) Pair() http.Handler {
	return g.answering(func(w http.ResponseWriter, r *http.Request) (any, error) {
		var in struct{ Code, Label string }
		if err := readJSON(w, r, &in); err != nil {
			return nil, err
		}
		v := visitOf(r.Context())
		d, token, err := g.devices.Pair(in.Code, in.Label, v.seen.from.String())
		if err != nil {
			g.logTry(err)
			return nil, err
		}
		g.log.Info().Stringer("device", d.ID).Msg("device paired")
		setCookie(w, v.seen, token)
		return identity{d.ID.String(), d.Label, g.studio}, nil
	})
}

// logTry leaves out the code that was tried, which may be a right one mistyped.
func (g *Gate) logTry(err error) {
	var slow *device.SlowDown
	switch {
	case errors.As(err, &slow):
		g.log.Warn().Dur("wait", slow.Wait).Msg("too many wrong pairing codes")
	case errors.Is(err, device.ErrCode):
		g.log.Info().Msg("wrong pairing code")
	}
}

// PairNew makes a code for one more device.
func (g *Gate) PairNew() http.Handler {
	return g.answering(func(http.ResponseWriter, *http.Request) (any, error) {
		code, err := g.devices.NewCode()
		if err != nil {
			return nil, err
		}
		url := g.site.PairURL(code.Text)
		drawing, err := qrcode.SVG(url, "QR code of the link that pairs one device")
		if err != nil {
			return nil, err
		}
		return struct {
			Code    string `json:"code"`
			Expires int64  `json:"expires_ms"`
			URL     string `json:"url"`
			QR      string `json:"qr_svg"`
			Local   string `json:"local_url"`
		}{code.Text, code.Expires.UnixMilli(), url, drawing, g.site.LocalPairURL(code.Text)}, nil
	})
}

// PlaceHandler tells where phones find this machine.
func (g *Gate) PlaceHandler() http.Handler {
	return g.answering(func(http.ResponseWriter, *http.Request) (any, error) {
		place := g.site.Place()
		if place.TrustURL == "" {
			return place, nil
		}
		drawing, err := qrcode.SVG(place.TrustURL, "QR code of the page that leads a phone through trusting this machine")
		place.TrustQR = drawing
		return place, err
	})
}

// ListDevices lists the register, revoked devices too.
func (g *Gate) ListDevices() http.Handler {
	type row struct {
		ID       string `json:"id"`
		Label    string `json:"label"`
		Created  int64  `json:"created_ms"`
		Seen     int64  `json:"seen_ms"`
		Revoked  int64  `json:"revoked_ms"` // 0: may come in
		Succeeds string `json:"succeeds"`   // the device that it goes on for; empty: none
		This     bool   `json:"this"`       // the one that asks
	}
	return g.answering(func(_ http.ResponseWriter, r *http.Request) (any, error) {
		me, _ := From(r.Context())
		list := []row{}
		for _, d := range g.devices.List() {
			one := row{ID: d.ID.String(), Label: d.Label, Created: d.Created.UnixMilli(), Seen: d.Seen.UnixMilli(), This: d.ID == me.ID}
			if d.IsRevoked() {
				one.Revoked = d.Revoked.UnixMilli()
			}
			if d.Succeeds != (journal.ID{}) {
				one.Succeeds = d.Succeeds.String()
			}
			list = append(list, one)
		}
		return struct {
			Devices []row `json:"devices"`
		}{list}, nil
	})
}

// Revoke shuts a device out and ends what it is doing. A device may revoke itself.
func (g *Gate) Revoke() http.Handler {
	return g.answering(func(_ http.ResponseWriter, r *http.Request) (any, error) {
		id, err := journal.ParseID(r.PathValue("id"))
		if err != nil {
			return nil, noDevice
		}
		d, err := g.devices.Revoke(id)
		if err != nil {
			return nil, err
		}
		g.log.Info().Stringer("device", id).Msg("device revoked")
		return struct {
			ID      string `json:"id"`
			Revoked int64  `json:"revoked_ms"`
		}{id.String(), d.Revoked.UnixMilli()}, nil
	})
}

// Successor gives a device whose chain was found forked a new id, once a nonce.
func (g *Gate) Successor() http.Handler {
	return g.answering(func(w http.ResponseWriter, r *http.Request) (any, error) {
		old, ok := From(r.Context())
		if !ok {
			return nil, deviceOnly
		}
		var in struct{ Nonce string }
		if err := readJSON(w, r, &in); err != nil {
			return nil, err
		}
		next, token, err := g.devices.Successor(old.ID, in.Nonce)
		if err != nil {
			return nil, err
		}
		g.log.Info().Stringer("device", old.ID).Stringer("successor", next.ID).Msg("device goes on under a new id")
		setCookie(w, visitOf(r.Context()).seen, token)
		return identity{next.ID.String(), next.Label, g.studio}, nil
	})
}
