package main

import (
	"context"
	"fmt"
	"time"
)

type healthCmd struct{ dataFlag }

// Help is shown below the flags.
func (healthCmd) Help() string {
	return `Exit code 0: the server that runs on this data folder answers. It is what a container's health check calls.`
}

// Run asks the running server whether it is well.
func (c healthCmd) Run(ctx context.Context, std streams) error {
	ctx, cancel := context.WithTimeout(ctx, 4*time.Second)
	defer cancel()
	// A route that asks for this server's own token: another Sinkside may have the port.
	found, err := c.ask(ctx, "GET", "/api/place", nil, nil)
	if err != nil {
		return err
	}
	if !found {
		return &failure{say: fmt.Sprintf("no server runs on the data folder %s.", c.Data)}
	}
	fmt.Fprintln(std.out, "The server is well.")
	return nil
}
