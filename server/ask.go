package main

import (
	"context"
	"encoding/json"
	"errors"
	"io"

	"sinkside/server/answer"
	"sinkside/server/pair"
)

// ask puts a request to the server that runs on the data folder. found is false when none does:
// the command then opens the store itself. A command file that a killed server left behind is
// taken for none.
func (f dataFlag) ask(ctx context.Context, method, path string, in, out any) (found bool, err error) {
	cmd, err := pair.ReadCommand(f.Data)
	if err == nil {
		err = cmd.Do(ctx, method, path, in, out)
	}
	switch {
	case errors.Is(err, pair.ErrNoServer):
		return false, nil
	case err != nil:
		return true, &failure{sayOf(err), err}
	}
	return true, nil
}

// sayOf is what the server said when it refused, else the error.
func sayOf(err error) string {
	var refusal *answer.Refusal
	if errors.As(err, &refusal) {
		return refusal.Say
	}
	return err.Error()
}

// printValue writes v as JSON for people and programs.
func printValue(w io.Writer, v any) error {
	text, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return printJSON(w, text)
}

// firstOf returns the first error that is one.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
