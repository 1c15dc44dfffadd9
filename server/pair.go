package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"sinkside/server/pair/qrcode"
)

type pairCmd struct {
	dataFlag
	JSON bool `help:"Print code, links and expiry as JSON."`
}

// Help is shown below the flags.
func (pairCmd) Help() string {
	return `The link pairs one device, once, within ten minutes. Open it on the phone, or type the code there. On an iPhone trust
this machine and put the app on the home screen first, then type the code into the app that was installed.`
}

// ticket is what a person needs to pair a device.
type ticket struct {
	Code      string `json:"code"`
	ExpiresMS int64  `json:"expires_ms"`
	URL       string `json:"url"`       // for phones
	LocalURL  string `json:"local_url"` // for this machine's own browser
}

// Run asks the running server for a code. With none running the code goes into the store, where
// the next server finds it.
func (c pairCmd) Run(ctx context.Context, std streams) error {
	var t ticket
	found, err := c.ask(ctx, "POST", "/api/pair/new", nil, &t)
	if err != nil {
		return err
	}
	if !found {
		if t, err = c.fromStore(); err != nil {
			return err
		}
	}
	if c.JSON {
		return printValue(std.out, t)
	}
	t.print(std.out, c.Data, isTerminal(std.out))
	return nil
}

// fromStore makes a code without a server: it has no address yet that a link could name.
func (c pairCmd) fromStore() (ticket, error) {
	d, err := openDesk(c.Data, nil)
	if err != nil {
		return ticket{}, err
	}
	code, err := d.devices.NewCode()
	if err := firstOf(err, d.close()); err != nil {
		return ticket{}, &failure{fmt.Sprintf("cannot make a code: %v", err), err}
	}
	return ticket{Code: code.Text, ExpiresMS: code.Expires.UnixMilli()}, nil
}

func (t ticket) print(w io.Writer, data string, colour bool) {
	until := time.UnixMilli(t.ExpiresMS).Format("15:04")
	if t.URL == "" && t.LocalURL == "" {
		fmt.Fprintf(w, "Code: %s   (once, until %s)\nNo server runs on the data folder %s yet: start sinkside serve on it, then type the code into the app.\n", t.Code, until, data)
		return
	}
	if t.URL != "" {
		fmt.Fprintf(w, "Phones:                  %s\n", t.URL)
	}
	if t.LocalURL != "" {
		fmt.Fprintf(w, "This machine's browser:  %s\n", t.LocalURL)
	}
	fmt.Fprintf(w, "Code:                    %s   (once, until %s)\n", t.Code, until)
	if t.URL != "" {
		printQR(w, t.URL, colour)
	}
}

// printQR draws a link for a phone's camera. One that does not fit is left out: the link stands
// above it.
func printQR(w io.Writer, link string, colour bool) {
	if drawn, err := qrcode.Terminal(link, colour); err == nil {
		fmt.Fprintf(w, "\n%s\n", strings.TrimRight(drawn, "\n"))
	}
}
