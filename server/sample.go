package main

import (
	"context"
	"fmt"

	"sinkside/server/web"
)

type sampleCmd struct {
	Add    sampleAddCmd    `cmd:"" help:"Add the invented sample studio: six treatments with a whole wash day, marked as a sample."`
	Remove sampleRemoveCmd `cmd:"" help:"Remove it. Treatments in which a device of yours wrote are kept."`
}

type sampleAddCmd struct{ dataFlag }

// Run adds the sample, through the running server or in the store.
func (c sampleAddCmd) Run(ctx context.Context, std streams) error {
	var added web.Added
	found, err := c.ask(ctx, "POST", "/api/sample/add", nil, &added)
	if err == nil && !found {
		err = inDesk(func() (*desk, error) { return openDesk(c.Data, nil) }, func(s sampling) (err error) {
			added.Treatments, added.Entries, err = s.Add()
			return err
		})
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(std.out, "Added %d sample treatments with %d entries.\n", added.Treatments, added.Entries)
	return nil
}

type sampleRemoveCmd struct{ dataFlag }

// Run removes the sample, through the running server or in the store.
func (c sampleRemoveCmd) Run(ctx context.Context, std streams) error {
	var gone web.Removed
	found, err := c.ask(ctx, "POST", "/api/sample/remove", nil, &gone)
	if err == nil && !found {
		err = inDesk(func() (*desk, error) { return findDesk(c.Data) }, func(s sampling) error {
			r, err := s.Remove()
			gone = web.RemovedOf(r)
			return err
		})
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(std.out, "Removed %d sample treatments.\n", len(gone.Removed))
	if n := len(gone.Kept); n > 0 {
		fmt.Fprintf(std.out, "Kept %d, since a device of yours wrote in them.\n", n)
	}
	return nil
}

// inDesk works on the store itself, with no server running.
func inDesk(open func() (*desk, error), do func(sampling) error) error {
	d, err := open()
	if err != nil {
		return err
	}
	return firstOf(do(sampling{store: d.store, intake: d.store}), d.close())
}
