package pair

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"sinkside/server/answer"
)

func TestCommandAsksTheRunningServer(t *testing.T) {
	dir := t.TempDir()
	if _, err := ReadCommand(dir); !errors.Is(err, ErrNoServer) {
		t.Errorf("before: ReadCommand = %v, want ErrNoServer", err)
	}
	made, err := WriteCommand(dir, "")
	if err != nil {
		t.Fatal(err)
	}
	s := open(t, func(c *Config) { c.CommandToken = made.Token })
	if made, err = WriteCommand(dir, "http://"+s.http); err != nil { // the port is known only now
		t.Fatal(err)
	}
	if info, err := os.Stat(filepath.Join(dir, commandFile)); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode = %v, %v, want 0600", info.Mode().Perm(), err)
	}
	c, err := ReadCommand(dir)
	if err != nil || c.URL != "http://"+s.http {
		t.Fatalf("ReadCommand = %+v, %v", c, err)
	}
	// The token is of another server than the one that listens there now.
	if err := c.Do(t.Context(), "GET", "/api/devices", nil, nil); !errors.Is(err, ErrNoServer) {
		t.Errorf("with another token: %v, want ErrNoServer", err)
	}
	if err := made.Remove(); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadCommand(dir); !errors.Is(err, ErrNoServer) {
		t.Errorf("after Remove: ReadCommand = %v, want ErrNoServer", err)
	}
	if err := made.Remove(); err != nil {
		t.Errorf("second Remove = %v", err)
	}
}

// A server that was killed leaves its file, and another program may have its
// port since: what that says is no answer.
func TestCommandTakesAnotherProgramForNoServer(t *testing.T) {
	for name, status := range map[string]int{"a page": 200, "no such page": 404, "a fault": 500} {
		other := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
			w.WriteHeader(status)
			fmt.Fprint(w, "<!doctype html><title>Tea room</title>")
		}))
		c := &Command{URL: other.URL, Token: "left behind"}
		if err := c.Do(t.Context(), "POST", "/api/devices/01JQ6ZV3W8M0XK5T7N4R2B9CDE/revoke", nil, nil); !errors.Is(err, ErrNoServer) {
			t.Errorf("%s: %v, want ErrNoServer", name, err)
		}
		other.Close()
	}
}

func TestCommandPairsAndRevokes(t *testing.T) {
	token := "command-token-of-this-test"
	s := open(t, func(c *Config) { c.CommandToken = token })
	c := &Command{URL: "http://" + s.http, Token: token}
	var made struct{ Code string }
	if err := c.Do(t.Context(), "POST", "/api/pair/new", nil, &made); err != nil {
		t.Fatal(err)
	}
	b := s.phone()
	if got := b.post("/api/pair", `{"code":"`+made.Code+`","label":"Runa's phone"}`); got.status != 200 {
		t.Fatalf("pair = %d %s", got.status, got.body)
	}
	id := s.devices.List()[0].ID.String()
	if err := c.Do(t.Context(), "POST", "/api/devices/"+id+"/revoke", struct{}{}, nil); err != nil {
		t.Fatal(err)
	}
	want(t, "revoked by the command", b.get("/api/secret"), 401, "revoked")

	// A command is no device: it has no id under which entries could be written.
	var refusal *answer.Refusal
	for _, row := range [][2]string{{"GET", "/api/me"}, {"POST", "/api/successor"}} {
		if err := c.Do(t.Context(), row[0], row[1], nil, nil); !errors.As(err, &refusal) || refusal.Code != "device-only" {
			t.Errorf("%s %s = %v, want device-only", row[0], row[1], err)
		}
	}
	socket := s.local()
	socket.header.Set("Authorization", "Bearer "+token)
	socket.header.Set("Upgrade", "websocket")
	socket.header.Set("Connection", "Upgrade")
	want(t, "a websocket", socket.get("/api/secret"), 403, "device-only")
}

func TestCommandTokenCountsOnThisMachineOnly(t *testing.T) {
	token := "command-token-of-this-test"
	s := open(t, func(c *Config) { behindProxy(c); c.CommandToken = token })
	b := s.proxied()
	b.header.Set("Authorization", "Bearer "+token)
	want(t, "through a proxy", b.get("/api/secret"), 401, "unpaired")

	none := open(t, nil)
	local := none.local()
	local.header.Set("Authorization", "Bearer ")
	want(t, "an empty token where there is none", local.get("/api/secret"), 401, "unpaired")
}

func TestCommandWithoutAServer(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	c := &Command{URL: "http://" + listener.Addr().String()}
	if err := listener.Close(); err != nil { // as a server that was killed leaves it
		t.Fatal(err)
	}
	if err := c.Do(t.Context(), "GET", "/api/devices", nil, nil); !errors.Is(err, ErrNoServer) {
		t.Errorf("Do = %v, want ErrNoServer", err)
	}
}
