package pair

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"syscall"

	"sinkside/server/answer"
)

// commandFile is in the data folder while a server runs. Who can read it can
// read the store as well, so it opens no door that was shut.
const commandFile = "command.json"

// ErrNoServer says that no server runs on this data folder, so a command may
// open the store itself.
var ErrNoServer = errors.New("no server is running")

// A Command is the way for commands on the same machine to ask the running server.
type Command struct {
	URL   string `json:"url"` // of the loopback listener
	Token string `json:"token"`
	path  string
}

// WriteCommand makes a token that lasts until the server ends.
func WriteCommand(dir, url string) (*Command, error) {
	var secret [32]byte
	if _, err := rand.Read(secret[:]); err != nil {
		return nil, fmt.Errorf("make a token for commands: %w", err)
	}
	c := &Command{URL: url, Token: base64.RawURLEncoding.EncodeToString(secret[:]), path: filepath.Join(dir, commandFile)}
	text, err := json.Marshal(c)
	if err == nil {
		err = c.write(text)
	}
	if err != nil {
		return nil, fmt.Errorf("let commands know where the server is: %w", err)
	}
	return c, nil
}

// write goes by a new file: writing into an old one would keep its mode.
func (c *Command) write(text []byte) error {
	f, err := os.CreateTemp(filepath.Dir(c.path), ".command-*") // mode 0600
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(f.Name(), c.path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

// Remove ends it, when the server does.
func (c *Command) Remove() error {
	if err := os.Remove(c.path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("remove %s: %w", c.path, err)
	}
	return nil
}

// ReadCommand finds the running server's. A server that was killed leaves its
// file behind; Do then returns ErrNoServer.
func ReadCommand(dir string) (*Command, error) {
	path := filepath.Join(dir, commandFile)
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNoServer
	}
	if err != nil {
		return nil, fmt.Errorf("find the running server: %w", err)
	}
	c := &Command{path: path}
	if err := json.Unmarshal(text, c); err != nil {
		return nil, fmt.Errorf("find the running server: %s: %w", path, err)
	}
	return c, nil
}

// Do asks the server. in and out are JSON; each may be nil. The error is a
// *answer.Refusal when the server said no, and ErrNoServer when none is there:
// also when another program has its port by now, or the server of another data
// folder, which does not know the token.
func (c *Command) Do(ctx context.Context, method, path string, in, out any) error {
	var body io.Reader
	if in != nil {
		text, err := json.Marshal(in)
		if err != nil {
			return fmt.Errorf("ask the server: %w", err)
		}
		body = bytes.NewReader(text)
	}
	req, err := http.NewRequestWithContext(ctx, method, c.URL+path, body)
	if err != nil {
		return fmt.Errorf("ask the server: %w", err)
	}
	req.Header.Set("Authorization", "Bearer "+c.Token)
	res, err := http.DefaultClient.Do(req)
	if errors.Is(err, syscall.ECONNREFUSED) {
		return ErrNoServer
	}
	if err != nil {
		return fmt.Errorf("ask the server: %w", err)
	}
	defer res.Body.Close()
	return readAnswer(res, out)
}

func readAnswer(res *http.Response, out any) error {
	text, err := io.ReadAll(io.LimitReader(res.Body, 16<<20))
	if err != nil {
		return fmt.Errorf("read the server's answer: %w", err)
	}
	if res.StatusCode >= 300 {
		refusal := &answer.Refusal{Status: res.StatusCode}
		if json.Unmarshal(text, refusal) != nil || refusal.Say == "" || refusal.Code == unpaired.Code {
			return ErrNoServer
		}
		return refusal
	}
	if !json.Valid(text) {
		return ErrNoServer
	}
	if out == nil {
		return nil
	}
	if err := json.Unmarshal(text, out); err != nil {
		return fmt.Errorf("read the server's answer: %w", err)
	}
	return nil
}
