// Command sinkside is the studio machine's side of Sinkside: it serves the web app to phones at
// the sink, keeps what they send, and answers questions about it on the command line.
//
// Each command stands in a file of its own name.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})
	stop()
	os.Exit(code)
}

// streams are what a command reads and writes; a test gives it others.
type streams struct {
	in       io.Reader
	out, err io.Writer
}
