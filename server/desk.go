package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"sinkside/server/pair/device"
	"sinkside/store"
)

// desk is an opened data folder: the store and the register of devices. The running server has
// one; a command has one when no server runs.
type desk struct {
	store   *store.Store
	devices *device.Register
}

// findDesk opens a data folder that is there. For a command that asks or takes away: a folder that is
// missing was mostly mistyped, and making it would answer for a studio that does not exist.
func findDesk(dir string) (*desk, error) {
	_, err := os.Stat(filepath.Join(dir, "store"))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &failure{fmt.Sprintf("there is no data folder %s. Give the one that sinkside serve uses with --data.", dir), err}
	}
	return openDesk(dir, nil)
}

// openDesk opens the data folder, making it when it is missing. warn is told of trouble that the
// store has in the background.
func openDesk(dir string, warn func(string)) (*desk, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, &failure{fmt.Sprintf("cannot make the data folder: %v", err), err}
	}
	st, err := store.Open(filepath.Join(dir, "store"), store.Options{Warn: warn})
	switch {
	case errors.Is(err, store.ErrInUse):
		return nil, &failure{fmt.Sprintf("another Sinkside has the data folder %s open. Stop it, or give this one a folder of its own with --data.", dir), err}
	case errors.Is(err, store.ErrNewer):
		return nil, &failure{fmt.Sprintf("a newer version of Sinkside wrote the data folder %s. Start that version, or give this one a folder of its own with --data. (%v)", dir, err), err}
	case err != nil:
		return nil, &failure{fmt.Sprintf("cannot open the store in %s: %v", dir, err), err}
	}
	devices, err := device.Open(st, device.Options{})
	if err != nil {
		return nil, errors.Join(err, st.Close())
	}
	return &desk{st, devices}, nil
}

func (d *desk) close() error { return errors.Join(unlessFull(d.devices.Flush()), d.store.Close()) }

// unlessFull lets a full disk pass where what was to be kept is only when a device was last seen: a
// server that is told to stop has stopped in order all the same.
func unlessFull(err error) error {
	if errors.Is(err, store.ErrFull) {
		return nil
	}
	return err
}
