package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/alecthomas/kong"
)

// Exit codes. A script can tell a request that could not be done from one that was not understood.
const (
	exitOK     = 0
	exitFailed = 1
	exitUsage  = 2
)

// commands is the command line. Every flag can also be given in the environment, as a container
// does: --tls-listen is SINKSIDE_TLS_LISTEN.
type commands struct {
	Serve   serveCmd   `cmd:"" help:"Serve the web app and keep what devices send."`
	Pair    pairCmd    `cmd:"" help:"Print a one-time link and QR code that pair one device."`
	Devices devicesCmd `cmd:"" help:"List the paired devices, or end one's pairing."`
	Sample  sampleCmd  `cmd:"" help:"Add the invented sample studio, or remove it."`
	Reckon  reckonCmd  `cmd:"" help:"Do one calculation: JSON in, JSON out."`
	Health  healthCmd  `cmd:"" help:"Ask the running server whether it is well."`
	Version versionCmd `cmd:"" help:"Print the version."`
}

const description = `Sinkside times baths and takes readings at the sink, and keeps the record on the studio machine.`

// session ends the help: what a first day looks like, from start to the day's log.
const session = `
A first day:

  $ sinkside serve --sample
  This machine's browser:  http://127.0.0.1:8780/#/pair/…
  Phones:                  https://sinkside.local:8743/#/pair/…    (QR code)
  Before the first phone:  http://sinkside.local:8781 leads it through trusting this machine.

  In a second terminal, while it runs:

  $ sinkside pair                     one more phone
  $ sinkside devices list
  $ sinkside devices revoke 01JQ6ZV3W8M0XK5T7N4R2B9CDE
  $ sinkside sample remove            the invented treatments; what you wrote in stays

  A reckoning needs no server:

  $ sinkside reckon --list
  $ echo '{"litres":"60","active":"30","target":"0.5"}' | sinkside reckon solution

Exit codes: 0 done, 1 failed, 2 not understood.
`

// usageError is a request that was not understood, as against one that failed.
type usageError struct{ error }

func usagef(format string, a ...any) error { return usageError{fmt.Errorf(format, a...)} }

// failure is an error that has a sentence for the person at the terminal: what happened and what
// to do. The cause is for whoever asks further.
type failure struct {
	say   string
	cause error
}

func (f *failure) Error() string { return f.say }
func (f *failure) Unwrap() error { return f.cause }

// exiting carries --help's exit code out of the parser.
type exiting int

// run does one command and returns its exit code.
func run(ctx context.Context, args []string, std streams) (code int) {
	defer func() {
		switch e := recover().(type) {
		case nil:
		case exiting:
			code = int(e)
		default:
			panic(e)
		}
	}()
	var cmds commands
	parser, err := kong.New(&cmds,
		kong.Name("sinkside"),
		kong.Description(description),
		kong.Writers(std.out, std.err),
		kong.Exit(func(code int) { panic(exiting(code)) }),
		kong.DefaultEnvars("SINKSIDE"),
		kong.Help(helpWithSession),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}),
		kong.Bind(std),
	)
	if err != nil {
		panic(err) // a mistake in the struct tags above, found by any test
	}
	parser.Model.HelpFlag.Help = "Show this help."
	if len(args) == 0 {
		args = []string{"--help"}
	}
	cmd, err := parser.Parse(args)
	if err != nil {
		return complain(std.err, usageError{err})
	}
	cmd.BindTo(ctx, (*context.Context)(nil))
	return complain(std.err, cmd.Run())
}

func complain(w io.Writer, err error) int {
	var usage usageError
	switch {
	case err == nil:
		return exitOK
	case errors.As(err, &usage):
		fmt.Fprintf(w, "sinkside: %v\nsinkside --help shows what it takes.\n", err)
		return exitUsage
	}
	fmt.Fprintf(w, "sinkside: %v\n", err)
	return exitFailed
}

func helpWithSession(options kong.HelpOptions, ctx *kong.Context) error {
	if err := kong.DefaultHelpPrinter(options, ctx); err != nil {
		return err
	}
	if ctx.Selected() == nil {
		fmt.Fprint(ctx.Stdout, session)
	}
	return nil
}
