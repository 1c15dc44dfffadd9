package main

import (
	"context"
	"errors"
	"fmt"
	"text/tabwriter"
	"time"

	"sinkside/server/pair/device"
	"sinkside/sync/journal"
)

type devicesCmd struct {
	List   devicesListCmd   `cmd:"" help:"List the devices that were paired, ended pairings too."`
	Revoke devicesRevokeCmd `cmd:"" help:"End one device's pairing. What it has not sent can still be saved to a file there and imported."`
}

type devicesListCmd struct {
	dataFlag
	JSON bool `help:"Print them as JSON."`
}

// deviceRow is one device, as the server also tells it.
type deviceRow struct {
	ID        string `json:"id"`
	Label     string `json:"label"`
	CreatedMS int64  `json:"created_ms"`
	SeenMS    int64  `json:"seen_ms"`
	RevokedMS int64  `json:"revoked_ms"`
	Succeeds  string `json:"succeeds,omitempty"`
}

// Run lists the devices, from the running server or from the store.
func (c devicesListCmd) Run(ctx context.Context, std streams) error {
	var answer struct {
		Devices []deviceRow `json:"devices"`
	}
	found, err := c.ask(ctx, "GET", "/api/devices", nil, &answer)
	if err != nil {
		return err
	}
	if !found {
		if answer.Devices, err = c.fromStore(); err != nil {
			return err
		}
	}
	if c.JSON {
		return printValue(std.out, answer)
	}
	if len(answer.Devices) == 0 {
		fmt.Fprintln(std.out, "No device is paired yet. sinkside pair prints a link for one.")
		return nil
	}
	w := tabwriter.NewWriter(std.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "ID\tNAME\tPAIRED\tLAST SEEN\tSTATE")
	for _, d := range answer.Devices {
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", d.ID, d.Label, day(d.CreatedMS), day(d.SeenMS), d.state())
	}
	return w.Flush()
}

func (c devicesListCmd) fromStore() ([]deviceRow, error) {
	d, err := findDesk(c.Data)
	if err != nil {
		return nil, err
	}
	all := []deviceRow{}
	for _, dev := range d.devices.List() {
		l := deviceRow{ID: dev.ID.String(), Label: dev.Label, CreatedMS: millis(dev.Created), SeenMS: millis(dev.Seen), RevokedMS: millis(dev.Revoked)}
		if dev.Succeeds != (journal.ID{}) {
			l.Succeeds = dev.Succeeds.String()
		}
		all = append(all, l)
	}
	return all, d.close()
}

func (l deviceRow) state() string {
	if l.RevokedMS != 0 {
		return "ended " + day(l.RevokedMS)
	}
	if l.Succeeds != "" {
		return "paired, a second id of " + l.Succeeds
	}
	return "paired"
}

func millis(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

func day(ms int64) string {
	if ms == 0 {
		return "never"
	}
	return time.UnixMilli(ms).Format("2006-01-02 15:04")
}

type devicesRevokeCmd struct {
	dataFlag
	ID string `arg:"" help:"The device's id, as devices list shows it."`
}

// Run ends a device's pairing, at once when a server runs.
func (c devicesRevokeCmd) Run(ctx context.Context, std streams) error {
	id, err := journal.ParseID(c.ID)
	if err != nil {
		return usagef("%q is no device id; sinkside devices list shows them", c.ID)
	}
	found, err := c.ask(ctx, "POST", "/api/devices/"+id.String()+"/revoke", nil, nil)
	if err == nil && !found {
		err = c.inStore(id)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(std.out, "The pairing of %s has ended.\n", id)
	return nil
}

func (c devicesRevokeCmd) inStore(id journal.ID) error {
	d, err := findDesk(c.Data)
	if err != nil {
		return err
	}
	_, err = d.devices.Revoke(id)
	err = firstOf(err, d.close())
	if errors.Is(err, device.ErrNoDevice) {
		return &failure{fmt.Sprintf("no device %s was ever paired here; sinkside devices list shows those that were.", id), err}
	}
	return err
}
